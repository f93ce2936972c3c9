// Placements as 4 x 4 matrices, column by column, as WebGL takes them.
export const one = () => [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];

// placed is a placement told as own x, y and z axes and origin.
export const placed = (p) => [p[0], p[1], p[2], 0, p[3], p[4], p[5], 0, p[6], p[7], p[8], 0, p[9], p[10], p[11], 1];

export function times(a, b) {
  const out = new Array(16);
  for (let c = 0; c < 4; c++) {
    for (let r = 0; r < 4; r++) {
      out[4 * c + r] = a[r] * b[4 * c] + a[4 + r] * b[4 * c + 1] + a[8 + r] * b[4 * c + 2] + a[12 + r] * b[4 * c + 3];
    }
  }
  return out;
}

export const shift = (v, by = 1) => [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, v[0] * by, v[1] * by, v[2] * by, 1];

// turned is a turn about the line through a point along a unit vector (Rodrigues).
export function turned(point, k, angle) {
  const s = Math.sin(angle), c = Math.cos(angle), v = 1 - c;
  const m = [
    c + v * k[0] * k[0], v * k[0] * k[1] + s * k[2], v * k[0] * k[2] - s * k[1], 0,
    v * k[0] * k[1] - s * k[2], c + v * k[1] * k[1], v * k[1] * k[2] + s * k[0], 0,
    v * k[0] * k[2] + s * k[1], v * k[1] * k[2] - s * k[0], c + v * k[2] * k[2], 0, 0, 0, 0, 1];
  const p = apply(m, point);
  m[12] = point[0] - p[0]; m[13] = point[1] - p[1]; m[14] = point[2] - p[2];
  return m;
}

export const apply = (m, v) => [
  m[0] * v[0] + m[4] * v[1] + m[8] * v[2] + m[12],
  m[1] * v[0] + m[5] * v[1] + m[9] * v[2] + m[13],
  m[2] * v[0] + m[6] * v[1] + m[10] * v[2] + m[14]];

// mirror is the one in the x-z plane.
export const mirror = [1, 0, 0, 0, 0, -1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];

export const add = (a, b, by = 1) => [a[0] + by * b[0], a[1] + by * b[1], a[2] + by * b[2]];
export const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
export const unit = (a) => { const n = Math.hypot(a[0], a[1], a[2]) || 1; return [a[0] / n, a[1] / n, a[2] / n]; };
export const mix = (a, b, t) => a.map((x, i) => x + (b[i] - x) * t);

// looking is the view from an eye to a target with z up, and perspective the lens:
// half the picture's height at unit distance, its proportion, near and far.
export function looking(eye, target) {
  const z = unit(add(eye, target, -1)), x = unit(cross([0, 0, 1], z)), y = cross(z, x);
  return [x[0], y[0], z[0], 0, x[1], y[1], z[1], 0, x[2], y[2], z[2], 0, -dot(x, eye), -dot(y, eye), -dot(z, eye), 1];
}
export function perspective(half, wide, near, far) {
  return [1 / (half * wide), 0, 0, 0, 0, 1 / half, 0, 0, 0, 0, (far + near) / (near - far), -1, 0, 0, 2 * far * near / (near - far), 0];
}
