// What the other scripts share about the document.
export const get = (id) => document.getElementById(id);

// fragment parses HTML made by the program. Scripts in it would not run.
export const fragment = (html) => [...new DOMParser().parseFromString(html, 'text/html').body.childNodes];

// put fills the place of a name with a fragment, unless that is there already.
const there = new Map();
export function put(name, html) {
  if (there.get(name) === html) return;
  there.set(name, html);
  get(name).replaceChildren(...fragment(html));
}

// painted ends when what was changed has been painted, or soon in a tab that is not seen.
export const painted = () => new Promise((done) => {
  const unseen = setTimeout(done, 300);
  requestAnimationFrame(() => setTimeout(() => { clearTimeout(unseen); done(); }));
});

// drawing parses an SVG.
export const drawing = (svg) => document.importNode(new DOMParser().parseFromString(svg.includes('xmlns=') ? svg : svg.replace('<svg', '<svg xmlns="http://www.w3.org/2000/svg"'), 'image/svg+xml').documentElement, true);

const SVG = 'http://www.w3.org/2000/svg';

// draw adds an element to an SVG.
export function draw(to, name, attributes, text) {
  const e = to.appendChild(document.createElementNS(SVG, name));
  for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
  if (text !== undefined) e.textContent = text;
  return e;
}
export const canvas = (attributes) => {
  const e = document.createElementNS(SVG, 'svg');
  for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
  return e;
};

const pictured = new WeakMap();

// place puts pictures into the figures of their names, under their titles, and
// empties the others.
export function place(kind, pictures) {
  const by = new Map(pictures.map((p) => [p.name, p]));
  for (const figure of document.querySelectorAll(`figure[data-${kind}]`)) {
    const p = by.get(figure.dataset[kind]);
    if (p && p.svg === pictured.get(figure)) continue;
    pictured.set(figure, p?.svg);
    figure.querySelector('svg')?.remove();
    if (!p) continue;
    figure.prepend(drawing(p.svg));
    figure.querySelector('figcaption').textContent = p.title;
  }
}

// usable switches a button off and on without taking the focus from it.
export function usable(button, on) {
  button.setAttribute('aria-disabled', String(!on));
}
export const isUsable = (button) => button.getAttribute('aria-disabled') !== 'true';

// press listens to a button while it is usable.
export function press(id, act) {
  get(id).addEventListener('click', () => { if (isUsable(get(id))) act(); });
}

// save hands a file to the reader.
export function save(name, blob) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}
