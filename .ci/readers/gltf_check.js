// Checks a glTF file with the validator of the format's makers and prints what
// it found as JSON, with the nodes that carry a mesh.
//
// Usage: NODE_PATH=$(npm root -g) node gltf_check.js FILE

const fs = require('fs');
const validator = require('gltf-validator');

const data = new Uint8Array(fs.readFileSync(process.argv[2]));
const length = new DataView(data.buffer, data.byteOffset).getUint32(12, true);
const gltf = JSON.parse(Buffer.from(data.subarray(20, 20 + length)).toString());

validator.validateBytes(data, { maxIssues: 20 }).then((report) => {
  const { numErrors, numWarnings, numInfos, numHints, messages } = report.issues;
  console.log(JSON.stringify({
    issues: numErrors + numWarnings + numInfos + numHints,
    messages: messages.map((m) => `${m.code} ${m.pointer}: ${m.message}`),
    triangles: report.info.totalTriangleCount,
    materials: report.info.materialCount,
    nodes: gltf.nodes.filter((n) => n.mesh !== undefined).map((n) => n.name),
  }));
});
