import pytest

from planner.physics.cycle.fuels import ATOMIC_MASS, blend, ethanol, formation, methanol, petrol
from tests.physics.cycle.cases import GRADES

BTU_PER_POUND = 2326.0  # [J/kg], the definition of the international table Btu
PETROL = (43.4e6, 745.0)


def mixed(fuel):
    return blend(*GRADES[fuel][:2], *PETROL)


# Regression: figures of the trial calculation that this model was specified with.
@pytest.mark.parametrize(
    ("fuel", "ratio"), [("premium", 14.50), ("e10", 13.92), ("e85", 9.74), ("methanol", 6.43)]
)
def test_each_grade_needs_its_air(fuel, ratio):
    assert mixed(fuel).air_fuel == pytest.approx(ratio, abs=0.005)


@pytest.mark.published("US DOE AFDC fuel property table: ethanol air-fuel ratio 9")
def test_ethanol_needs_nine_parts_of_air():
    assert blend(1.0, 0.0, *PETROL).air_fuel == pytest.approx(9.0, abs=0.5)


@pytest.mark.published("US DOE AFDC fuel property table: 150, 396, 506 Btu/lb to vaporise")
@pytest.mark.parametrize(
    ("component", "heat"), [(petrol(*PETROL), 150), (ethanol(), 396), (methanol(), 506)]
)
def test_heat_of_vaporising_is_that_of_the_table(component, heat):
    assert component.vaporising / BTU_PER_POUND == pytest.approx(heat, abs=0.5)


@pytest.mark.published("Heywood 1988 Table D.4 (from memory, not opened): petrol is CH1.87")
def test_petrol_has_its_hydrogen():
    carbon, hydrogen, _ = petrol(*PETROL).atoms
    assert hydrogen / carbon == pytest.approx(1.87, abs=0.005)


def test_a_blend_holds_what_its_parts_hold():
    half = blend(0.5, 0.0, *PETROL)
    share = 0.5 * 789.0 / half.density
    for name in ("carbon", "hydrogen", "oxygen", "heating_value", "vaporising"):
        ends = [getattr(blend(each, 0.0, *PETROL), name) for each in (0.0, 1.0)]
        assert getattr(half, name) == pytest.approx((1 - share) * ends[0] + share * ends[1])
    carbon, hydrogen, oxygen, _ = ATOMIC_MASS
    atoms = half.carbon * carbon + half.hydrogen * hydrogen + half.oxygen * oxygen
    assert atoms == pytest.approx(1.0)


@pytest.mark.published("CODATA: formation of CO2 -393.51 and of water vapour -241.826 kJ/mol")
@pytest.mark.parametrize(("species", "heat"), [("CO2", -393510.0), ("H2O", -241826.0)])
def test_enthalpies_of_formation_are_those_of_the_tables(species, heat):
    assert formation(species) == pytest.approx(heat, abs=20.0)


def test_the_vapour_gives_its_heating_value_when_it_burns():
    fuel = blend(1.0, 0.0, *PETROL)
    products = fuel.carbon * formation("CO2") + fuel.hydrogen / 2 * formation("H2O")
    given = fuel.vapour_formation - fuel.vaporising - products
    assert given == pytest.approx(fuel.heating_value)
