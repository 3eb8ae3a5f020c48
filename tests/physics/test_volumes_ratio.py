import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import OutsideValidity
from planner.physics.volumes import (
    crevice_volume,
    deck_volume,
    gasket_volume,
    swept_volume,
)
from planner.physics.volumes_ratio import clearance_volume, crown_volume_needed, volume_ratio
from tests.physics.directions import assert_directions

CC = 1e-6
PARTS = {"chamber": 48.5 * CC, "gasket": 5.9447 * CC, "deck": 1.1618 * CC, "crevice": 0.4846 * CC}
VOLUMES = {
    "chamber": (30e-6, 70e-6),
    "gasket": (2e-6, 10e-6),
    "deck": (-2e-6, 5e-6),
    "crown": (-10e-6, 30e-6),
    "crevice": (0.0, 2e-6),
}


@given(ratio=st.floats(6.0, 15.0), swept=st.floats(200 * CC, 800 * CC))
def test_the_crown_asked_for_gives_back_the_ratio(ratio, swept):
    crown = crown_volume_needed(swept=swept, ratio=ratio, **PARTS)
    clearance = clearance_volume(**PARTS, crown=crown)
    assert volume_ratio(swept=swept, clearance=clearance) == pytest.approx(ratio)


def test_trial_figures_have_not_drifted():
    # REGRESSION values of an earlier trial of the same equations, not an outside check.
    swept = swept_volume(bore=0.086, stroke=0.086)
    gasket = gasket_volume(gasket_bore=0.087, gasket_thickness=0.001)
    crevice = crevice_volume(bore=0.086, land_diameter=0.0854, land_height=0.006)
    deck = deck_volume(bore=0.086, deck_clearance=0.0002)
    known = {"chamber": 48.5 * CC, "gasket": gasket, "deck": deck, "crevice": crevice}
    total = clearance_volume(**known, crown=10 * CC)
    assert total == pytest.approx(66.091 * CC, abs=0.0005 * CC)
    assert volume_ratio(swept=swept, clearance=total) == pytest.approx(8.559, abs=0.0005)
    without = volume_ratio(swept=swept, clearance=total - crevice)
    assert without == pytest.approx(8.614, abs=0.0005)
    wanted = crown_volume_needed(swept=swept, ratio=8.8, **known)
    assert wanted == pytest.approx(7.955 * CC, abs=0.0005 * CC)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: clearance_volume(**PARTS, crown=-57 * CC),
            "volume above the piston is -0.9089 cm3",
        ),
        (lambda: volume_ratio(swept=5e-4, clearance=0.0), "clearance volume is 0 cm3"),
        (
            lambda: crown_volume_needed(swept=5e-4, ratio=1.0, **PARTS),
            "compression ratio is 1, outside 5 to 20",
        ),
    ],
)
def test_volumes_that_cannot_be_are_refused_by_name(call, message):
    with pytest.raises(OutsideValidity, match=message):
        call()


@pytest.mark.parametrize(
    ("name", "ranges"),
    [
        ("clearance_volume", VOLUMES),
        ("volume_ratio", {"swept": (2e-4, 8e-4), "clearance": (2e-5, 2e-4)}),
        (
            "crown_volume_needed",
            {k: v for k, v in VOLUMES.items() if k != "crown"}
            | {"swept": (2e-4, 8e-4), "ratio": (5.0, 20.0)},
        ),
    ],
)
def test_declared_directions_hold(name, ranges):
    assert_directions(name, **ranges)
