import pytest
from scipy.integrate import quad

from planner.errors import OutsideValidity
from planner.physics.volumes import (
    crevice_volume,
    deck_volume,
    displacement,
    gasket_volume,
    swept_volume,
)
from tests.physics.directions import assert_directions


def test_a_bore_of_two_over_root_pi_sweeps_its_stroke():
    assert swept_volume(bore=1.1283791670955126, stroke=0.5) == pytest.approx(0.5)
    four = displacement(bore=0.086, stroke=0.086, cylinders=4.0)
    assert four == pytest.approx(4 * swept_volume(bore=0.086, stroke=0.086))


def test_the_crevice_is_the_ring_of_space_summed_over_its_radius():
    area, _ = quad(lambda radius: 2 * 3.141592653589793 * radius, 0.0427, 0.043)
    crevice = crevice_volume(bore=0.086, land_diameter=0.0854, land_height=0.006)
    assert crevice == pytest.approx(area * 0.006)


def test_a_proud_piston_has_a_negative_deck_volume():
    proud = deck_volume(bore=0.086, deck_clearance=-0.0002)
    assert proud == pytest.approx(-deck_volume(bore=0.086, deck_clearance=0.0002))


def test_a_gasket_as_wide_as_the_bore_is_a_slice_of_it():
    slice_of_bore = swept_volume(bore=0.086, stroke=0.001)
    assert gasket_volume(gasket_bore=0.086, gasket_thickness=0.001) == slice_of_bore


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: crevice_volume(bore=0.086, land_diameter=0.086, land_height=0.006),
            "bore less land diameter is 0 mm",
        ),
    ],
)
def test_volumes_that_cannot_be_are_refused_by_name(call, message):
    with pytest.raises(OutsideValidity, match=message):
        call()


@pytest.mark.parametrize(
    ("name", "ranges"),
    [
        ("swept_volume", {"bore": (0.05, 0.12), "stroke": (0.05, 0.12)}),
        ("displacement", {"bore": (0.05, 0.12), "stroke": (0.05, 0.12), "cylinders": (1, 16)}),
        ("gasket_volume", {"gasket_bore": (0.05, 0.12), "gasket_thickness": (0.0003, 0.003)}),
        ("deck_volume", {"bore": (0.05, 0.12), "deck_clearance": (-0.001, 0.003)}),
        (
            "crevice_volume",
            {"bore": (0.08, 0.1), "land_diameter": (0.07, 0.0799), "land_height": (0.002, 0.01)},
        ),
    ],
)
def test_declared_directions_hold(name, ranges):
    assert_directions(name, **ranges)
