// The station in space: it can be turned, brought nearer and moved by mouse, touch and
// keys, and moves with one flexion. What is drawn is a scene of the program; a scene
// that replaces another keeps the view and the pose.
import { add, apply, cross, looking, one, perspective, placed, times, unit } from './matrix.js';
import { baked, Painter, paintNames } from './paint.js';
import { edges, hull, tube, unpacked } from './mesh.js';
import { cablePoints, groupPlaces, handPath, handlePath, orbAt } from './pose.js';

// Where the eye may stand, by the words of its buttons: angles round and above, deg.
const stands = { corner: [-38, 16], front: [0, 4], side: [-90, 4], above: [-90, 89.5] };
const lens = Math.tan(13 * Math.PI / 180); // half the angle of view

export class Space {
  constructor(canvas) {
    this.canvas = canvas;
    this.painter = new Painter(canvas);
    this.meshes = new Map(); // unpacked, by key
    this.pose = { axis: 0, seat: 0, handle: 0, foot: 0, chest: 0, flexion: 0 };
    this.person = null; // who is seated
    this.guards = false;
    this.paths = true;
    this.quality = 1; // share of the screen's points that is drawn while it moves
    this.frames = []; // times between pictures of the run, ms
    this.turn(...stands.corner);
    this.listen();
    matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => { this.colours = null; this.ask(); });
    new ResizeObserver(() => this.ask()).observe(canvas);
  }

  // show takes a scene whose meshes are all known.
  show(scene) {
    const first = !this.scene;
    const kept = this.person;
    this.scene = scene;
    for (const [key, m] of Object.entries(scene.meshes ?? {})) {
      if (!this.meshes.has(key)) {
        const s = unpacked(m);
        this.meshes.set(key, { ...s, edges: edges(s) });
      }
    }
    if (first) for (const s of scene.settings) this.pose[s.name] = s.middle;
    for (const s of scene.settings) this.pose[s.name] = Math.max(0, Math.min(this.pose[s.name], s.count - 1));
    this.pose.flexion = Math.min(Math.max(first ? scene.first : this.pose.flexion, scene.first), scene.last);
    this.build();
    this.seat(kept?.guest ? kept : scene.people.find((p) => p.label === kept?.label) ?? null);
    if (first) this.home();
    this.ask();
  }

  // build makes a buffer of each group's parts, of the right side and of the middle.
  build() {
    for (const b of this.solid ?? []) this.painter.drop(b.buffer);
    this.solid = [];
    const by = new Map();
    this.scene.parts.forEach((p) => {
      const guard = p.does === 'guards', key = `${p.group} ${!!p.pair} ${guard}`;
      if (!by.has(key)) by.set(key, { group: p.group, pair: p.pair, guard, surfaces: [], ink: [] });
      const to = by.get(key), mesh = this.meshes.get(p.mesh), at = placed(p.at);
      const s = baked(mesh, at, p.does);
      to.surfaces.push(s);
      for (const i of mesh.edges) to.ink.push(s.points[3 * i], s.points[3 * i + 1], s.points[3 * i + 2]);
    });
    for (const g of by.values()) this.solid.push({ ...g, buffer: this.painter.buffer(g.surfaces, g.ink) });
    for (const b of this.lit ?? []) this.painter.drop(b.buffer);
    this.lit = this.scene.short.map((q) => ({
      ...q, items: q.parts.map((i) => this.scene.parts[i]).map((p) => ({
        group: p.group, pair: p.pair, buffer: this.painter.buffer([baked(this.meshes.get(p.mesh), placed(p.at), 'short')]),
      })),
    }));
    const [low, high] = this.scene.box, size = 500, n = 2 + Math.ceil(Math.max(high[0] - low[0], high[1] - low[1]) / size / 2);
    const x = Math.round((low[0] + high[0]) / 2 / size), grid = [];
    for (let i = -n; i <= n; i++) {
      grid.push((x + i) * size, -n * size, 0, (x + i) * size, n * size, 0, (x - n) * size, i * size, 0, (x + n) * size, i * size, 0);
    }
    this.painter.drop(this.floor);
    this.floor = this.painter.buffer([], grid);
  }

  // seat puts a person in, or nobody with null.
  seat(p) {
    this.person = p;
    this.painter.drop(this.sitter);
    this.sitter = null;
    this.ways = null;
    if (p) {
      this.sitter = this.painter.buffer(p.still.map((balls) => ({ ...hull(balls), paint: 'person' })));
      this.scene.settings.forEach((s, k) => { this.pose[s.name] = Math.max(0, Math.min(p.settings[k], s.count - 1)); });
    }
    this.ask();
  }

  set(name, position) {
    this.pose[name] = position;
    this.ask();
  }

  flex(flexion) {
    this.pose.flexion = Math.min(Math.max(flexion, this.scene.first), this.scene.last);
    this.ask();
  }

  // The eye.
  turn(round, above) {
    this.round = round;
    this.above = Math.max(-20, Math.min(89.5, above));
    this.ask();
  }
  stand(name) { this.turn(...stands[name]); this.home(); }
  nearer(by) { this.far = Math.max(400, Math.min(20000, this.far * by)); this.ask(); }
  move(right, up) {
    const { x, y } = this.axes(), k = 2 * lens * this.far / this.canvas.clientHeight;
    this.target = add(add(this.target, x, -right * k), y, up * k);
    this.ask();
  }
  // home brings all of the station into the picture.
  home() {
    if (!this.scene) return;
    const [low, high] = this.scene.box;
    this.target = low.map((q, i) => (q + high[i]) / 2);
    const wide = this.canvas.clientWidth / (this.canvas.clientHeight || 1);
    const { x, y, z } = this.axes();
    let far = 500;
    for (let i = 0; i < 8; i++) {
      const d = [0, 1, 2].map((k) => (i >> k & 1 ? high[k] : low[k]) - this.target[k]);
      const on = (a) => a[0] * d[0] + a[1] * d[1] + a[2] * d[2];
      far = Math.max(far, on(z) + 0.97 * Math.max(Math.abs(on(y)) / lens, Math.abs(on(x)) / (lens * wide)));
    }
    this.far = far;
    this.homed = true;
    this.ask();
  }
  axes() {
    const r = this.round * Math.PI / 180, a = this.above * Math.PI / 180;
    const z = [Math.cos(r) * Math.cos(a), Math.sin(r) * Math.cos(a), Math.sin(a)];
    const x = unit(cross([0, 0, 1], z));
    return { x, y: cross(z, x), z };
  }

  listen() {
    const c = this.canvas, held = new Map();
    const touch = () => { this.homed = false; };
    c.addEventListener('pointerdown', (e) => { c.setPointerCapture(e.pointerId); held.set(e.pointerId, [e.clientX, e.clientY]); });
    c.addEventListener('pointermove', (e) => {
      const from = held.get(e.pointerId);
      if (!from) return;
      touch();
      const to = [e.clientX, e.clientY], dx = to[0] - from[0], dy = to[1] - from[1];
      if (held.size === 2) {
        const other = [...held].find(([id]) => id !== e.pointerId)[1];
        const gap = (p) => Math.hypot(p[0] - other[0], p[1] - other[1]) || 1;
        this.nearer(gap(from) / gap(to));
        this.move(dx / 2, dy / 2);
      } else if (e.shiftKey || e.buttons & 6) this.move(dx, dy);
      else this.turn(this.round - dx * 0.4, this.above + dy * 0.4);
      held.set(e.pointerId, to);
    });
    for (const kind of ['pointerup', 'pointercancel']) c.addEventListener(kind, (e) => held.delete(e.pointerId));
    c.addEventListener('contextmenu', (e) => e.preventDefault());
    c.addEventListener('wheel', (e) => {
      if (document.activeElement !== c && !e.ctrlKey) return; // the page scrolls on until the picture is chosen
      e.preventDefault();
      touch();
      this.nearer(Math.exp(e.deltaY * (e.deltaMode ? 0.05 : 0.0015)));
    }, { passive: false });
    c.addEventListener('keydown', (e) => {
      const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[e.key];
      if (e.ctrlKey || e.altKey || e.metaKey) return;
      if (by && e.shiftKey) this.move(by[0] * 30, by[1] * 30);
      else if (by) this.turn(this.round - by[0] * 6, this.above + by[1] * 6);
      else if (e.key === '+' || e.key === '=') this.nearer(0.88);
      else if (e.key === '-') this.nearer(1 / 0.88);
      else if (e.key === 'Home') this.home();
      else return;
      if (e.key !== 'Home') touch();
      e.preventDefault();
    });
  }

  // ask has the next frame drawn.
  ask() {
    if (this.asked || !this.scene) return;
    this.asked = true;
    requestAnimationFrame(() => { this.asked = false; this.draw(); });
  }

  // suit draws fewer points where the machine is slow, while it runs: below 50
  // pictures a second for a fifth of a second, at once fewer where it is far below. took is the time since the picture
  // before, ms; 0 when it stands.
  suit(took) {
    if (!took) { this.quality = 1; this.slow = 0; return; }
    this.frames.push(took);
    if (this.frames.length > 240) this.frames.shift();
    this.slow = took > 21 ? this.slow + took : 0;
    if (this.slow > 200 && this.quality > 0.3) { this.quality *= took > 80 ? 0.6 : 0.87; this.slow = 0; }
  }

  size() {
    const c = this.canvas, dense = Math.min(2, devicePixelRatio || 1) * this.quality;
    const w = Math.max(1, Math.round(c.clientWidth * dense)), h = Math.max(1, Math.round(c.clientHeight * dense));
    if (c.width !== w || c.height !== h) { c.width = w; c.height = h; }
    if (this.homed && this.shape !== c.clientWidth / c.clientHeight) { this.shape = c.clientWidth / c.clientHeight; this.home(); }
  }

  palette() {
    const style = getComputedStyle(this.canvas), probe = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
    const read = (name) => {
      probe.fillStyle = style.getPropertyValue(`--space-${name}`).trim() || '#888';
      probe.fillRect(0, 0, 1, 1);
      return [...probe.getImageData(0, 0, 1, 1).data].slice(0, 3).map((q) => q / 255);
    };
    const ink = read('ink');
    this.colours = { paints: new Float32Array(paintNames.flatMap(read)), ink: new Float32Array(paintNames.flatMap(() => ink)) };
  }

  // moving makes what changes its shape with the pose: cables, forearms, axes, paths.
  moving(places) {
    const { scene, pose, person: p } = this;
    const both = scene.cables?.map((c) => ({ ...tube(cablePoints(scene, c, pose, places), c.diameter / 2, c.closed), paint: 'cable' })) ?? [];
    const swivel = places[scene.axis.group];
    both.push({ ...tube([apply(swivel, scene.axis.from), apply(swivel, scene.axis.to)], 3), paint: 'axis' });
    if (p) for (const orbs of p.moves) both.push({ ...hull(orbs.map((o) => [...orbAt(o, pose.flexion), o.radius])), paint: 'person' });
    if (this.paths) both.push(...this.way(scene, pose, p));
    this.painter.drop(this.bent);
    this.bent = this.painter.buffer(both, [], true);
  }

  // way is the ways of handle and hand, which hang on the positions and not on the flexion.
  way(scene, pose, p) {
    const at = [scene, p, ...scene.settings.map((s) => pose[s.name])];
    if (!this.ways || at.some((v, i) => v !== this.ways.at[i])) {
      this.ways = { at, tubes: [] };
      if (scene.handle) this.ways.tubes.push({ ...tube(handlePath(scene, pose), 4), paint: 'handle' });
      if (p) this.ways.tubes.push({ ...tube(handPath(scene, p), 4), paint: 'hand' });
    }
    return this.ways.tubes;
  }

  // draw draws nothing where nothing is seen: a canvas out of the page has no shape.
  draw() {
    if (!this.canvas.clientWidth || !this.canvas.clientHeight) return;
    if (!this.colours) this.palette();
    this.size();
    const { z } = this.axes(), wide = this.canvas.width / this.canvas.height;
    const eye = add(this.target, z, this.far);
    const view = times(perspective(lens, wide, this.far / 40, this.far * 4 + 8000), looking(eye, this.target));
    const places = groupPlaces(this.scene, this.pose), still = one();
    this.moving(places);
    const item = (b) => ({ buffer: b.buffer, model: places[b.group], pair: b.pair });
    const bodies = this.solid.filter((b) => !b.guard).map(item), guards = this.solid.filter((b) => b.guard).map(item);
    const bent = [{ buffer: this.bent, model: still, pair: true }], sitter = this.sitter ? [{ buffer: this.sitter, model: still }] : [];
    this.painter.begin(view, z, this.colours);
    if (this.above > 0) {
      this.painter.ink([{ buffer: this.floor, model: still }], 0.14);
      if (this.quality > 0.7) this.painter.shadows([...bodies, ...sitter], 0.10);
    }
    this.painter.bodies(bodies);
    this.painter.bodies(sitter, 1, false);
    this.painter.bodies(bent, 1, false);
    for (const q of this.lit) {
      if (q.axis !== this.pose.axis) continue;
      const near = Math.max(0.35, 1 - Math.abs(this.pose.flexion - q.angle) / 0.35);
      this.painter.bodies(q.items.map(item), near * 0.9, false);
    }
    this.painter.bodies(guards, this.guards ? 1 : 0.12);
  }
}
