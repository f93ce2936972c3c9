// What was changed, step by step, in the browser's own history: Undo is Back. The
// address holds the changes after the #, with the number of the brief they mean
// something for; it never leaves the browser.
import { get, press, usable } from './dom.js';

export class Past {
  // restore is called with { brief, changes, station } of another step.
  constructor(restore) {
    this.at = history.state?.at ?? 0;
    this.last = Math.max(this.at, Number(sessionStorage.getItem('last') ?? 0));
    press('undo', () => history.back());
    press('redo', () => history.forward());
    addEventListener('popstate', (e) => {
      this.at = e.state?.at ?? 0;
      this.tell();
      restore({ ...this.address(), station: e.state?.station ?? '' });
    });
    this.tell();
  }

  // address is what the address says.
  address() {
    const q = new URLSearchParams(location.hash.slice(1)), brief = q.get('brief') ?? '';
    q.delete('brief');
    return { brief, changes: Object.fromEntries(q) };
  }

  hash({ brief, changes }) {
    const q = new URLSearchParams(changes);
    q.set('brief', brief);
    return '#' + q;
  }

  // step notes a new state, unless it is the one at hand; what was undone is gone.
  step(state) {
    if (this.hash(state) === location.hash) return this.note(state);
    this.at++;
    this.last = this.at;
    history.pushState({ at: this.at, station: state.station }, '', this.hash(state));
    this.tell();
  }

  // note puts the station reached to the state at hand.
  note(state) {
    history.replaceState({ at: this.at, station: state.station }, '', this.hash(state));
  }

  tell() {
    sessionStorage.setItem('last', this.last);
    usable(get('undo'), this.at > 0);
    usable(get('redo'), this.at < this.last);
  }
}
