"""Makes bench measurements of standing fans with SciPy and fits the fans back from them; writes bench-points.csv beside this
folder.

Written independently of the models: every standing point is solved from the primitive equations by a general root finder,
and the fit runs in other unknowns (logarithms, shaft speeds in rpm) through scipy.optimize.least_squares with its own
derivatives. Needs Debian's python3-scipy; run it with
  /usr/bin/python3 tests/authorities/independent/bench.py
The tests read the committed table, so nothing of this is needed to run them.
"""
from pathlib import Path

import numpy as np
import scipy
from scipy.optimize import brentq, least_squares, root

FOLDER = Path(__file__).resolve().parent.parent
RPM = np.pi / 30
# Standard uncertainties of single readings and of inputs: relative, but for the duct loss.
U = dict(thrust_n=0.03, shaft_rad_s=0.01, current_a=0.03, voltage_v=0.01, speed_constant=0.02, density=0.015, duct_loss=0.03, phi_peak=0.03, kappa=0.1)
# How far an instrument may read everything high or low.
SCALE = dict(thrust_n=0.02, current_a=0.02, voltage_v=0.005)
READINGS = ["shaft_rad_s", "thrust_n", "current_a", "voltage_v"]


def shown(rig, psi0, psi1, eta_peak, duct_loss, density, kv, nozzle, omega, phi_peak, kappa):
    """Readings of a standing fan at a shaft speed; flow from the head balance by bracketing."""
    area = np.pi / 4 * (rig["tip_m"] ** 2 - rig["hub_m"] ** 2)
    radius = np.sqrt((rig["tip_m"] ** 2 + rig["hub_m"] ** 2) / 8)
    blade = omega * radius

    def surplus(axial):
        efflux = axial / nozzle
        return blade**2 * psi0 - blade * axial * psi1 - 0.5 * efflux**2 - 0.5 * duct_loss * axial**2

    axial = brentq(surplus, 0, 3 * blade, xtol=1e-13, rtol=1e-15)
    phi = axial / blade
    island = 1 - kappa * ((phi - phi_peak) / phi_peak) ** 2
    eta = eta_peak * island
    flow = density * area * axial
    power = flow * (psi0 - psi1 * phi) * blade**2 / eta
    motor = power / omega * kv + rig["idle_current_a"] + rig["idle_slope"] * omega
    volts = omega / kv + motor * (rig["motor_ohm"] + rig["esc_ohm"])
    drawn = (motor + rig["quiescent_w"] / volts) / (1 - rig["proportional"])
    return dict(shaft_rad_s=omega, thrust_n=flow * axial / nozzle, current_a=drawn, voltage_v=volts)


def random_rig(rng):
    tip = rng.uniform(0.065, 0.12)
    cells = int(rng.choice([6, 8, 10, 12]))
    return dict(
        tip_m=tip, hub_m=tip * rng.uniform(0.45, 0.5), phi_peak=rng.uniform(0.62, 0.72), kappa=rng.uniform(0.35, 0.6),
        density=rng.uniform(1.05, 1.28), duct_loss=rng.uniform(0.1, 0.5),
        speed_constant=1.2e3 / cells / (tip / 0.09) * rng.uniform(0.9, 1.1), motor_ohm=rng.uniform(5e-3, 12e-3),
        idle_current_a=rng.uniform(1.5, 4), idle_slope=rng.uniform(3e-4, 9e-4), esc_ohm=rng.uniform(1e-3, 2.5e-3),
        quiescent_w=rng.uniform(2, 5), proportional=rng.uniform(0.001, 0.004),
    ), cells


def measured(rng, rig, cells, fan, nozzle, noise):
    """Readings behind a pack, with the errors of instruments."""
    charge = rng.uniform(3.75, 4.1)
    source = cells * rng.uniform(1.2e-3, 2.5e-3) + 1.5e-3

    def at(omega):
        return shown(rig, *fan, rig["duct_loss"], rig["density"], rig["speed_constant"], nozzle, omega, rig["phi_peak"], rig["kappa"])

    def sag(z):
        point = at(z[0] * 1000)
        return [(cells * charge - point["current_a"] * source - point["voltage_v"]) / 10]

    found = root(sag, [0.75 * cells * charge * rig["speed_constant"] / 1000], tol=1e-13)
    true = at(found.x[0] * 1000)
    return {name: value * (1 + noise * U[name] * rng.standard_normal()) for name, value in true.items()}


