"""Has OpenCASCADE's own test program check the bodies of STEP files, and prints
what it found as JSON, a list with one entry a file.

Usage: occt_check.py FILE...

For every file: how many solids it holds; whether their faces, wires, edges and
vertices are valid, that is on each other within their tolerances, closed,
oriented and free of self-intersections; what was said about those that are not;
and the greatest of the tolerances, mm, which the reader widens where vertices,
curves and surfaces do not meet.
"""
import glob
import json
import os
import re
import subprocess
import sys
import tempfile

RESOURCES = "/usr/share/opencascade/resources"


def main(paths):
    script = "pload XDE OCAF MODELING\n"
    for path in paths:
        script += f'ReadStep D {{{path}}}\nXGetOneShape s D\nputs "== begin"\nputs [checkshape s]\nputs [nbshapes s]\nputs [maxtolerance s]\nClose D\n'
    with tempfile.TemporaryDirectory() as folder:
        # Plugins are asked for by names that only the packages for development have.
        for plugin in glob.glob("/usr/lib/*/libTK*.so.*"):
            name = os.path.join(folder, os.path.basename(plugin).split(".so")[0] + ".so")
            if not os.path.exists(name):
                os.symlink(plugin, name)
        tcl = os.path.join(folder, "check.tcl")
        with open(tcl, "w") as f:
            f.write(script)
        env = dict(
            os.environ,
            LD_LIBRARY_PATH=folder,
            CSF_OCCTResourcePath=RESOURCES,
            CSF_DrawPluginDefaults=RESOURCES + "/DrawResources",
            DRAWHOME=RESOURCES + "/DrawResources",
        )
        done = subprocess.run(["occt-draw", "-b", "-f", tcl], env=env, capture_output=True, text=True, check=False)
    found = [describe(part) for part in done.stdout.split("== begin\n")[1:]]
    if len(found) != len(paths):
        sys.exit(f"{len(found)} of {len(paths)} files read: {done.stdout[-2000:]}{done.stderr[-2000:]}")
    return found


def describe(text):
    solids = re.search(r"SOLID\s*:\s*(\d+)", text)
    return {
        "solids": int(solids.group(1)) if solids else 0,
        "valid": "This shape seems to be valid" in text,
        "tolerance": max((float(x) for x in re.findall(r"Max\s+(\S+)", text)), default=1e9),
        "said": text[: text.find("Number of shapes")].strip(),
    }


if __name__ == "__main__":
    json.dump(main(sys.argv[1:]), sys.stdout, indent=1)
