"""Times how ezdxf writes a drawing that it has read.

Usage: ezdxf_write.py FILE

Prints the number of entities of model space and the seconds that the fastest
of three writings into memory took.
"""
import io
import sys
import time

import ezdxf

doc = ezdxf.readfile(sys.argv[1])
best = float("inf")
for _ in range(3):
    out = io.StringIO()
    start = time.perf_counter()
    doc.write(out)
    best = min(best, time.perf_counter() - start)
print(len(doc.modelspace()), best)
