// The torque over the flexion: what is wanted, what is delivered, kept designs beside
// it; the flexion at hand as a line that pointer and keys move; and, when it is shaped
// by hand, the strength curve's points.
import { canvas, draw, get } from './dom.js';
import { element } from './motion.js';

const margin = { left: 38, right: 8, top: 8, bottom: 20 };
const lines = [['torque wanted', 'dashed', 'wanted'], ['torque delivered', 'two', 'delivered'], ['going up', 'three', 'going up'], ['coming down', 'one', 'coming down']];

// tick is a round distance of about five figures over a span.
function tick(span) {
  const p = 10 ** Math.floor(Math.log10(span / 4));
  return [1, 2, 5, 10].map((k) => k * p).find((s) => s >= span / 5) ?? 10 * p;
}

export class Chart {
  // moved is called with points while they are dragged, and rested once they are let go.
  constructor(figure, motion, { moved, rested }) {
    Object.assign(this, { figure, motion, moved, rested, kept: [], byHand: false });
    this.key = element('figcaption', { class: 'key' });
    this.box = element('div', { class: 'plot-box' });
    figure.append(this.box, this.key);
    new ResizeObserver(([box]) => {
      this.size = box.contentRect; // asking the box for it would lay the page out at once
      this.draw();
    }).observe(this.box);
    motion.follow((d) => this.cursor(d));
  }

  show(over, curve) {
    this.over = over;
    if (!this.held) this.curve = curve;
    this.draw();
  }

  row(name) { return this.over?.rows.find((r) => r.name === name); }

  draw() {
    const { width: w, height: h } = this.size ?? { width: 0, height: 0 }, a = this.over?.angles;
    if (!a?.length || w < 60 || h < 40) return;
    const focused = this.box.contains(document.activeElement) ? document.activeElement.dataset.at : null;
    const kept = this.kept.filter((k) => k.values?.length === k.angles?.length);
    const all = [...lines.flatMap(([name]) => this.row(name)?.values ?? []), ...kept.flatMap((k) => k.values)];
    let high = Math.max(1e-9, ...all);
    if (this.byHand && this.curve) high = Math.max(high, ...this.curve.points.map(([, s]) => s * this.curve.peak));
    const step = tick(high);
    high = Math.ceil(high / step - 1e-9) * step;
    const first = a[0], last = a.at(-1);
    this.x = (v) => margin.left + (v - first) / (last - first) * (w - margin.left - margin.right);
    this.y = (v) => margin.top + (high - v) / high * (h - margin.top - margin.bottom);
    this.flexion = (px) => first + (px - margin.left) / (w - margin.left - margin.right) * (last - first);
    this.torque = (py) => high - (py - margin.top) / (h - margin.top - margin.bottom) * high;
    const svg = canvas({ class: 'plot', viewBox: `0 0 ${w} ${h}`, role: 'group', 'aria-label': 'Torque over the flexion' });
    for (let v = 0; v <= high + step / 2; v += step) {
      draw(svg, 'path', { class: 'grid', d: `M${margin.left} ${this.y(v)}H${w - margin.right}` });
      draw(svg, 'text', { x: margin.left - 5, y: this.y(v) + 4, 'text-anchor': 'end' }, String(Number(v.toPrecision(4))));
    }
    const every = w < 300 ? 60 : 30;
    for (let v = Math.ceil(first / every) * every; v <= last; v += every) {
      draw(svg, 'path', { class: 'grid', d: `M${this.x(v)} ${margin.top}V${h - margin.bottom}` });
      draw(svg, 'text', { x: this.x(v), y: h - 5, 'text-anchor': 'middle' }, `${v}°`);
    }
    const path = (cls, angles, values) => draw(svg, 'path', { class: cls, d: 'M' + values.map((v, i) => `${this.x(angles[i]).toFixed(1)} ${this.y(v).toFixed(1)}`).join('L') });
    kept.forEach((k, i) => path(`kept k${i % 3}`, k.angles, k.values));
    for (const [name, cls] of lines) if (this.row(name)) path(cls, a, this.row(name).values);
    this.line = draw(svg, 'path', { class: 'cursor' });
    this.field = draw(svg, 'rect', { class: 'field', x: margin.left, y: margin.top, width: w - margin.left - margin.right, height: h - margin.top - margin.bottom, tabindex: 0, role: 'slider', 'aria-label': 'Flexion on the torque plot', 'aria-valuemin': first, 'aria-valuemax': last, 'data-at': 'plot' });
    this.box.replaceChildren(svg);
    this.svg = svg;
    this.listen(svg);
    if (this.byHand && this.curve) this.points(svg);
    const unit = this.row('torque delivered')?.unit ?? '';
    this.key.replaceChildren(element('span', { class: 'soft' }, unit), ...lines.filter(([name]) => this.row(name)).map(([, cls, text]) => element('span', { class: `line ${cls}` }, text)),
      ...kept.map((k, i) => element('span', { class: `line kept k${i % 3}` }, k.name)));
    if (focused) this.box.querySelector(`[data-at="${focused}"]`)?.focus({ preventScroll: true });
    this.cursor(this.motion.degrees ?? first);
  }

