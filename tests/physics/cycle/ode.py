"""The same cycle written another way: a system of differential equations, for SciPy.

Nothing here is shared with the march but the state of the charge at closing: the gases come
as functions, pressure and temperatures move together, steps are chosen by the solver.
"""

from dataclasses import dataclass
from math import exp, log, pi

import numpy as np
from scipy.integrate import solve_ivp
from scipy.interpolate import RectBivariateSpline
from scipy.optimize import brentq

from planner.physics.cycle.gas import Gas

TINY = 2e-5  # burned share at which the burned zone begins


@dataclass
class Solved:
    knock: float
    peak_pressure: float
    work: float
    heat: float
    last_temperature: float


def mixed_gas(charge):
    """The unburned gas of the first case of a charge."""
    constant, *heat, datum = (float(each[0]) for each in charge.gas)
    return Gas(constant, tuple(heat), datum)


def splined(table):
    """Burned gas from a table by cubic splines, not by its bilinear cells."""
    hot = 600.0 + 25.0 * np.arange(121)
    dense = np.linspace(log(0.5e5), log(300e5), 14)
    h = RectBivariateSpline(hot, dense, table.values[0], kx=3, ky=3)
    r = RectBivariateSpline(hot, dense, table.values[1], kx=3, ky=3)

    def state(t, p):
        """Enthalpy, its rise with T and p, gas constant, its rise with T and p."""
        at = log(p)
        return (
            h.ev(t, at),
            h.ev(t, at, dx=1),
            h.ev(t, at, dy=1) / p,
            r.ev(t, at),
            r.ev(t, at, dx=1),
            r.ev(t, at, dy=1) / p,
        )

    return state


class Cylinder:
    """One cycle; angles in radians after firing top centre."""

    def __init__(self, point, charge, gas, burned, ratio, phasing):
        self.point, self.gas, self.burned, self.ratio = point, gas, burned, ratio
        self.mass = float(charge.mass[0])
        self.p0, self.t0 = float(charge.pressure[0]), float(charge.temperature[0])
        self.swept, self.v0 = float(charge.swept[0]), float(charge.volume[0])
        self.cp = [float(each[0]) for each in charge.gas[1:6]]
        self.r = float(charge.gas[0][0])
        at_best = point.burn_angle * (point.speed / (2500 * pi / 30)) ** point.burn_speed_growth
        late = max(0.0, phasing - np.radians(8)) / np.radians(10)
        self.span = (
            at_best * (1 + point.late_burn_growth * late) / (self.along(0.9) - self.along(0.1))
        )
        self.start = phasing - self.along(0.5) * self.span
        self.over = self.start + self.along(point.knock_end) * self.span
        self.lit = self.start + self.along(TINY) * self.span

    @staticmethod
    def along(share):
        return (-log(1 - share) / 6.908) ** (1 / 3)

    def volume(self, angle):
        point = self.point
        crank = point.stroke / 2
        pin = crank * np.cos(angle)
        pin += np.sqrt(point.rod_length**2 - (crank * np.sin(angle)) ** 2)
        area = pi / 4 * point.bore**2
        return self.swept / (self.ratio - 1) + area * (crank + point.rod_length - pin)

    def growth(self, angle):
        near = 1e-5
        return (self.volume(angle + near) - self.volume(angle - near)) / (2 * near)

    def share(self, angle):
        if angle < self.lit:
            return 0.0, 0.0
        s = (angle - self.start) / self.span
        left = exp(-6.908 * s**3)
        return 1 - left, 3 * 6.908 * s**2 * left / self.span

    def conductance(self, angle, p, v):
        """Heat transfer coefficient times the wall area [W/K]."""
        point = self.point
        t = p * v / (self.mass * self.r)
        w = 2.28 * point.stroke * point.speed / pi
        if angle > self.start:
            motored = self.p0 * (self.v0 / v) ** 1.33
            w += 3.24e-3 * self.swept * self.t0 / (self.p0 * self.v0) * max(0.0, p - motored)
        h = 3.26 * point.bore**-0.2 * (p / 1000) ** 0.8 * t**-0.55 * w**0.8
        area = pi / 2 * point.bore**2 + 4 * v / point.bore
        return h * area * point.heat_loss_factor

    def rate(self, p, t):
        octane = self.point.octane
        delay = 17.68e-3 * (octane / 100) ** 3.402 * (p / 101325) ** -1.7 * exp(3800 / t)
        return 1 / (delay * self.point.delay_factor)

    def heat_capacity(self, t):
        return sum(c * (t * 1e-3) ** i for i, c in enumerate(self.cp))

    def slope(self, angle, y):
        """Rates of p, T unburned, T burned, knock, work and heat with the angle."""
        p, t_u, t_b = y[:3]
        v, dv = self.volume(angle), self.growth(angle)
        x, dx = self.share(angle)
        time = 1 / self.point.speed
        passing = self.conductance(angle, p, v) * time
        wall = self.point.wall_temperature
        m_u, m_b = self.mass * (1 - x), self.mass * x
        h_b, h_t, h_p, r_b, r_t, r_p = self.burned(t_b, p) if x > 0 else (0, 1, 0, 0, 0, 0)
        v_b = m_b * r_b * t_b / p
        each_u = self.r * t_u / p  # volume of one kilogram unburned, finite to the end
        v_u = m_u * each_u
        q_u = passing * each_u / v * (wall - t_u)
        q_b = passing * v_b / v * (wall - t_b)
        # rows: unburned energy, burned energy, volume; unknown: dp, dT unburned, dT burned
        matrix = np.array(
            [
                [-each_u, self.heat_capacity(t_u), 0.0],
                [m_b * h_p - v_b, 0.0, m_b * h_t if x > 0 else 1.0],
                [
                    -(v_u + v_b) / p + m_b * r_p * t_b / p,
                    m_u * self.r / p,
                    m_b * (r_b + r_t * t_b) / p if x > 0 else 0.0,
                ],
            ]
        )
        burning = self.mass * dx
        right = np.array(
            [
                q_u,
                burning * (self.gas.enthalpy(t_u) - h_b) + q_b if x > 0 else 0.0,
                dv + burning * (self.r * t_u - r_b * t_b) / p,
            ]
        )
        knock = self.rate(p, t_u) * time if angle < self.over else 0.0
        return [*np.linalg.solve(matrix, right), knock, p * dv, m_u * q_u + q_b]

    def solve(self, first, last, tolerance=1e-8):
        """March from closing to opening in three legs: cold, burning, after knock."""
        y = [self.p0, self.t0, 2500.0, 0.0, 0.0, 0.0]
        peak = 0.0
        for begin, end in ((first, self.lit), (self.lit, self.over), (self.over, last)):
            if begin == self.lit:
                y[2] = self.flame(y[0], y[1])
            run = solve_ivp(
                self.slope,
                (begin + 1e-12, end - 1e-12),
                y,
                rtol=tolerance,
                atol=1e-9,
                max_step=0.02,
                dense_output=False,
            )
            y = list(run.y[:, -1])
            peak = max(peak, float(run.y[0].max()))
        return Solved(y[3], peak, y[4], y[5], y[2])

    def flame(self, p, t_u):
        held = self.gas.enthalpy(t_u)
        return brentq(lambda t: float(self.burned(t, p)[0]) - held, 1000.0, 3500.0)
