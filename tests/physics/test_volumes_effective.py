from math import asin, radians

import pytest

from planner.errors import OutsideValidity
from planner.physics.volumes import swept_volume
from planner.physics.volumes_effective import effective_ratio
from planner.physics.volumes_ratio import volume_ratio
from tests.physics.directions import assert_directions

ENGINE = {"clearance": 66.091e-6, "bore": 0.086, "stroke": 0.086, "rod_length": 0.143}


def test_closing_near_bottom_centre_gives_almost_the_static_ratio():
    static = volume_ratio(swept=swept_volume(bore=0.086, stroke=0.086), clearance=66.091e-6)
    early = effective_ratio(**ENGINE, pin_offset=0.0, inlet_closing=radians(5.0))
    assert static - 0.02 < early < static


def test_the_piston_at_closing_is_where_a_drawing_puts_it():
    # Crank pin 60 degrees past bottom, on the other side of the bore's line by r sin 60.
    across, up = 0.043 * 3**0.5 / 2, -0.043 / 2
    pin_height = up + (0.143**2 - across**2) ** 0.5
    trapped = 66.091e-6 + swept_volume(bore=0.086, stroke=0.186 - pin_height)
    found = effective_ratio(**ENGINE, pin_offset=0.0, inlet_closing=radians(60.0))
    assert found == pytest.approx(trapped / 66.091e-6)


def test_trial_figures_have_not_drifted():
    # REGRESSION values of an earlier trial of the same equations, not an outside check.
    for degrees, ratio in ((50.0, 7.547), (60.0, 7.103)):
        found = effective_ratio(**ENGINE, pin_offset=0.0, inlet_closing=radians(degrees))
        assert found == pytest.approx(ratio, abs=0.0005)


@pytest.mark.parametrize("degrees", [4.9, 121.0])
def test_closings_no_camshaft_has_are_refused(degrees):
    with pytest.raises(OutsideValidity, match="outside 5 to 120 deg"):
        effective_ratio(**ENGINE, pin_offset=0.0, inlet_closing=radians(degrees))


def test_the_piston_only_rises_over_the_closings_allowed():
    # With the largest offset and the shortest rod, bottom centre comes latest.
    latest = asin(0.03 / (1.2 - 0.5))
    assert latest < radians(5.0)


def test_declared_directions_hold():
    assert_directions(
        "effective_ratio",
        clearance=(3e-5, 1e-4),
        bore=(0.07, 0.105),
        stroke=(0.07, 0.1),
        rod_length=(0.12, 0.18),
        pin_offset=(-0.0021, 0.0021),
        inlet_closing=(radians(5.0), radians(120.0)),
    )
