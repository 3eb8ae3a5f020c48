"""Write the burned-gas tables of the named grades into planner/physics/tables/.

Run it from the root of the tree: `python -m tests.physics.cycle.make_tables` or by path with
the root on PYTHONPATH. Old tables are removed first.
"""

from pathlib import Path

import numpy as np

from planner.physics.cycle.burned import build, elements
from planner.physics.cycle.fuels import blend

PLACE = Path("planner/physics/tables")
PETROL = (43.4e6, 745.0)  # as cycle_petrol_heating_value and cycle_petrol_density
SHARES = ((0.0, 0.0), (0.1, 0.0), (0.51, 0.0), (0.85, 0.0), (0.0, 1.0))  # petrol to methanol
MIXTURES = (1.12, 1.18)  # as cycle_off_boost_mixture and cycle_full_boost_mixture


def main() -> None:
    """Write one file for each fuel and mixture."""
    for old in PLACE.glob("cycle_burned_*.npy"):
        old.unlink()
    for shares in SHARES:
        for mixture in MIXTURES:
            table = build(elements(blend(*shares, *PETROL), mixture))
            np.save(PLACE / f"cycle_burned_{table.key}.npy", table.values, allow_pickle=False)


if __name__ == "__main__":
    main()
