"""The script a user would write for countermovement jumps with numpy and scipy; follows docs/reference/jumps.md with the threshold of 10 N.

python jumps.py FOLDER RATE PASSES: each file holds left and right as float64; the cue sounds at sample 2400. Leaves out what such a script
leaves out: other rules, checks, evidence, recordings of other shapes. Prints the ms a jump takes and the numbers as one line of JSON.
"""

import json
import sys
from pathlib import Path
from time import perf_counter

import numpy as np
from scipy.integrate import cumulative_trapezoid, trapezoid

rate, passes = int(sys.argv[2]), int(sys.argv[3])
GRAVITY, THRESHOLD, CUE = 9.80665, 10.0, 2400
plates = [np.fromfile(path).reshape(2, -1) for path in sorted(Path(sys.argv[1]).glob("*.f64"))]


def longest_below(force, level):
    """First sample and end of the longest stretch below a level that begins and ends within the recording."""
    edges = np.flatnonzero(np.diff((force < level).astype(np.int8)))
    if force[0] < level:
        edges = edges[1:]
    starts, ends = edges[::2][: len(edges) // 2], edges[1::2]
    at = int(np.argmax(ends - starts))
    return int(starts[at]) + 1, int(ends[at]) + 1


def judge(left, right):
    """The numbers of one jump, by name."""
    force = left + right
    dt = 1 / rate
    quiet = force[CUE - rate : CUE]
    weight, noise = quiet.mean(), quiet.std(ddof=1)
    mass = weight / GRAVITY
    start, end = longest_below(force, 20)
    first = max(0, int(start - 0.6 * rate))
    peak = first + int(np.argmax(force[first : start + 1]))
    take_off = peak + 1 + int(np.argmax(force[peak + 1 :] < THRESHOLD))
    middle = (start + end) // 2
    touchdown = middle + int(np.argmax(force[middle:] > THRESHOLD))
    beyond = np.abs(force[:take_off] - weight) > 5 * noise
    leaves = CUE + int(np.argmax(beyond[CUE:]))
    earliest = max(CUE - rate, leaves - round(0.03 * rate))
    before = np.flatnonzero(beyond[earliest:leaves])
    onset = earliest + (int(before[-1]) + 1 if len(before) else 0)

    net = force[onset:] - weight
    net[take_off - onset + 1 : touchdown - onset] = -weight
    velocity = cumulative_trapezoid(net / mass, dx=dt, initial=0)
    position = cumulative_trapezoid(velocity, dx=dt, initial=0)
    ground = take_off - onset
    v = velocity[: ground + 1]
    down = int(np.argmin(v))
    up = down + int(np.argmax(v[down:] > 0))
    lowest = int(np.argmin(position[: ground + 1]))
    landing = np.flatnonzero(velocity[touchdown - onset :] >= 0)
    landed = touchdown + (int(landing[0]) if len(landing) else rate // 2)
    f = force[onset : take_off + 1]
    impulse = lambda a, b: trapezoid(net[a : b + 1], dx=dt)
    power = f[up:] * v[up:]
    sides = [trapezoid(side[onset + up : take_off + 1], dx=dt) for side in (left, right)]
    air = (touchdown - take_off) * dt
    height = v[-1] ** 2 / (2 * GRAVITY)
    return {
        "jump_height": height,
        "jump_height_flight_time": GRAVITY * air**2 / 8,
        "time_to_take_off": ground * dt,
        "flight_time": air,
        "rsi_modified": height / (ground * dt),
        "unweighting_time": down * dt,
        "braking_time": (up - down) * dt,
        "propulsion_time": (ground - up) * dt,
        "take_off_velocity": v[-1],
        "jump_momentum": mass * v[-1],
        "peak_velocity": v[up:].max(),
        "peak_negative_velocity": v[down],
        "countermovement_depth": -position[lowest],
        "unweighting_impulse_net": impulse(0, down),
        "braking_impulse_net": impulse(down, up),
        "propulsion_impulse_net": impulse(up, ground),
        "braking_mean_force": f[down : up + 1].mean(),
        "propulsion_peak_force": f[up:].max(),
        "propulsion_mean_force": f[up:].mean(),
        "braking_rfd": (f[lowest] - f[down]) / ((lowest - down) * dt),
        "propulsion_peak_power": power.max(),
        "propulsion_mean_power": power.mean(),
        "landing_peak_force": force[touchdown : landed + 1].max(),
        "asymmetry_propulsion_impulse": 100 * (sides[1] - sides[0]) / (sides[1] + sides[0]),
        "system_weight": weight,
    }


results = [{name: float(value) for name, value in judge(*pair).items()} for pair in plates]
began = perf_counter()
for _ in range(passes):
    for pair in plates:
        judge(*pair)
work = 1000 * (perf_counter() - began) / (passes * len(plates))
print(json.dumps({"work": work, "results": results}))
