import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from planner.errors import OutsideValidity
from planner.physics.volumes import (
    crevice_volume,
    deck_volume,
    displacement,
    gasket_volume,
    swept_volume,
)
from planner.physics.volumes_measured import chamber_after_skim, crown_volume_from_pour
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


@given(ratio=st.floats(6.0, 15.0), swept=st.floats(200 * CC, 800 * CC))
def test_the_crown_asked_for_gives_back_the_ratio(ratio, swept):
    crown = crown_volume_needed(swept=swept, ratio=ratio, **PARTS)
    clearance = clearance_volume(**PARTS, crown=crown)
    assert volume_ratio(swept=swept, clearance=clearance) == pytest.approx(ratio)


def test_a_pour_on_a_flat_piston_finds_no_crown():
    poured = swept_volume(bore=0.086, stroke=0.006)
    flat = crown_volume_from_pour(poured=poured, bore=0.086, depth=0.006)
    assert flat == pytest.approx(0.0, abs=1e-18)


def test_a_poured_dish_and_a_drawn_one_give_one_ratio():
    # Drawn: a bowl 60 mm wide and 4 mm deep in the crown; poured with the piston 6 mm down.
    bowl = swept_volume(bore=0.060, stroke=0.004)
    poured = swept_volume(bore=0.086, stroke=0.006) + bowl
    measured = crown_volume_from_pour(poured=poured, bore=0.086, depth=0.006)
    whole = clearance_volume(**PARTS, crown=measured)
    assert whole == pytest.approx(sum(PARTS.values()) + bowl)


def test_a_skim_takes_a_slice_of_the_chamber():
    left = chamber_after_skim(chamber=48 * CC, skim=0.0005, bore=0.086, area_share=1.0)
    assert 48 * CC - left == pytest.approx(swept_volume(bore=0.086, stroke=0.0005))


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
        (
            lambda: crevice_volume(bore=0.086, land_diameter=0.086, land_height=0.006),
            "bore less land diameter is 0 mm",
        ),
        (
            lambda: crown_volume_from_pour(poured=-1e-6, bore=0.086, depth=0.006),
            "poured volume is -1 cm3",
        ),
        (
            lambda: chamber_after_skim(chamber=48e-6, skim=0.003, bore=0.086, area_share=0.75),
            "skim is 3 mm, outside 0 to 2 mm",
        ),
        (
            lambda: chamber_after_skim(chamber=1e-6, skim=0.001, bore=0.086, area_share=0.75),
            "chamber after the skim is -3.3",
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
        ("clearance_volume", VOLUMES),
        ("volume_ratio", {"swept": (2e-4, 8e-4), "clearance": (2e-5, 2e-4)}),
        (
            "crown_volume_needed",
            {k: v for k, v in VOLUMES.items() if k != "crown"}
            | {"swept": (2e-4, 8e-4), "ratio": (5.0, 20.0)},
        ),
        (
            "crown_volume_from_pour",
            {
                "poured": (1e-5, 1e-4),
                "bore": (0.06, 0.11),
                "depth": (0.001, 0.01),
            },
        ),
        (
            "chamber_after_skim",
            {
                "chamber": (4e-5, 7e-5),
                "skim": (0.0, 0.002),
                "bore": (0.06, 0.11),
                "area_share": (0.3, 1.1),
            },
        ),
    ],
)
def test_declared_directions_hold(name, ranges):
    assert_directions(name, **ranges)
