// The page keeps one state: the brief opened, what was changed in it, and the station
// whose geometry is at hand. While a control is dragged that geometry is judged again,
// the latest values only, one question at a time; once it is let go the brief is
// solved, from that geometry. Every answer brings finished fragments.
import { Cam } from './cam.js';
import { Chart } from './chart.js';
import { Controls } from './controls.js';
import { Crowd } from './crowd.js';
import { Designs } from './designs.js';
import { get, painted, place, press, put, save, usable } from './dom.js';
import { link } from './link.js';
import { element, Motion } from './motion.js';
import { Past } from './past.js';
import { Persons } from './persons.js';
import { Stage } from './stage.js';

const state = { brief: '', text: '', title: '', station: '', shown: '', answer: null, views: false, inches: false };
const motion = new Motion();
const controls = new Controls(get('brief'), { drag: () => drag(), settle });
const chart = new Chart(get('feel'), motion, { moved: (points) => { shape(points); drag(); }, rested: (points) => { shape(points); settle('resistance.curve'); } });
const cam = new Cam(get('cam'), motion);
const crowd = new Crowd();
const past = new Past(restore);
const designs = new Designs(again, (list) => { chart.kept = list.map((d) => ({ name: d.name, ...d.line })); chart.draw(); });
const length = (mm) => (state.inches ? `${(mm / 25.4).toFixed(1)} in` : `${Math.round(mm)} mm`);
const persons = new Persons({ ask: (table) => link.ask('persons', question(table)), show: (table) => stage?.guests(table), refuse: (trouble) => refuse(trouble), length });
let stage = null, wanted = false, moving = false, judging = false, search = null, pause = 0, drawn = 0, lasted = 0;

// Without WebGL the views drawn in lines stand in the station's place.
try {
  stage = new Stage(get('space'), motion, { length });
  const looks = document.querySelector('details.looks'), wide = matchMedia('(min-width: 75rem)');
  wide.addEventListener('change', () => { looks.open = wide.matches; });
  looks.open = wide.matches;
} catch {
  get('space').replaceChildren(element('figure', { 'data-view': 'axonometric', class: 'picture' }, element('figcaption')), motion.row);
  document.querySelector('#views [data-view=axonometric]').remove();
  state.views = true;
}

const question = (more) => ({ brief: state.brief, station: state.station, changes: controls.changes, shown: state.shown, ...more });

function tell(text) {
  if (get('status').textContent !== text) get('status').textContent = text;
}

function searching(on) {
  if (!on && document.activeElement === get('cancel')) get('solve').focus();
  get('cancel').hidden = !on;
  get('far').textContent = '';
}

// What is wrong is said once, beside its control where it has one; the last good
// picture stays, marked as not being of these values.
function refuse(trouble) {
  controls.forgive();
  const rest = trouble.problems.filter((q) => !controls.blame(q.path, q.message, q.hint));
  get('trouble').replaceChildren(...rest.map((q) => element('p', {}, q.message + (q.hint ? ' – ' + q.hint : ''))));
  document.body.classList.add('stale');
  tell(rest.length ? 'Cannot be done: see what is said' : 'A value cannot be used; the last station is still shown');
}

// show puts an answer in sight: station, torque, verdict and figures.
async function show(answer) {
  const mine = ++drawn;
  if (answer.scene && stage) {
    const missing = [...new Set(answer.scene.parts.map((p) => p.mesh))].filter((k) => !stage.space.meshes.has(k));
    if (missing.length) answer.scene.meshes = await link.ask('meshes', missing);
    if (mine !== drawn) return;
  }
  controls.forgive();
  get('trouble').replaceChildren();
  document.body.classList.remove('stale');
  Object.assign(state, { station: answer.station, answer });
  get('space').classList.toggle('bench', !answer.shown);
  if (answer.shown) document.querySelector('#plots').append(cam.figure);
  else bench();
  if (answer.scene && stage) {
    stage.show(answer.scene);
    state.shown = answer.shown;
  }
  put('verdict', answer.parts.verdict);
  put('head', answer.parts.head);
  if (!answer.shown) {
    cam.show(answer.motion);
    if (answer.over.angles.length) motion.range(answer.over.angles[0], answer.over.angles.at(-1), answer.motion?.cadence);
  }
  chart.show(answer.over, answer.curve);
}

