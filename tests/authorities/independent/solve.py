"""Solves operating points and heat with SciPy from the primitive equations, and writes the tables beside this folder.

Written independently of the models: all unknowns at once by a general root finder instead of closed forms and one scalar
root, and the heat by a stiff integrator instead of matrix exponentials. Needs Debian's python3-scipy; run it with
  /usr/bin/python3 tests/authorities/independent/solve.py
The tests read the committed tables, so nothing of this is needed to run them.
"""
from pathlib import Path

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import root

FOLDER = Path(__file__).resolve().parent.parent
G0 = 9.80665


def random_setup(rng):
    tip = rng.uniform(0.06, 0.12)
    x = tip / 0.09
    cells = int(rng.choice([4, 6, 8, 10, 12]))
    duty = float(rng.choice([1.0, 1.0, 0.9, 0.75, 0.6]))
    part = duty < 1
    return dict(
        tip_m=tip, hub_m=tip * rng.uniform(0.45, 0.5), psi0=rng.uniform(0.64, 0.74), psi1=rng.uniform(0.58, 0.78),
        eta_peak=rng.uniform(0.65, 0.75), phi_peak=rng.uniform(0.62, 0.72), kappa=rng.uniform(0.35, 0.6),
        nozzle_ratio=rng.uniform(0.8, 0.92), duct_loss=rng.uniform(0.12, 0.3), ram_recovery=rng.uniform(0.86, 0.97),
        lip_loss=float(rng.choice([0.0, rng.uniform(0.1, 0.4)])), density=rng.uniform(0.95, 1.3), sound_m_s=rng.uniform(325, 350),
        viscosity=rng.uniform(1.70e-5, 1.90e-5), drag_area_m2=rng.uniform(0.0025, 0.009) * x * x, mass_kg=4.0 * x**2.2,
        span_m=1.05 * x, oswald=0.8,
        speed_constant=1.2e3 / cells / x * rng.uniform(0.9, 1.1), idle_current_a=rng.uniform(1.5, 4),
        idle_slope=rng.uniform(3e-4, 9e-4), motor_ohm=rng.uniform(5e-3, 12e-3), esc_ohm=rng.uniform(1e-3, 2.5e-3),
        quiescent_w=rng.uniform(2, 5), proportional=rng.uniform(0.001, 0.004), duty=duty,
        switching=rng.uniform(1e-3, 4e-3) if part else 0.0, ripple=0.1 * duty * (1 - duty),
        freewheel_v=rng.uniform(0.02, 0.9) * (1 - duty), open_v=cells * 3.95,
        source_ohm=cells * rng.uniform(1.2e-3, 3e-3) + 1.5e-3,
    )


def solve_point(s, state):
    level = state == "level"
    given = 0.0 if state == "standing" else 22.0
    area = np.pi / 4 * (s["tip_m"] ** 2 - s["hub_m"] ** 2)
    radius = np.sqrt((s["tip_m"] ** 2 + s["hub_m"] ** 2) / 8)
    weight = s["mass_kg"] * G0

    def equations(z):
        axial, blade, speed, current, bus = z * scale
        phi = axial / blade
        psi = s["psi0"] - s["psi1"] * phi
        tip_speed = blade * s["tip_m"] / 2 / radius
        reynolds = (tip_speed * s["density"] / s["viscosity"]) / (170 * 1.225 / 1.78938e-5)
        losses = (0.5 + 0.5 * reynolds**-0.2) * (1 + 8 * max(0, tip_speed / s["sound_m_s"] - 0.55) ** 2)
        peak = 1 - (1 - s["eta_peak"]) * losses
        eta = peak * (1 - s["kappa"] * ((phi - s["phi_peak"]) / s["phi_peak"]) ** 2)
        efflux = axial / s["nozzle_ratio"]
        lip = s["lip_loss"] * max(0, 1 - speed / efflux / 0.4)
        rise = blade**2 * psi
        needed = 0.5 * (efflux**2 - s["ram_recovery"] * speed**2) + 0.5 * (s["duct_loss"] + lip) * axial**2
        shaft_power = s["density"] * area * axial * rise / eta
        omega = blade / radius
        torque = shaft_power / omega
        draw = (s["duty"] + s["switching"] + s["ripple"]) * current + (s["quiescent_w"] + s["freewheel_v"] * current) / bus
        draw /= 1 - s["proportional"]
        if level:
            pressure = 0.5 * s["density"] * speed**2
            drag = pressure * s["drag_area_m2"] + weight**2 / (pressure * np.pi * s["oswald"] * s["span_m"] ** 2)
            force = s["density"] * area * axial * (efflux - speed) - drag
        else:
            force = speed - given
        return [
            (rise - needed) / 1e3,
            force / 10,
            (current - torque * s["speed_constant"] - s["idle_current_a"] - s["idle_slope"] * omega) / 100,
            (s["duty"] * bus - current * (s["motor_ohm"] + s["esc_ohm"]) - omega / s["speed_constant"]) / 10,
            (bus - s["open_v"] + draw * s["source_ohm"]) / 10,
        ]

    blade0 = 0.75 * s["duty"] * s["open_v"] * s["speed_constant"] * radius
    scale = np.array([0.62 * blade0, blade0, max(0.6 * blade0, 1), 80.0, s["open_v"]])
    found = root(equations, np.array([1, 1, 1.0 if level else given / scale[2], 1, 0.93]), method="hybr", tol=1e-13)
    residual = np.max(np.abs(equations(found.x)))
    if residual > 1e-9:
        return None
    axial, blade, speed, current, bus = found.x * scale
    if level and not (15 < speed < 150):
        return None
    thrust = s["density"] * area * axial * (axial / s["nozzle_ratio"] - speed)
    return dict(speed_m_s=speed if level else given, blade_m_s=blade, axial_m_s=axial, current_a=current, bus_v=bus, thrust_n=thrust)


