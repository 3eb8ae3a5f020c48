"""The ratio: the table it was specified with, its directions, its edges."""

from dataclasses import asdict, replace
from math import inf, radians

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.errors import OutsideValidity
from planner.physics.cycle.arguments import LATEST, MODEL
from planner.physics.cycle.model import cycles, phasings_at_limit, ratios_at_limit
from planner.physics.cycle.ratio import FALLS, RISES, knock_limited_ratio
from planner.physics.cycle.ratio_limit import ratio_limits
from planner.physics.cycle.setting import setting
from planner.physics.cycle.solve import limited_ratio, log_knock
from planner.physics.registry import REGISTRY
from tests.physics.cycle.cases import (
    BAR,
    BEST,
    CONSTANTS,
    GRADES,
    RPM,
    full_boost,
    latest,
    off_boost,
)

# Regression, not an outside check: the trial calculation's table. Fuel, boost, use, whether a
# turbine, whether full boost governs; ratio; then without margins at that ratio: phasing, peak
# pressure, net mean pressure, temperature at closing, hottest end gas, exhaust port.
TABLE = [
    ("premium", 0.5, "street", True, True, 9.72, 12.1, 69, 16.6, 345, 830, 1169),
    ("premium", 0.8, "street", True, True, 8.76, 15.0, 69, 18.6, 355, 819, 1216),
    ("premium", 0.9, "street", True, True, 8.51, 15.9, 69, 19.2, 359, 816, 1230),
    ("premium", 1.0, "street", True, True, 8.27, 16.9, 68, 19.8, 362, 813, 1243),
    ("premium", 1.5, "street", True, True, 7.37, 21.6, 67, 22.4, 376, 798, 1302),
    ("premium", 0.9, "track", True, True, 8.11, 13.7, 70, 19.2, 361, 824, 1228),
    ("premium", 0.5, "street", False, True, 8.54, 11.7, 67, 17.2, 337, 810, 1069),
    ("mid", 0.7, "street", True, True, 8.53, 13.8, 66, 17.7, 354, 820, 1212),
    ("e10", 0.7, "street", True, True, 8.57, 13.8, 67, 17.7, 352, 818, 1207),
    ("regular", 0.5, "street", True, True, 8.65, 11.6, 64, 16.0, 349, 825, 1192),
    ("regular", 0.9, "street", True, True, 7.52, 15.5, 63, 18.5, 364, 812, 1252),
    ("e51", 0.9, "street", True, True, 9.13, 16.1, 73, 20.0, 346, 805, 1195),
    ("e85", 0.9, "street", True, True, 9.96, 16.3, 79, 21.0, 335, 796, 1161),
    ("e85", 0.9, "track", True, True, 9.41, 14.1, 81, 20.9, 336, 805, 1160),
    ("e85", 1.5, "street", True, True, 8.79, 22.0, 77, 24.5, 350, 777, 1230),
    ("e85", 2.0, "track", True, True, 6.60, 18.1, 82, 26.8, 372, 797, 1273),
    ("race_unleaded", 1.2, "track", True, True, 8.44, 16.4, 77, 21.7, 365, 822, 1242),
    ("race_unleaded", 2.0, "track", True, True, 6.44, 18.1, 78, 25.6, 391, 822, 1321),
    ("methanol", 1.5, "track", True, True, 8.63, 18.7, 89, 26.8, 325, 767, 1186),
    ("premium", 0.0, "street", False, False, 10.65, 8.0, 60, 11.8, 328, 845, 1099),
    ("premium", 0.0, "track", False, False, 10.64, 8.0, 60, 11.8, 328, 845, 1099),
    ("mid", 0.0, "street", False, False, 10.11, 8.0, 57, 11.7, 330, 841, 1111),
    ("regular", 0.0, "street", False, False, 9.57, 8.0, 55, 11.5, 332, 837, 1124),
    ("e85", 0.0, "street", False, False, 12.10, 8.0, 70, 12.8, 307, 829, 1034),
]


def pair(fuel, boost, use, *, turbine, margins=True):
    back = CONSTANTS["turbine_back_pressure" if turbine else "no_turbine_back_pressure"]
    speed = 3000 * RPM if turbine else 2000 * RPM
    full = full_boost(
        fuel, boost * BAR, use, margins=margins, turbine_back_pressure=back, speed=speed
    )
    return off_boost(fuel, use, margins=margins, turbine_back_pressure=back), full


