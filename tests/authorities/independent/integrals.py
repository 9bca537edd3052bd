"""Integrates runs, dives, take-off rolls and the heat of a whole flight with SciPy, and writes the tables beside this folder.

Written independently of the models: the equations of motion and of heat are stepped by adaptive integrators, where the
models use closed forms. Needs Debian's python3-scipy; run it with
  /usr/bin/python3 tests/authorities/independent/integrals.py
The tests read the committed tables, so nothing of this is needed to run them.
"""
from pathlib import Path

import numpy as np
import scipy
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

FOLDER = Path(__file__).resolve().parent.parent
G0 = 9.80665
TIGHT = dict(method="DOP853", rtol=1e-12, atol=1e-12)


def write(name, notes, rows):
    columns = list(rows[0])
    lines = [*(f"# {note}" for note in notes), ",".join(columns)]
    lines += [",".join(value if isinstance(value, str) else format(value, ".17g") for value in row.values()) for row in rows]
    (FOLDER / f"{name}.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")


def net_force(case, speed):
    """Thrust minus drag plus the part of the weight along the path, N."""
    thrust = case["thrust0_n"] + case["thrust1_n_s_m"] * speed + case["thrust2_n_s2_m2"] * speed**2
    drag = 0.5 * case["density_kg_m3"] * case["drag_area_m2"] * speed**2 + case["induced_n_m2_s2"] / speed**2
    return thrust - drag + case["mass_kg"] * G0 * np.sin(case["angle_rad"])


def along_path(case):
    """Speed after the path and the time it took: m dV/dt = force, dx/dt = V, stopped at the length."""
    def motion(_, state):
        return [net_force(case, state[0]) / case["mass_kg"], state[0]]

    def arrived(_, state):
        return state[1] - case["path_m"]

    arrived.terminal = True
    found = solve_ivp(motion, (0, 600), [case["entry_m_s"], 0.0], events=arrived, **TIGHT)
    return found.y_events[0][0][0], found.t_events[0][0]


def runs_and_dives():
    rng = np.random.default_rng(31)
    rows = []
    for kind in ("level square", "dive square", "dive free", "level full", "dive full"):
        for _ in range(8):
            dive, full, free = kind.startswith("dive"), kind.endswith("full"), kind.endswith("free")
            case = dict(
                kind=kind, density_kg_m3=rng.uniform(0.95, 1.3), drag_area_m2=rng.uniform(0.003, 0.009),
                mass_kg=rng.uniform(2.8, 5.2), induced_n_m2_s2=rng.uniform(800, 2600) if full else 0.0,
                thrust0_n=0.0 if free else rng.uniform(34, 66), thrust1_n_s_m=rng.uniform(-0.3, -0.1) if full else 0.0,
                thrust2_n_s2_m2=0.0 if free else rng.uniform(-1.5e-3, -3e-4),
                angle_rad=np.pi / 2 if free else rng.uniform(0.15, 1.2) if dive else 0.0,
            )
            steady = brentq(lambda speed: net_force(case, speed), 25, 400, xtol=1e-13)
            case.update(entry_m_s=steady * rng.uniform(0.35, 0.7), path_m=rng.uniform(60, 300) if dive else rng.uniform(150, 900))
            flat = dict(case, angle_rad=0.0)
            level = 0.0 if free else brentq(lambda speed: net_force(flat, speed), 25, 400, xtol=1e-13)
            speed, time = along_path(case)
            rows.append(dict(**case, level_steady_m_s=level, steady_m_s=steady, speed_m_s=speed, time_s=time))
    write("independent-dives", [
        "Speed at the end of level runs and dives: thrust T0 + T1 V + T2 V^2, drag with an induced part, a share of the weight.",
        "Kinds: square, excess force linear in V^2 (no T1, no induced drag); free, straight down without thrust; full, all terms.",
        "Steady is the speed the path leads to in the end, level steady that of level flight at the same throttle (0: none).",
        f"Source: computed by SciPy {scipy.__version__}, scipy.integrate.solve_ivp, method DOP853, rtol 1e-12; independent/integrals.py.",
        "Tolerance: 1e-10 relative where the closed form is exact (square, free); full ones, which it interpolates, are held to 1e-2.",
    ], rows)


