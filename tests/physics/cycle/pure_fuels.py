"""Pure fuels as Cantera knows them, so that both sides start from the same vapour."""

from planner.physics.cycle.fuels import ATOMIC_MASS, Blend, formation

ATOMS = {"iso_octane": (8, 18, 0), "ethanol": (2, 6, 1), "methanol": (1, 4, 1)}


def pure(name, heating_value=44e6, vaporising=300e3):
    """A blend of one species, its vapour with the enthalpy of the gas data."""
    atoms = ATOMS[name]
    mass = sum(n * m for n, m in zip(atoms, ATOMIC_MASS, strict=False))
    return Blend(
        carbon=atoms[0] / mass,
        hydrogen=atoms[1] / mass,
        oxygen=atoms[2] / mass,
        moles=1 / mass,
        heating_value=heating_value,
        vaporising=vaporising,
        density=750.0,
        vapour_formation=formation(name) / mass,
        vapours=((name, 1.0),),
    )
