import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import OutsideValidity
from planner.physics.bearing_clearance import (
    bearing_clearance,
    bearing_practice_clearance,
    shell_wall_needed,
)
from tests.physics.directions import assert_directions

RPM = math.pi / 30
PRACTICE = {"quiet_speed": 7000 * RPM, "addition_per_speed": 0.00005 / (1000 * RPM)}


@given(st.floats(0.0585, 0.0595), st.floats(0.0545, 0.0555), st.floats(0.02e-3, 0.09e-3))
def test_the_wall_needed_gives_back_the_clearance_it_was_asked_for(housing, journal, wanted):
    wall = shell_wall_needed(housing=housing, journal=journal, clearance=wanted)
    got = bearing_clearance(housing=housing, journal=journal, upper_wall=wall, lower_wall=wall)
    assert got == pytest.approx(wanted, abs=1e-12)


def test_a_mixed_pair_lies_half_way_between_its_neighbours():
    parts = {"housing": 0.059012, "journal": 0.054985}
    thin = bearing_clearance(**parts, upper_wall=1.985e-3, lower_wall=1.985e-3)
    thick = bearing_clearance(**parts, upper_wall=1.990e-3, lower_wall=1.990e-3)
    mixed = bearing_clearance(**parts, upper_wall=1.985e-3, lower_wall=1.990e-3)
    assert mixed == pytest.approx((thin + thick) / 2)
    assert mixed == pytest.approx(0.052e-3, abs=1e-9)


def test_a_shaft_too_big_for_its_shells_shows_a_negative_clearance():
    parts = {"housing": 0.059012, "journal": 0.0550}
    assert bearing_clearance(**parts, upper_wall=2.010e-3, lower_wall=2.010e-3) < 0


@pytest.mark.parametrize(
    ("journal", "factor", "ceiling", "boost", "clearance"),
    [
        (0.048, 0.00080, 7000, 0.0, 0.038),
        (0.048, 0.00095, 7000, 0.0, 0.046),
        (0.048, 0.00115, 6000, 0.0, 0.055),
        (0.048, 0.00095, 7500, 0.00005, 0.049),
        (0.048, 0.00130, 7500, 0.00005, 0.066),
        (0.055, 0.00110, 7500, 0.00005, 0.065),
    ],
)
def test_practice_clearances_by_hand(journal, factor, ceiling, boost, clearance):
    # the factors are common practice, the products worked out by hand
    practice = bearing_practice_clearance(
        **PRACTICE,
        journal=journal,
        clearance_per_diameter=factor,
        rev_ceiling=ceiling * RPM,
        boost_addition=boost,
    )
    assert practice * 1e3 == pytest.approx(clearance, abs=0.0006)


def test_swapped_housing_and_journal_are_refused():
    with pytest.raises(OutsideValidity, match="bearing housing is 55 mm") as refusal:
        bearing_clearance(housing=0.055, journal=0.059, upper_wall=2e-3, lower_wall=2e-3)
    assert "swapped" in refusal.value.remedy


def test_a_wall_of_the_pair_given_for_one_shell_is_refused():
    with pytest.raises(OutsideValidity, match=r"upper shell wall is 5.5 mm"):
        bearing_clearance(housing=0.0640, journal=0.0540, upper_wall=5.5e-3, lower_wall=2e-3)


def test_a_clearance_with_a_slipped_decimal_point_is_refused():
    with pytest.raises(OutsideValidity, match=r"oil clearance is 0.53 mm"):
        shell_wall_needed(housing=0.059, journal=0.055, clearance=0.53e-3)


def test_the_declared_directions_hold():
    parts = {"housing": (0.0582, 0.0598), "journal": (0.0541, 0.0558)}
    assert_directions(
        "bearing_clearance", **parts, upper_wall=(1.8e-3, 2.2e-3), lower_wall=(1.8e-3, 2.2e-3)
    )
    assert_directions("shell_wall_needed", **parts, clearance=(0.0, 1e-4))
    assert_directions(
        "bearing_practice_clearance",
        journal=(0.03, 0.07),
        clearance_per_diameter=(0.0006, 0.0015),
        rev_ceiling=(400.0, 1000.0),
        quiet_speed=(500.0, 900.0),
        addition_per_speed=(0.0, 1e-6),
        boost_addition=(0.0, 2e-4),
    )
