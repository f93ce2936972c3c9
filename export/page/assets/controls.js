// The controls of the brief: a slider and a number for one value move together, and
// what differs from the brief as opened is a change, written as the file would have
// it. The program makes the controls; they are made anew when others are needed.
import { fragment, get } from './dom.js';

export class Controls {
  // drag is called while a value moves, settle once it rests, both with its path.
  constructor(form, { drag, settle }) {
    this.form = form;
    this.changes = {};
    this.all = new Map();
    this.blamed = new Set();
    const path = (e) => e.target.closest('.control')?.dataset.path;
    form.addEventListener('input', (e) => { if (path(e)) { this.moved(path(e), e.target); drag(path(e)); } });
    form.addEventListener('change', (e) => { if (path(e)) { this.moved(path(e), e.target); settle(path(e)); } });
    form.addEventListener('click', (e) => {
      const why = e.target.closest('.why');
      if (!why) return;
      const doc = get(why.getAttribute('aria-controls'));
      doc.hidden = !doc.hidden;
      why.setAttribute('aria-expanded', String(!doc.hidden));
    });
    form.addEventListener('submit', (e) => e.preventDefault());
    get('find').addEventListener('input', () => this.find(get('find').value));
  }

  // fill takes new controls in place of the old ones; what was open stays open, and
  // the focus stays where it was.
  fill(html) {
    const held = document.activeElement?.id, range = document.activeElement?.type === 'range' ? document.activeElement.closest('.control')?.dataset.path : null;
    const before = new Map([...get('groups').querySelectorAll('details')].map((d) => [this.nameOf(d), d.open]));
    get('groups').replaceChildren(...fragment(html));
    this.all.clear();
    this.blamed.clear();
    for (const d of get('groups').querySelectorAll('details')) if (before.has(this.nameOf(d))) d.open = before.get(this.nameOf(d));
    for (const box of get('groups').querySelectorAll('.control')) {
      this.all.set(box.dataset.path, { box, slider: box.querySelector('input[type=range]'), field: box.querySelector('input:not([type=range]), select'), first: box.dataset.first, unit: box.dataset.unit });
    }
    if (get('find').value) this.find(get('find').value);
    const to = range ? this.all.get(range)?.slider : held ? get(held) : null;
    if (to && document.activeElement === document.body) to.focus({ preventScroll: true });
  }

  nameOf(d) { return (d.closest('.question')?.id ?? '') + (d.classList.contains('more') ? '-more' : ''); }

  // find shows the controls whose name or explanation holds all of the words.
  find(text) {
    const words = text.toLowerCase().split(/\s+/).filter(Boolean);
    let n = 0;
    for (const c of this.all.values()) {
      const there = (c.box.querySelector('label').textContent + ' ' + c.box.querySelector('.doc').textContent).toLowerCase();
      c.box.hidden = !words.every((w) => there.includes(w));
      if (!c.box.hidden) n++;
    }
    this.form.classList.toggle('finding', words.length > 0);
    for (const d of get('groups').querySelectorAll('details')) {
      const some = [...d.querySelectorAll('.control')].some((c) => !c.hidden);
      d.hidden = words.length > 0 && !some;
      if (words.length) { if (d.dataset.was === undefined) d.dataset.was = d.open; d.open = some; }
      else if (d.dataset.was !== undefined) { d.open = d.dataset.was === 'true'; delete d.dataset.was; }
    }
    get('found').textContent = words.length ? `${n} found` : '';
  }

  moved(path, from) {
    const c = this.all.get(path);
    if (from === c.slider) c.field.value = c.slider.value;
    else if (c.slider && c.field.value !== '') c.slider.value = c.field.value;
    if (c.slider) c.slider.setAttribute('aria-valuetext', `${c.field.value} ${c.unit}`);
    if (c.field.value === c.first) delete this.changes[path];
    else this.changes[path] = c.unit ? `${c.field.value} ${c.unit}` : c.field.value;
    c.box.classList.toggle('changed', c.field.value !== c.first);
  }

  // blame says beside a control what is wrong with it; false without one.
  blame(path, message, hint) {
    const c = this.all.get(path) ?? this.all.get(path + '.from');
    if (!c) return false;
    this.blamed.add(c);
    c.field.setAttribute('aria-invalid', 'true');
    let p = c.box.querySelector('.fault');
    if (!p) {
      p = c.box.appendChild(document.createElement('p'));
      p.className = 'fault';
      p.id = c.field.id + '-fault';
      c.field.setAttribute('aria-describedby', `${p.id} ${c.field.id}-doc`);
    }
    p.textContent = message.replace(path + ': ', '') + (hint ? ' – ' + hint : '');
    for (let d = c.box.closest('details'); d; d = d.parentElement.closest('details')) d.open = true;
    return true;
  }

  // forgive takes all blame away.
  forgive() {
    for (const c of this.blamed) {
      c.field.removeAttribute('aria-invalid');
      c.box.querySelector('.fault')?.remove();
      c.field.setAttribute('aria-describedby', c.field.id + '-doc');
    }
    this.blamed.clear();
  }
}
