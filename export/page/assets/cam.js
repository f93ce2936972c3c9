// The cam in its plane at the flexion at hand: its moment arm, the cable to the guide
// sheave.
import { canvas, draw } from './dom.js';

export class Cam {
  constructor(figure, motion) {
    this.figure = figure;
    motion.follow((d) => this.at(d));
    this.degrees = 0;
  }

  show(m) {
    this.m = m;
    this.figure.replaceChildren();
    if (!m) return;
    const svg = canvas({ viewBox: m.box.join(' '), role: 'img', 'aria-label': 'Cam, guide sheave and cable' });
    this.cam = draw(svg, 'g', {});
    draw(this.cam, 'path', { d: m.rim, class: 'rim' });
    draw(this.cam, 'path', { d: m.outline });
    for (const [cx, cy, r] of m.holes ?? []) draw(this.cam, 'circle', { cx, cy, r });
    draw(svg, 'circle', { cx: m.guide[0], cy: m.guide[1], r: Math.max(1, m.guide[2] - m.cable / 2) });
    draw(svg, 'circle', { cx: m.guide[0], cy: m.guide[1], r: 2, class: 'dot' });
    draw(svg, 'circle', { cx: 0, cy: 0, r: 2, class: 'dot' });
    this.arm = draw(svg, 'line', { x1: 0, y1: 0, class: 'moment' });
    this.cable = draw(svg, 'line', { class: 'cable' });
    const told = document.createElement('figcaption');
    told.textContent = 'Cam seen from the user\'s right: the dashed line from its axis is the moment arm, the cable runs to the guide sheave';
    this.figure.append(svg, told);
    this.at(this.degrees);
  }

  // at shows one flexion, between the steps in proportion.
  at(flexion) {
    this.degrees = flexion;
    if (!this.m) return;
    const s = this.m.steps;
    let i = s.findIndex((q) => q.flexion > flexion) - 1;
    if (i < 0) i = flexion <= s[0].flexion ? 0 : s.length - 2;
    const a = s[i], b = s[i + 1];
    const t = Math.min(Math.max((flexion - a.flexion) / (b.flexion - a.flexion), 0), 1);
    const point = (p, q) => [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t];
    this.cam.setAttribute('transform', `rotate(${-this.m.ratio * flexion})`);
    const from = point(a.contact, b.contact), to = point(a.leave, b.leave), foot = point(a.foot, b.foot);
    for (const [k, v] of Object.entries({ x1: from[0], y1: from[1], x2: to[0], y2: to[1] })) this.cable.setAttribute(k, v);
    this.arm.setAttribute('x2', foot[0]);
    this.arm.setAttribute('y2', foot[1]);
  }
}