@pytest.mark.parametrize("row", TABLE, ids=lambda row: " ".join(map(str, row[:3])))
def test_the_table_of_the_specification_comes_out(row):
    fuel, boost, use, turbine, governs, ratio, *figures = row
    # without boost the full-boost point is the off-boost speed of an engine with no turbine
    off, full = pair(fuel, boost, use, turbine=turbine)
    found = ratio_limits(off, full, latest(use))
    if governs:
        assert found[1] <= found[0]
    assert found[0 if not governs else 1] == pytest.approx(ratio, abs=0.05)
    off, full = pair(fuel, boost, use, turbine=turbine, margins=False)
    point = full if governs else off
    (phasing,) = phasings_at_limit((point,), ratio, BEST)
    (cycle,) = cycles((point,), ratio, (phasing,))
    ours = (
        np.degrees(phasing),
        cycle.peak_pressure / BAR,
        cycle.net_pressure / BAR,
        cycle.closing_temperature,
        cycle.end_gas_temperature,
        cycle.exhaust_temperature,
    )
    for one, other, within in zip(ours, figures, (0.2, 0.8, 0.1, 1.0, 2.0, 2.0), strict=True):
        assert one == pytest.approx(other, abs=within)


def test_street_turbo_on_premium_at_a_common_boost_is_about_what_practice_says():
    # common practice: about 8.5 on premium at 0.8 to 1.0 bar, about 10 on ethanol; no source
    assert ratio_limits(*pair("premium", 0.9, "street", turbine=True), latest())[1] == (
        pytest.approx(8.5, abs=0.25)
    )
    assert ratio_limits(*pair("e85", 0.9, "street", turbine=True), latest())[1] == (
        pytest.approx(10.0, abs=0.25)
    )


def test_halving_the_step_moves_the_ratio_less_than_a_hundredth():
    points = [p for row in TABLE for p in pair(*row[:3], turbine=row[3])]
    phasing = np.array([min(latest()[2], latest()[0] + latest()[1] * p.boost) for p in points])
    coarse = limited_ratio(setting(points), phasing)
    fine = limited_ratio(setting(points), phasing, radians(1.0))
    assert np.max(np.abs(coarse - fine)) < 0.01


@pytest.mark.parametrize("use", ["street", "track"])
@pytest.mark.parametrize("fuel", sorted(GRADES))
def test_the_ratio_never_rises_with_boost(fuel, use):
    found = [
        min(ratio_limits(*pair(fuel, boost, use, turbine=True), latest(use)))
        for boost in np.linspace(0.0, 1.5, 16)
    ]
    assert (np.diff(found) <= 1e-12).all()


@given(boost=st.floats(0.0, 1.8), more=st.floats(0.0, 0.5), slope=st.floats(0.0, 25.0))
@settings(max_examples=12)
def test_the_ratio_never_rises_with_boost_however_the_limit_is_set(boost, more, slope):
    limit = (radians(10), radians(slope) / BAR, radians(40))
    points = (
        full_boost(boost=each * BAR, charge_temperature=330.0) for each in (boost, boost + more)
    )
    low, high = (ratio_limits(off_boost(), each, limit)[1] for each in points)
    assert high <= low + 1e-9


@pytest.mark.parametrize("fuel", ["premium", "e85"])
def test_the_ratio_is_continuous_where_boost_begins(fuel):
    none, little = (
        min(ratio_limits(*pair(fuel, boost, "street", turbine=True), latest()))
        for boost in (0.0, 1e-4)
    )
    assert little == pytest.approx(none, abs=0.002)


def random_points(count, seed):
    rng = np.random.default_rng(seed)
    return [
        full_boost(
            rng.choice(["premium", "e51", "e85"]),
            rng.uniform(0.0, 1.8) * BAR,
            bore=rng.uniform(0.07, 0.1),
            stroke=rng.uniform(0.07, 0.1),
            rod_length=rng.uniform(0.135, 0.17),
            inlet_closing=radians(rng.uniform(30, 75)),
            charge_temperature=rng.uniform(285.0, 380.0),
            ambient_pressure=rng.uniform(0.75e5, 1.05e5),
            speed=rng.uniform(1500, 7000) * RPM,
            octane=rng.uniform(86.0, 105.0),
            turbine_back_pressure=rng.uniform(0.0, 1.5),
            delay_factor=rng.uniform(0.8, 1.25),
        )
        for _ in range(count)
    ]


MOVES = {
    "octane": 1.5,
    "speed": 200 * RPM,
    "inlet_closing": radians(3),
    "delay_factor": 0.05,
    "boost": 0.08 * BAR,
    "ambient_pressure": 0.04e5,
    "charge_temperature": 8.0,
    "turbine_back_pressure": 0.2,
}
RISING = ("octane", "speed", "inlet_closing", "delay_factor")


@pytest.mark.parametrize("name", sorted(MOVES))
def test_the_ratio_at_one_phasing_moves_one_way(name):
    points = random_points(150, seed=11)
    phasing = np.radians(np.random.default_rng(5).uniform(8, 28, len(points)))
    moved = [replace(p, **{name: getattr(p, name) + MOVES[name]}) for p in points]
    before = np.clip(limited_ratio(setting(points), phasing), 5.5, 17.5)
    after = np.clip(limited_ratio(setting(moved), phasing), 5.5, 17.5)
    assert ((after - before) * (1 if name in RISING else -1) >= -1e-9).all()
    assert (after != before).sum() > 50


