// The cam moved through the loaded range, by hand or by itself. Whoever asked
// for less motion starts it himself; it can always be stopped.
import { get } from './dom.js';

const SVG = 'http://www.w3.org/2000/svg';

export class Motion {
  constructor() {
    this.still = matchMedia('(prefers-reduced-motion: reduce)').matches;
    this.phase = 0;
    this.running = false;
    get('play').addEventListener('click', () => this.play(!this.running));
    get('flexion').addEventListener('input', () => { this.play(false); this.at(Number(get('flexion').value)); });
  }

  // only is called when the cam comes to stand alone, or not.
  only(on) {
    if (on && !this.still) this.play(true);
    if (!on) this.play(false);
  }

  show(m) {
    this.m = m;
    get('motion').hidden = !m;
    if (!m) return this.play(false);
    const svg = document.createElementNS(SVG, 'svg');
    svg.setAttribute('viewBox', m.box.join(' '));
    svg.setAttribute('role', 'img');
    svg.setAttribute('aria-label', 'Cam, guide sheave and cable');
    const add = (to, name, attributes) => {
      const e = to.appendChild(document.createElementNS(SVG, name));
      for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
      return e;
    };
    this.cam = add(svg, 'g', {});
    add(this.cam, 'path', { d: m.rim, class: 'rim' });
    add(this.cam, 'path', { d: m.outline });
    for (const [cx, cy, r] of m.holes ?? []) add(this.cam, 'circle', { cx, cy, r });
    add(svg, 'circle', { cx: m.guide[0], cy: m.guide[1], r: Math.max(1, m.guide[2] - m.cable / 2) });
    add(svg, 'circle', { cx: m.guide[0], cy: m.guide[1], r: 2, class: 'dot' });
    add(svg, 'circle', { cx: 0, cy: 0, r: 2, class: 'dot' });
    this.arm = add(svg, 'line', { x1: 0, y1: 0, class: 'moment' });
    this.cable = add(svg, 'line', { class: 'cable' });
    get('cam').replaceChildren(svg);
    const first = m.steps[0].flexion, last = m.steps.at(-1).flexion;
    const slider = get('flexion');
    const before = slider.dataset.set ? Number(slider.value) : first;
    slider.min = first;
    slider.max = last;
    slider.dataset.set = 'yes';
    this.at(Math.min(Math.max(before, first), last));
  }

  // at shows one flexion, between the steps in proportion.
  at(flexion) {
    const s = this.m.steps;
    let i = s.findIndex((q) => q.flexion > flexion) - 1;
    if (i < 0) i = flexion <= s[0].flexion ? 0 : s.length - 2;
    const a = s[i], b = s[i + 1];
    const t = Math.min(Math.max((flexion - a.flexion) / (b.flexion - a.flexion), 0), 1);
    const mix = (p, q) => p + (q - p) * t;
    const point = (p, q) => [mix(p[0], q[0]), mix(p[1], q[1])];
    this.cam.setAttribute('transform', `rotate(${-this.m.ratio * flexion})`);
    const from = point(a.contact, b.contact), to = point(a.leave, b.leave), foot = point(a.foot, b.foot);
    this.cable.setAttribute('x1', from[0]); this.cable.setAttribute('y1', from[1]);
    this.cable.setAttribute('x2', to[0]); this.cable.setAttribute('y2', to[1]);
    this.arm.setAttribute('x2', foot[0]); this.arm.setAttribute('y2', foot[1]);
    get('flexion').value = flexion;
    get('flexion-out').textContent = `${flexion.toFixed(1)} deg`;
    const rows = [['cam turn', `${(this.m.ratio * flexion).toFixed(1)} deg`], ['moment arm', `${mix(a.arm, b.arm).toFixed(this.m.length === 'mm' ? 1 : 2)} ${this.m.length}`],
      ['torque wanted', `${mix(a.target, b.target).toFixed(2)} ${this.m.torque}`], ['torque delivered', `${mix(a.delivered, b.delivered).toFixed(2)} ${this.m.torque}`]];
    get('moment').replaceChildren(...rows.flatMap(([name, value]) => {
      const dt = document.createElement('dt'), dd = document.createElement('dd');
      dt.textContent = name;
      dd.textContent = value;
      return [dt, dd];
    }));
  }

  play(on) {
    this.running = on;
    get('play').textContent = on ? 'Pause' : 'Play';
    get('play').setAttribute('aria-pressed', on);
    if (on) {
      this.then = performance.now();
      requestAnimationFrame((now) => this.frame(now));
    }
  }

  // frame goes on by the time since the last one, up and down at the cadence.
  frame(now) {
    if (!this.running) return;
    if (this.m) {
      const first = this.m.steps[0].flexion, last = this.m.steps.at(-1).flexion;
      this.phase += (now - this.then) / 60000 * (this.m.cadence || 15);
      this.at(first + (last - first) * (1 - Math.cos(2 * Math.PI * this.phase)) / 2);
    }
    this.then = now;
    requestAnimationFrame((next) => this.frame(next));
  }
}
