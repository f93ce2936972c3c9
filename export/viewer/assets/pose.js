// Where everything stands in a pose: the motions of the scene's groups, the cable's
// way, the moving arms of a person. Flexion in radians.
import { one, placed, times, shift, turned, apply, mix } from './matrix.js';

// share is where a flexion lies among n + 1 even steps of the range: index and rest.
function share(scene, flexion, n) {
  const x = Math.min(Math.max((flexion - scene.first) / (scene.last - scene.first || 1), 0), 1) * n;
  const i = Math.min(Math.floor(x), n - 1);
  return [i, x - i];
}

export function lifted(scene, flexion) {
  if (!scene.lift) return 0;
  const [i, t] = share(scene, flexion, scene.lift.length - 1);
  return scene.lift[i] + (scene.lift[i + 1] - scene.lift[i]) * t;
}

// groupPlaces are the displacements of all groups from the reference pose.
export function groupPlaces(scene, pose) {
  const out = [];
  for (const g of scene.groups) {
    const m = g.motion;
    let d = one();
    if (m.turn) d = turned(m.turn.point, m.turn.axis, m.turn.ratio * (pose.flexion - m.turn.from));
    else if (m.step) d = shift(m.step, pose[m.setting]);
    else if (m.places) d = placed(m.places[Math.min(m.places.length - 1, pose[m.setting])]);
    else if (m.lift) d = shift([0, 0, m.lift * lifted(scene, pose.flexion)]);
    else if (m.course) {
      const [i, t] = share(scene, pose.flexion, m.course.length - 1);
      d = placed(mix(m.course[i], m.course[i + 1], t));
    }
    out.push(g.parent < 0 ? d : times(out[g.parent], d));
  }
  return out;
}

// cablePoints is the centre line of a cable in a pose.
export function cablePoints(scene, cable, pose, places) {
  const up = lifted(scene, pose.flexion);
  const rest = cable.path.map((p, i) => {
    p = apply(places[cable.group], p);
    return i >= cable.path.length - (cable.rising ?? 0) ? [p[0], p[1], p[2] + up] : p;
  });
  if (!cable.lead) return rest;
  const over = cable.lead[Math.min(pose.axis, cable.lead.length - 1)];
  const [i, t] = share(scene, pose.flexion, over.length - 1);
  return over[i].map((p, k) => mix(p, over[i + 1][k], t)).concat(rest);
}

// orbAt is the place of what moves with a person's elbow.
export function orbAt(o, flexion) {
  const s = Math.sin(flexion), c = Math.cos(flexion);
  return o.still.map((x, k) => x + s * o.sin[k] + c * o.cos[k]);
}

// handlePath and handPath are where grip and hand go over the whole range.
const pathSteps = 40;
const overRange = (scene, f) => Array.from({ length: pathSteps + 1 }, (_, i) => f(scene.first + (scene.last - scene.first) * i / pathSteps));
export const handlePath = (scene, pose) => overRange(scene, (flexion) => apply(groupPlaces(scene, { ...pose, flexion })[scene.handle.group], scene.handle.at));
export const handPath = (scene, person) => overRange(scene, (flexion) => orbAt(person.hand, flexion));
