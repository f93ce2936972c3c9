// Reads a DXF file with dxf-parser and prints what it found as JSON.
//
// Usage: NODE_PATH=$(npm root -g) node dxf_parser.js FILE

const fs = require('fs');
const parser = require('dxf-parser');
const Parser = parser.default || parser;

const doc = new Parser().parseSync(fs.readFileSync(process.argv[2], 'utf8'));
const entities = {};
for (const e of doc.entities) {
  entities[e.type] = (entities[e.type] || 0) + 1;
}
const polylines = doc.entities
  .filter((e) => e.type === 'LWPOLYLINE' || e.type === 'POLYLINE')
  .map((e) => e.vertices.length);
const layers = Object.keys(doc.tables?.layer?.layers ?? {}).sort();
const units = doc.header?.$INSUNITS ?? 0;
console.log(JSON.stringify({ entities, polylines, layers, units }));
