"""The program's flights beside SciPy's integrator and a plain NumPy Runge-Kutta: are they the same, and how fast?

    python engine/benches/flights.py [PROGRAM]

PROGRAM is the built program, target/release/costcard by default. The equations are those of engine/ball/motion.rs,
in still air. The constants are read from the sources, so that a change there is a change here.
"""

import json
import pathlib
import re
import subprocess
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp

BALL = pathlib.Path(__file__).resolve().parent.parent / "ball"
MPH, RPM, YARD = 0.44704, 2 * np.pi / 60, 0.9144
# Ball speed mph, launch, direction, backspin, sidespin: drives to wedges that start and curve left and right.
STRIKES = np.array([
    [167.0 - 70.0 * short, 10.9 + 15.0 * short, bend, 2686.0 + 6600.0 * short, 300.0 * bend]
    for short, bend in zip(np.linspace(0, 1, 16), np.arange(16) % 7 - 3.0)
])


def constants():
    """Every `const NAME: f64` and every figure of the ball, by name."""
    found = {}
    for name in ("aero.rs", "motion.rs"):
        text = (BALL / name).read_text()
        for key, value in re.findall(r"const (\w+): f64 = ([-\d._e]+);", text):
            found[key] = float(value.replace("_", ""))
        ball = re.search(r"pub const BALL.*?\{(.*?)\};", text, re.S)
        for key, value in re.findall(r"(\w+): (-?[\d.]+),", ball.group(1) if ball else ""):
            found[key] = float(value)
    return found


C = constants()


def air():
    """Density and kinematic viscosity of the standard air of ball tests: the formulas of engine/ball/air.rs."""
    celsius, humidity, pressure = (75 - 32) / 1.8, 0.5, 101_325.0
    kelvin = celsius + 273.15
    vapour = humidity * 610.94 * np.exp(17.625 * celsius / (celsius + 243.04))
    density = (pressure - vapour) / (287.05 * kelvin) + vapour / (461.5 * kelvin)
    return density, 1.458e-6 * kelvin**1.5 / (kelvin + 110.4) / density


DENSITY, VISCOSITY = air()
FORCE = 0.5 * DENSITY * np.pi * C["RADIUS_M"] ** 2 / C["MASS_KG"]


def launched(strikes):
    """State by ball (place, velocity, share of spin left: seven rows), spin in rad/s and its axis."""
    speed, launch, direction, back, side = (strikes * [MPH, np.pi / 180, np.pi / 180, RPM, RPM]).T
    right, ahead = np.sin(direction), np.cos(direction)
    velocity = speed * np.array([np.cos(launch) * right, np.cos(launch) * ahead, np.sin(launch)])
    spin = np.array([back * ahead, -back * right, -side])
    size = np.linalg.norm(spin, axis=0)
    state = np.concatenate([np.zeros_like(velocity), velocity, np.ones((1, len(strikes)))])
    return state, size, spin / size


def rate(state, spin, axis):
    """How fast the state changes."""
    velocity, left = state[3:6], state[6]
    speed = np.sqrt((velocity**2).sum(axis=0))
    across = np.cross(axis, velocity, axis=0)
    length = np.sqrt((across**2).sum(axis=0))
    ratio = np.minimum(spin * left * C["RADIUS_M"] * length / speed**2, C["MOST_SPIN_RATIO"])
    reynolds = np.maximum(2 * C["RADIUS_M"] * speed / VISCOSITY, C["LEAST_REYNOLDS"]) * 1e-5
    slow = C["slow_drag"] * np.exp(-(reynolds - 0.5) / C["slow_drag_fall"])
    drag = C["drag"] + C["drag_by_spin"] * ratio + C["drag_by_spin_squared"] * ratio**2 + slow
    lift = C["lift"] * ratio / (C["lift_half_spin"] + ratio) + C["lift_by_spin"] * ratio
    changed = np.empty_like(state)
    changed[:3] = velocity
    changed[3:6] = FORCE * (lift * speed**2 * across / length - drag * speed * velocity)
    changed[5] -= C["GRAVITY_MPS2"]
    changed[6] = -C["SPIN_DECAY"] / C["RADIUS_M"] * speed * left
    return changed