def roll_length(case):
    """Integral of V dV over acceleration up to lift-off, with the lift coefficient that rolls shortest at constant thrust."""
    pressure = 0.5 * case["density_kg_m3"]
    k = case["wing_area_m2"] / (np.pi * case["oswald"] * case["span_m"] ** 2)
    lift_coefficient = case["friction"] / (2 * k)

    def integrand(speed):
        drag = pressure * speed**2 * (case["drag_area_m2"] + case["wing_area_m2"] * k * lift_coefficient**2)
        load = case["mass_kg"] * G0 - pressure * speed**2 * case["wing_area_m2"] * lift_coefficient
        force = case["thrust0_n"] + case["thrust1_n_s_m"] * speed - drag - case["friction"] * max(load, 0)
        return case["mass_kg"] * speed / force

    return quad(integrand, 0, case["lift_off_m_s"], epsabs=1e-12, epsrel=1e-12)[0]


def rolls():
    rng = np.random.default_rng(5)
    rows = []
    for _ in range(12):
        case = dict(
            density_kg_m3=rng.uniform(0.95, 1.3), mass_kg=rng.uniform(2.8, 5.2), wing_area_m2=rng.uniform(0.17, 0.36),
            span_m=rng.uniform(0.95, 1.45), oswald=rng.uniform(0.7, 0.85), drag_area_m2=rng.uniform(0.003, 0.01),
            lift_coefficient_max=rng.uniform(0.9, 1.2), friction=rng.uniform(0.03, 0.12),
            thrust0_n=rng.uniform(28, 60), thrust1_n_s_m=rng.uniform(-0.35, -0.1),
        )
        lift = 0.5 * case["density_kg_m3"] * case["wing_area_m2"] * case["lift_coefficient_max"]
        stall = np.sqrt(case["mass_kg"] * G0 / lift)
        case.update(stall_m_s=stall, lift_off_m_s=1.2 * stall)
        rows.append(dict(**case, roll_m=roll_length(case)))
    write("independent-rolls", [
        "Ground roll to lift-off at 1.2 times the stall speed: thrust T0 + T1 V, drag, friction on what the wing does not carry.",
        f"Source: computed by SciPy {scipy.__version__}, scipy.integrate.quad (QUADPACK), epsrel 1e-12; independent/integrals.py.",
        "Tolerance: 5e-3 relative; the model takes the force at 0.7 of the lift-off speed for all of the roll.",
    ], rows)


def flight_heat():
    rng = np.random.default_rng(12)
    phases = ("stand", "climb", "pass", "cruise", "pass", "approach")
    rows = []
    for number in range(8):
        mass = rng.uniform(0.1, 0.6)
        air = 2.5 * (mass / 0.33) ** (2 / 3)
        path = dict(inner_j_per_k=0.2 * mass * 385, outer_j_per_k=0.8 * mass * 480, between_w_per_k=7 * mass / 0.33)
        state = np.zeros(2)
        for place, phase in enumerate(phases):
            hot = phase in ("stand", "climb", "pass")
            case = dict(
                case=str(number + 1), place=str(place + 1), phase=phase, **path,
                to_air_w_per_k=air * (0.6 if phase == "stand" else 1.0),
                inner_w=(rng.uniform(60, 200) if hot else rng.uniform(3, 20)) * mass / 0.33,
                feedback_w_per_k=(rng.uniform(0.2, 0.9) if hot else rng.uniform(0.01, 0.08)) * mass / 0.33,
                outer_w=rng.uniform(50, 180) if hot else rng.uniform(15, 60),
                time_s=rng.uniform(3, 20) if hot else rng.uniform(20, 90),
            )
            state = heated(case, state)
            rows.append(dict(**case, inner_end_k=state[0], outer_end_k=state[1]))
    write("independent-flight-heat", [
        "Two heat stores over a flight of unlike phases, from air temperature; rises above the air at the end of each phase.",
        "Standing, the outer store gives 0.6 of the heat to the air that it gives in flight.",
        f"Source: computed by SciPy {scipy.__version__}, scipy.integrate.solve_ivp, method Radau, rtol 1e-11; independent/integrals.py.",
        "Tolerance: 1e-7 relative; the integrator's own tolerance over six phases.",
    ], rows)


def heated(case, state):
    def slope(_, rise):
        across = case["between_w_per_k"] * (rise[0] - rise[1])
        return [
            (case["inner_w"] + case["feedback_w_per_k"] * rise[0] - across) / case["inner_j_per_k"],
            (case["outer_w"] + across - case["to_air_w_per_k"] * rise[1]) / case["outer_j_per_k"],
        ]

    return solve_ivp(slope, (0, case["time_s"]), state, method="Radau", rtol=1e-11, atol=1e-11).y[:, -1]


runs_and_dives()
rolls()
flight_heat()