// finish puts the rest of an answer in place once the first is painted, unless another is
// there by then. While a control moves, plots that are out of sight wait until they are
// looked at.
async function finish(answer, held = false) {
  await painted();
  if (state.answer !== answer) return;
  for (const name of ['conflict', 'held', 'table']) put(name, answer.parts[name]);
  get('repairs').replaceChildren(...(answer.repairs ?? []).map((r) => element('p', {}, element('button', { type: 'button', onclick: () => mend(r.changes) }, 'Try this'), ` ${r.sentence}`)));
  if (!held) crowd.show(answer.crowd, state.inches ? 'in' : 'mm');
  waiting = () => {
    waiting = null;
    place('plot', answer.plots);
    if (answer.shown) cam.show(answer.motion);
    motion.at(motion.degrees);
  };
  if (!held || looked) waiting();
  usable(get('keep'), true);
  usable(get('make'), true);
  get('files').replaceChildren();
  if (!held && answer.shown) persons.place();
  if (state.views) await outlined();
}

let waiting = null, looked = false;
new IntersectionObserver(([plots]) => {
  looked = plots.isIntersecting;
  if (looked) waiting?.();
}).observe(get('plots'));

// bench shows what there is without a station: the cam, or the drive's plots alone.
function bench() {
  if (get('space').contains(cam.figure)) return;
  get('space').replaceChildren(cam.figure, motion.row);
  get('persons').hidden = true;
  stage = null;
  state.shown = '';
}

// While a control moves, held: judge the geometry at hand, the latest values only.
function drag(held = true) {
  clearTimeout(pause);
  stop();
  if (state.station) judge(held);
}

async function judge(held = false) {
  wanted = true;
  moving = held;
  if (judging) return;
  judging = true;
  while (wanted) {
    wanted = false;
    try {
      const { answer, trouble } = await link.ask('evaluate', question());
      if (search) continue;
      if (answer) {
        await show(answer);
        finish(answer, moving).catch(lost);
        tell(answer.solved ? outcome(answer) : 'Judged on the geometry at hand');
      } else if (trouble.gone) {
        state.station = '';
        solve();
      } else if (!trouble.solve) refuse(trouble); // else another drive: what is shown stays until it is solved
    } catch (e) {
      lost(e);
    }
  }
  judging = false;
}

// Values that other controls hang on.
const shaping = /^(resistance\.(drive|curve)|posture\.foot_plate|people\.boundary|drawing\.units)$/;

// Once a control rests: note it, and solve if asked to.
function settle(path) {
  clearTimeout(pause);
  pause = setTimeout(async () => {
    past.step({ ...state, changes: controls.changes });
    if (shaping.test(path)) await refill();
    if (get('auto').checked) solve();
    else drag(false);
  }, 200);
}

// refill makes the controls anew.
async function refill() {
  const o = await link.ask('controls', question());
  if (o.controls) controls.fill(o.controls);
  state.inches = o.inches;
  get('units').value = o.inches ? 'in' : 'mm';
}

function stop() {
  if (search) search.abort();
  search = null;
  searching(false);
}

async function solve(afresh = false) {
  stop();
  wanted = false;
  const mine = search = new AbortController(), began = performance.now();
  tell('Searching');
  searching(true);
  try {
    await link.search(question(afresh ? { station: '' } : {}), (step) => take(step, began), mine.signal);
    lasted = performance.now() - began;
  } catch (e) {
    if (mine.signal.aborted) return;
    lost(e);
  }
  if (search === mine) {
    search = null;
    searching(false);
  }
}

