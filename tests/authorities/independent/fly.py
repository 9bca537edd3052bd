"""Flies passes and cruise through time with SciPy from the primitive equations, and writes phases.csv beside this folder.

Written independently of the models: charge and temperatures are integrated continuously, and the operating point is solved
anew at every instant by a general root finder, instead of one point a phase and matrix exponentials. The difference is what
the models' constant currents within a phase cost. Needs Debian's python3-scipy; run it with
  /usr/bin/python3 tests/authorities/independent/fly.py
"""
from pathlib import Path

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import root

FOLDER = Path(__file__).resolve().parent.parent
G0 = 9.80665
CHART = [3.27, 3.61, 3.69, 3.71, 3.73, 3.75, 3.77, 3.79, 3.80, 3.82, 3.84, 3.85, 3.87, 3.91, 3.95, 3.98, 4.02, 4.08, 4.11, 4.15, 4.20]


def random_case(rng):
    x = rng.uniform(0.75, 1.25)
    cells = int(rng.choice([6, 8, 10, 12]))
    capacity_ah = rng.uniform(4, 7)
    motor = 0.33 * x**2
    return dict(
        tip_m=0.09 * x, hub_m=0.042 * x, psi0=rng.uniform(0.66, 0.72), psi1=rng.uniform(0.62, 0.74), eta_peak=rng.uniform(0.68, 0.73),
        phi_peak=rng.uniform(0.64, 0.7), kappa=0.45, nozzle_ratio=rng.uniform(0.84, 0.9), duct_loss=rng.uniform(0.14, 0.24),
        ram_recovery=rng.uniform(0.9, 0.95), density=rng.uniform(1.05, 1.25), sound_m_s=rng.uniform(338, 345), viscosity=1.8e-5,
        air_k=rng.uniform(278, 303), drag_area_m2=0.0055 * x * x * rng.uniform(0.8, 1.2), mass_kg=4.2 * x**2.2, span_m=1.1 * x,
        speed_constant=1.13e3 / cells / x * rng.uniform(0.93, 1.07), idle_current_a=2.5, idle_slope=6e-4,
        motor_ohm=0.0009 * cells * rng.uniform(0.8, 1.1), winding_j_per_k=77 * motor, case_j_per_k=384 * motor,
        winding_case_w_per_k=21 * motor, case_air_w_per_k=7.6 * motor, esc_ohm=1.4e-3, esc_per_k=0.006, quiescent_w=4.0,
        proportional=0.003, switching_s=1e-7, switching_hz=24e3, freewheel_v=float(rng.choice([0.0, 0.7])), board_j_per_k=20.0,
        sink_j_per_k=60.0, board_sink_w_per_k=1.5, sink_air_w_per_k=0.35, cells=float(cells), capacity_as=3600 * capacity_ah,
        cell_ohm=cells * 0.009 / capacity_ah, lead_ohm=1.5e-3, pack_j_per_k=1000 * cells * capacity_ah * 0.024,
        pass_s=rng.uniform(6, 14), cruise_s=rng.uniform(15, 40), cycles=float(rng.integers(3, 7)), cruise_m_s=rng.uniform(34, 44),
    )


