"""Reads and analyses every text file of a folder, by the script named; prints the times in ms and the numbers as one line of JSON."""

import json
import sys
from pathlib import Path
from time import perf_counter

from analyse import analyse, analyse_straight, read
from everything import everything

work_out = {"main": analyse, "straight": analyse_straight, "everything": everything}[sys.argv[2]]
reading = analysing = 0.0
results = []
began = perf_counter()
for path in sorted(Path(sys.argv[1]).glob("*.csv")):
    before = perf_counter()
    left, right, rate = read(path)
    between = perf_counter()
    results.append(work_out(left, right, rate))
    after = perf_counter()
    reading += between - before
    analysing += after - between
work = perf_counter() - began
print(json.dumps({"work": 1000 * work, "reading": 1000 * reading, "analysing": 1000 * analysing, "results": results}))
