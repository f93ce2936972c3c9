// Persons of the reader's own table: each is placed on the station at hand, and again
// whenever that changes.
import { get } from './dom.js';
import { element } from './motion.js';

const largest = 60000; // bytes; what asks has to stay small

export class Persons {
  // ask(table) promises the answer; show(table) seats and offers them, chosen is called
  // with rows; length writes millimetres for people.
  constructor({ ask, show, refuse, length }) {
    Object.assign(this, { ask, show, refuse, length, row: -1, text: '', name: '', asking: false, due: false });
  }

  async open(file) {
    if (file.size > largest) return this.refuse({ problems: [{ message: `${file.name} is larger than ${largest / 1000} kB`, hint: 'armwright check --people judges any number' }] });
    Object.assign(this, { text: await file.text(), name: file.name, row: 0 });
    if (await this.place()) {
      get('persons').hidden = false;
      get('persons').focus();
    }
  }

  // place asks for the persons on the station at hand, the latest wish only.
  async place() {
    if (!this.text) return false;
    this.due = true;
    if (this.asking) return false;
    this.asking = true;
    let answer = null;
    try {
      while (this.due) {
        this.due = false;
        answer = await this.ask({ name: this.name, text: this.text, row: this.row });
      }
    } finally {
      this.asking = false;
    }
    if (answer.trouble) {
      this.text = '';
      this.refuse(answer.trouble);
      return false;
    }
    this.row = Math.min(this.row, answer.rows.length - 1);
    this.show({ name: this.name, rows: answer.rows, row: this.row, body: answer.person, chosen: (row) => this.seat(row) });
    this.list(answer);
    return true;
  }

  seat(row) {
    this.row = row;
    if (row >= 0) this.place();
  }

  list({ rows, faults, filled }) {
    get('persons-title').textContent = `Persons of ${this.name}`;
    get('persons-fit').replaceChildren(`${rows.filter((r) => r.fits).length} of ${rows.length} fit the station shown. ${filled}`.trim(), ...faults.slice(0, 5).map((f) => element('span', { class: 'failed' }, ` ${f.message}${f.hint ? ` – ${f.hint}` : ''}.`)),
      faults.length > 5 ? ` ${faults.length - 5} more faults.` : '');
    const cell = (text, cls = false) => element('td', { class: cls }, text);
    get('persons-list').replaceChildren(element('tr', {}, ...['Person', 'Sex', 'Stature', 'Fits', 'What turns away', 'In space'].map((t) => element('th', { scope: 'col' }, t))),
      ...rows.map((r, i) => element('tr', {}, element('th', { scope: 'row' }, r.label), cell(r.woman ? 'woman' : 'man'), cell(this.length(r.stature)), cell(r.fits ? 'yes' : 'no', r.fits ? 'met' : 'failed'), cell(r.away.join('; ')),
        element('td', {}, element('button', { type: 'button', 'aria-label': `Seat ${r.label}`, onclick: () => { this.seat(i); get('station').scrollIntoView(); get('who')?.focus({ preventScroll: true }); } }, 'Seat')))));
  }
}