def point(case, y, passing, guess):
    area = np.pi / 4 * (case["tip_m"] ** 2 - case["hub_m"] ** 2)
    radius = np.sqrt((case["tip_m"] ** 2 + case["hub_m"] ** 2) / 8)
    tip_over_mean = 0.5 * case["tip_m"] / radius
    charge, pack, winding, magnets, board = y[:5]
    share = charge / case["capacity_as"]
    kv = case["speed_constant"] / (1 - 0.0012 * (magnets - 293.15))
    r_motor = case["motor_ohm"] * (1 + 0.00393 * (winding - 293.15))
    r_board = case["esc_ohm"] * (1 + case["esc_per_k"] * (board - 298.15))
    missing = max(0.0, 1 - share / 0.3)
    r_cells = case["cell_ohm"] * np.exp(20000 / 8.31446 * (1 / pack - 1 / 298.15)) * (1 + missing**2)
    open_voltage = case["cells"] * np.interp(share, np.linspace(0, 1, 21), CHART)

    def losses(duty):
        part = duty < 1
        return (
            0.5 * case["switching_s"] * case["switching_hz"] if part else 0.0,
            0.1 * duty * (1 - duty),
            case["freewheel_v"] * (1 - duty),
            duty + (0.5 if case["freewheel_v"] > 0 else 1.0) * (1 - duty),
        )

    def equations(z):
        axial, blade, free, current, bus = z * scale
        speed, duty = (free, 1.0) if passing else (case["cruise_m_s"], free)
        switching, ripple, freewheel, conducting = losses(duty)
        phi = axial / blade
        psi = case["psi0"] - case["psi1"] * phi
        reynolds = case["density"] * blade * tip_over_mean / case["viscosity"] / (1.225 * 170 / 1.78938e-5)
        mach = blade * tip_over_mean / case["sound_m_s"]
        worse = (0.5 + 0.5 * reynolds**-0.2) * (1 + 8 * max(0.0, mach - 0.55) ** 2)
        eta = (1 - (1 - case["eta_peak"]) * worse) * (1 - case["kappa"] * (phi / case["phi_peak"] - 1) ** 2)
        efflux = axial / case["nozzle_ratio"]
        needed = 0.5 * (efflux**2 - case["ram_recovery"] * speed**2) + 0.5 * case["duct_loss"] * axial**2
        omega = blade / radius
        torque = case["density"] * area * axial * blade**2 * psi / eta / omega
        draw = (duty + switching + ripple) * current + (case["quiescent_w"] + freewheel * current) / bus
        draw /= 1 - case["proportional"]
        pressure = 0.5 * case["density"] * speed**2
        drag = pressure * case["drag_area_m2"] + (case["mass_kg"] * G0) ** 2 / (pressure * np.pi * 0.8 * case["span_m"] ** 2)
        return [
            (blade**2 * psi - needed) / 1e3,
            (case["density"] * area * axial * (efflux - speed) - drag) / 10,
            (current - torque * kv - case["idle_current_a"] - case["idle_slope"] * omega) / 100,
            (duty * bus - current * (r_motor + r_board * conducting) - omega / kv) / 10,
            (bus - open_voltage + draw * (r_cells + case["lead_ohm"])) / 10,
        ]

    blade0 = 0.78 * open_voltage * kv * radius * (1 if passing else 0.5)
    scale = np.array([0.62 * blade0, blade0, 0.6 * blade0 if passing else 0.5, 100.0, open_voltage])
    found = root(equations, np.ones(5) if guess is None else guess / scale, method="hybr", tol=1e-12)
    if np.max(np.abs(equations(found.x))) > 1e-8:
        return None
    axial, blade, free, current, bus = found.x * scale
    speed, duty = (free, 1.0) if passing else (case["cruise_m_s"], free)
    switching, ripple, freewheel, conducting = losses(duty)
    omega = blade / radius
    draw = ((duty + switching + ripple) * current + (case["quiescent_w"] + freewheel * current) / bus) / (1 - case["proportional"])
    idle = (case["idle_current_a"] + case["idle_slope"] * omega) * omega / kv
    return dict(
        z=found.x * scale, speed=speed, duty=duty, draw=draw, copper=current**2 * r_motor, case=idle + ripple * bus * current,
        board=current**2 * r_board * conducting + case["quiescent_w"] + case["proportional"] * bus * draw
        + (switching * bus + freewheel) * current,
        cells=draw**2 * r_cells,
    )


def fly(case):
    guesses = {True: None, False: None}
    failed = []

    def slope(_, y, passing):
        p = point(case, y, passing, guesses[passing])
        if p is None:
            failed.append(y)
            return np.zeros(7)
        guesses[passing] = p["z"]
        winding, magnets, board, sink = y[2:6]
        wc = case["winding_case_w_per_k"] * (winding - magnets)
        bs = case["board_sink_w_per_k"] * (board - sink)
        return [
            -p["draw"], p["cells"] / case["pack_j_per_k"], (p["copper"] - wc) / case["winding_j_per_k"],
            (p["case"] + wc - case["case_air_w_per_k"] * (magnets - case["air_k"])) / case["case_j_per_k"],
            (p["board"] - bs) / case["board_j_per_k"], (bs - case["sink_air_w_per_k"] * (sink - case["air_k"])) / case["sink_j_per_k"],
            p["speed"],
        ]

    air = case["air_k"]
    y = np.array([case["capacity_as"], max(air, 303.15), air, air, air, air, 0.0])
    peaks = y[1:5]
    speeds = []
    for _ in range(int(case["cycles"])):
        for passing in (True, False):
            time = case["pass_s"] if passing else case["cruise_s"]
            start = y[6]
            found = solve_ivp(slope, (0, time), y, args=(passing,), method="RK45", rtol=1e-7, atol=1e-6, max_step=time / 20)
            y = found.y[:, -1]
            peaks = np.maximum(peaks, found.y[1:5].max(axis=1))
            if passing:
                speeds.append((y[6] - start) / time)
            if failed or y[0] < 0.12 * case["capacity_as"]:
                return None
    if peaks[1] > 273 + 230 or point(case, y, False, guesses[False])["duty"] > 0.85:
        return None
    return dict(
        charge_used_as=case["capacity_as"] - y[0], first_pass_m_s=speeds[0], last_pass_m_s=speeds[-1], pack_k=peaks[0], winding_k=peaks[1],
        case_k=peaks[2], board_k=peaks[3],
    )


rng = np.random.default_rng(20261203)
rows = []
while len(rows) < 8:
    case = random_case(rng)
    result = fly(case)
    if result is not None:
        rows.append(dict(**case, **result))
columns = list(rows[0])
lines = [
    "# Passes at full throttle with cruise between them, from a full pack: charge used, mean speed of the first and the last pass,",
    "# peaks of pack, winding, case and board. SI; speed constant in rad/s per V; Oswald factor 0.8.",
    f"# Source: computed by SciPy {scipy.__version__}: scipy.integrate.solve_ivp (RK45, rtol 1e-7) over charge and temperatures, with the",
    "# operating point solved at every instant by scipy.optimize.root; the script is independent/fly.py. Parts are random within",
    "# believable ranges (assumed).",
    "# Tolerance: 8e-3 relative, on temperature rises as on the rest; a model step has constant currents, those of its middle,",
    "# while within one pass they drift by up to a tenth.",
    ",".join(columns),
]
lines += [",".join(format(row[column], ".10g") for column in columns) for row in rows]
(FOLDER / "phases.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
