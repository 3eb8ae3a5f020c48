import pytest

from planner.errors import OutsideValidity
from planner.physics.piston_clearance import cold_clearance
from planner.physics.piston_clearance_heat import piston_heat_factor
from planner.physics.piston_clearance_rigid import piston_clearance_rigid
from planner.physics.piston_clearance_states import (
    piston_to_wall_expansion,
)
from tests.physics.directions import assert_directions

IRON = {"bore": 0.086, "bore_expansion": 11e-6}
FIT = {"coolant_rise": 70.0, "bore_slope": 12.0, "gauge_slope": 16.5, "jet_factor": 1.0}
WARM = {"warm_bore_rise": 40.0, "warm_gauge_rise": 65.0}
ENDS = {"low_share": 0.85, "high_share": 1.25}
LOW_SILICON = {"piston_expansion": 22.3e-6, "floor_share": 0.0007, "cap_share": 0.0016}
HIGH_SILICON = {"piston_expansion": 19.5e-6, "floor_share": 0.0005, "cap_share": 0.00125}
STREET = piston_heat_factor(flux=4.5e6, reference_flux=4.5e6, exponent=0.7, duty=0.8)
MIXED = piston_heat_factor(flux=8.6e6, reference_flux=4.5e6, exponent=0.7, duty=0.9)
TRACK = piston_heat_factor(flux=10.76e6, reference_flux=4.5e6, exponent=0.7, duty=1.0)


def band(**change):
    state = {**IRON, **FIT, **WARM, **ENDS, **LOW_SILICON, "heat_factor": TRACK, **change}
    room = piston_to_wall_expansion(**state)
    return tuple(room[f"piston_clearance_{part}"] for part in ("low", "target", "high"))


@pytest.mark.parametrize(
    ("alloy", "heat", "low", "target", "high"),
    [
        (LOW_SILICON, STREET, 0.074, 0.087, 0.108),
        (LOW_SILICON, MIXED, 0.082, 0.097, 0.121),
        (LOW_SILICON, TRACK, 0.089, 0.105, 0.131),
        (HIGH_SILICON, STREET, 0.060, 0.071, 0.089),
        (HIGH_SILICON, MIXED, 0.063, 0.074, 0.093),
        (HIGH_SILICON, TRACK, 0.069, 0.081, 0.101),
    ],
)
def test_trial_bands_have_not_drifted(alloy, heat, low, target, high):
    # REGRESSION values of an earlier trial of the same equations, not an outside check.
    found = band(**alloy, heat_factor=heat)
    assert [1e3 * each for each in found] == pytest.approx([low, target, high], abs=0.0006)


def test_in_an_aluminium_bore_warm_up_governs_and_the_floor_holds():
    state = {**IRON, **FIT, **WARM, **ENDS, **LOW_SILICON, "bore_expansion": 21e-6}
    room = piston_to_wall_expansion(**state, heat_factor=TRACK)
    assert room["piston_clearance_warm_up"] > room["piston_clearance_steady"]
    assert room["piston_clearance_target"] == 0.0007 * 0.086 == room["piston_clearance_low"]


def test_the_target_is_the_worse_of_two_states_worked_by_hand():
    steady = 0.086 - 0.086 * (1 + 11e-6 * (70 + 12)) / (1 + 22.3e-6 * (70 + 16.5))
    assert band(heat_factor=1.0)[1] == pytest.approx(steady)


def test_the_cap_holds_target_and_high_end():
    assert band(cap_share=0.0010)[1:] == (0.0010 * 0.086, 0.0010 * 0.086)


def test_oil_jets_ask_for_less_room():
    assert band(jet_factor=0.85)[1] < band()[1]


def test_the_band_rises():
    low, target, high = band(**HIGH_SILICON, heat_factor=2.5)
    assert low < target <= high


