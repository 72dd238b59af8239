"""Analyses recordings that already lie in memory; prints the ms a recording takes and the numbers as one line of JSON."""

import json
import sys
from pathlib import Path
from time import perf_counter

import numpy as np
from analyse import analyse, analyse_straight
from everything import everything

folder, rate, passes = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
work_out = {"main": analyse, "straight": analyse_straight, "everything": everything}[sys.argv[4]]
plates = [np.fromfile(path).reshape(2, -1) for path in sorted(folder.glob("*.f64"))]
results = [work_out(left, right, rate) for left, right in plates]  # once before the clock starts, as the other side does
began = perf_counter()
for _ in range(passes):
    for left, right in plates:
        work_out(left, right, rate)
work = perf_counter() - began
print(json.dumps({"work": 1000 * work / (passes * len(plates)), "results": results}))
