// One flexion for everything that is shown: a slider, steps, and a run up and down at
// the brief's cadence. Nothing runs until it is asked to, and it can be stopped.

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

export class Motion {
  constructor() {
    this.first = 0;
    this.last = 1;
    this.cadence = 15;
    this.degrees = null;
    this.running = false;
    this.followers = [];
    this.button = element('button', { type: 'button', class: 'play', 'aria-pressed': 'false', onclick: () => this.run(!this.running) }, 'Play');
    this.slider = element('input', { type: 'range', id: 'flexion', min: 0, max: 1, step: 0.5, 'aria-label': 'elbow flexion', oninput: () => { this.run(false); this.at(Number(this.slider.value)); } });
    this.out = element('output', { for: 'flexion' });
    const step = (by) => element('button', { type: 'button', 'aria-label': `${Math.abs(by)} degrees ${by < 0 ? 'back' : 'on'}`, onclick: () => { this.run(false); this.at(this.degrees + by); } }, by < 0 ? `−${-by}°` : `+${by}°`);
    this.row = element('div', { class: 'motion' }, this.button, step(-5), this.slider, this.out, step(5));
  }

  // follow has f called with the flexion in degrees, and while it runs the time since
  // the picture before, ms.
  follow(f) { this.followers.push(f); }

  // range sets where it may go, in degrees.
  range(first, last, cadence) {
    Object.assign(this, { first, last, cadence: cadence || 15 });
    this.slider.min = first;
    this.slider.max = last;
    this.at(this.degrees ?? first);
  }

  at(degrees, took = 0) {
    this.degrees = Math.min(Math.max(degrees, this.first), this.last);
    this.slider.value = this.degrees;
    this.slider.setAttribute('aria-valuetext', `${this.degrees.toFixed(1)} degrees`);
    this.out.textContent = `${this.degrees.toFixed(1)}°`;
    for (const f of this.followers) f(this.degrees, took);
  }

  run(on) {
    if (on === this.running) return;
    this.running = on;
    this.button.textContent = on ? 'Pause' : 'Play';
    this.button.setAttribute('aria-pressed', on);
    if (!on) return this.at(this.degrees);
    this.phase = Math.acos(1 - 2 * (this.degrees - this.first) / (this.last - this.first || 1)) / (2 * Math.PI);
    let then = 0;
    const frame = (now) => {
      if (!this.running) return;
      const took = then ? now - then : 0;
      then = now;
      this.phase += took / 60000 * this.cadence;
      this.at(this.first + (this.last - this.first) * (1 - Math.cos(2 * Math.PI * this.phase)) / 2, took);
      requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  }
}