def test_a_rigid_skirt_needs_far_more_room():
    slopes = {"coolant_rise": 70.0, "bore_slope": 12.0, "skirt_slope": 45.0}
    bound = piston_clearance_rigid(**IRON, piston_expansion=22.3e-6, heat_factor=TRACK, **slopes)
    assert bound > 1.5 * band()[1]
    plain = cold_clearance(
        **IRON,
        hot_clearance=0.0,
        piston_expansion=22.3e-6,
        bore_rise=70 + 12 * TRACK,
        piston_rise=70 + 45 * TRACK,
    )
    assert bound == plain
    # REGRESSION values of an earlier trial of the same equations, not an outside check.
    for heat, trial in ((STREET, 0.128), (MIXED, 0.174), (TRACK, 0.205)):
        found = piston_clearance_rigid(
            **IRON, piston_expansion=22.3e-6, heat_factor=heat, **slopes
        )
        assert found * 1e3 == pytest.approx(trial, abs=0.0006)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"heat_factor": 3.1}, r"piston heat factor is 3\.1, outside 0\.5 to 3"),
        ({"heat_factor": float("nan")}, "piston heat factor is nan"),
        ({"bore": 0.074}, "bore is 74 mm"),
        ({"floor_share": 0.002}, r"clearance floor over bore is 0\.002"),
        ({"low_share": 1.1}, r"low end over target is 1\.1"),
        (
            {"bore_expansion": 24e-6, "jet_factor": 0.5},
            r"growth of the piston over that of the bore is 0\.6",
        ),
    ],
)
def test_what_was_never_fitted_is_refused_by_name(change, message):
    with pytest.raises(OutsideValidity, match=message):
        band(**change)


def test_declared_directions_hold():
    assert_directions(
        "piston_to_wall_expansion",
        bore=(0.075, 0.105),
        heat_factor=(0.5, 3.0),
        piston_expansion=(18e-6, 25e-6),
        bore_expansion=(9e-6, 22e-6),
        coolant_rise=(50.0, 90.0),
        bore_slope=(5.0, 14.0),
        gauge_slope=(14.0, 30.0),
        jet_factor=(0.8, 1.0),
        warm_bore_rise=(20.0, 60.0),
        warm_gauge_rise=(40.0, 90.0),
        floor_share=(0.0004, 0.0008),
        cap_share=(0.0012, 0.0016),
        low_share=0.85,
        high_share=1.25,
    )
    assert_directions(
        "piston_clearance_rigid",
        bore=(0.075, 0.105),
        heat_factor=(0.5, 3.0),
        piston_expansion=(18e-6, 25e-6),
        bore_expansion=(9e-6, 22e-6),
        coolant_rise=(50.0, 90.0),
        bore_slope=(5.0, 14.0),
        skirt_slope=(20.0, 60.0),
    )


def test_metals_that_outgrow_each_other_just_evenly_ask_for_the_same_room_at_any_heat():
    # The bore's slope at which growth is even: a_p s_p (1 + a_b c) / (a_b (1 + a_p c)).
    piston, bore, coolant = 22.3e-6, 20e-6, 70.0
    even = piston * 16.5 * (1 + bore * coolant) / (bore * (1 + piston * coolant))
    metals = {"bore_expansion": bore, "bore_slope": even * (1 - 1e-9), "floor_share": 0.0}
    cold = {**metals, "warm_gauge_rise": 0.0, "warm_bore_rise": 0.0}
    assert band(**cold, heat_factor=0.6)[1] == pytest.approx(band(**cold, heat_factor=2.9)[1])
    with pytest.raises(OutsideValidity, match="growth of the piston over that of the bore"):
        band(**{**cold, "bore_slope": even * (1 + 1e-6)})
    rigid = {**IRON, "bore_expansion": bore, "piston_expansion": piston, "heat_factor": 1.0}
    with pytest.raises(OutsideValidity, match="growth of the piston over that of the bore"):
        piston_clearance_rigid(
            **rigid, coolant_rise=coolant, bore_slope=even * (1 + 1e-6), skirt_slope=16.5
        )
    piston_clearance_rigid(
        **rigid, coolant_rise=coolant, bore_slope=even * (1 - 1e-6), skirt_slope=16.5
    )
