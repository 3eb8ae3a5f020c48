"""The frozen figures of Cantera worked out anew, with whatever Cantera is installed."""

import pytest

from tests.physics.cycle import frozen_cantera

freeze = pytest.importorskip("tests.physics.cycle.freeze_cantera", exc_type=ImportError)

MAKERS = {
    "FLAMES": "flames",
    "VESSELS": "vessels",
    "SQUEEZES": "squeezes",
    "UNBURNED": "heats",
    "BURNED": "burned_states",
    "CYCLES": "whole_cycles",
}


@pytest.mark.slow
@pytest.mark.parametrize("name", sorted(MAKERS))
def test_cantera_still_says_what_was_frozen(name):
    anew = getattr(freeze, MAKERS[name])()
    for new, old in zip(anew, getattr(frozen_cantera, name), strict=True):
        assert [each for each in new if isinstance(each, str)] == [
            each for each in old if isinstance(each, str)
        ]
        numbers = [[each for each in row if not isinstance(each, str)] for row in (new, old)]
        assert numbers[0] == pytest.approx(numbers[1], rel=2e-5)


@pytest.mark.slow
def test_the_gas_data_are_those_that_cantera_ships():
    from planner.physics.tables.cycle_nasa import SPECIES
    from tests.physics.cycle.make_nasa import WANTED

    species = {each.name: each for each in freeze.all_species()}
    for ours, theirs in WANTED.items():
        middle, *numbers = species[theirs].thermo.coeffs
        assert middle == 1000.0
        assert SPECIES[ours][1:] == (tuple(numbers[7:]), tuple(numbers[:7]))
