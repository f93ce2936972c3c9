"""Reads STEP files with gmsh's OpenCASCADE and prints what it found as JSON, a
list with one entry a file.

Usage: gmsh_step.py [--overlaps] FILE...

For every solid: the label (product names joined by /), volume, centroid,
inertia, bounding box, whether its boundary is closed (every curve of it bounds
two faces). With --overlaps also every pair of solids that share volume.
"""
import json
import sys

import gmsh


def main(args):
    gmsh.initialize()
    gmsh.option.setNumber("General.Terminal", 0)
    gmsh.option.setNumber("Geometry.OCCImportLabels", 1)
    gmsh.option.setNumber("Geometry.OCCBoundsUseStl", 0)
    gmsh.option.setString("Geometry.OCCTargetUnit", "MM")
    found = [read(path, "--overlaps" in args) for path in args if path != "--overlaps"]
    gmsh.finalize()
    return found


def read(path, overlaps):
    gmsh.clear()
    occ = gmsh.model.occ
    occ.importShapes(path, highestDimOnly=True)
    occ.synchronize()
    solids = gmsh.model.getEntities(3)
    found = {
        "solids": [describe(occ, tag) for _, tag in solids],
        "others": len([1 for dim in (0, 1, 2) for e in gmsh.model.getEntities(dim) if not upward(e)]),
    }
    if overlaps:
        found["overlaps"] = shared(occ, solids)
    return found


def upward(entity):
    """Whether an entity bounds another."""
    return entity[0] == 3 or len(gmsh.model.getAdjacencies(*entity)[0]) > 0


def describe(occ, tag):
    faces = gmsh.model.getBoundary([(3, tag)], combined=False, oriented=False)
    uses = {}
    for face in faces:
        for curve in gmsh.model.getBoundary([face], combined=False, oriented=False):
            if occ.getMass(1, curve[1]) > 1e-9:  # no cone's tip
                uses[curve[1]] = uses.get(curve[1], 0) + 1
    return {
        "label": gmsh.model.getEntityName(3, tag),
        "volume": occ.getMass(3, tag),
        "centroid": occ.getCenterOfMass(3, tag),
        "inertia": list(occ.getMatrixOfInertia(3, tag)),
        "box": box(occ, faces),
        "faces": len(faces),
        "closed": bool(uses) and all(n == 2 for n in uses.values()),
    }


def box(occ, faces):
    """The box of points along the curves, since OpenCASCADE's own is wide of
    ellipses; of a sphere its own, which is not."""
    low, high = [float("inf")] * 3, [float("-inf")] * 3

    def widen(points):
        for n in range(3):
            low[n] = min(low[n], *points[n::3])
            high[n] = max(high[n], *points[n::3])

    for face in faces:
        if gmsh.model.getType(*face) == "Sphere":
            widen(occ.getBoundingBox(*face))
    for curve in gmsh.model.getBoundary(faces, combined=False, oriented=False):
        start, end = (x[0] for x in gmsh.model.getParametrizationBounds(*curve))
        pieces = 1 if gmsh.model.getType(*curve) == "Line" else 256
        widen(gmsh.model.getValue(*curve, [start + (end - start) * i / pieces for i in range(pieces + 1)]))
    return low + high


def shared(occ, solids):
    """Pairs of solids whose boxes meet and that share volume."""
    boxes = [occ.getBoundingBox(3, tag) for _, tag in solids]
    out = []
    for i, a in enumerate(solids):
        for k in range(i):
            if any(boxes[i][n] >= boxes[k][n + 3] or boxes[k][n] >= boxes[i][n + 3] for n in range(3)):
                continue
            both, _ = occ.intersect([a], [solids[k]], removeObject=False, removeTool=False)
            volume = sum(occ.getMass(3, tag) for dim, tag in both if dim == 3)
            if both:
                occ.remove(both, recursive=True)
            if volume > 0:
                out.append({"solids": [k, i], "volume": volume})
    return out


if __name__ == "__main__":
    json.dump(main(sys.argv[1:]), sys.stdout, indent=1)
