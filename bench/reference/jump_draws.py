"""Uncertainty of one jump by draws, as a script with numpy would do it; follows docs/reference/uncertainty.md, jumps.

python jump_draws.py CURVE ABOUT DRAWS: two plates as float64, what is known of the jump as JSON. Prints the ms a draw takes, the values
and their standard uncertainties as one line of JSON.
"""

import json
import sys
from pathlib import Path
from time import perf_counter

import numpy as np
from scipy.integrate import cumulative_trapezoid

plates = np.fromfile(sys.argv[1]).reshape(2, -1)
about = json.loads(Path(sys.argv[2]).read_text())
draws = int(sys.argv[3])
rate, onset, gravity = about["rate"], about["onset"], about["gravity"]
take_off, touchdown = about["take_off"], about["touchdown"]
dt = 1 / rate
samples = np.arange(plates.shape[1])
turn = np.pi / 2 / np.maximum(about["largest"], plates.max(axis=1, keepdims=True))
cosine, sine = np.cos(turn * plates), np.sin(turn * plates)
carried = plates[:, about["start"] : about["end"]].mean(axis=1)
weighed = carried.sum()
carried_cosine, carried_sine = np.cos(turn[:, 0] * carried), np.sin(turn[:, 0] * carried)
# Each time on the plates is a loading of its own.
loaded = np.stack([samples < take_off + 1, samples >= touchdown - 1]).astype(float)


def values(force, weight):
    """The values of one jump, by name."""
    first = max(0, round(take_off - 0.6 * rate))
    peak = first + int(np.argmax(force[first : take_off + 1]))
    leaves = peak + 1 + int(np.argmax(force[peak + 1 :] < about["threshold"]))
    f = force[onset : leaves + 1]
    mass = weight / gravity
    v = cumulative_trapezoid((f - weight) / mass, dx=dt, initial=0)
    s = cumulative_trapezoid(v, dx=dt, initial=0)
    down = int(np.argmin(v))
    up = down + int(np.argmax(v[down:] > 0))
    power = f[up:] * v[up:]
    return {
        "jump_height": v[-1] ** 2 / (2 * gravity),
        "take_off_velocity": v[-1],
        "jump_momentum": mass * v[-1],
        "countermovement_depth": -s.min(),
        "jump_impulse_net": mass * v[-1],
        "propulsion_peak_force": f[up:].max(),
        "propulsion_peak_power": power.max(),
        "propulsion_mean_power": power.mean(),
    }


def draw(random):
    """The values of the jump as it might have been measured."""
    gain = about["gain"] * random.standard_normal() + about["plate_gain"] * random.standard_normal(2)
    offset = about["repeatability"] * random.standard_normal((2, 2))
    bend = about["linearity"] * random.standard_normal((2, 2))
    late = about["late"] * random.standard_normal() * rate
    shown = plates * (1 + gain[:, None]) + offset @ loaded + bend[:, :1] * cosine + bend[:, 1:] * sine
    shown[1] += np.interp(samples - late, samples, plates[1]) - plates[1]
    shown += about["noise"] * random.standard_normal(shown.shape)
    error = (gain * carried + offset[:, 0] + bend[:, 0] * carried_cosine + bend[:, 1] * carried_sine).sum()
    return values(shown.sum(axis=0), weighed + error + about["spread_of_weight"] * random.standard_normal())


random = np.random.default_rng(1)
for _ in range(min(100, draws)):
    draw(random)
plain = values(plates.sum(axis=0), weighed)
found = np.empty((draws, len(plain)))
began = perf_counter()
for i in range(draws):
    found[i] = list(draw(random).values())
work = 1000 * (perf_counter() - began) / draws
spread = found.std(axis=0, ddof=1)
print(
    json.dumps(
        {
            "work": work,
            "found": {name: {"value": float(plain[name]), "standard": float(sd)} for name, sd in zip(plain, spread)},
        }
    )
)
