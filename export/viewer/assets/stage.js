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
    this.who = element('select', { id: 'who', onchange: () => this.choose(this.who.value) });
    this.fits = element('span', { class: 'fits' });
    this.table = null;
    this.positions = element('span', { class: 'positions' });
    const look = (text, act, label) => element('button', { type: 'button', 'aria-label': label, onclick: act }, text);
    const check = (text, on, act) => element('label', { class: 'check' }, element('input', { type: 'checkbox', checked: on, onchange: (e) => act(e.target.checked) }), ' ' + text);
    this.gaps = element('p', { class: 'gaps' });
    root.replaceChildren(
      element('div', { class: 'picture' }, this.canvas),
      motion.row,
      element('div', { class: 'looks' }, element('span', {}, element('label', { for: 'who' }, 'seated'), ' ', this.who), this.fits, this.positions),
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

  // choose seats a person of the brief by number, one of the table by its row, or nobody.
  choose(value) {
    if (value.startsWith('row ')) return this.table.chosen(Number(value.slice(4)));
    this.table?.chosen(-1);
    this.seat(this.space.scene.people[value] ?? null);
  }

  seat(person) {
    this.space.seat(person);
    this.settle();
  }

  // guests offers the persons of a table below those of the brief. Chosen is called with
  // the row of the one to be seated, whose body comes with the next call, or with -1.
  guests(table) {
    this.table = table;
    if (table.body) this.space.seat({ ...table.body, guest: true });
    else if (this.space.person?.guest) this.space.seat(null);
    this.offer();
  }

  // offer lists who may be seated.
  offer() {
    const { scene, person } = this.space, { table } = this;
    const order = scene.people.map((p, i) => ({ p, i })).sort((a, b) => a.p.stature - b.p.stature);
    const women = order.filter(({ p }) => p.woman), men = order.filter(({ p }) => !p.woman);
    const named = new Map();
    if (women.length) named.set(women[0].i, 'smallest woman');
    if (men.length) named.set(men.at(-1).i, 'tallest man');
    const option = ({ p, i }, text) => element('option', { value: i, selected: p === person }, `${text}, ${this.length(p.stature)}`);
    this.who.replaceChildren(element('option', { value: -1, selected: !person }, 'nobody'),
      ...order.filter(({ i }) => named.has(i)).map((q) => option(q, named.get(q.i))),
      ...order.filter(({ i }) => !named.has(i)).map((q) => option(q, q.p.label)),
      ...(table ? [element('optgroup', { label: table.name }, ...table.rows.map((r, i) => element('option', { value: `row ${i}`, selected: Boolean(person?.guest) && i === table.row }, `${r.label}, ${this.length(r.stature)}${r.fits ? '' : ', turned away'}`)))] : []));
    this.settle();
  }

  // settle shows how the person seated fits, and the positions of the pose; those of
  // somebody seated are their own.
  settle() {
    const { person } = this.space;
    this.fits.textContent = !person ? '' : person.fits ? 'fits' : `turned away by ${(person.away ?? []).join('; ')}`;
    this.fits.classList.toggle('not', Boolean(person) && !person.fits);
    const words = { axis: 'axis', seat: 'seat', handle: 'handle', foot: 'foot plate', chest: 'chest pad' };
    this.positions.replaceChildren(...this.space.scene.settings.filter((s) => s.count > 1).map((s) => {
      const select = element('select', { id: `set-${s.name}`, disabled: this.space.person !== null, onchange: (e) => this.space.set(s.name, Number(e.target.value)) },
        ...Array.from({ length: s.count }, (_, i) => element('option', { value: i, selected: i === this.space.pose[s.name] }, `${i + 1} of ${s.count}`)));
      return element('span', {}, element('label', { for: select.id }, words[s.name]), ' ', select, ' ');
    }));
  }

  // show takes a scene. Persons are offered by stature, the ends of both sexes first; the
  // tallest man sits in the first.
  show(scene) {
    const first = !this.space.scene;
    this.space.show(scene);
    const tall = scene.people.filter((p) => !p.woman).sort((a, b) => b.stature - a.stature)[0];
    if (first && tall) this.space.seat(tall);
    this.offer();
    const told = scene.short.slice(0, 3).map((q) => `${q.text} at ${(q.angle * degrees).toFixed(0)}°`), more = scene.short.length - told.length;
    this.gaps.textContent = told.length ? `Too near: ${told.join('; ')}${more > 0 ? `; and ${more} more` : ''}` : '';
    this.motion.range(scene.first * degrees, scene.last * degrees, scene.cadence);
  }
}
