import pytest

from planner.errors import OutsideValidity
from planner.physics.bolts import bolt_preload
from planner.physics.bolts_thread import metric_thread_stress_area
from planner.physics.clamp import clamp_ratio, head_lift_force
from tests.physics.directions import assert_directions


def test_a_clamp_of_one_lift_has_ratio_one():
    lift = head_lift_force(pressure=12e6, seal_diameter=0.088)
    head = {"fasteners": 10.0, "cylinders": 4.0, "pressure": 12e6, "seal_diameter": 0.088}
    assert clamp_ratio(preload=lift * 4 / 10, **head) == pytest.approx(1.0)


def test_regression_trial_figures_of_an_eleven_millimetre_stud():
    # Regression: figures of an early trial of ours, not an outside check.
    area = metric_thread_stress_area(nominal=0.011, pitch=0.00125)
    preload = bolt_preload(stress_area=area, yield_strength=1100e6, yield_share=0.75)
    ratio = clamp_ratio(
        preload=preload, fasteners=10.0, cylinders=4.0, pressure=12e6, seal_diameter=0.088
    )
    assert preload / 1e3 == pytest.approx(62.6, abs=0.05)
    assert ratio == pytest.approx(2.14, abs=0.005)


def test_a_pressure_given_in_bar_for_pascals_is_refused():
    with pytest.raises(OutsideValidity, match=r"peak pressure is 0\.00012 MPa"):
        head_lift_force(pressure=120.0, seal_diameter=0.088)


def test_a_seal_smaller_than_any_bore_is_refused():
    with pytest.raises(OutsideValidity, match="sealing diameter is 8 mm, outside 50 to 130 mm"):
        head_lift_force(pressure=12e6, seal_diameter=0.008)


def test_the_declared_directions_hold():
    lift = {"pressure": (1e6, 25e6), "seal_diameter": (0.07, 0.11)}
    assert_directions("head_lift_force", **lift)
    assert_directions(
        "clamp_ratio",
        **lift,
        preload=(2e4, 1.2e5),
        fasteners=(8.0, 20.0),
        cylinders=(3.0, 6.0),
    )
