"""The fit of a series of marks against SciPy's curve_fit on the same marks, in turns.

    python3 -m pip install -r benches/peers/requirements.txt
    python3 benches/peers/learn.py [TURNS]

Starts `cargo bench --bench learn`, which tells its marks and how long one fit of them takes. SciPy gets the same law, the
same deviations, and a start from which it finds the same least point.
"""

import subprocess
import sys
import time

import numpy as np
from scipy.optimize import curve_fit


def bench(flag):
    command = ["cargo", "bench", "-q", "--bench", "learn", "--", flag]
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout.split()


def width(z, place, log_diameter, log_range, log_dose):
    """Width of a line where the dose is threshold times exp(log_dose) in focus (J. M. Liu, 1982)."""
    growth = np.hypot(1, (z - place) / np.exp(log_range))
    log_ratio = log_dose - np.log(growth)
    return np.exp(log_diameter) * growth * np.sign(log_ratio) * np.sqrt(np.abs(log_ratio) / 2)


def main():
    turns = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    heights, widths = np.array(bench("--series"), float).reshape(-1, 2).T
    deviations = np.full(heights.size, 3e-6)
    start = [0.0, np.log(80e-6), np.log(0.4e-3), np.log(4.0)]
    ours, scipys = [], []
    for _ in range(turns):
        seconds, place = map(float, bench("--seconds"))
        ours.append(seconds)
        count = 20
        begun = time.perf_counter()
        for _ in range(count):
            found, _ = curve_fit(width, heights, widths, start, deviations, absolute_sigma=True)
        scipys.append((time.perf_counter() - begun) / count)
    print(f"height of the waist: {place * 1e6:.6f} um, by curve_fit {found[0] * 1e6:.6f} um")
    print(f"one fit: {min(ours) * 1e6:.2f} us, curve_fit {min(scipys) * 1e6:.0f} us")
    ratios = sorted(theirs / mine for mine, theirs in zip(ours, scipys))
    print(f"{ratios[len(ratios) // 2]:.0f} times as fast (median of {turns} turns)")


if __name__ == "__main__":
    main()
