"""The same script grown until it gives nearly what the program gives: every metric, and each metric that depends on the onset
also under the ten onset rules that are a height above the baseline. Still without the other rules, the checks and the evidence.
"""

import numpy as np
from analyse import FORCE_AT, IMPULSE_TO, find, onset_above
from scipy.integrate import cumulative_trapezoid

GRAVITY = 9.80665
BANDS = [(50, 100), (100, 150), (100, 200), (150, 200), (200, 250)]
STEEPEST = [5, 10, 20, 50]
SIDES_TO = [100, 200, 250]


def everything(left, right, rate):
    """Metrics by name; `METRIC@RULE` for a metric under another onset rule."""
    pull = find(left, right, rate)
    weight = pull.level
    heights = {
        "five-sd": 5 * pull.noise,
        "five-sd-floor": max(5 * pull.noise, 10),
        "three-sd": 3 * pull.noise,
        **{f"percent-weight-{share:g}": share / 100 * weight for share in (2.5, 5, 10)},
        **{f"fixed-newton-{height}": height for height in (20, 40, 50, 75)},
    }
    found = {"baseline_mean": float(pull.level), "baseline_sd": float(pull.noise), **without_onset(pull, weight)}
    known = {}
    for rule, height in heights.items():
        if pull.level + height >= pull.half:
            continue
        onset = onset_above(pull, height)
        if onset not in known:
            known[onset] = from_onset(pull, weight, onset)
        if rule == "five-sd":
            found["onset"] = onset
            found.update(known[onset])
        found.update({f"{name}@{rule}": value for name, value in known[onset].items()})
    return found


def without_onset(pull, weight):
    force, peak, end, rate = pull.force, pull.peak, pull.end, pull.rate
    top, mass = force[peak], weight / GRAVITY
    effort = slice(pull.half_rise + 1, end + 1)
    sums = np.concatenate(([0.0], np.cumsum(force[effort])))
    best = {t: (sums[t * rate // 1000 :] - sums[: -t * rate // 1000]).max() / (t * rate / 1000) for t in (200, 1000)}
    low, high = (pull.quiet + share * (top - pull.quiet) for share in (0.2, 0.8))
    reached = pull.half_rise + 1 + int(np.argmax(force[pull.half_rise + 1 : peak + 1] >= high))
    seconds = (crossing(force, high, reached) - crossing(force, low, reached)) / rate
    last = peak + 1 + int(np.flatnonzero(force[peak + 1 : end + 1] >= 0.9 * top)[-1])
    l, r = pull.left[peak], pull.right[peak]
    rest = slice(pull.start, pull.start + pull.width)
    rest_l, rest_r = pull.left[rest].mean(), pull.right[rest].mean()
    found = {
        "body_weight": weight,
        "body_mass": mass,
        "peak_force": top,
        "peak_force_net": top - weight,
        "peak_force_relative": top / mass,
        "peak_force_net_relative": (top - weight) / mass,
        "peak_force_allometric": top / mass ** (2 / 3),
        "best_mean_200": best[200],
        "best_mean_1000": best[1000],
        "rfd_20_80": (high - low) / seconds,
        "force_loss": 100 * (1 - force[last - rate // 2 : last].mean() / top),
        "left_force_at_peak": l,
        "right_force_at_peak": r,
        "left_peak_force": pull.left[effort].max(),
        "right_peak_force": pull.right[effort].max(),
        "asymmetry_at_peak": asymmetry(l, r),
        "asymmetry_net_at_peak": asymmetry(l - rest_l, r - rest_r),
        "standing_share_right": 100 * rest_r / pull.level,
    }
    return {name: float(value) for name, value in found.items()}


def from_onset(pull, weight, onset):
    force, peak, rate = pull.force, pull.peak, pull.rate
    top, mass, begin = force[peak], weight / GRAVITY, force[onset]
    rises = np.stack([f[onset : onset + FORCE_AT[-1] * rate // 1000 + 1] for f in (force, pull.left, pull.right)])
    at, left_at, right_at = rises[:, FORCE_AT * rate // 1000]
    impulses = cumulative_trapezoid(rises, dx=1 / rate, initial=0)
    impulse, left_impulse, right_impulse = impulses[:, IMPULSE_TO * rate // 1000]
    rates = (at - begin) / (FORCE_AT / 1000)
    by_time = dict(zip(FORCE_AT.tolist(), at))
    effort = slice(onset, pull.end + 1)
    found = {
        "time_to_peak": (peak - onset) / rate,
        "force_at_onset": begin,
        "rfd_average": (top - begin) * rate / (peak - onset),
        "rfd_0_200_relative": rates[FORCE_AT.tolist().index(200)] / (top - begin),
        "asymmetry_mean_force": asymmetry(pull.left[effort].mean(), pull.right[effort].mean()),
    }
    for name, values, times in (
        ("force_at_{}", at, FORCE_AT),
        ("force_net_at_{}", at - weight, FORCE_AT),
        ("force_at_{}_relative", at / mass, FORCE_AT),
        ("force_share_at_{}", 100 * (at - weight) / (top - weight), FORCE_AT),
        ("rfd_0_{}", rates, FORCE_AT),
        ("left_force_at_{}", left_at, FORCE_AT),
        ("right_force_at_{}", right_at, FORCE_AT),
        ("impulse_0_{}", impulse, IMPULSE_TO),
        ("impulse_net_0_{}", impulse - weight * IMPULSE_TO / 1000, IMPULSE_TO),
        ("left_impulse_0_{}", left_impulse, IMPULSE_TO),
        ("right_impulse_0_{}", right_impulse, IMPULSE_TO),
    ):
        found.update({name.format(t): v for t, v in zip(times, values)})
    for a, b in BANDS:
        found[f"rfd_{a}_{b}"] = (by_time[b] - by_time[a]) / ((b - a) / 1000)
    for t in STEEPEST:
        step = t * rate // 1000
        piece = force[onset : peak + 1]
        found[f"rfd_peak_{t}"] = (piece[step:] - piece[:-step]).max() / (t / 1000)
    for t in SIDES_TO:
        i = IMPULSE_TO.tolist().index(t)
        found[f"asymmetry_impulse_0_{t}"] = asymmetry(left_impulse[i], right_impulse[i])
    return {name: float(value) for name, value in found.items()}


def crossing(force, level, before):
    """Interpolated position of the last rise through `level` before an index."""
    i = int(np.flatnonzero(force[:before] <= level)[-1])
    return i + (level - force[i]) / (force[i + 1] - force[i])


def asymmetry(left, right):
    return 100 * (right - left) / (right + left)
