// Reads DXF files with dxf-parser, a path a line on standard input, and prints
// what it found in each as a line of JSON. NODE_PATH=$(npm root -g) finds it.

const fs = require('fs');
const readline = require('readline');
const parser = require('dxf-parser');
const Parser = parser.default || parser;

readline.createInterface({ input: process.stdin }).on('line', (path) => console.log(JSON.stringify(seen(path))));

function seen(path) {
  const doc = new Parser().parseSync(fs.readFileSync(path, 'utf8'));
  const entities = {};
  for (const e of doc.entities) {
    entities[e.type] = (entities[e.type] || 0) + 1;
  }
  const polylines = doc.entities
    .filter((e) => e.type === 'LWPOLYLINE' || e.type === 'POLYLINE')
    .map((e) => e.vertices.length);
  const layers = Object.keys(doc.tables?.layer?.layers ?? {}).sort();
  const units = doc.header?.$INSUNITS ?? 0;
  return { entities, polylines, layers, units };
}
