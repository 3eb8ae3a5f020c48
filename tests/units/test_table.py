"""Factors against published definitions and against pint's own default registry."""

import math

import pint
import pytest

from planner.units import LENGTH, find_unit, parse_quantity, to_si
from planner.units.registry import unit_registry
from planner.units.table import HINTS, LINES, SCALES, SPELLINGS, UNITS

# What pint's stock registry calls those of ours that it names otherwise.
PINT_NAMES = {
    "thou": "thou",
    "in": "inch",
    "uin": "microinch",
    "ft": "foot",
    "mi": "mile",
    "h": "hour",
    "hp": "horsepower",
    "lbf": "pound_force",
    "ft*lbf": "foot * pound_force",
    "in*lbf": "inch * pound_force",
    "N*m": "newton * meter",
    "ksi": "kilopound_force_per_square_inch",
    "cSt": "centistokes",
    "cc": "cubic_centimeter",
    "g_load": "standard_gravity",
    "%": "percent",
    "deg": "degree",
    "min": "minute",
    "mbar": "millibar",
    "oz": "ounce",
    "lb": "pound",
    "l": "liter",
    "ml": "milliliter",
    "g": "gram",
}


@pytest.fixture(scope="module")
def stock():
    return pint.UnitRegistry()  # noqa: TID251 - the outside check needs a table not ours


@pytest.mark.published("pint default registry, an independent table of the same definitions")
@pytest.mark.parametrize("name", [each for each in UNITS if not each.startswith("deg")])
def test_each_factor_is_that_of_an_independent_table(name, stock):
    theirs = stock.Quantity(1.0, PINT_NAMES.get(name, name)).to_base_units().magnitude
    assert UNITS[name].factor == pytest.approx(theirs, rel=1e-12)


@pytest.mark.published("International yard and pound agreement 1959: inch 25.4 mm, pound")
@pytest.mark.parametrize(
    ("unit", "exact"),
    [
        ("in", 0.0254),
        ("thou", 0.0000254),
        ("ft", 0.3048),
        ("mi", 1609.344),
        ("lb", 0.45359237),
        ("oz", 0.45359237 / 16),
        ("in**3", 0.0254**3),
    ],
)
def test_inch_units_are_exact(unit, exact):
    assert find_unit(unit).factor == pytest.approx(exact, rel=1e-15)


@pytest.mark.published("NIST SP 811, appendix B: lbf, psi, ft*lbf, horsepower of 550 ft*lbf/s")
@pytest.mark.parametrize(
    ("unit", "printed", "half_digit"),
    [
        ("lbf", 4.4482216152605, 5e-14),
        ("psi", 6894.757, 5e-4),
        ("ksi", 6894757.0, 0.5),
        ("ft*lbf", 1.355818, 5e-7),
        ("in*lbf", 0.1129848, 5e-8),
        ("hp", 745.6999, 5e-5),
        ("atm", 101325.0, 0.0),
        ("g_load", 9.80665, 0.0),
        ("cSt", 1e-6, 0.0),
        ("deg", 0.01745329, 5e-9),
        ("rpm", 0.1047198, 5e-8),
    ],
)
def test_each_force_and_power_unit_has_its_printed_value(unit, printed, half_digit):
    assert find_unit(unit).factor == pytest.approx(printed, abs=half_digit, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "kelvin"),
    [("0 degC", 273.15), ("100 degC", 373.15), ("32 degF", 273.15), ("212 degF", 373.15)],
)
def test_thermometer_scales_meet_at_ice_and_steam(text, kelvin):
    assert parse_quantity(text).si == kelvin


def test_both_scales_meet_at_minus_forty():
    assert to_si(-40, "degC") == to_si(-40, "degF")


def test_a_rise_has_no_zero_of_its_own():
    assert to_si(9, "delta_degF") == to_si(5, "delta_degC") == to_si(5, "K") == 5


def test_our_registry_gives_what_our_table_gives():
    registry = unit_registry()
    for name, unit in UNITS.items():
        if name.isidentifier() and not unit.offset:
            told = registry.Quantity(1.0, name).to_base_units().magnitude
            assert told == pytest.approx(unit.factor, rel=1e-12), name


def test_our_registry_reads_thermometers():
    registry = unit_registry()
    assert registry.Quantity(212.0, "degF").to("K").magnitude == pytest.approx(373.15)


def test_there_are_about_sixty_shop_units():
    assert 50 <= len(LINES) + len(SCALES) <= 75


def test_no_spelling_is_both_a_unit_and_a_refusal():
    assert not SPELLINGS.keys() & HINTS.keys()


def test_every_factor_is_a_positive_number():
    assert all(unit.factor > 0 and math.isfinite(unit.factor) for unit in UNITS.values())


def test_the_table_knows_length_by_its_dimension():
    assert UNITS["thou"].dimension == LENGTH
