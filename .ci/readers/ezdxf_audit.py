"""Reads DXF files strictly with ezdxf, a path a line on standard input, and
prints what it found in each as a line of JSON.

"errors" are defects ezdxf cannot repair, "fixes" those it repaired on
loading; a sound file has neither.
"""
import collections
import json
import sys

import ezdxf


def main(path):
    try:
        doc = ezdxf.readfile(path)
    except (IOError, ezdxf.DXFError) as err:
        return {"errors": [str(err)], "fixes": [], "entities": {}}
    auditor = doc.audit()
    model = doc.modelspace()
    return {
        "errors": [e.message for e in auditor.errors],
        "fixes": [e.message for e in auditor.fixes],
        "version": doc.dxfversion,
        "units": doc.header.get("$INSUNITS", 0),
        "layers": sorted(layer.dxf.name for layer in doc.layers),
        "entities": dict(collections.Counter(e.dxftype() for e in model)),
        "texts": [e.plain_text() for e in model.query("TEXT")],
        "dimensions": [
            {
                "type": e.dimtype,
                "text": e.dxf.text,
                "measurement": stored_measurement(e),
                "style_factor": e.get_dim_style().dxf.get("dimlfac", 1),
                "block": e.dxf.geometry,
                "picture": len(list(e.virtual_entities())),
            }
            for e in model.query("DIMENSION")
        ],
    }


def stored_measurement(dim):
    """The stored measurement, which release 12 does not have."""
    return dim.dxf.get("actual_measurement")


if __name__ == "__main__":
    for line in sys.stdin:
        print(json.dumps(main(line.rstrip("\n"))), flush=True)
