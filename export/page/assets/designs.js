// Designs kept in this browser: named, beside each other, the best value of each row
// marked among those that are met.
import { get } from './dom.js';
import { element } from './motion.js';

const shelf = 'armwright kept designs', most = 12;

export class Designs {
  // restore shows one again; changed is called with the list when it differs.
  constructor(restore, changed) {
    this.restore = restore;
    this.changed = changed;
    try { this.list = JSON.parse(localStorage.getItem(shelf)) ?? []; } catch { this.list = []; }
    this.draw();
  }

  keep(design) {
    const n = 1 + Math.max(0, ...this.list.map((d) => Number(d.name.match(/^Design (\d+)$/)?.[1] ?? 0)));
    this.list.push({ name: `Design ${n}`, ...design });
    if (this.list.length > most) this.list.shift();
    this.store();
    this.draw();
  }

  store() {
    try { localStorage.setItem(shelf, JSON.stringify(this.list)); } catch { /* a browser that keeps nothing: until the page is closed */ }
  }

  draw() {
    get('none').hidden = this.list.length > 0;
    const rows = [], line = (title, fill) => rows.push(element('tr', {}, element('th', { scope: 'row' }, title), ...this.list.map((d, i) => { const td = element('td'); fill(td, d, i); return td; })));
    if (this.list.length) rows.push(element('tr', {}, element('td'), ...this.list.map((d) => element('th', { scope: 'col' }, d.name))));
    line('Picture', (td, d) => { if (d.picture) td.append(element('img', { src: d.picture, alt: '', width: 150, height: 110 })); });
    line('Name', (td, d) => td.append(element('input', { type: 'text', value: d.name, maxlength: 40, 'aria-label': `Name of ${d.name}`, onchange: (e) => { d.name = e.target.value.trim() || d.name; this.store(); this.draw(); } })));
    line('Brief', (td, d) => { td.textContent = d.title; });
    line('Verdict', (td, d) => {
      td.textContent = d.verdict === 'met' ? 'met' : 'not met';
      td.className = d.verdict === 'met' ? 'met' : 'failed';
    });
    line('Not met', (td, d) => { td.textContent = d.failing.join(', ') || 'none'; });
    for (const name of new Set(this.list.flatMap((d) => d.figures.map((f) => f.name)))) {
      const of = (d) => d.figures.find((f) => f.name === name);
      const met = this.list.filter((d) => d.verdict === 'met' && of(d)?.value !== null && of(d)?.value !== undefined).map((d) => of(d).value);
      const better = this.list.map(of).find(Boolean).best;
      const best = met.length < 2 || new Set(this.list.map((d) => of(d)?.text)).size === 1 ? null : better === 'least' ? Math.min(...met) : better === 'most' ? Math.max(...met) : null;
      line(name, (td, d) => {
        const f = of(d);
        td.textContent = f ? f.text : '–';
        if (f && best !== null && d.verdict === 'met' && f.value === best) { td.className = 'best'; td.append(' (best)'); }
      });
    }
    line('Changed', (td, d) => { td.textContent = Object.entries(d.changes).map(([path, text]) => `${path}: ${text}`).join('; ') || 'as opened'; });
    line('Do', (td, d, i) => td.append(
      element('button', { type: 'button', 'aria-label': `Show ${d.name}`, onclick: () => this.restore(d) }, 'Show'), ' ',
      element('button', { type: 'button', 'aria-label': `Drop ${d.name}`, onclick: () => { this.list.splice(i, 1); this.store(); this.draw(); get('designs').focus(); } }, 'Drop')));
    get('kept').replaceChildren(...(this.list.length ? rows : []));
    this.changed?.(this.list);
  }
}