async function take(step, began) {
  if (step.progress) {
    const p = step.progress, s = (performance.now() - began) / 1000;
    get('far').textContent = p.waits ? 'waits for a search of another tab' : `${s.toFixed(0)} s${lasted ? ` of about ${Math.max(1, Math.round(lasted / 1000))}` : ''}: ${p.axes} axis position${p.axes === 1 ? '' : 's'}, round ${p.round}`;
    if (p.waits) tell('Waits for a search of another tab');
  } else if (step.answer) {
    await show(step.answer);
    past.note({ ...state, changes: controls.changes });
    await finish(step.answer);
    if (state.answer === step.answer) tell(outcome(step.answer));
  } else if (step.trouble.gone) reopen();
  else refuse(step.trouble);
}

const outcome = (answer) => ({
  met: 'Solved: every requirement is met',
  'not-met': 'Solved: not every requirement is met',
  infeasible: 'No station meets all of this; see what conflicts',
})[answer.verdict];

function lost(e) {
  console.warn(e.message);
  tell(link.lost);
  document.body.classList.add('stale');
}
addEventListener('unhandledrejection', (e) => { e.preventDefault(); lost(e.reason); });

// open opens a brief, a frame or an example, with changes.
async function open(ask, changes = {}, station = '', noted = false) {
  stop();
  wanted = false;
  let o;
  try {
    o = await link.ask('open', ask);
  } catch (e) {
    return lost(e);
  }
  if (o.trouble) { refuse(o.trouble); return false; }
  Object.assign(state, { brief: o.brief, text: o.text, title: o.name, station: station || o.station, inches: o.inches });
  controls.changes = changes;
  controls.fill(o.controls);
  get('name').textContent = document.title = o.name;
  get('units').value = o.inches ? 'in' : 'mm';
  if (Object.keys(changes).length) await refill();
  if (noted) past.step({ ...state, changes });
  else past.note({ ...state, changes });
  if (!o.bench && !stage && get('space').contains(cam.figure)) location.reload(); // from a bench to a station
  if (state.station) await judge(); else solve();
  return true;
}

// reopen brings a brief back that the program keeps no more.
const reopen = () => open(state.text ? { text: state.text, name: state.title } : {}, controls.changes);

// restore goes to another step of the past.
async function restore({ brief, changes, station }) {
  if (brief !== state.brief) {
    const kept = designs.list.find((d) => d.brief === brief);
    return open(kept ? { text: kept.text, name: kept.title } : { brief }, changes, station);
  }
  stop();
  controls.changes = changes;
  state.station = station;
  await refill();
  if (station) judge(); else solve();
}

// again shows a kept design.
async function again(d) {
  if (d.brief === state.brief) {
    past.step({ ...d });
    await restore(d);
  } else await open({ text: d.text, name: d.title }, d.changes, d.station, true);
  get('station').focus();
}

// mend makes changes that a search has shown to do.
async function mend(changes) {
  Object.assign(controls.changes, changes);
  past.step({ ...state, changes: controls.changes });
  await refill();
  get('results').focus();
  solve();
}

// shape takes the strength curve from points.
function shape(points) {
  controls.changes['resistance.curve'] = 'table';
  controls.changes['resistance.curve_table'] = points.map(([x, s]) => `${x} deg ${s}`).join(', ');
}

function keep() {
  const a = state.answer, row = a.over.rows.find((r) => r.name === 'torque delivered');
  let picture = null;
  if (stage?.space.scene) {
    const small = element('canvas', { width: 300, height: 220 }), c = small.getContext('2d'), from = stage.canvas;
    stage.space.draw();
    const k = Math.max(300 / from.width, 220 / from.height);
    c.drawImage(from, (300 - from.width * k) / 2, (220 - from.height * k) / 2, from.width * k, from.height * k);
    picture = small.toDataURL('image/webp', 0.8);
  }
  designs.keep({ brief: state.brief, text: state.text, title: state.title, station: state.station, changes: { ...controls.changes }, verdict: a.verdict, figures: a.figures, failing: a.failing, line: { angles: a.over.angles, values: row?.values }, picture });
}

