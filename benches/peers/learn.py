"""The fits to test pieces against SciPy's curve_fit on the same data, in turns.

    python3 -m pip install -r benches/peers/requirements.txt
    python3 benches/peers/learn.py [TURNS]

Starts `cargo bench --bench learn`, which tells its data and how long one fit of them takes. SciPy gets the same law, the
same deviations, and a start from which it finds the same least point (of refined weights, nearly the same), and each fit
its fastest way: with or without derivatives and the check of its numbers. The fits here look for their start themselves.
"""

import subprocess
import sys
import time

import numpy as np
from scipy.optimize import curve_fit


def bench(flag):
    command = ["cargo", "bench", "-q", "--bench", "learn", "--", flag]
    lines = subprocess.run(command, check=True, capture_output=True, text=True).stdout.splitlines()
    return [line.split() for line in lines]


def beam_width(z, place, diameter, divergence):
    """ISO 11146-1: a hyperbola."""
    return np.hypot(diameter, divergence * (z - place))


def beam_width_slopes(z, place, diameter, divergence):
    away = z - place
    width = np.hypot(diameter, divergence * away)
    return np.stack([-divergence**2 * away, diameter * np.ones_like(z), divergence * away**2], axis=1) / width[:, None]


def beam_square(z, place, diameter, divergence):
    """The same, of the squared width."""
    return diameter**2 + (divergence * (z - place)) ** 2


def beam_square_slopes(z, place, diameter, divergence):
    away = z - place
    return 2 * np.stack([-divergence**2 * away, diameter * np.ones_like(z), divergence * away**2], axis=1)


def dot_square(energy, spot, threshold):
    """Squared width of a dot (J. M. Liu, 1982)."""
    return spot**2 / 2 * np.log(energy / threshold)


def dot_square_slopes(energy, spot, threshold):
    return np.stack([spot * np.log(energy / threshold), np.full_like(energy, -(spot**2) / 2 / threshold)], axis=1)


def mark_width(z, place, log_diameter, log_range, log_dose):
    """Width of a line where the dose is threshold times exp(log_dose) in focus (J. M. Liu, 1982)."""
    growth = np.hypot(1, (z - place) / np.exp(log_range))
    log_ratio = log_dose - np.log(growth)
    return np.exp(log_diameter) * growth * np.sign(log_ratio) * np.sqrt(np.abs(log_ratio) / 2)


def mark_width_slopes(z, place, log_diameter, log_range, log_dose):
    away = (z - place) / np.exp(log_range)
    square = 1 + away**2
    log_ratio = log_dose - np.log(square) / 2
    half = np.exp(2 * log_diameter) / 2
    by_square = half * (log_ratio - 0.5)
    width = np.sqrt(half * square * np.abs(log_ratio))
    rows = [-2 * away / np.exp(log_range) * by_square, 2 * half * square * log_ratio, -2 * away**2 * by_square, half * square]
    return np.stack(rows, axis=1) / (2 * width[:, None])


def fastest(fits):
    """Time of the fastest of several ways, and what it finds."""
    count = 20
    times = []
    for fit in fits:
        begun = time.perf_counter()
        for _ in range(count):
            found, _ = fit()
        times.append(((time.perf_counter() - begun) / count, found))
    return min(times, key=lambda one: one[0])


def ways(law, slopes, x, y, sigma, start):
    plain = dict(sigma=sigma, absolute_sigma=True)
    return [
        lambda: curve_fit(law, x, y, start, **plain),
        lambda: curve_fit(law, x, y, start, jac=slopes, **plain),
        lambda: curve_fit(law, x, y, start, check_finite=False, **plain),
        lambda: curve_fit(law, x, y, start, jac=slopes, check_finite=False, **plain),
    ]


def main():
    turns = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    data = {}
    for name, *row in bench("--data"):
        data.setdefault(name, []).append([float(number) for number in row])
    data = {name: np.array(rows).T for name, rows in data.items()}

    def peers(name):
        """Ways to the same answer, and which of its numbers ours gives."""
        x, y, sigma = data[name]
        if name == "fit_beam_measured":
            return ways(beam_square, beam_square_slopes, x, y**2, 2 * y * sigma, [0.0, 80e-6, 0.2]), 0
        if name == "fit_beam_refined":
            return ways(beam_width, beam_width_slopes, x, y, sigma, [0.0, 80e-6, 0.2]), 0
        if name == "fit_threshold":
            return ways(dot_square, dot_square_slopes, x, y**2, 2 * y * sigma, [50e-6, 18e-6]), 1
        start = [0.0, np.log(80e-6), np.log(0.4e-3), np.log(4.0)]
        return ways(mark_width, mark_width_slopes, x, y, sigma, start), 0

    results = {name: [] for name in data}
    for _ in range(turns):
        for name, seconds, found in bench("--seconds"):
            fits, place = peers(name)
            theirs, answer = fastest(fits)
            results[name].append((theirs / float(seconds), float(seconds), theirs, float(found), answer[place]))
    for name, rows in results.items():
        rows.sort()
        ratio, mine, theirs, found, answer = rows[len(rows) // 2]
        print(f"{name}: {mine * 1e6:.2f} us, curve_fit {theirs * 1e6:.0f} us: {ratio:.0f} times as fast")
        print(f"    (median of {turns} turns, {rows[0][0]:.0f} to {rows[-1][0]:.0f}); {found * 1e6:.6f} and {answer * 1e6:.6f} millionths")


if __name__ == "__main__":
    main()
