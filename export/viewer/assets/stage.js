// The station in space with its own controls: who sits in it, positions, where it is
// seen from. They are made here, for the local page and for a file of its own alike.
import { element } from './motion.js';
import { Space } from './space.js';

const degrees = 180 / Math.PI;

export class Stage {
  // motion tells the flexion; length writes millimetres for people.
  constructor(root, motion, { length = (mm) => `${Math.round(mm)} mm` } = {}) {
    this.length = length;
    this.motion = motion;
    this.canvas = element('canvas', { tabindex: 0, role: 'application', 'aria-label': 'Station in space', 'aria-describedby': 'space-keys' });
    this.space = new Space(this.canvas);
    this.who = element('select', { id: 'who', onchange: () => this.seat(Number(this.who.value)) });
    this.positions = element('span', { class: 'positions' });
    const look = (text, act, label) => element('button', { type: 'button', 'aria-label': label, onclick: act }, text);
    const check = (text, on, act) => element('label', { class: 'check' }, element('input', { type: 'checkbox', checked: on, onchange: (e) => act(e.target.checked) }), ' ' + text);
    this.gaps = element('p', { class: 'gaps' });
    root.replaceChildren(
      element('div', { class: 'picture' }, this.canvas),
      motion.row,
      element('div', { class: 'looks' }, element('span', {}, element('label', { for: 'who' }, 'seated'), ' ', this.who), this.positions),
      element('details', { class: 'more looks' }, element('summary', {}, 'look'),
        element('div', { role: 'group', 'aria-label': 'Look at the station' },
          ...Object.entries({ corner: 'Corner', front: 'Front', side: 'Side', above: 'Above' }).map(([name, text]) => look(text, () => this.space.stand(name), `From the ${text.toLowerCase()}`.replace('the above', 'above'))),
          look('Nearer', () => this.space.nearer(0.8)), look('Farther', () => this.space.nearer(1.25)), look('Turn', () => this.space.turn(this.space.round + 30, this.space.above)),
          ...['←', '→', '↑', '↓'].map((arrow, i) => look(arrow, () => this.space.move([-60, 60, 0, 0][i], [0, 0, -60, 60][i]), `Move ${['left', 'right', 'up', 'down'][i]}`)),
          check('guards solid', false, (on) => { this.space.guards = on; this.space.ask(); }),
          check('ways', true, (on) => { this.space.paths = on; this.space.ask(); })),
        element('p', { class: 'soft keys', id: 'space-keys' }, 'Drag or arrow keys turn it; Shift moves it; + and − bring it nearer and farther, so do two fingers, and the wheel once the picture is chosen; Home shows all. ',
          element('span', { class: 'way handle' }, 'way of the handle'), ', ', element('span', { class: 'way hand' }, 'of the hand'), ', ', element('span', { class: 'way axis' }, 'pivot axes'), '; squares of 500 mm.')),
      this.gaps);
    motion.follow((d, took) => {
      if (!this.space.scene) return;
      this.space.flex(d / degrees);
      this.space.suit(took);
    });
  }

  seat(i) {
    this.space.seat(i);
    this.settle();
  }

  // settle shows the positions of the pose; those of somebody seated are their own.
  settle() {
    const words = { axis: 'axis', seat: 'seat', handle: 'handle', foot: 'foot plate', chest: 'chest pad' };
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
    if (first && men.length) this.space.seat(men.at(-1).i);
    const option = (p, text) => element('option', { value: p.i, selected: p.i === this.space.person }, `${text}, ${this.length(p.stature)}`);
    this.who.replaceChildren(element('option', { value: -1, selected: this.space.person < 0 }, 'nobody'),
      ...order.filter((p) => named.has(p.i)).map((p) => option(p, named.get(p.i))),
      ...order.filter((p) => !named.has(p.i)).map((p) => option(p, p.label)));
    this.settle();
    const told = scene.short.slice(0, 3).map((q) => `${q.text} at ${(q.angle * degrees).toFixed(0)}°`), more = scene.short.length - told.length;
    this.gaps.textContent = told.length ? `Too near: ${told.join('; ')}${more > 0 ? `; and ${more} more` : ''}` : '';
    this.motion.range(scene.first * degrees, scene.last * degrees, scene.cadence);
  }
}
