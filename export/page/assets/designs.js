// Designs kept for comparison, side by side, the best value of each row marked.
import { get } from './dom.js';

const most = 6;

export class Designs {
  constructor(restore) {
    this.list = [];
    this.count = 0;
    this.restore = restore;
  }

  keep({ station, changes, answer, side }) {
    this.count++;
    this.list.push({ name: `Design ${this.count}`, station, changes, answer, picture: side?.cloneNode(true) });
    if (this.list.length > most) this.list.shift();
    this.draw();
  }

  draw() {
    get('none').hidden = this.list.length > 0;
    const rows = [];
    const cell = (row, tag, text, attributes = {}) => {
      const e = row.appendChild(document.createElement(tag));
      e.append(text);
      for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
      return e;
    };
    const line = (title, fill) => {
      const row = document.createElement('tr');
      cell(row, 'th', title, { scope: 'row' });
      this.list.forEach((d, i) => fill(cell(row, 'td', ''), d, i));
      rows.push(row);
    };
    const head = document.createElement('tr');
    cell(head, 'td', '');
    for (const d of this.list) cell(head, 'th', d.name, { scope: 'col' });
    rows.push(head);
    line('Picture', (td, d) => {
      td.className = 'thumb';
      if (d.picture) td.append(d.picture.cloneNode(true));
    });
    line('Verdict', (td, d) => {
      td.textContent = d.answer.verdict.replace('-', ' ');
      td.className = d.answer.verdict === 'met' ? 'met' : 'failed';
    });
    const names = [...new Set(this.list.flatMap((d) => d.answer.figures.map((f) => f.name)))];
    for (const name of names) {
      const of = (d) => d.answer.figures.find((f) => f.name === name);
      const values = this.list.map((d) => of(d)?.value).filter((v) => v !== null && v !== undefined);
      const alike = new Set(this.list.map((d) => of(d)?.text)).size === 1; // as far as one is told
      const better = this.list.map(of).find(Boolean).best;
      const best = better === 'least' ? Math.min(...values) : better === 'most' ? Math.max(...values) : null;
      line(name, (td, d) => {
        const f = of(d);
        td.textContent = f ? f.text : '–';
        if (f && best !== null && !alike && f.value === best) {
          td.className = 'best';
          td.append(' (best)');
        }
      });
    }
    line('Changed', (td, d) => {
      const list = Object.entries(d.changes).map(([path, text]) => `${path}: ${text}`);
      td.textContent = list.join('; ') || 'as opened';
    });
    line('Do', (td, d, i) => {
      const button = (text, act) => {
        const b = td.appendChild(document.createElement('button'));
        b.type = 'button';
        b.textContent = text;
        b.setAttribute('aria-label', `${text} ${d.name}`);
        b.addEventListener('click', act);
      };
      button('Show', () => this.restore(d));
      button('Drop', () => { this.list.splice(i, 1); this.draw(); });
    });
    get('kept').replaceChildren(...rows);
  }
}
