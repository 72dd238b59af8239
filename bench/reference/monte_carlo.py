"""Uncertainty of one pull by draws, as a script with numpy would do it; follows docs/reference/uncertainty.md, the errors of a rig.

python monte_carlo.py CURVE ABOUT DRAWS: two plates as float64, what is known of the pull as JSON. Prints the ms a draw takes, the values
and their standard uncertainties as one line of JSON.
"""

import json
import sys
from pathlib import Path
from time import perf_counter

import numpy as np

plates = np.fromfile(sys.argv[1]).reshape(2, -1)
about = json.loads(Path(sys.argv[2]).read_text())
draws = int(sys.argv[3])
rate, onset, half_rise, end = about["rate"], about["onset"], about["half_rise"], about["end"]
start, width, weight = about["start"], about["width"], about["weight"]
TIMES = np.array([50, 100, 200])
STEPS = TIMES * rate // 1000

# What is looked at lies between the baseline and the end of the effort.
first = start - rate if start > rate else 0
plates = plates[:, first : end + 1]
onset, half_rise, start = onset - first, half_rise - first, start - first
samples = np.arange(plates.shape[1])
turn = np.pi / 2 / np.maximum(about["largest"], plates.max(axis=1, keepdims=True))
cosine, sine = np.cos(turn * plates), np.sin(turn * plates)
standing = plates[:, start : start + width].mean(axis=1)
standing = weight * standing / standing.sum()
standing_cosine, standing_sine = np.cos(turn[:, 0] * standing), np.sin(turn[:, 0] * standing)


def values(left, right, weight):
    """The values of one pull, by name."""
    force = left + right
    peak = half_rise + 1 + int(np.argmax(force[half_rise + 1 :]))
    at = force[onset + STEPS]
    rise = force[onset : onset + STEPS[-1] + 1]
    sums = np.concatenate(([0.0], np.cumsum((rise[1:] + rise[:-1]) / 2))) / rate
    impulse = sums[STEPS]
    sides = [np.trapz(side[onset : onset + STEPS[-1] + 1]) for side in (left, right)]
    found = {
        "peak_force": force[peak],
        "peak_force_net": force[peak] - weight,
        "peak_force_relative": force[peak] / (weight / about["gravity"]),
        "asymmetry_at_peak": 100 * (right[peak] - left[peak]) / (right[peak] + left[peak]),
        "asymmetry_impulse_0_200": 100 * (sides[1] - sides[0]) / (sides[1] + sides[0]),
    }
    for time, one, area in zip(TIMES, at, impulse):
        found[f"force_at_{time}"] = one
        found[f"force_net_at_{time}"] = one - weight
        found[f"rfd_0_{time}"] = (one - force[onset]) / (time / 1000)
        found[f"impulse_net_0_{time}"] = area - weight * time / 1000
    return found


def draw(random):
    """The values of the pull as it might have been measured."""
    gain = about["gain"] * random.standard_normal() + about["plate_gain"] * random.standard_normal(2)
    offset = about["repeatability"] * random.standard_normal(2)
    bend = about["linearity"] * random.standard_normal((2, 2))
    late = about["late"] * random.standard_normal() * rate
    shown = plates * (1 + gain[:, None]) + offset[:, None] + bend[:, :1] * cosine + bend[:, 1:] * sine
    shown[1] += np.interp(samples - late, samples, plates[1]) - plates[1]
    shown += about["noise"] * random.standard_normal(shown.shape)
    error = (gain * standing + bend[:, 0] * standing_cosine + bend[:, 1] * standing_sine).sum()
    error += about["repeatability"] * random.standard_normal(2).sum()
    return values(shown[0], shown[1], weight + error + about["spread_of_weight"] * random.standard_normal())


random = np.random.default_rng(1)
for _ in range(min(500, draws)):
    draw(random)
names = list(values(plates[0], plates[1], weight))
found = np.empty((draws, len(names)))
began = perf_counter()
for i in range(draws):
    found[i] = list(draw(random).values())
work = perf_counter() - began
plain = values(plates[0], plates[1], weight)
print(
    json.dumps(
        {
            "work": 1000 * work / draws,
            "found": {
                name: {"value": float(plain[name]), "standard": float(sd)}
                for name, sd in zip(names, found.std(axis=0, ddof=1))
            },
        }
    )
)
