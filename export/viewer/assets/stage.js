// The controls round the station in space: flexion, play and step, who sits in it,
// positions, where it is seen from. They are made here, for the local page and for a
// file of its own alike.
import { Space } from './space.js';

const degrees = 180 / Math.PI;

// element makes an element with attributes and content; names that begin with on are
// listened to.
export function element(name, attributes = {}, ...content) {
  const e = document.createElement(name);
  for (const [k, v] of Object.entries(attributes)) {
    if (k.startsWith('on')) e.addEventListener(k.slice(2), v);
    else if (v !== false && v !== null && v !== undefined) e.setAttribute(k, v === true ? '' : v);
  }
  e.append(...content);
  return e;
}

export class Stage {
  // cursor is called with the flexion in degrees whenever it changes.
  constructor(root, { cursor = () => {}, length = (mm) => `${Math.round(mm)} mm` } = {}) {
    this.cursor = cursor;
    this.length = length;
    this.canvas = element('canvas', { tabindex: 0, role: 'application', 'aria-label': 'Station in space', 'aria-describedby': 'space-keys' });
    this.play = element('button', { type: 'button', class: 'play', 'aria-pressed': 'false', onclick: () => this.run(!this.space.running) }, 'Play');
    this.flexion = element('input', { type: 'range', id: 'flexion', min: 0, max: 1, step: 0.5, oninput: () => { this.run(false); this.at(Number(this.flexion.value)); } });
    this.out = element('output', { for: 'flexion' });
    const step = (by) => element('button', { type: 'button', onclick: () => { this.run(false); this.at(this.degrees + by); } }, by < 0 ? `${by}°`.replace('-', '−') : `+${by}°`);
    this.who = element('select', { id: 'who', onchange: () => this.seat(Number(this.who.value)) });
    this.positions = element('span', { class: 'positions' });
    const look = (text, act) => element('button', { type: 'button', onclick: act }, text);
    const check = (text, on, act) => element('label', {}, element('input', { type: 'checkbox', checked: on, onchange: (e) => act(e.target.checked) }), ' ' + text);
    this.gaps = element('p', { class: 'gaps' });
    root.replaceChildren(
      this.canvas,
      element('div', { class: 'motion' }, this.play, step(-5), element('label', { for: 'flexion', class: 'aside' }, 'flexion'), this.flexion, this.out, step(5)),
      element('div', { class: 'looks' },
        element('span', { class: 'seated' }, element('label', { for: 'who' }, 'seated'), ' ', this.who), this.positions),
      element('div', { class: 'looks', role: 'group', 'aria-label': 'Seen from' },
        ...['corner', 'front', 'side', 'above'].map((name) => look(`from ${name === 'above' ? name : name === 'corner' ? 'a corner' : 'the ' + name}`.replace(/^./, (c) => c.toUpperCase()), () => this.space.stand(name))),
        look('Nearer', () => this.space.nearer(0.8)), look('Farther', () => this.space.nearer(1.25)),
        look('Turn', () => this.space.turn(this.space.round + 30, this.space.above)),
        check('guards solid', false, (on) => { this.space.guards = on; this.space.ask(); }),
        check('paths', true, (on) => { this.space.paths = on; this.space.ask(); })),
      this.gaps,
      element('p', { class: 'soft keys', id: 'space-keys' }, 'Drag or arrow keys turn it; Shift moves it; + and − bring it nearer and farther, so do the wheel once it is chosen, and two fingers; Home shows all. ',
        element('span', { class: 'way handle' }, 'way of the handle'), ', ', element('span', { class: 'way hand' }, 'way of the hand'), ', ', element('span', { class: 'way axis' }, 'pivot axes'), '; squares of 500 mm.'));
    this.space = new Space(this.canvas, { told: (flexion) => this.told(flexion) });
  }

  get degrees() { return this.space.pose.flexion * degrees; }

  // at sets the flexion in degrees.
  at(flexion) {
    this.space.flex(flexion / degrees);
  }

  told(flexion) {
    const d = flexion * degrees;
    this.flexion.value = d;
    this.out.textContent = `${d.toFixed(1)}°`;
    this.cursor(d);
  }

  run(on) {
    this.space.play(on);
    this.play.textContent = on ? 'Pause' : 'Play';
    this.play.setAttribute('aria-pressed', on);
  }

  seat(i) {
    this.space.seat(i);
    this.settle();
  }

  // settle shows the positions of the pose; those of somebody seated are their own.
  settle() {
    const words = { axis: 'axis', seat: 'seat', handle: 'handle', foot: 'foot plate' };
    this.positions.replaceChildren(...this.space.scene.settings.filter((s) => s.count > 1).map((s) => {
      const select = element('select', { id: `set-${s.name}`, disabled: this.space.person >= 0, onchange: (e) => this.space.set(s.name, Number(e.target.value)) },
        ...Array.from({ length: s.count }, (_, i) => element('option', { value: i, selected: i === this.space.pose[s.name] }, `${i + 1} of ${s.count}`)));
      return element('span', {}, element('label', { for: select.id }, words[s.name]), ' ', select, ' ');
    }));
  }

  // show takes a scene. Persons are offered by stature, the ends of both sexes first.
  show(scene) {
    const first = !this.space.scene;
    this.space.show(scene);
    const order = scene.people.map((p, i) => ({ ...p, i })).sort((a, b) => a.stature - b.stature);
    const women = order.filter((p) => p.woman), men = order.filter((p) => !p.woman);
    const named = new Map();
    if (women.length) named.set(women[0].i, 'smallest woman');
    if (men.length) named.set(men.at(-1).i, 'tallest man');
    const option = (p, text) => element('option', { value: p.i, selected: p.i === this.space.person }, `${text}, ${this.length(p.stature)}`);
    this.who.replaceChildren(element('option', { value: -1, selected: this.space.person < 0 }, 'nobody'),
      ...order.filter((p) => named.has(p.i)).map((p) => option(p, named.get(p.i))),
      ...order.filter((p) => !named.has(p.i)).map((p) => option(p, p.label)));
    if (first && men.length) { this.seat(men.at(-1).i); this.who.value = men.at(-1).i; }
    this.flexion.min = (scene.first * degrees).toFixed(2);
    this.flexion.max = (scene.last * degrees).toFixed(2);
    this.settle();
    const told = scene.short.slice(0, 3).map((q) => `${q.text} at ${(q.angle * degrees).toFixed(0)}°`), more = scene.short.length - told.length;
    this.gaps.textContent = told.length ? `Too near: ${told.join('; ')}${more > 0 ? `; and ${more} more` : ''}` : '';
    this.told(this.space.pose.flexion);
  }
}
