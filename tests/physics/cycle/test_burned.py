from importlib.resources import files

import numpy as np
import pytest

from planner.physics.cycle import burned
from planner.physics.cycle.burned import (
    COLDEST,
    KEPT,
    LOG_STEP,
    LOWEST_LOG,
    TEMPERATURE_STEP,
    BurnedTable,
    build,
    burned_table,
    content_key,
    elements,
    remember,
    shipped,
)
from planner.physics.cycle.equilibrium import equilibrium
from planner.physics.cycle.fuels import blend
from planner.physics.cycle.kernel import burned_gas
from tests.physics.cycle.cases import CONSTANTS, GRADES, full_boost


def atoms_of(fuel, mixture):
    return elements(full_boost(fuel).fuel, mixture)


@pytest.mark.parametrize("mixture", ["off_boost_mixture", "full_boost_mixture"])
@pytest.mark.parametrize("fuel", sorted(GRADES))
def test_the_tables_of_the_named_grades_are_shipped_and_true(fuel, mixture):
    atoms = atoms_of(fuel, CONSTANTS[mixture])
    found = shipped(content_key(atoms))
    assert found is not None
    assert found.values == pytest.approx(build(atoms).values, rel=1e-8)


def test_no_table_is_shipped_that_no_grade_uses():
    kept = {each.name for each in files("planner.physics.tables").iterdir()}
    kept = {name for name in kept if name.startswith("cycle_burned_")}
    mixtures = (CONSTANTS["off_boost_mixture"], CONSTANTS["full_boost_mixture"])
    used = {content_key(atoms_of(fuel, each)) for fuel in GRADES for each in mixtures}
    assert kept == {f"cycle_burned_{key}.npy" for key in used}


def test_another_blend_is_built_once(monkeypatch):
    monkeypatch.setattr(burned, "_known", {})
    fuel = blend(0.3, 0.0, 43.4e6, 745.0)
    first = burned_table(fuel, 1.18)
    assert shipped(first.key) is None
    monkeypatch.setattr(burned, "build", lambda _: pytest.fail("built twice"))
    assert burned_table(fuel, 1.18) is first


def test_a_table_kept_elsewhere_is_used_again(monkeypatch):
    monkeypatch.setattr(burned, "_known", {})
    fuel = blend(0.3, 0.0, 43.4e6, 745.0)
    table = build(elements(fuel, 1.18))
    remember(BurnedTable(table.key, np.array(table.values)))
    monkeypatch.setattr(burned, "build", lambda _: pytest.fail("built in vain"))
    assert burned_table(fuel, 1.18).key == table.key


def test_the_oldest_table_makes_room(monkeypatch):
    monkeypatch.setattr(burned, "_known", {})
    blank = np.zeros((2, 2, 2))
    for number in range(KEPT + 1):
        remember(BurnedTable(str(number), blank))
    assert len(burned._known) == KEPT
    assert "0" not in burned._known


def test_the_key_tells_mixtures_apart_and_not_rounding():
    atoms = atoms_of("premium", 1.18)
    assert content_key(atoms) == content_key(atoms * (1 + 1e-14))
    assert content_key(atoms) != content_key(atoms_of("premium", 1.19))


@pytest.mark.parametrize("fuel", ["premium", "e85"])
def test_between_its_points_the_table_is_near_the_balance(fuel):
    table = burned_table(full_boost(fuel).fuel, 1.18)
    rng = np.random.default_rng(4)
    hot = rng.uniform(1200.0, 2900.0, 40)
    dense = np.exp(rng.uniform(np.log(2e5), np.log(150e5), 40))
    h, slope, r, _ = burned_gas(tuple(table.cells), 0, hot, np.log(dense))
    exact = equilibrium(elements(full_boost(fuel).fuel, 1.18), hot, dense)
    assert h == pytest.approx(exact.enthalpy, abs=6e3)  # 3 K of temperature at the worst
    assert r == pytest.approx(exact.constant, rel=1e-3)
    assert (slope > 1000.0).all()


def test_at_its_points_the_table_is_the_balance():
    table = burned_table(full_boost().fuel, 1.18)
    for row, column in ((0, 0), (60, 7), (119, 12)):
        hot = COLDEST + TEMPERATURE_STEP * row
        log = LOWEST_LOG + LOG_STEP * column
        h, _, r, _ = burned_gas(tuple(table.cells), 0, np.array([hot]), np.array([log]))
        assert (h[0], r[0]) == pytest.approx(tuple(table.values[:, row, column]), rel=1e-9)
