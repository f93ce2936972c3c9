"""Prints the closed polylines of a DXF file on one layer as JSON.

Usage: ezdxf_polylines.py LAYER FILE

Each polyline is a list of [x, y, bulge], read with ezdxf.
"""
import json
import sys

import ezdxf


def main(layer, path):
    model = ezdxf.readfile(path).modelspace()
    return [
        [list(point) for point in line.get_points("xyb")]
        for line in model.query("LWPOLYLINE")
        if line.dxf.layer == layer and line.closed
    ]


if __name__ == "__main__":
    json.dump(main(sys.argv[1], sys.argv[2]), sys.stdout)
