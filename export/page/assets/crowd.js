// Who of the crowd fits, by stature, women above men: a column is as high as there are
// persons, filled from below with those who fit, then by what turns the others away most.
// Pointer and keys go from column to column, and each is told.
import { canvas, draw, get } from './dom.js';
import { element } from './motion.js';

const edge = { left: 34, right: 8, top: 20, bottom: 34 }, paints = ['two', 'three', 'bad', 'one'];

export class Crowd {
  constructor() {
    this.at = null; // column told, at first the one of most persons
    new ResizeObserver(([box]) => {
      this.width = box.contentRect.width;
      this.draw();
    }).observe(get('crowd-chart'));
  }

  // show takes the columns of an answer, or none.
  show(columns, unit) {
    get('crowd').hidden = !columns?.length;
    Object.assign(this, { columns: columns ?? [], unit });
    const total = new Map();
    for (const c of this.columns) for (const a of c.away) total.set(a.id, (total.get(a.id) ?? 0) + a.n);
    this.ids = [...total.keys()].sort((a, b) => total.get(b) - total.get(a));
    const most = Math.max(...this.columns.map((c) => c.n));
    if (!this.columns[this.at]) this.at = this.columns.findIndex((c) => c.n === most);
    get('crowd-key').replaceChildren(element('span', { class: 'block good' }, 'fit'), ...this.ids.slice(0, paints.length).map((id, i) => element('span', { class: `block ${paints[i]}` }, `turned away most by ${id}, ${total.get(id)}`)),
      ...(this.ids.length > paints.length ? [element('span', { class: 'block soft' }, `by ${this.ids.slice(paints.length).join(', ')}`)] : []));
    this.draw();
  }

  draw() {
    const { columns, width } = this;
    if (!columns?.length || !(width > 100)) return;
    const focused = get('crowd-chart').contains(document.activeElement);
    const row = 120, low = Math.min(...columns.map((c) => c.from)), high = Math.max(...columns.map((c) => c.to)), most = Math.max(...columns.map((c) => c.n));
    const x = (v) => edge.left + (v - low) / (high - low) * (width - edge.left - edge.right), tall = (n) => n / most * (row - edge.top);
    const svg = canvas({ class: 'plot', viewBox: `0 0 ${width} ${2 * row + edge.bottom}`, width, height: 2 * row + edge.bottom, role: 'group', 'aria-label': 'Persons by stature; arrow keys go from column to column' });
    columns.forEach((c, i) => {
      const foot = c.woman ? row : 2 * row + 4, from = x(c.from) + 1, wide = x(c.to) - x(c.from) - 2;
      const part = draw(svg, 'g', { tabindex: i === this.at ? 0 : -1, role: 'img', 'aria-label': this.line(c), 'data-column': i });
      draw(part, 'rect', { class: 'field', x: from - 1, y: foot - row + edge.top, width: wide + 2, height: row - edge.top });
      let y = foot;
      const stack = (n, cls) => {
        if (!n) return;
        y -= tall(n);
        draw(part, 'rect', { class: `block ${cls}`, x: from, y, width: wide, height: tall(n) });
      };
      stack(c.fits, 'good');
      this.ids.forEach((id, k) => stack(c.away.find((a) => a.id === id)?.n ?? 0, paints[k] ?? 'soft'));
    });
    for (const [text, foot] of [['women', row], ['men', 2 * row + 4]]) {
      draw(svg, 'text', { x: edge.left, y: foot - row + 14 }, text);
      draw(svg, 'path', { class: 'grid', d: `M${edge.left} ${foot}H${width - edge.right}` });
      draw(svg, 'text', { x: edge.left - 5, y: foot - row + edge.top + 8, 'text-anchor': 'end' }, String(most));
      draw(svg, 'text', { x: edge.left - 5, y: foot, 'text-anchor': 'end' }, '0');
    }
    const step = (columns[0].to - columns[0].from) * (width < 500 ? 4 : 2);
    for (let v = low; v <= high + 1e-6; v += step) draw(svg, 'text', { x: x(v), y: 2 * row + 19, 'text-anchor': v === low ? 'start' : v > high - step / 2 ? 'end' : 'middle' }, this.height(v));
    draw(svg, 'text', { x: width - edge.right, y: 2 * row + 32, 'text-anchor': 'end' }, `stature, ${this.unit}; persons up`);
    svg.addEventListener('pointerover', (e) => this.tell(Number(e.target.closest('[data-column]')?.dataset.column ?? this.at)));
    svg.addEventListener('focusin', (e) => this.tell(Number(e.target.dataset.column)));
    svg.addEventListener('keydown', (e) => {
      const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1, Home: -columns.length, End: columns.length }[e.key];
      if (!by) return;
      e.preventDefault();
      this.tell(Math.max(0, Math.min(columns.length - 1, this.at + by)));
      svg.querySelector(`[data-column="${this.at}"]`).focus();
    });
    get('crowd-chart').replaceChildren(svg);
    this.tell(this.at);
    if (focused) svg.querySelector(`[data-column="${this.at}"]`).focus({ preventScroll: true });
  }

  height(v) { return this.unit === 'in' ? v.toFixed(1) : v.toFixed(0); }

  line(c) {
    return `${c.woman ? 'Women' : 'Men'} of ${this.height(c.from)} to ${this.height(c.to)} ${this.unit}: ${c.fits} of ${c.n} fit${c.away.length ? `; turned away most by ${c.away.map((a) => `${a.id} ${a.n}`).join(', ')}` : ''}`;
  }

  tell(i) {
    this.at = i;
    get('crowd-told').textContent = this.line(this.columns[i]);
    for (const g of get('crowd-chart').querySelectorAll('[data-column]')) {
      g.setAttribute('tabindex', Number(g.dataset.column) === i ? 0 : -1);
      g.classList.toggle('chosen', Number(g.dataset.column) === i);
    }
  }
}
