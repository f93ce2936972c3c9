// Draws surfaces and lines with WebGL 2: matt paint in the light of a workshop, the
// edges of parts in ink, shadows straight down on the floor.
import { apply, mirror, times } from './matrix.js';

const surfaceSource = [`#version 300 es
uniform mat4 model, view;
layout(location=0) in vec3 point;
layout(location=1) in vec3 normal;
layout(location=2) in float paint;
out vec3 n;
flat out int p;
void main() { n = mat3(model) * normal; p = int(paint); gl_Position = view * (model * vec4(point, 1.0)); }`, `#version 300 es
precision mediump float;
uniform vec3 paints[14];
uniform vec3 eye;
uniform float alpha;
uniform bool flatly;
in vec3 n;
flat in int p;
out vec4 colour;
void main() {
  vec3 c = paints[p];
  if (!flatly) {
    vec3 m = normalize(n);
    if (dot(m, eye) < 0.0) m = -m;
    float light = 0.52 + 0.22 * m.z + 0.30 * max(0.0, dot(m, normalize(eye + vec3(0.25, -0.35, 0.55))));
    c *= light;
  }
  colour = vec4(c * alpha, alpha);
}`];

function program(gl, [vertex, fragment]) {
  const p = gl.createProgram();
  for (const [kind, source] of [[gl.VERTEX_SHADER, vertex], [gl.FRAGMENT_SHADER, fragment]]) {
    const s = gl.createShader(kind);
    gl.shaderSource(s, source);
    gl.compileShader(s);
    if (!gl.getShaderParameter(s, gl.COMPILE_STATUS)) throw new Error(gl.getShaderInfoLog(s));
    gl.attachShader(p, s);
  }
  gl.linkProgram(p);
  const at = {};
  for (const name of ['model', 'view', 'paints', 'eye', 'alpha', 'flatly']) at[name] = gl.getUniformLocation(p, name);
  return { p, at };
}

// The paints by what they are for, in the order of the shader's list.
export const paintNames = ['stands', 'turns', 'swivels', 'rises', 'adjusts', 'soft', 'guards', 'fastens', 'person', 'cable', 'handle', 'hand', 'axis', 'short'];

export class Painter {
  // The context is null where the browser cannot draw so; then this throws.
  constructor(canvas) {
    const gl = canvas.getContext('webgl2', { antialias: true, stencil: true, alpha: true, powerPreference: 'low-power' });
    if (!gl) throw new Error('no WebGL');
    this.canvas = canvas;
    this.gl = gl;
    this.surface = program(gl, surfaceSource);
  }

