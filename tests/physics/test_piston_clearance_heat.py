import pytest

from planner.errors import OutsideValidity
from planner.physics.piston_clearance_heat import piston_heat_factor
from tests.physics.directions import assert_directions

FIT = {"reference_flux": 4.5e6, "exponent": 0.7}


def test_the_reference_engine_at_full_duty_has_a_factor_of_one():
    assert piston_heat_factor(flux=4.5e6, **FIT, duty=1.0) == pytest.approx(1.0)
    doubled = piston_heat_factor(flux=9e6, **FIT, duty=1.0)
    assert doubled == pytest.approx(2**0.7)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (
            {"flux": 17.1e6},
            r"brake power for each piston area is 1\.71 kW/cm2, outside 0\.3 to 1\.7 kW/cm2",
        ),
        ({"flux": 2.9e6}, r"brake power for each piston area is 0\.29 kW/cm2"),
        ({"reference_flux": 1e6}, r"reference flux is 0\.1 kW/cm2"),
        ({"exponent": 0.3}, r"heat exponent is 0\.3"),
        ({"duty": 2.0}, "duty is 2, outside"),
    ],
)
def test_what_was_never_fitted_is_refused_by_name(change, message):
    with pytest.raises(OutsideValidity, match=message):
        piston_heat_factor(**{"flux": 9e6, **FIT, "duty": 1.0, **change})


def test_a_track_car_of_over_fifteen_megawatts_is_still_answered():
    # 520 kW from six 84.25 mm bores: 15.5 MW/m2, inside the range that ends at 17.
    assert piston_heat_factor(flux=15.5e6, **FIT, duty=1.0) == pytest.approx(2.38, abs=0.01)


def test_more_power_and_more_duty_heat_the_piston_more():
    assert_directions(
        "piston_heat_factor",
        flux=(3e6, 17e6),
        reference_flux=4.5e6,
        exponent=0.7,
        duty=(0.5, 1.5),
    )


@pytest.mark.parametrize(
    "edge", [{"flux": 3e6}, {"flux": 17e6}, {"exponent": 0.5}, {"exponent": 1.0}]
)
def test_the_ends_of_the_fitted_range_are_still_answered(edge):
    assert piston_heat_factor(**{"flux": 9e6, **FIT, "duty": 1.0, **edge}) > 0.5
    outer = {name: value * (0.99 if value in (3e6, 0.5) else 1.01) for name, value in edge.items()}
    with pytest.raises(OutsideValidity):
        piston_heat_factor(**{"flux": 9e6, **FIT, "duty": 1.0, **outer})
