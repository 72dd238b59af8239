"""The script a user would write instead: pandas reads the file, numpy and scipy find the numbers of one isometric pull.

Follows docs/reference/analysis.md, events and metrics of isometric tests, with the onset at five standard deviations. It
leaves out what such a script leaves out: checks, other onset rules, sides, evidence, files of other shapes. The mean and SD of
each window are taken from cumulative sums, the fastest way numpy has, or straight from the definition.
"""

from dataclasses import dataclass

import numpy as np
import pandas as pd
from scipy.integrate import cumulative_trapezoid

FORCE_AT = np.array([50, 90, 100, 150, 200, 250, 300])
IMPULSE_TO = np.array([50, 100, 150, 200, 250, 300])


def read(path):
    """Left and right force in N and the rate in Hz of a file with time_s, left_n, right_n."""
    table = pd.read_csv(path)
    time = table["time_s"].to_numpy()
    rate = round((len(time) - 1) / (time[-1] - time[0]))
    return table["left_n"].to_numpy(), table["right_n"].to_numpy(), rate


def windows(force, width):
    """Mean and sample SD of every window of `width` samples, by the sample it starts at."""
    origin = force.mean()
    centred = force - origin
    sums = np.concatenate(([0.0], np.cumsum(centred)))
    squares = np.concatenate(([0.0], np.cumsum(centred * centred)))
    total = sums[width:] - sums[:-width]
    spread = squares[width:] - squares[:-width] - total * total / width
    return origin + total / width, np.sqrt(np.maximum(spread, 0.0) / (width - 1))


@dataclass
class Pull:
    """The events of one pull; indices count samples, forces in N."""

    left: np.ndarray
    right: np.ndarray
    force: np.ndarray
    rate: int
    quiet: float
    half: float
    half_rise: int
    end: int
    start: int
    width: int
    level: float
    noise: float
    peak: int


def windows_straight(force, width):
    """The same as the definition reads: numpy's view of every window, then mean and SD along it."""
    view = np.lib.stride_tricks.sliding_window_view(force, width)
    return view.mean(axis=1), view.std(axis=1, ddof=1)


def find(left, right, rate, windows=windows):
    """The largest pull with its baseline and peak."""
    force = left + right
    width = round(1.0 * rate)
    anchor_width = round(0.25 * rate)

    sums = np.concatenate(([0.0], np.cumsum(force)))
    anchor = int(np.argmax(sums[anchor_width:] - sums[:-anchor_width]))
    anchor_mean = force[anchor : anchor + anchor_width].mean()
    middle = anchor + anchor_width // 2

    mean, sd = windows(force, width)
    first = max(0, anchor - 10 * rate)
    m, s = mean[first : anchor - width + 1], sd[first : anchor - width + 1]
    quiet = m[(m >= 100) & (s <= 0.15 * m)].min()
    half = quiet + 0.5 * (anchor_mean - quiet)
    half_rise = int(np.flatnonzero(force[:middle] <= half)[-1])
    after = np.flatnonzero(force[middle + 1 :] <= half)
    end = middle + 1 + int(after[0]) if len(after) else len(force) - 1

    first = max(0, half_rise - 3 * rate - width + 1)
    m, s = mean[first : half_rise - width + 2], sd[first : half_rise - width + 2]
    calm = np.flatnonzero((m >= 100) & (s <= 0.05 * m))
    limit = np.maximum(2 * s[calm].min(), 0.005 * m[calm])
    latest = calm[np.flatnonzero(s[calm] <= limit)[-1]]
    start = first + int(max(latest - round(0.1 * rate), calm[0]))
    baseline = force[start : start + width]
    peak = half_rise + 1 + int(np.argmax(force[half_rise + 1 : end + 1]))
    return Pull(
        left, right, force, rate, quiet, half, half_rise, end, start, width, baseline.mean(), baseline.std(ddof=1), peak
    )


def onset_above(pull, height):
    """The sample after the last one, seen backward from the half rise, that is not `height` above the baseline."""
    below = np.flatnonzero(pull.force[pull.start : pull.half_rise + 1] <= pull.level + height)
    return pull.start + int(below[-1]) + 1


def analyse(left, right, rate, windows=windows):
    """The main numbers of the largest pull, by name."""
    pull = find(left, right, rate, windows)
    force, level, peak = pull.force, pull.level, pull.peak
    onset = onset_above(pull, 5 * pull.noise)

    rise = force[onset : onset + FORCE_AT[-1] * rate // 1000 + 2]
    at = np.interp(FORCE_AT * rate / 1000, np.arange(len(rise)), rise)
    rates = (at - force[onset]) / (FORCE_AT / 1000)
    steps = IMPULSE_TO * rate // 1000
    impulse = cumulative_trapezoid(rise, dx=1 / rate, initial=0)[steps]

    found = {
        "baseline_mean": float(level),
        "baseline_sd": float(pull.noise),
        "onset": onset,
        "peak_force": float(force[peak]),
        "peak_force_net": float(force[peak] - level),
        "time_to_peak": (peak - onset) / rate,
        "force_at_onset": float(force[onset]),
    }
    found.update({f"force_at_{t}": float(v) for t, v in zip(FORCE_AT, at)})
    found.update({f"rfd_0_{t}": float(v) for t, v in zip(FORCE_AT, rates)})
    found.update({f"impulse_0_{t}": float(v) for t, v in zip(IMPULSE_TO, impulse)})
    return found


def analyse_straight(left, right, rate):
    """The same numbers with the windows as the definition reads."""
    return analyse(left, right, rate, windows_straight)
