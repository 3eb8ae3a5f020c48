import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import BorewrightError, UnknownUnit
from planner.units import (
    ACCELERATION,
    CONDUCTIVITY,
    DENSITY,
    FLOW,
    HEAT_FLUX,
    INERTIA,
    KINEMATIC_VISCOSITY,
    MASS,
    MASS_FLOW,
    NONE,
    PER_KELVIN,
    SECOND_MOMENT,
    SPECIFIC_ENERGY,
    SPECIFIC_HEAT,
    SPEED,
    STIFFNESS,
    TORQUE,
    UNBALANCE,
    VISCOSITY,
    find_unit,
)


@pytest.mark.parametrize(
    ("text", "factor", "dimension"),
    [
        ("mPa*s", 1e-3, VISCOSITY),
        ("mm**2/s", 1e-6, KINEMATIC_VISCOSITY),
        ("ppm/K", 1e-6, PER_KELVIN),
        ("um/m/K", 1e-6, PER_KELVIN),
        ("1/K", 1.0, PER_KELVIN),
        ("W/m/K", 1.0, CONDUCTIVITY),
        ("W/(m*K)", 1.0, CONDUCTIVITY),
        ("kJ/kg", 1e3, SPECIFIC_ENERGY),
        ("MJ/kg", 1e6, SPECIFIC_ENERGY),
        ("J/kg/K", 1.0, SPECIFIC_HEAT),
        ("l/min", 1e-3 / 60, FLOW),
        ("l/h", 1e-3 / 3600, FLOW),
        ("cc/min", 1e-6 / 60, FLOW),
        ("g/s", 1e-3, MASS_FLOW),
        ("m/s**2", 1.0, ACCELERATION),
        ("km/h", 1 / 3.6, SPEED),
        ("N/mm", 1e3, STIFFNESS),
        ("kW/cm**2", 1e7, HEAT_FLUX),
        ("mm**4", 1e-12, SECOND_MOMENT),
        ("kg*m**2", 1.0, INERTIA),
        ("g*mm", 1e-6, UNBALANCE),
        ("g/cm**3", 1e3, DENSITY),
        ("mm/mm", 1.0, NONE),
        ("mm/m", 1e-3, NONE),
        ("s**-1", 1.0, (0, 0, -1, 0)),
    ],
)
def test_joined_units_need_no_line_of_their_own(text, factor, dimension):
    unit = find_unit(text)
    assert unit.factor == pytest.approx(factor, rel=1e-14)
    assert unit.dimension == dimension


@pytest.mark.parametrize(
    ("spellings", "name"),
    [
        (("ft·lbf", "ft*lbf", "ft × lbf", "lbf*ft", "ft * lbf"), "ft*lbf"),
        (("N·m", "Nm", "N*m", "N ⋅ m"), "N*m"),
        (("cm³", "cm^3", "cm**3", "cm ** 3"), "cm**3"),
        (("kg·m²", "kg*m**2"), "kg*m**2"),
        (("um", "µm", "micron", "microns"), "um"),
        (("psig", "psi gauge", "psi  gauge"), "psi gauge"),
        (("psia", "psi absolute"), "psi absolute"),
        (("rpm", "rev/min", "r/min"), "rpm"),
        (("degC", "°C"), "degC"),
        (("s⁻¹", "s**-1"), "s**-1"),
        (("", " "), ""),
    ],
)
def test_all_spellings_name_one_unit(spellings, name):
    assert {find_unit(each).name for each in spellings} == {name}


def test_a_suffix_gives_any_pressure_its_kind():
    for base in ("bar", "psi", "kPa", "MPa", "Pa", "atm", "kg/m/s**2"):
        for kind in ("gauge", "absolute"):
            assert find_unit(f"{base} {kind}").kind == kind
            assert find_unit(f"{base} {kind}").factor == find_unit(base).factor


def test_torque_and_energy_share_a_dimension_and_not_a_kind():
    torque, energy = find_unit("ft*lbf"), find_unit("J")
    assert torque.dimension == energy.dimension == TORQUE
    assert (torque.kind, energy.kind) == ("torque", "energy")


def test_g_is_a_gram_unless_an_acceleration_is_due():
    assert find_unit("g").dimension == MASS
    assert find_unit("g", ACCELERATION).name == "g_load"
    assert find_unit("g", MASS).name == "g"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("mil", "thou for a thousandth of an inch"),
        ("ft-lb", r"ft\*lbf"),
        ("ft lb", r"ft\*lbf"),
        ("barg", "bar gauge"),
        ("bara", "bar absolute"),
        ("C", "delta_degC"),
        ("PS", "0.73549875 kW"),
        ("lbs", "lbf for a force"),
        ("kgf/cm²", "0.980665 bar"),
        ('"', "in for inches"),
        ("MM", "Did you mean"),
        ("Bar", "Did you mean bar"),
        ("furlong", "shop unit|Did you mean"),
    ],
)
def test_a_unit_we_refuse_comes_with_what_to_write(text, said):
    with pytest.raises(UnknownUnit, match=said):
        find_unit(text)


@pytest.mark.parametrize(
    "text", ["mm gauge", "gauge", "bar gauge gauge", "psig absolute", "bar*gauge", "degC gauge"]
)
def test_only_a_pressure_is_gauge_or_absolute(text):
    with pytest.raises(UnknownUnit):
        find_unit(text)


def test_a_thermometer_reading_joins_nothing():
    with pytest.raises(UnknownUnit, match="Write K or delta_degC"):
        find_unit("1/degC")


@pytest.mark.parametrize(
    "text", ["m**99", "((m", "m)", "m//s", "/s", "m**", "*", "2/K", "m s", "m" * 5000, "(" * 39]
)
def test_nonsense_is_refused_in_words(text):
    with pytest.raises(UnknownUnit) as refusal:
        find_unit(text)
    assert len(str(refusal.value)) < 300


@given(st.text(max_size=60))
def test_no_text_breaks_the_unit_reader(text):
    try:
        unit = find_unit(text)
    except BorewrightError:
        return
    assert unit.factor > 0


@given(st.text(alphabet="mskgNWPabrin*/()1²³·^- 0123456789", max_size=30))
def test_no_near_miss_breaks_the_unit_reader(text):
    try:
        unit = find_unit(text)
    except BorewrightError:
        return
    assert unit.factor > 0
