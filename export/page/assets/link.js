// How questions reach the program: over HTTP to the command on this machine, or to
// workers that run it in the browser. Both answer alike.
//
//   ask(path, body)            the answer
//   search(body, step, signal) the steps of a search; the signal ends it
//   file(number, path)         a file that was made, as a blob
//   lost                       what to tell when no answer comes

class Server {
  lost = 'The program does not answer; is the command still running?';

  async post(path, body, signal) {
    const r = await fetch(`/${path}`, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body), signal });
    if (!r.headers.get('Content-Type').match(/json|yaml/)) throw new Error(await r.text());
    return r;
  }

  async ask(path, body) {
    const r = await this.post(path, body);
    return r.headers.get('Content-Type').includes('json') ? r.json() : { text: await r.text() };
  }

  // search reads a value a line.
  async search(body, step, signal) {
    const r = await this.post('solve', body, signal);
    const reader = r.body.pipeThrough(new TextDecoderStream()).getReader();
    for (let rest = ''; ;) {
      const { value, done } = await reader.read();
      if (done) return;
      const whole = (rest + value).split('\n');
      rest = whole.pop();
      for (const line of whole) step(JSON.parse(line));
    }
  }

  async file(number, path) {
    const r = await fetch(`/files/${number}/${path}`);
    if (!r.ok) throw new Error(await r.text());
    return r.blob();
  }
}

// found is what lies beside the page or, where it stands alone, within it.
async function found(name) {
  const within = document.getElementById(name);
  if (within) return Uint8Array.from(atob(within.textContent.trim()), (c) => c.charCodeAt(0)).buffer;
  const r = await fetch(new URL(name, document.baseURI));
  if (!r.ok) throw new Error(`${name} is not beside this page`);
  return r.arrayBuffer();
}

const utf8 = (buffer) => new TextDecoder().decode(buffer);

// How long a program may take to start, and to answer what is no search, ms: far more than
// on a busy machine, since a worker that the browser has ended for want of memory says
// nothing.
const startTime = 180000, answerTime = 300000;

// Program is a program in a worker of its own. Once it is broken it answers nothing more.
class Program {
  constructor(name) {
    this.waiting = new Map();
    this.last = 0;
    this.started = this.start(name).catch((e) => this.fail(e.message));
  }

  async start(name) {
    const [program, brief] = await Promise.all([found(name), found('brief.json')]);
    const source = document.getElementById('worker.js') && URL.createObjectURL(new Blob([await found('worker.js')], { type: 'text/javascript' }));
    this.worker = new Worker(source || new URL('worker.js', import.meta.url));
    await new Promise((ready, fail) => {
      const late = setTimeout(() => fail(new Error('the program does not start')), startTime);
      const broken = (why) => {
        clearTimeout(late);
        fail(new Error(why));
        this.fail(why);
      };
      this.worker.addEventListener('error', (e) => broken(e.message || 'its worker cannot be loaded'));
      this.worker.addEventListener('messageerror', () => broken('its answer cannot be read'));
      this.worker.addEventListener('message', ({ data }) => {
        if (data.broken) return broken(data.broken);
        if (data.ready) {
          clearTimeout(late);
          return ready();
        }
        const w = this.waiting.get(data.id);
        if (!w) return;
        if (data.step !== undefined) return w.step(JSON.parse(data.step));
        this.waiting.delete(data.id);
        w.done(data);
      });
      this.worker.postMessage({ program, brief: JSON.parse(utf8(brief)) }, [program]);
    });
  }

  fail(why) {
    if (this.broken) return;
    this.broken = why;
    this.worker?.terminate();
    for (const w of this.waiting.values()) w.fail(new Error(why));
    this.waiting.clear();
  }

  send(path, body, step) {
    if (this.broken) return { id: 0, end: Promise.reject(new Error(this.broken)) };
    const id = ++this.last;
    const end = new Promise((done, fail) => this.waiting.set(id, { done, fail, step }));
    end.catch(() => {}); // whoever asked hears of it
    this.started.then(() => { if (!this.broken) this.worker.postMessage({ id, path, body: JSON.stringify(body) }); });
    return { id, end };
  }

  // ask waits for as long as the program starts, searches or answers, and no longer.
  async ask(path, body) {
    const { end } = this.send(path, body);
    await this.started;
    let late = 0;
    const wait = () => { late = setTimeout(() => ([...this.waiting.values()].some((w) => w.step) ? wait() : this.fail('the program does not answer')), answerTime); };
    wait();
    try {
      return await end;
    } finally {
      clearTimeout(late);
    }
  }

  cancel(id) { this.started.then(() => { if (!this.broken) this.worker.postMessage({ cancel: id }); }); }
}

// Local is the page's own program, and the one that makes drawings and files, which is
// loaded when the first are asked for.
class Local {
  lost = 'The program in this page has stopped; Solve starts it again';

  constructor(names) {
    this.names = names;
    this.running = {};
    this.program('solver');
  }

  // program is the one that runs, or another in its place.
  program(kind) {
    if (!this.running[kind] || this.running[kind].broken) this.running[kind] = new Program(this.names[kind]);
    return this.running[kind];
  }

  async told(kind, path, body) { return JSON.parse((await this.program(kind).ask(path, body)).reply); }

  async ask(path, body) {
    if (!['files', 'views'].includes(path)) return this.told('solver', path, body);
    const station = await this.told('solver', 'hand', body);
    return station.trouble ? station : this.told('files', path, station);
  }

  async search(body, step, signal) {
    const program = this.program('solver');
    const { id, end } = program.send('solve', body, (s) => { if (!signal.aborted) step(s); });
    signal.addEventListener('abort', () => program.cancel(id));
    await end;
    signal.throwIfAborted();
  }

  async file(number, path) {
    const { bytes } = await this.program('files').ask('file', { number, path });
    if (!bytes?.length) throw new Error('these files are no longer kept; make them again');
    return new Blob([bytes]);
  }
}

export const link = document.body.dataset.solver ? new Local(document.body.dataset) : new Server();
