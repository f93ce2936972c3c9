// The page keeps one state: what was changed in the brief, and the station
// whose geometry is at hand. While a control is dragged that geometry is judged
// again, the latest values only, one request at a time; once it is let go the
// brief is solved, from that geometry. Every answer brings finished fragments.
import { readControls } from './controls.js';
import { Motion } from './motion.js';
import { Designs } from './designs.js';
import { address, fromAddress } from './address.js';
import { get, place, fragment, save } from './dom.js';

const controls = readControls(get('brief'), { drag, settle });
const motion = new Motion();
const designs = new Designs(restore);
const state = { station: '', shown: '', answer: null };
let wanted = null, judging = false, search = null, pause = 0;

function request(path, extra, signal) {
  const body = JSON.stringify({ station: state.station, changes: controls.changes(), ...extra });
  return fetch(path, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body, signal });
}

function tell(text, searching = false) {
  get('status').textContent = text;
  get('cancel').hidden = !searching;
}

// What is wrong is said, beside its control where it has one; the last good
// picture stays, marked as not being of these values.
function refuse(trouble) {
  const rest = trouble.problems.filter((q) => !controls.blame(q.path, q.message, q.hint));
  get('trouble').replaceChildren(...trouble.problems.map((q) => {
    const p = document.createElement('p');
    p.textContent = q.message + (q.hint ? ' – ' + q.hint : '');
    return p;
  }));
  get('station').classList.add('stale');
  tell(rest.length ? 'Cannot be done: see above the station' : 'A value cannot be used; the last station is still shown');
}

function show(answer) {
  controls.forgive();
  get('trouble').replaceChildren();
  get('station').classList.remove('stale');
  state.station = answer.station;
  state.shown = answer.shown;
  state.answer = answer;
  for (const [name, html] of Object.entries(answer.parts)) get(name).replaceChildren(...fragment(html));
  if (answer.pictures) place('picture', answer.pictures);
  place('plot', answer.plots);
  motion.show(answer.motion);
  get('keep').disabled = get('make').disabled = false;
  get('files').replaceChildren();
}

// While a control moves: judge the geometry at hand, the latest values only.
function drag() {
  clearTimeout(pause);
  stop();
  if (state.station) {
    wanted = true;
    judge();
  }
}

async function judge() {
  if (judging) return;
  judging = true;
  while (wanted) {
    wanted = false;
    try {
      const r = await request('/evaluate', { shown: state.shown });
      if (search) continue;
      const { answer, trouble } = await r.json();
      if (answer) {
        show(answer);
        tell(answer.solved ? outcome(answer) : 'Judged on the geometry at hand');
      } else if (trouble.gone) {
        state.station = '';
        solve();
      } else refuse(trouble);
    } catch (e) {
      lost(e);
    }
  }
  judging = false;
}

// Once a control rests: note the address, and solve if asked to.
function settle() {
  clearTimeout(pause);
  pause = setTimeout(() => {
    address(controls.changes());
    if (get('auto').checked) solve();
    else drag();
  }, 200);
}

function stop() {
  if (search) search.abort();
  search = null;
}

async function solve(afresh = false) {
  stop();
  wanted = false;
  const mine = search = new AbortController();
  tell('Searching', true);
  try {
    const r = await request('/solve', { shown: state.shown, ...(afresh ? { station: '' } : {}) }, mine.signal);
    if (!r.headers.get('Content-Type').includes('json')) throw new Error(await r.text());
    for await (const step of lines(r.body)) take(step);
  } catch (e) {
    if (mine.signal.aborted) return;
    lost(e);
  }
  if (search === mine) search = null;
}

// lines yields the values of a stream that holds one a line.
async function* lines(stream) {
  const reader = stream.pipeThrough(new TextDecoderStream()).getReader();
  for (let rest = ''; ;) {
    const { value, done } = await reader.read();
    if (done) return;
    const whole = (rest + value).split('\n');
    rest = whole.pop();
    for (const line of whole) yield JSON.parse(line);
  }
}

function take(step) {
  if (step.progress) {
    const p = step.progress;
    tell(`Searching with ${p.axes} axis position${p.axes === 1 ? '' : 's'}, round ${p.round}, step ${p.iteration}`, true);
  } else if (step.answer) {
    show(step.answer);
    tell(outcome(step.answer));
  } else refuse(step.trouble);
}

const outcome = (answer) => ({
  met: 'Solved: every requirement is met',
  'not-met': 'Solved: not every requirement is met',
  infeasible: 'No station meets all of this; see what conflicts',
})[answer.verdict];

function lost(e) {
  console.warn(e.message);
  tell('The server does not answer; is the command still running?');
  get('station').classList.add('stale');
}

function restore(design) {
  stop();
  controls.set(design.changes);
  address(design.changes);
  state.station = design.station;
  state.shown = '';
  wanted = true;
  judge();
  get('station').focus();
}

async function makeFiles() {
  get('making').textContent = 'Drawing';
  get('make').disabled = true;
  try {
    const r = await request('/files');
    const body = await r.json();
    if (body.trouble) return refuse(body.trouble);
    const list = document.createElement('ul');
    list.className = 'files';
    for (const f of body.files) {
      const item = list.appendChild(document.createElement('li'));
      const link = item.appendChild(document.createElement('a'));
      link.href = `/files/${body.number}/${f.path}`;
      link.download = f.path.split('/').pop();
      link.textContent = f.path;
      item.append(` ${Math.ceil(f.bytes / 1000)} kB`);
    }
    get('files').replaceChildren(list);
    get('making').textContent = `${body.files.length} files, station.zip holds them all`;
  } catch (e) {
    lost(e);
    get('making').textContent = '';
  } finally {
    get('make').disabled = false;
  }
}

async function saveBrief() {
  const r = await request('/brief');
  if (r.headers.get('Content-Type').includes('json')) refuse((await r.json()).trouble);
  else save('brief.yaml', await r.blob());
}

function onlyCam(on) {
  document.body.classList.toggle('alone', on);
  motion.only(on);
}

get('solve').addEventListener('click', () => solve());
get('afresh').addEventListener('click', () => solve(true));
get('cancel').addEventListener('click', () => { stop(); tell('Stopped; the last station is still shown'); });
get('reset').addEventListener('click', () => { controls.set({}); address({}); solve(); });
get('save').addEventListener('click', saveBrief);
get('make').addEventListener('click', makeFiles);
get('keep').addEventListener('click', () => designs.keep({ station: state.station, changes: controls.changes(), answer: state.answer, side: document.querySelector('[data-picture=side] svg, #cam svg') }));
if (get('alone')) get('alone').addEventListener('change', (e) => { onlyCam(e.target.checked); address(controls.changes()); });
else onlyCam(true);

function open() {
  const { changes, alone, foreign } = fromAddress();
  controls.set(changes);
  if (get('alone')) { get('alone').checked = alone; onlyCam(alone); }
  if (foreign) get('trouble').textContent = 'The address was made with another brief; its changes were put to this one.';
  solve();
}
// The part after the # is the state, so links within the page leave it alone.
for (const link of document.querySelectorAll('a.to')) {
  link.addEventListener('click', (e) => {
    e.preventDefault();
    const part = get(link.getAttribute('href').slice(1));
    part.scrollIntoView();
    part.focus({ preventScroll: true });
  });
}
addEventListener('hashchange', open);
get('brief').addEventListener('submit', (e) => e.preventDefault());
open();
