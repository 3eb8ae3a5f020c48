import numpy as np
import pytest

from planner.physics.cycle.charge import FRESH_AT, RESIDUAL_AT, charge_at_closing
from planner.physics.cycle.setting import setting
from tests.physics.cycle.cases import BAR, SEA_LEVEL, full_boost


def closing(ratio=8.5, **changed):
    fuel = changed.pop("fuel", "premium")
    point = full_boost(fuel, changed.pop("boost", 0.9 * BAR), margins=False, **changed)
    return charge_at_closing(setting([point]), np.array([ratio]))


def test_the_charge_obeys_the_gas_law():
    charge = closing()
    held = charge.mass * charge.gas[0] * charge.temperature
    assert held == pytest.approx(charge.pressure * charge.volume)


def test_dry_charge_past_a_cold_port_is_warmed_by_the_residual_alone():
    dry = {"port_heating": 0.0, "evaporated_share": 0.0, "charge_temperature": 330.0}
    hot, hotter = (closing(**dry, residual_temperature=each) for each in (850.0, 1250.0))
    assert 330.0 < hot.temperature[0] < 370.0
    assert hotter.temperature > hot.temperature
    assert hotter.residual < hot.residual


def test_residual_and_fresh_charge_mix_without_losing_heat():
    point = full_boost(margins=False)
    cases = setting([point])
    charge = charge_at_closing(cases, np.array([8.5]))
    latent = 0.3 * cases.fuel_share * cases.vaporising
    cold = point.charge_temperature + 0.15 * (363.0 - point.charge_temperature)

    def heat(gas, at):
        return sum(c[0] * (at * 1e-3) ** i for i, c in enumerate(gas[1:6]))

    fresh, left = heat(cases.fresh, FRESH_AT), heat(cases.residual, RESIDUAL_AT)
    cold -= latent / fresh
    given = charge.residual * left * (1050.0 - charge.temperature)
    taken = (1 - charge.residual) * fresh * (charge.temperature - cold)
    assert given == pytest.approx(taken, rel=1e-6)


def test_the_residual_is_what_the_clearance_held():
    point = full_boost(margins=False)
    charge = closing()
    exhaust = 1.07 * SEA_LEVEL + 1.1 * 0.9 * BAR
    assert charge.exhaust_pressure[0] == pytest.approx(exhaust)
    constant = setting([point]).residual[0]
    left = exhaust * charge.swept / 7.5 / (constant * 1050.0)
    assert charge.residual * charge.mass == pytest.approx(left, rel=1e-4)


@pytest.mark.parametrize(("fuel", "cooler"), [("premium", "e85"), ("e85", "methanol")])
def test_alcohol_cools_the_charge(fuel, cooler):
    assert closing(fuel=cooler).temperature < closing(fuel=fuel).temperature
