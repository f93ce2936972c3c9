// Runs the program as WebAssembly. The first message names it; those that follow are
// questions, answered as link.js reads them.
let ask = null;
const waiting = [];

self.onmessage = ({ data }) => {
  if (data.solver) begin(data.solver).catch((e) => postMessage({ broken: `the program cannot be started: ${e.message}` }));
  else if (ask) put(data);
  else waiting.push(data);
};

function put({ id, path, body, cancel }) {
  if (cancel) return ask(cancel, 'cancel', '', null);
  ask(id, path, body, (kind, value) => {
    if (kind === 'step') postMessage({ id, step: value });
    else if (typeof value === 'string') postMessage({ id, reply: value });
    else postMessage({ id, bytes: value }, [value.buffer]);
  });
}

// begin fetches the program, packed or as the server unpacks it, and starts it with the
// brief that lies beside it.
async function begin(solver) {
  const at = (name) => new URL(name, solver);
  importScripts(new URL('wasm_exec.js', self.location));
  const [brief, response] = await Promise.all([fetch(at('brief.json')).then((r) => r.json()), fetch(solver)]);
  let data = await response.arrayBuffer();
  const first = new Uint8Array(data, 0, 2);
  if (first[0] === 0x1f && first[1] === 0x8b) data = await new Response(new Blob([data]).stream().pipeThrough(new DecompressionStream('gzip'))).arrayBuffer();
  const go = new Go();
  const { instance } = await WebAssembly.instantiate(data, go.importObject);
  go.run(instance).then(() => postMessage({ broken: 'the program has ended; load the page anew' }));
  const made = self.armwright.begin(brief.text, brief.program);
  if (typeof made === 'string') throw new Error(made);
  ask = made;
  waiting.splice(0).forEach(put);
}
