"""Pure formulas on SI floats, one source each, looked up by name."""

import pkgutil
from importlib import import_module

from planner.errors import UnknownFormula, nearest
from planner.physics.index import WHERE
from planner.physics.registry import REGISTRY, Signature


def find_formula(name: str) -> Signature:
    """Find a formula by name, importing no more than the module that holds it.

    Parameters
    ----------
    name
        The name as a rule writes it.

    Returns
    -------
    Signature
        The registered formula.

    Raises
    ------
    UnknownFormula
        When no module registers that name.
    """
    if name not in REGISTRY and name in WHERE:
        import_module(f"planner.physics.{WHERE[name]}")
    if name not in REGISTRY:
        load_all()
    if name in REGISTRY:
        return REGISTRY[name]
    offer = nearest(name, REGISTRY)
    raise UnknownFormula(
        problem=f"There is no formula named {name!r}.",
        reason="A rule may call only registered formulas, so that its units are proved.",
        remedy=f"Did you mean {offer!r}?" if offer else "See `borewright rules names`.",
    )


def load_all() -> None:
    """Import every formula module, so that REGISTRY is full."""
    for module in sorted(each.name for each in pkgutil.walk_packages(__path__, f"{__name__}.")):
        if ".tables" not in module:
            import_module(module)
