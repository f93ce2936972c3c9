// Bodies as triangles: packed meshes, hulls of balls, tubes along lines. A surface is
// { points, normals, triangles }, three numbers each.
import { add, cross, dot, unit } from './matrix.js';

// unpacked undoes the packing of a scene's mesh: differences, one coordinate after
// the other.
export function unpacked(m) {
  const summed = (kind, from) => {
    const n = from.length / 3, out = new kind(from.length);
    for (let k = 0; k < 3; k++) {
      for (let i = 0, sum = 0; i < n; i++) out[3 * i + k] = sum += from[k * n + i];
    }
    return out;
  };
  return {
    points: summed(Float32Array, m.points).map((q, i) => m.low[i % 3] + q * m.step),
    normals: summed(Float32Array, m.normals).map((q) => q / 127),
    triangles: summed(Uint16Array, m.triangles),
  };
}

// edges are pairs of points where two faces meet at an angle, for the outline.
// Within a face triangles share their corners, so that its border is what one
// triangle has alone; a border that another face continues smoothly is none.
export function edges(s) {
  const alone = new Map(), n = s.points.length / 3;
  for (let i = 0; i < s.triangles.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const a = s.triangles[i + k], b = s.triangles[i + (k + 1) % 3], back = b * n + a;
      if (!alone.delete(back)) alone.set(a * n + b, [a, b]);
    }
  }
  const place = (i) => `${s.points[3 * i].toFixed(1)},${s.points[3 * i + 1].toFixed(1)},${s.points[3 * i + 2].toFixed(1)}`;
  const normal = (i) => s.normals.subarray(3 * i, 3 * i + 3);
  const seen = new Map(), out = [];
  for (const [a, b] of alone.values()) {
    const p = place(a), q = place(b), key = p < q ? p + '|' + q : q + '|' + p;
    const other = seen.get(key);
    if (other === undefined) seen.set(key, a);
    else if (dot(normal(a), normal(other)) < 0.85 || dot(normal(b), normal(other)) < 0.85) out.push(a, b); // 32 degrees
  }
  return out;
}

// sphere is a divided octahedron: directions, and triangles between them.
const fineness = 9;
const sphere = (() => {
  const at = new Map(), directions = [], triangles = [];
  const corner = (x, y, z) => {
    const key = `${x},${y},${z}`;
    if (!at.has(key)) { at.set(key, directions.length); directions.push(unit([x, y, z])); }
    return at.get(key);
  };
  for (const sx of [1, -1]) for (const sy of [1, -1]) for (const sz of [1, -1]) {
    const put = (...all) => {
      const t = all.map(([i, j]) => corner(sx * i, sy * j, sz * (fineness - i - j)));
      triangles.push(...(sx * sy * sz < 0 ? [t[0], t[2], t[1]] : t));
    };
    for (let i = 0; i < fineness; i++) for (let j = 0; j < fineness - i; j++) {
      put([i, j], [i + 1, j], [i, j + 1]);
      if (i + j < fineness - 1) put([i + 1, j], [i + 1, j + 1], [i, j + 1]);
    }
  }
  return { directions, triangles };
})();

// hull is the hull of balls [x, y, z, radius]: for each direction the farthest point.
export function hull(balls) {
  const points = new Float32Array(3 * sphere.directions.length), normals = new Float32Array(points.length);
  sphere.directions.forEach((d, i) => {
    let best = -Infinity, at = null;
    for (const b of balls) {
      const far = dot(d, b) + b[3];
      if (far > best) [best, at] = [far, b];
    }
    for (let k = 0; k < 3; k++) { points[3 * i + k] = at[k] + at[3] * d[k]; normals[3 * i + k] = d[k]; }
  });
  return { points, normals, triangles: sphere.triangles };
}

// tube is a round of a radius along a line.
const sides = 7;
export function tube(line, radius, closed = false) {
  const ends = line.filter((p, i) => i === 0 || Math.hypot(...add(p, line[i - 1], -1)) > 0.01);
  const points = [], normals = [], triangles = [], n = ends.length;
  if (n < 2) return { points, normals, triangles };
  let side = null;
  for (let i = 0; i < n; i++) {
    const before = ends[i > 0 ? i - 1 : closed ? n - 1 : 0], after = ends[i < n - 1 ? i + 1 : closed ? 0 : n - 1];
    const along = unit(add(after, before, -1));
    const from = side ?? (Math.abs(along[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]);
    side = unit(add(from, along, -dot(from, along)));
    const up = cross(along, side);
    for (let k = 0; k < sides; k++) {
      const c = Math.cos(2 * Math.PI * k / sides), s = Math.sin(2 * Math.PI * k / sides);
      const d = [c * side[0] + s * up[0], c * side[1] + s * up[1], c * side[2] + s * up[2]];
      points.push(...add(ends[i], d, radius));
      normals.push(...d);
    }
  }
  for (let i = 0; i < (closed ? n : n - 1); i++) {
    for (let k = 0; k < sides; k++) {
      const a = i * sides + k, b = i * sides + (k + 1) % sides, c = (i + 1) % n * sides + k, d = (i + 1) % n * sides + (k + 1) % sides;
      triangles.push(a, b, c, c, b, d);
    }
  }
  return { points, normals, triangles };
}