def fit(rig, points, held):
    """Estimates and standard uncertainties of psi0, psi1 and eta, and chi squared."""

    def residuals(z):
        psi0, psi1, eta = np.exp(z[:3])
        k, density, kv = z[3] * 0.1, np.exp(z[4]) * rig["density"], np.exp(z[5]) * rig["speed_constant"]
        rows = [(k - rig["duct_loss"]) / U["duct_loss"], (np.exp(z[4]) - 1) / U["density"], (np.exp(z[5]) - 1) / U["speed_constant"]]
        if held:
            rows.append((psi1 - held[0]) / held[1])
        scales = {name: np.exp(value) for name, value in zip(SCALE, z[6:9])}
        rows += [(scales[name] - 1) / SCALE[name] for name in SCALE]
        phi_peak, kappa = z[9] * 0.1, z[10]
        rows += [(phi_peak - rig["phi_peak"]) / U["phi_peak"], (kappa - rig["kappa"]) / U["kappa"]]
        for krpm, point in zip(z[11:], points):
            model = shown(rig, psi0, psi1, eta, k, density, kv, point["nozzle_ratio"], krpm * 1000 * RPM, phi_peak, kappa)
            rows += [(model[name] * scales.get(name, 1) - point[name]) / (U[name] * point[name]) for name in READINGS if name in point]
        return np.array(rows)

    def guess(point):
        if "shaft_rad_s" in point:
            return point["shaft_rad_s"]
        return rig["speed_constant"] * (point["voltage_v"] - point["current_a"] * (rig["motor_ohm"] + rig["esc_ohm"]))

    start = [np.log(0.68), np.log(held[0] if held else 0.6), np.log(0.72), rig["duct_loss"] / 0.1, 0, 0, 0, 0, 0, rig["phi_peak"] / 0.1, rig["kappa"]]
    start += [guess(point) / RPM / 1000 for point in points]
    found = least_squares(residuals, start, jac="3-point", method="trf", xtol=1e-15, ftol=1e-15, gtol=1e-14, x_scale="jac")
    spread = np.sqrt(np.diag(np.linalg.inv(found.jac.T @ found.jac)))[:3]
    values = np.exp(found.x[:3])
    return values, spread * values, 2 * found.cost


def cases():
    rng = np.random.default_rng(20260518)
    every = set(READINGS)
    plans = [
        ([1.0, 1.0, 0.8, 0.8, 0.62, 0.62, 0.55, 0.55], every, None),
        ([1.05, 1.05, 0.9, 0.75, 0.6, 0.6, 0.55, 0.55, 0.55], every, None),
        ([1.0, 1.0, 1.0, 0.55, 0.55, 0.55], every - {"voltage_v"}, None),
        ([1.0, 1.0, 1.0, 1.0, 0.58, 0.58, 0.58, 0.58], every - {"shaft_rad_s"}, None),
        ([0.88], every, 0.1),
        ([0.88, 0.88, 0.88], every - {"shaft_rad_s"}, 0.05),
        ([0.84, 0.8], every - {"voltage_v"}, 0.08),
        ([0.9, 0.8, 0.7], every, 0.1),
    ]
    rows = []
    for number, (nozzles, kept, spread) in enumerate(plans, 1):
        rig, cells = random_rig(rng)
        fan = [rng.uniform(0.64, 0.74), rng.uniform(0.58, 0.78), rng.uniform(0.65, 0.75)]
        held = None if spread is None else (fan[1] + spread * rng.standard_normal(), spread)
        points = []
        for nozzle in nozzles:
            point = measured(rng, rig, cells, fan, nozzle, 1.0)
            points.append({"nozzle_ratio": nozzle, **{name: point[name] for name in READINGS if name in kept}})
        values, spreads, chi = fit(rig, points, held)
        result = dict(psi0=values[0], u_psi0=spreads[0], psi1=values[1], u_psi1=spreads[1], eta_peak=values[2], u_eta_peak=spreads[2], chi_squared=chi)
        for point in points:
            rows.append(dict(case=float(number), **rig, held_psi1=held[0] if held else "", held_u=held[1] if held else "",
                             nozzle_ratio=point["nozzle_ratio"], **{name: point.get(name, "") for name in READINGS}, **result))
    return rows


def write(name, notes, rows):
    columns = list(rows[0])
    lines = [*(f"# {note}" for note in notes), ",".join(columns)]
    lines += [",".join(value if isinstance(value, str) else format(value, ".17g") for value in row.values()) for row in rows]
    (FOLDER / f"{name}.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")


write("bench-points", [
    "Readings of eight standing fans with noise of the stated size, and the fan fitted back from them; a row is a point.",
    f"Source: computed by SciPy {scipy.__version__}: points by scipy.optimize.root and brentq from the primitive equations, fits by",
    "scipy.optimize.least_squares in other unknowns; the script is independent/bench.py. Parts are random within believable",
    "ranges; SI units, speed constant in rad/s per V. Standard uncertainties: thrust 3 %, shaft speed 1 %, current 3 %,",
    "voltage 1 %, their scales 2 % (thrust, current) and 0.5 % (voltage), speed constant 2 %, density 1.5 %, duct loss 0.03,",
    "phi_peak 0.03, kappa 0.1; an empty cell was not read, or not held. Efficiency does not move with blade speed here.",
    "Tolerance: 1e-7 relative; both fits stop where derivatives by differences no longer tell a step from none.",
], cases())
