"""The floor for C3D: the same 32-bit floats without any format, written and read by numpy. Prints median ms as JSON."""

import json
import sys
from pathlib import Path
from statistics import median
from time import perf_counter

import numpy as np

source, target, channels, repeats = Path(sys.argv[1]), Path(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4])
table = np.fromfile(source).reshape(channels, -1)
writing, reading = [], []
for round in range(repeats + 1):
    began = perf_counter()
    np.ascontiguousarray(table.T, dtype=np.float32).tofile(target)
    written = perf_counter()
    back = np.ascontiguousarray(np.fromfile(target, dtype=np.float32).reshape(-1, channels).T)
    read = perf_counter()
    if round > 0:  # the first round warms up, as on the other side
        writing.append(written - began)
        reading.append(read - written)
assert np.allclose(back, table, rtol=1e-6)
print(json.dumps({"writing": 1000 * median(writing), "reading": 1000 * median(reading)}))