def by_scipy(strikes):
    """Carry, apex (yd) and descent (degrees) of each strike."""
    state, spins, axes = launched(strikes)

    def ground(_, y):
        return y[2]

    def top(_, y):
        return y[5]

    ground.terminal, ground.direction, top.direction = True, -1, -1
    flights = []
    for start, spin, axis in zip(state.T, spins, axes.T):
        flight = solve_ivp(lambda _, y: rate(y, spin, axis), (0, 60), start, rtol=1e-10, atol=1e-10,
                           events=(ground, top))
        end, apex = flight.y_events[0][-1], flight.y_events[1][0][2]
        flights.append([end[1] / YARD, apex / YARD, descent(end)])
    return np.array(flights)


def by_numpy(strikes, step=0.05):
    """The same by steps of fourth order, all balls at once; the top and the pitch by the parabola of their steps."""
    state, spin, axis = launched(strikes)
    ended, apex = np.full_like(state, np.nan), np.zeros(len(strikes))
    flying = np.ones(len(strikes), bool)
    while flying.any():
        r1 = rate(state, spin, axis)
        r2 = rate(state + step / 2 * r1, spin, axis)
        r3 = rate(state + step / 2 * r2, spin, axis)
        after = state + step / 6 * (r1 + 2 * r2 + 2 * r3 + rate(state + step * r3, spin, axis))
        over = flying & (state[5] > 0) & (after[5] <= 0)
        apex = np.where(over, state[2] + state[5] ** 2 / np.maximum(2 * (state[5] - after[5]) / step, 1e-9), apex)
        down = flying & (after[2] <= 0)
        share = state[2] / np.where(down, state[2] - after[2], 1)
        for _ in range(3):  # the height is a parabola over the step, not a line
            bend = share * (1 - share) * (state[5] - after[5]) * step / 2
            share = np.where(down, (state[2] + bend) / np.where(down, state[2] - after[2], 1), share)
        at = state + share * (after - state)
        at[:3] += share * (1 - share) * step / 2 * (state[3:6] - after[3:6])
        ended = np.where(down, at, ended)
        flying &= ~down
        state = after
    return np.array([ended[1] / YARD, apex / YARD, descent(ended)]).T


def descent(end):
    """Angle below the horizontal at the pitch, degrees."""
    return np.degrees(np.arctan2(-end[5], np.hypot(end[3], end[4])))


def by_program(program, strikes):
    """The same as the program prints it."""
    flights = []
    for speed, launch, direction, back, side in strikes:
        told = subprocess.run(
            [program, "flight", "--json", f"--ball-speed={speed}", f"--launch={launch}",
             f"--direction={direction}", f"--backspin={back}", f"--sidespin={side}"],
            check=True, capture_output=True)
        told = json.loads(told.stdout)
        flights.append([told["carry_yd"], told["apex_yd"], told["descent_deg"]])
    return np.array(flights)


def per_second(fly, strikes, runs=5):
    """Flights a second, the best of some runs: others use the machine too."""
    best = np.inf
    for _ in range(runs):
        start = time.process_time()
        fly(strikes)
        best = min(best, time.process_time() - start)
    return len(strikes) / best


def main():
    program = sys.argv[1] if len(sys.argv) > 1 else "target/release/costcard"
    told = by_program(program, STRIKES)
    many = np.tile(STRIKES, (512, 1))
    for name, fly, timed in (("SciPy", by_scipy, STRIKES), ("NumPy", by_numpy, many)):
        carry, apex, angle = np.abs(fly(STRIKES) - told).max(axis=0)
        print(f"{name}: off by at most {carry:.5f} yd carry, {apex:.5f} yd apex, {angle:.5f}° descent; "
              f"{per_second(fly, timed):.0f} flights a second on one core")


if __name__ == "__main__":
    main()
