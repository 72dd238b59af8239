"""Makes filter.json: zero-lag Butterworth outputs of scipy.signal.filtfilt for the tests of packages/core/src/signal.

Run with: /usr/bin/python3 testdata/signal/make-filter.py
The input is a fixed formula (no random numbers): a level, a saturating rise at 1.2 s, two tones and a drift.
The corrected cut-off is written out here from its definition, not taken from the code under test.
"""

import datetime
import json
import pathlib

import numpy
import scipy
from scipy.signal import butter, filtfilt


def curve(count, rate):
    t = numpy.arange(count) / rate
    rise = numpy.where(t >= 1.2, 1500 * (1 - numpy.exp(-(t - 1.2) / 0.15)), 0.0)
    return 800 + rise + 3 * numpy.sin(2 * numpy.pi * 47 * t) + 1.5 * numpy.sin(2 * numpy.pi * 211 * t + 0.3) + 2 * t


def corrected(cutoff, rate, passes):
    factor = (2 ** (1 / passes) - 1) ** 0.25
    return rate / numpy.pi * numpy.arctan(numpy.tan(numpy.pi * cutoff / rate) / factor)


cases = []
for rate, cutoff, count in [(1000, 50, 3000), (1000, 10, 3000), (1000, 100, 700), (500, 20, 2), (500, 20, 90), (1200, 6, 3600)]:
    x = curve(count, rate)
    b, a = butter(2, corrected(cutoff, rate, 2), fs=rate)
    padding = min(rate, count - 1)
    y = filtfilt(b, a, x, padtype="odd", padlen=padding)
    every = max(1, count // 60)
    cases.append({
        "rate": rate, "cutoff": cutoff, "count": count, "padding": padding,
        "b": b.tolist(), "a": a.tolist(), "every": every, "x": x[::every].tolist(), "y": y[::every].tolist(),
    })

out = pathlib.Path(__file__).with_name("filter.json")
out.write_text(json.dumps({
    "made": {
        "by": "testdata/signal/make-filter.py", "date": datetime.date.today().isoformat(),
        "scipy": scipy.__version__, "numpy": numpy.__version__, "licence": "CC0-1.0",
        "proves": "zero-lag filter: coefficients, extension, starting state, both passes",
    },
    "cases": cases,
}) + "\n")
