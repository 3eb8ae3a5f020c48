import pytest
from scipy.integrate import quad

from planner.errors import OutsideValidity
from planner.physics.rods_section import rod_h_section
from tests.physics.directions import assert_directions

STOCK = {"depth": 0.022, "flange_width": 0.016, "flange_thickness": 0.0035, "web_thickness": 0.003}


def test_the_section_agrees_with_quadrature_over_its_width():
    def width(y):
        return 0.016 if abs(y) > 0.011 - 0.0035 else 0.003

    edges = [-0.0075, 0.0075]
    area, _ = quad(width, -0.011, 0.011, points=edges)
    in_plane, _ = quad(lambda y: width(y) * y**2, -0.011, 0.011, points=edges)
    across, _ = quad(lambda y: width(y) ** 3 / 12, -0.011, 0.011, points=edges)
    section = rod_h_section(**STOCK)
    assert section["section_area"] == pytest.approx(area)
    assert section["second_moment_in_plane"] == pytest.approx(in_plane)
    assert section["second_moment_across"] == pytest.approx(across)


def test_a_web_as_wide_as_the_flanges_makes_a_plain_bar():
    section = rod_h_section(**{**STOCK, "web_thickness": 0.016})
    assert section["section_area"] == pytest.approx(0.022 * 0.016)
    assert section["second_moment_in_plane"] == pytest.approx(0.016 * 0.022**3 / 12)
    assert section["second_moment_across"] == pytest.approx(0.022 * 0.016**3 / 12)


def test_a_web_wider_than_its_flanges_is_refused():
    with pytest.raises(OutsideValidity, match="web thickness is 17 mm"):
        rod_h_section(**{**STOCK, "web_thickness": 0.017})


def test_the_declared_directions_hold():
    assert_directions(
        "rod_h_section",
        depth=(0.015, 0.035),
        flange_width=(0.010, 0.025),
        flange_thickness=(0.002, 0.006),
        web_thickness=(0.002, 0.009),
    )