def write(name, notes, rows):
    columns = list(rows[0])
    lines = [*(f"# {note}" for note in notes), ",".join(columns)]
    lines += [",".join(value if isinstance(value, str) else format(value, ".17g") for value in row.values()) for row in rows]
    (FOLDER / f"{name}.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")


def operating_points():
    rng = np.random.default_rng(20261125)
    rows = []
    while len(rows) < 72:
        setup = random_setup(rng)
        points = [(state, solve_point(setup, state)) for state in ("standing", "climbing", "level")]
        if any(point is None for _, point in points):
            continue
        rows += [dict(state=state, **setup, **point) for state, point in points]
    write("independent-points", [
        "Standing, slow (22 m/s) and level points of 24 random setups, at full and part throttle: five equations solved at once.",
        f"Source: computed by SciPy {scipy.__version__}, scipy.optimize.root, method hybr (MINPACK), from the primitive equations;",
        "the script is independent/solve.py. Parts are random within believable ranges; SI units, speed constant in rad/s per V.",
        "Tolerance: 1e-7 relative; the solver stops at scaled residuals below 1e-9.",
    ], rows)


def heat():
    rng = np.random.default_rng(7)
    rows = []
    for _ in range(12):
        mass = rng.uniform(0.1, 0.6)
        case = dict(
            inner_j_per_k=0.2 * mass * 385, outer_j_per_k=0.8 * mass * 480, between_w_per_k=7 * mass / 0.33,
            to_air_w_per_k=2.5 * (mass / 0.33) ** (2 / 3), hot_w=rng.uniform(60, 220) * mass / 0.33,
            hot_feedback_w_per_k=rng.uniform(0.2, 0.9) * mass / 0.33, hot_outer_w=rng.uniform(50, 200), hot_s=rng.uniform(5, 20),
            cool_w=rng.uniform(5, 20), cool_feedback_w_per_k=rng.uniform(0.02, 0.08), cool_outer_w=rng.uniform(20, 60),
            cool_s=rng.uniform(10, 40), cycles=float(rng.integers(2, 9)),
        )
        state = np.zeros(2)
        peaks = np.zeros(2)
        for _ in range(int(case["cycles"])):
            for phase in ("hot", "cool"):
                state, highest = integrate(case, phase, state)
                peaks = np.maximum(peaks, highest)
        rows.append(dict(**case, inner_peak_k=peaks[0], outer_peak_k=peaks[1]))
    write("independent-heat", [
        "Two heat stores with resistance feedback over repeated passes; highest temperatures above the air, inside the phases too.",
        f"Source: computed by SciPy {scipy.__version__}, scipy.integrate.solve_ivp, method Radau, rtol 1e-11; independent/solve.py.",
        "Tolerance: 1e-7 relative; the integrator's own tolerance over up to sixteen phases.",
    ], rows)


def integrate(case, phase, state):
    def slope(_, y):
        between = case["between_w_per_k"] * (y[0] - y[1])
        return [
            (case[f"{phase}_w"] + case[f"{phase}_feedback_w_per_k"] * y[0] - between) / case["inner_j_per_k"],
            (case[f"{phase}_outer_w"] + between - case["to_air_w_per_k"] * y[1]) / case["outer_j_per_k"],
        ]

    # A temperature turns where its slope crosses zero: the solver finds these times as events.
    turns = [lambda t, y, store=store: slope(t, y)[store] for store in (0, 1)]
    run = solve_ivp(slope, (0, case[f"{phase}_s"]), state, method="Radau", rtol=1e-11, atol=1e-11, events=turns)
    seen = np.column_stack([run.y[:, :1], run.y[:, -1:], *(found.T for found in run.y_events if len(found))])
    return run.y[:, -1], seen.max(axis=1)


operating_points()
heat()