@pytest.mark.parametrize("name", ["octane", "speed", "boost", "charge_temperature"])
def test_the_knock_integral_moves_one_way(name):
    points = random_points(150, seed=12)
    rng = np.random.default_rng(6)
    ratio, phasing = rng.uniform(6, 14, 150), np.radians(rng.uniform(8, 30, 150))
    moved = [replace(p, **{name: getattr(p, name) + MOVES[name]}) for p in points]
    change = log_knock(setting(moved), ratio, phasing) - log_knock(setting(points), ratio, phasing)
    assert (change * (1 if name in ("boost", "charge_temperature") else -1) > 0).all()


def test_the_knock_integral_rises_with_ratio_and_falls_with_a_later_burn():
    cases = setting(random_points(150, seed=13))
    rng = np.random.default_rng(7)
    ratio, phasing = rng.uniform(6, 14, 150), np.radians(rng.uniform(8, 30, 150))
    here = log_knock(cases, ratio, phasing)
    assert (log_knock(cases, ratio + 0.1, phasing) > here).all()
    assert (log_knock(cases, ratio, phasing + radians(0.5)) < here).all()


def arguments(**changed):
    """Arguments of the registered formula, from the test engine."""
    point = asdict(full_boost())
    values = {name: point[name] for name in MODEL} | dict(zip(LATEST, latest(), strict=True))
    return {
        **values,
        "boost": 0.9 * BAR,
        "ambient_pressure": 101325.0,
        "off_boost_temperature": 313.15,
        "full_boost_temperature": 338.6,
        "off_boost_speed": 2000 * RPM,
        "full_boost_speed": 3000 * RPM,
        "off_boost_mixture": 1.12,
        "full_boost_mixture": 1.18,
        **changed,
    }


def test_the_formula_gives_what_the_model_gives():
    found = knock_limited_ratio(**arguments())
    both = ratio_limits(off_boost(), full_boost(charge_temperature=338.6), latest())
    assert found["full_boost_ratio"] == pytest.approx(both[1])
    assert found["off_boost_ratio"] == pytest.approx(both[0])
    assert found["knock_limited_ratio"] == min(both)


FORMULA_MOVES = {
    "octane": 1.0,
    "off_boost_speed": 150 * RPM,
    "full_boost_speed": 150 * RPM,
    "inlet_closing": radians(3),
    "delay_factor": 0.05,
    "boost": 0.07 * BAR,
    "ambient_pressure": 0.02e5,
    "full_boost_temperature": 6.0,
    "off_boost_temperature": 6.0,
    "turbine_back_pressure": 0.15,
}


def test_a_move_is_tried_for_each_declared_direction():
    assert sorted(FORMULA_MOVES) == sorted((*RISES, *FALLS))


@pytest.mark.parametrize("boost", [0.0, 0.35, 1.23])
@pytest.mark.parametrize("name", sorted(FORMULA_MOVES))
def test_the_formula_moves_as_it_declares(name, boost):
    signature = REGISTRY["knock_limited_ratio"]
    here = arguments(boost=boost * BAR)
    low = knock_limited_ratio(**here)
    high = knock_limited_ratio(**{**here, name: here[name] + FORMULA_MOVES[name]})
    for result in low:
        if name in signature.rises[result]:
            assert high[result] >= low[result] - 1e-9
        if name in signature.falls[result]:
            assert high[result] <= low[result] + 1e-9


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"boost": 2.9 * BAR, "octane": 80.0}, "ratio is below 5.5"),
        ({"boost": 0.0, "octane": 124.0, "off_boost_speed": 9000 * RPM}, "above 17.5"),
        ({"boost": 3.5 * BAR}, "boost is 3.5 bar, outside 0 to 3 bar"),
        ({"bore": 0.3}, "bore is 300 mm"),
        ({"inlet_closing": 2.0}, "inlet closing is 114.592 deg"),
        ({"ethanol_share": 0.7, "methanol_share": 0.7}, "share of alcohol is 1.4"),
        ({"latest_unboosted": 1.2, "latest_ever": 1.2}, "latest phasing is 68.7549 deg"),
    ],
)
def test_it_refuses_rather_than_guess(changed, words):
    with pytest.raises(OutsideValidity, match=words):
        knock_limited_ratio(**arguments(**changed))


def test_a_point_that_does_not_govern_reads_no_more_than_is_known():
    found = knock_limited_ratio(**arguments(boost=0.0, full_boost_speed=9000 * RPM))
    assert found["full_boost_ratio"] == 17.5
    assert found["knock_limited_ratio"] == found["off_boost_ratio"]


def test_questions_asked_twice_are_answered_from_memory():
    ratios_at_limit.cache_clear()
    ratio_limits.cache_clear()
    for _ in range(3):
        knock_limited_ratio(**arguments())
    assert ratio_limits.cache_info().misses == 1


def test_above_the_known_the_way_down_starts_at_the_highest_ratio():
    easy = full_boost(boost=1.0 * BAR, octane=120.0, speed=9000 * RPM)
    off, full = ratio_limits(off_boost(octane=120.0), easy, latest())
    assert full == inf or full <= 17.5
    assert off > 12.0
