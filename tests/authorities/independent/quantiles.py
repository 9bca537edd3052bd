"""Makes the tables of evenly spread points and of normal deviates with SciPy, beside this folder.

Needs Debian's python3-scipy (1.7 or later, for scipy.stats.qmc); run it with
  /usr/bin/python3 tests/authorities/independent/quantiles.py
The tests read the committed tables, so nothing of this is needed to run them.
"""
from pathlib import Path

import scipy
from scipy.stats import norm, qmc

FOLDER = Path(__file__).resolve().parent.parent
DIMENSIONS = 32


def write(name, notes, columns, rows):
    lines = [*(f"# {note}" for note in notes), ",".join(columns)]
    lines += [",".join(format(value, ".17g") for value in row) for row in rows]
    (FOLDER / f"{name}.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")


def low_discrepancy():
    indices = [1, 2, 3, 4, 7, 10, 31, 100, 255, 256, 1000, 4095]
    points = qmc.Halton(d=DIMENSIONS, scramble=False).random(max(indices) + 1)
    rows = [(i, d, points[i, d]) for i in indices for d in range(DIMENSIONS)]
    write("low-discrepancy", [
        "Coordinates of unscrambled Halton points in the first 32 primes; point 0 is the origin.",
        f"Source: computed by SciPy {scipy.__version__}, scipy.stats.qmc.Halton(scramble=False); independent/quantiles.py.",
        "Tolerance: 1e-14 relative; a few roundings of a double.",
    ], ("index", "dimension", "coordinate"), rows)


def normal_quantile():
    tails = [1e-300, 1e-100, 1e-30, 1e-16, 1e-12, 1e-11, 1e-9, 1e-6, 1e-4, 1e-3, 0.00134989803163, 0.01, 0.025, 0.05]
    middle = [0.0749, 0.075, 0.0751, 0.1, 0.2, 0.25, 0.4, 0.499, 0.501, 0.6, 0.75, 0.9, 0.9249, 0.925, 0.9251]
    upper = [0.95, 0.975, 0.99, 0.999, 0.9999, 0.999999, 1 - 1e-9]
    write("normal-quantile", [
        "Standard normal deviates by probability, from the far lower tail to the upper.",
        f"Source: computed by SciPy {scipy.__version__}, scipy.stats.norm.ppf; independent/quantiles.py.",
        "Tolerance: 1e-9 relative; far above what either computation is good to.",
    ], ("probability", "deviate"), [(p, norm.ppf(p)) for p in tails + middle + upper])


low_discrepancy()
normal_quantile()