  // buffer takes surfaces with a paint each, { points, normals, triangles, paint },
  // and pairs of points to be joined by ink.
  buffer(surfaces, ink = [], moving = false) {
    const gl = this.gl;
    let count = 0, corners = 0;
    for (const s of surfaces) { count += s.points.length / 3; corners += s.triangles.length; }
    const data = new Float32Array(7 * count), index = new Uint32Array(corners);
    let v = 0, t = 0;
    for (const s of surfaces) {
      for (let i = 0; i < s.triangles.length; i++) index[t++] = v + s.triangles[i];
      for (let i = 0; i < s.points.length; i += 3, v++) {
        const at = 7 * v;
        for (let k = 0; k < 3; k++) { data[at + k] = s.points[i + k]; data[at + 3 + k] = s.normals[i + k]; }
        data[at + 6] = paintNames.indexOf(s.paint);
      }
    }
    const array = gl.createVertexArray(), use = moving ? gl.DYNAMIC_DRAW : gl.STATIC_DRAW;
    gl.bindVertexArray(array);
    const points = gl.createBuffer(), triangles = gl.createBuffer();
    gl.bindBuffer(gl.ARRAY_BUFFER, points);
    gl.bufferData(gl.ARRAY_BUFFER, data, use);
    gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, triangles);
    gl.bufferData(gl.ELEMENT_ARRAY_BUFFER, index, use);
    for (const [i, n, from] of [[0, 3, 0], [1, 3, 12], [2, 1, 24]]) {
      gl.enableVertexAttribArray(i);
      gl.vertexAttribPointer(i, n, gl.FLOAT, false, 28, from);
    }
    let lines = null, inked = null;
    if (ink.length) {
      lines = gl.createVertexArray();
      inked = gl.createBuffer();
      gl.bindVertexArray(lines);
      gl.bindBuffer(gl.ARRAY_BUFFER, inked);
      gl.bufferData(gl.ARRAY_BUFFER, new Float32Array(ink), use);
      gl.enableVertexAttribArray(0);
      gl.vertexAttribPointer(0, 3, gl.FLOAT, false, 12, 0);
    }
    gl.bindVertexArray(null);
    return { array, corners, lines, ends: ink.length / 3, held: [points, triangles, inked], arrays: [array, lines] };
  }

  drop(b) {
    if (!b) return;
    for (const h of b.held) if (h) this.gl.deleteBuffer(h);
    for (const a of b.arrays) if (a) this.gl.deleteVertexArray(a);
  }

  // begin clears the picture for a view: matrix, direction to the eye, colours.
  begin(view, eye, colours) {
    const gl = this.gl, { p, at } = this.surface;
    this.colours = colours;
    this.view = view;
    gl.viewport(0, 0, this.canvas.width, this.canvas.height);
    gl.clearColor(0, 0, 0, 0);
    gl.clearStencil(0);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT | gl.STENCIL_BUFFER_BIT);
    gl.enable(gl.DEPTH_TEST);
    gl.depthFunc(gl.LEQUAL);
    gl.useProgram(p);
    gl.uniformMatrix4fv(at.view, false, view);
    gl.uniform3fv(at.paints, colours.paints);
    gl.uniform3fv(at.eye, eye);
    gl.uniform1f(at.alpha, 1);
    gl.uniform1i(at.flatly, 0);
    gl.enable(gl.BLEND);
    gl.blendFunc(gl.ONE, gl.ONE_MINUS_SRC_ALPHA);
  }

  each(items, draw) {
    const gl = this.gl, { at } = this.surface;
    for (const { buffer, model, pair } of items) {
      if (!buffer) continue;
      for (const m of pair ? [model, times(mirror, model)] : [model]) {
        gl.uniformMatrix4fv(at.model, false, m);
        draw(buffer);
      }
    }
  }

  faces(buffer) {
    this.gl.bindVertexArray(buffer.array);
    this.gl.drawElements(this.gl.TRIANGLES, buffer.corners, this.gl.UNSIGNED_INT, 0);
  }

  // bodies draws faces and their edges.
  bodies(items, alpha = 1, ink = true) {
    const gl = this.gl, { at } = this.surface;
    gl.uniform1f(at.alpha, alpha);
    gl.depthMask(alpha === 1);
    gl.enable(gl.POLYGON_OFFSET_FILL);
    gl.polygonOffset(1, 1);
    this.each(items, (b) => this.faces(b));
    gl.disable(gl.POLYGON_OFFSET_FILL);
    if (ink) this.ink(items, 0.6 * alpha);
    gl.depthMask(true);
    gl.uniform1f(at.alpha, 1);
  }

  // ink draws the lines of buffers in the ink's colour.
  ink(items, alpha) {
    const gl = this.gl, { at } = this.surface;
    gl.uniform1i(at.flatly, 1);
    gl.uniform1f(at.alpha, alpha);
    gl.uniform3fv(at.paints, this.colours.ink);
    gl.vertexAttrib1f(2, 0);
    gl.vertexAttrib3f(1, 0, 0, 1);
    this.each(items, (b) => {
      if (!b.lines) return;
      gl.bindVertexArray(b.lines);
      gl.drawArrays(gl.LINES, 0, b.ends);
    });
    gl.uniform3fv(at.paints, this.colours.paints);
    gl.uniform1i(at.flatly, 0);
    gl.uniform1f(at.alpha, 1);
  }

  // shadows draws what stands above the floor pressed flat onto it, once each spot.
  shadows(items, alpha) {
    const gl = this.gl, { at } = this.surface;
    const down = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0.5, 1];
    gl.uniformMatrix4fv(at.view, false, times(this.view, down));
    gl.uniform1i(at.flatly, 1);
    gl.uniform1f(at.alpha, alpha);
    gl.uniform3fv(at.paints, this.colours.ink);
    gl.enable(gl.STENCIL_TEST);
    gl.stencilFunc(gl.EQUAL, 0, 0xff);
    gl.stencilOp(gl.KEEP, gl.KEEP, gl.INCR);
    gl.depthMask(false);
    this.each(items, (b) => this.faces(b));
    gl.depthMask(true);
    gl.disable(gl.STENCIL_TEST);
    gl.uniformMatrix4fv(at.view, false, this.view);
    gl.uniform3fv(at.paints, this.colours.paints);
    gl.uniform1i(at.flatly, 0);
    gl.uniform1f(at.alpha, 1);
  }
}

// baked is a surface where a part stands.
export function baked(s, at, paint) {
  const points = new Float32Array(s.points.length), normals = new Float32Array(points.length);
  const turn = [...at.slice(0, 12), 0, 0, 0, 1];
  for (let i = 0; i < points.length; i += 3) {
    points.set(apply(at, s.points.subarray(i, i + 3)), i);
    normals.set(apply(turn, s.normals.subarray(i, i + 3)), i);
  }
  return { points, normals, triangles: s.triangles, paint };
}
