// How questions reach the program: over HTTP to the command on this machine, or to
// workers that run it in the browser. Both answer alike.
//
//   ask(path, body)            the answer
//   search(body, step, signal) the steps of a search; the signal ends it
//   file(number, path)         a file that was made, as a blob

class Server {
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

// Program is a program in a worker of its own.
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
    this.worker.addEventListener('error', (e) => this.fail(e.message));
    this.worker.addEventListener('message', ({ data }) => {
      if (data.broken) return this.fail(data.broken);
      const w = this.waiting.get(data.id);
      if (!w) return;
      if (data.step !== undefined) return w.step(JSON.parse(data.step));
      this.waiting.delete(data.id);
      w.done(data);
    });
    this.worker.postMessage({ program, brief: JSON.parse(utf8(brief)) }, [program]);
  }

  fail(why) {
    this.broken = why;
    for (const w of this.waiting.values()) w.fail(new Error(why));
    this.waiting.clear();
  }

  send(path, body, step) {
    const id = ++this.last;
    const end = new Promise((done, fail) => {
      this.waiting.set(id, { done, fail, step });
      if (this.broken) this.fail(this.broken);
    });
    this.started.then(() => this.worker?.postMessage({ id, path, body: JSON.stringify(body) }));
    return { id, end };
  }

  async ask(path, body) {
    const { reply } = await this.send(path, body).end;
    return JSON.parse(reply);
  }

  cancel(id) { this.started.then(() => this.worker?.postMessage({ cancel: id })); }
}

// Local is the page's own program, and the one that makes drawings and files, which is
// loaded when the first are asked for.
class Local {
  constructor({ solver, files }) {
    this.solver = new Program(solver);
    this.files = files;
  }

  async ask(path, body) {
    if (!['files', 'views'].includes(path)) return this.solver.ask(path, body);
    const station = await this.solver.ask('hand', body);
    if (station.trouble) return station;
    if (!this.maker || this.maker.broken) this.maker = new Program(this.files);
    return this.maker.ask(path, station);
  }

  async search(body, step, signal) {
    const { id, end } = this.solver.send('solve', body, (s) => { if (!signal.aborted) step(s); });
    signal.addEventListener('abort', () => this.solver.cancel(id));
    await end;
    signal.throwIfAborted();
  }

  async file(number, path) {
    const { bytes } = await this.maker.send('file', { number, path }).end;
    if (!bytes?.length) throw new Error('these files are no longer kept; make them again');
    return new Blob([bytes]);
  }
}

export const link = document.body.dataset.solver ? new Local(document.body.dataset) : new Server();