  cursor(d) {
    if (!this.svg) return;
    this.line.setAttribute('d', `M${this.x(d)} ${margin.top}V${this.size.height - margin.bottom}`);
    this.field.setAttribute('aria-valuenow', d.toFixed(1));
    const got = this.row('torque delivered');
    this.field.setAttribute('aria-valuetext', `${d.toFixed(0)} degrees${got ? `, ${at(this.over, got, d)} ${got.unit}` : ''}`);
    for (const s of document.querySelectorAll('#plots svg[data-across]')) {
      const [from, to] = s.dataset.across.split(' ').map(Number), [left, right, bottom, top] = s.dataset.box.split(' ').map(Number);
      const line = s.querySelector('.cursor') ?? draw(s, 'path', { class: 'cursor' });
      const inside = d >= from && d <= to && s.dataset.across === `${this.over.angles[0]} ${this.over.angles.at(-1)}`;
      line.setAttribute('d', inside ? `M${left + (d - from) / (to - from) * (right - left)} ${top}V${bottom}` : '');
    }
    tellOver(this.over, d);
  }

  listen(svg) {
    const place = (e) => this.flexion(e.clientX - svg.getBoundingClientRect().left);
    svg.addEventListener('pointermove', (e) => {
      if (e.target.classList.contains('hold') || this.held || this.motion.running) return;
      if (e.pointerType === 'mouse' || e.buttons) this.motion.at(place(e));
    });
    svg.addEventListener('pointerdown', (e) => { if (!e.target.classList.contains('hold')) { this.motion.run(false); this.motion.at(place(e)); } });
    svg.addEventListener('keydown', (e) => {
      if (e.target !== this.field) return;
      const to = { ArrowLeft: this.motion.degrees - 1, ArrowRight: this.motion.degrees + 1, ArrowDown: this.motion.degrees - 1, ArrowUp: this.motion.degrees + 1, PageDown: this.motion.degrees - 10, PageUp: this.motion.degrees + 10, Home: this.motion.first, End: this.motion.last }[e.key];
      if (to === undefined) return;
      e.preventDefault();
      this.motion.run(false);
      this.motion.at(to);
    });
  }

  // points are what the curve is shaped by.
  points(svg) {
    const c = this.curve;
    const set = (i, share) => { c.points[i][1] = Math.round(Math.min(1.2, Math.max(0.05, share)) * 1000) / 1000; };
    c.points.forEach(([x, s], i) => {
      if (x < this.over.angles[0] - 0.01 || x > this.over.angles.at(-1) + 0.01) return;
      const hold = draw(svg, 'circle', { class: 'hold', cx: this.x(x), cy: this.y(s * c.peak), r: 9, tabindex: 0, role: 'slider', 'aria-label': `Strength at ${x.toFixed(0)} degrees`, 'aria-valuemin': 5, 'aria-valuemax': 120, 'aria-valuenow': Math.round(s * 100), 'aria-valuetext': `${Math.round(s * 100)} % of the peak`, 'data-at': `hold-${i}` });
      const put = () => hold.setAttribute('cy', this.y(c.points[i][1] * c.peak));
      hold.addEventListener('pointerdown', (e) => { hold.setPointerCapture(e.pointerId); this.held = hold; e.preventDefault(); hold.focus(); });
      hold.addEventListener('pointermove', (e) => {
        if (this.held !== hold) return;
        set(i, this.torque(e.clientY - svg.getBoundingClientRect().top) / c.peak);
        put();
        this.moved(c.points);
      });
      const end = () => { if (this.held === hold) { this.held = null; this.rested(c.points); } };
      hold.addEventListener('pointerup', end);
      hold.addEventListener('pointercancel', end);
      hold.addEventListener('keydown', (e) => {
        const by = { ArrowUp: 0.01, ArrowDown: -0.01, PageUp: 0.1, PageDown: -0.1 }[e.key];
        if (!by) return;
        e.preventDefault();
        set(i, c.points[i][1] + by);
        put();
        this.rested(c.points);
      });
    });
  }
}

// at is a row's value at a flexion, for people.
export function at(over, row, d) {
  const a = over.angles;
  let i = a.findIndex((x) => x > d) - 1;
  if (i < 0) i = d < a[0] ? 0 : a.length - 2;
  const t = Math.min(Math.max((d - a[i]) / (a[i + 1] - a[i]), 0), 1), v = row.values[i] + t * (row.values[i + 1] - row.values[i]);
  return Math.abs(v) >= 100 ? v.toFixed(0) : v.toFixed(Math.abs(v) >= 10 ? 1 : 2);
}

// tellOver reads out every row at a flexion.
function tellOver(over, d) {
  const list = get('over');
  const rows = [['flexion', `${d.toFixed(1)}°`], ...over.rows.map((r) => [r.name, `${at(over, r, d)} ${r.unit}`])];
  if (list.children.length !== rows.length) {
    list.replaceChildren(...rows.map(() => element('div', {}, element('dt'), element('dd'))));
  }
  rows.forEach(([name, value], i) => {
    const [dt, dd] = list.children[i].children;
    if (dt.textContent !== name) dt.textContent = name;
    dd.textContent = value;
  });
}
