// How questions reach the program: over HTTP to the command on this machine, or to a
// worker that runs it in the browser. Both answer alike.
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

class Local {
  constructor(solver) {
    this.worker = new Worker(new URL('worker.js', import.meta.url));
    this.worker.postMessage({ solver: new URL(solver, document.baseURI).href });
    this.waiting = new Map();
    this.last = 0;
    this.worker.addEventListener('message', ({ data }) => {
      if (data.broken) { for (const w of this.waiting.values()) w.fail(new Error(data.broken)); this.waiting.clear(); return; }
      const w = this.waiting.get(data.id);
      if (!w) return;
      if (data.step !== undefined) return w.step(JSON.parse(data.step));
      this.waiting.delete(data.id);
      w.done(data);
    });
  }

  send(path, body, step) {
    const id = ++this.last;
    const end = new Promise((done, fail) => this.waiting.set(id, { done, fail, step }));
    this.worker.postMessage({ id, path, body: JSON.stringify(body) });
    return { id, end };
  }

  async ask(path, body) {
    const { reply } = await this.send(path, body).end;
    return JSON.parse(reply);
  }

  async search(body, step, signal) {
    const { id, end } = this.send('solve', body, (s) => { if (!signal.aborted) step(s); });
    signal.addEventListener('abort', () => this.worker.postMessage({ cancel: id }));
    await end;
    signal.throwIfAborted();
  }

  async file(number, path) {
    const { bytes } = await this.send('file', { number, path }).end;
    if (!bytes) throw new Error('these files are no longer kept; make them again');
    return new Blob([bytes]);
  }
}

export const link = document.body.dataset.solver ? new Local(document.body.dataset.solver) : new Server();
