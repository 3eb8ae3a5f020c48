"""Write planner/physics/tables/cycle_nasa.py from the gas data file that Cantera ships.

Run it from the root of the tree: `python tests/physics/cycle/make_nasa.py`.
"""

from pathlib import Path

import cantera as ct

WANTED = {
    "O2": "O2",
    "N2": "N2",
    "CO2": "CO2",
    "CO": "CO",
    "H2O": "H2O",
    "H2": "H2",
    "OH": "OH",
    "O": "O",
    "H": "H",
    "NO": "NO",
    "iso_octane": "C8H18,isooctane",
    "ethanol": "C2H5OH",
    "methanol": "CH3OH",
}
HEAD = '''"""NASA seven-coefficient gas data; generated, do not edit.

Made by tests/physics/cycle/make_nasa.py from nasa_gas.yaml of Cantera {version}, which
repeats the NASA Glenn set of McBride, Gordon and Reno, NASA TM-4513 (1993).

Each species has its atoms of C, H, O and N, the seven coefficients below 1000 K and the
seven above. With a1..a7: cp/R = a1 + a2 T + a3 T2 + a4 T3 + a5 T4,
h/RT = a1 + a2 T/2 + a3 T2/3 + a4 T3/4 + a5 T4/5 + a6/T,
s/R = a1 ln T + a2 T + a3 T2/2 + a4 T3/3 + a5 T4/4 + a7.
"""

Coefficients = tuple[float, ...]

MIDDLE_TEMPERATURE = 1000.0

SPECIES: dict[str, tuple[tuple[int, int, int, int], Coefficients, Coefficients]] = {{
'''


def main() -> None:
    """Write the module."""
    species = {each.name: each for each in ct.Species.list_from_file("nasa_gas.yaml")}
    lines = [HEAD.format(version=ct.__version__)]
    for ours, theirs in WANTED.items():
        found = species[theirs]
        middle, *numbers = found.thermo.coeffs
        if middle != 1000.0:
            raise SystemExit(f"{theirs} changes over at {middle} K")
        atoms = tuple(int(found.composition.get(each, 0)) for each in "CHON")
        high, low = (tuple(float(each) for each in part) for part in (numbers[:7], numbers[7:]))
        lines.append(f'    "{ours}": (\n        {atoms},\n{low},\n{high}),\n')
    lines.append("}\n")
    Path("planner/physics/tables/cycle_nasa.py").write_text("".join(lines))


if __name__ == "__main__":
    main()