// outlined shows the station's views in lines, unless another answer is shown meanwhile.
async function outlined() {
  const mine = drawn;
  try {
    const { views, trouble } = await link.ask('views', question());
    if (!trouble && mine === drawn) place('view', views ?? []);
  } catch (e) { lost(e); }
}

async function makeFiles() {
  get('making').textContent = 'Drawing';
  usable(get('make'), false);
  try {
    const body = await link.ask('files', question());
    if (body.trouble) return refuse(body.trouble);
    get('files').replaceChildren(element('ul', { class: 'files' }, ...body.files.map((f) => element('li', {},
      element('button', { type: 'button', onclick: async () => { try { save(f.path.split('/').pop(), await link.file(body.number, f.path)); } catch (e) { get('making').textContent = e.message; } } }, f.path), ` ${Math.ceil(f.bytes / 1000)} kB`))));
    get('making').textContent = `${body.files.length} files, station.zip holds them all`;
  } catch (e) {
    lost(e);
    get('making').textContent = '';
  } finally {
    usable(get('make'), true);
  }
}

async function saveBrief() {
  const r = await link.ask('brief', question());
  if (r.trouble) refuse(r.trouble);
  else save('brief.yaml', new Blob([r.text], { type: 'application/yaml' }));
}

press('solve', () => solve());
press('afresh', () => solve(true));
press('cancel', () => { stop(); tell('Stopped; the last station is still shown'); });
press('reset', async () => { controls.changes = {}; past.step({ ...state, changes: {} }); await refill(); solve(); });
press('save', saveBrief);
press('make', makeFiles);
press('keep', keep);
press('hand', () => {
  chart.byHand = !chart.byHand;
  get('hand').setAttribute('aria-pressed', chart.byHand);
  chart.draw();
});
get('units').addEventListener('change', async (e) => {
  controls.changes['drawing.units'] = e.target.value;
  past.step({ ...state, changes: controls.changes });
  await refill();
  drag();
});
get('example').addEventListener('change', async (e) => {
  const example = e.target.value;
  e.target.value = '';
  if (example) await open({ example }, {}, '', true);
});
get('file').addEventListener('change', async (e) => {
  const [f] = e.target.files;
  e.target.value = '';
  if (f) await open({ name: f.name, text: await f.text() }, {}, '', true);
});
get('csv').addEventListener('change', async (e) => {
  const [f] = e.target.files;
  e.target.value = '';
  if (!f) return;
  const r = await link.ask('curve', { name: f.name, text: await f.text() });
  if (r.trouble) return refuse(r.trouble);
  Object.assign(controls.changes, { 'resistance.curve': 'table', 'resistance.curve_table': r.table });
  await refill();
  settle('resistance.curve');
});
get('persons-file').addEventListener('change', (e) => {
  const [f] = e.target.files;
  e.target.value = '';
  if (f) persons.open(f);
});
get('views').addEventListener('toggle', () => {
  state.views = get('views').open || !stage;
  if (state.views && state.station) outlined();
});
// The part after the # is the state, so links within the page leave it alone.
for (const a of document.querySelectorAll('a.to')) {
  a.addEventListener('click', (e) => {
    e.preventDefault();
    const part = get(a.getAttribute('href').slice(1));
    part.scrollIntoView();
    part.focus({ preventScroll: true });
  });
}
addEventListener('keydown', (e) => { if (e.key === 'Escape' && get('menu').open) { get('menu').open = false; get('menu').querySelector('summary').focus(); } });

async function begin() {
  const { brief, changes } = past.address();
  if (!brief && !Object.keys(changes).length) return open({});
  const kept = designs.list.find((d) => d.brief === brief);
  if (!await open(kept ? { text: kept.text, name: kept.title } : { brief }, changes, history.state?.station)) {
    if (await open({}, changes)) get('trouble').replaceChildren(element('p', {}, 'The address was made with another brief; its changes were put to this one.'));
  }
}
begin();
