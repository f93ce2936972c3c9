// What the other scripts share about the document.
export const get = (id) => document.getElementById(id);

// fragment parses HTML made by the server. Scripts in it would not run.
export const fragment = (html) => [...new DOMParser().parseFromString(html, 'text/html').body.childNodes];

// drawing parses an SVG.
export const drawing = (svg) => document.importNode(new DOMParser().parseFromString(svg.includes('xmlns=') ? svg : svg.replace('<svg', '<svg xmlns="http://www.w3.org/2000/svg"'), 'image/svg+xml').documentElement, true);

// place puts pictures into the figures of their names, under their titles, and
// empties the others.
export function place(kind, pictures) {
  const by = new Map(pictures.map((p) => [p.name, p]));
  for (const figure of document.querySelectorAll(`figure[data-${kind}]`)) {
    figure.querySelector('svg')?.remove();
    const p = by.get(figure.dataset[kind]);
    if (!p) continue;
    figure.prepend(drawing(p.svg));
    figure.querySelector('figcaption').textContent = p.title;
  }
}

// save hands a file to the reader.
export function save(name, blob) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}
