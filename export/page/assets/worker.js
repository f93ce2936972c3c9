// Runs the program as WebAssembly. The first message is it, with the brief; those that
// follow are questions, answered as link.js reads them.
let ask = null;
const waiting = [];

self.onmessage = ({ data }) => {
  if (data.program) begin(data).catch((e) => postMessage({ broken: `the program cannot be started: ${e.message}` }));
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

// begin starts the program, packed or not, with the brief that the page begins with.
async function begin({ program, brief }) {
  if (!self.Go) importScripts(new URL('wasm_exec.js', self.location));
  const first = new Uint8Array(program, 0, 2);
  if (first[0] === 0x1f && first[1] === 0x8b) program = await new Response(new Blob([program]).stream().pipeThrough(new DecompressionStream('gzip'))).arrayBuffer();
  const go = new Go();
  const { instance } = await WebAssembly.instantiate(program, go.importObject);
  go.run(instance).then(() => postMessage({ broken: 'the program has ended; load the page anew' }));
  const made = self.armwright.begin(brief.text, brief.program);
  if (typeof made === 'string') throw new Error(made);
  ask = made;
  postMessage({ ready: true });
  waiting.splice(0).forEach(put);
}
