"""The script a user would write instead: pandas reads the file, numpy and scipy find the numbers of one isometric pull.

Follows docs/reference/analysis.md, events and metrics of isometric tests, with the onset at five standard deviations. It
leaves out what such a script leaves out: checks, other onset rules, sides, evidence, files of other shapes. Windows are
taken from cumulative sums, the fastest way numpy has.
"""

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


def analyse(left, right, rate):
    """The numbers of the largest pull, by name."""
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
    standing = np.flatnonzero((m >= 100) & (s <= 0.15 * m))
    quiet = m[standing].min()
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
    level, noise = baseline.mean(), baseline.std(ddof=1)

    peak = half_rise + 1 + int(np.argmax(force[half_rise + 1 : end + 1]))
    onset = start + int(np.flatnonzero(force[start : half_rise + 1] <= level + 5 * noise)[-1]) + 1

    position = np.arange(len(force))
    at = np.interp(onset + FORCE_AT * rate / 1000, position, force)
    rates = (at - force[onset]) / (FORCE_AT / 1000)
    steps = np.rint(IMPULSE_TO * rate / 1000).astype(int)
    impulse = cumulative_trapezoid(force[onset : onset + steps[-1] + 1], dx=1 / rate, initial=0)[steps]

    found = {
        "baseline_mean": float(level),
        "baseline_sd": float(noise),
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
