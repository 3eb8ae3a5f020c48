"""Register a formula of the cycle model from groups of arguments."""

from collections.abc import Callable, Mapping
from typing import Any, cast

from planner.physics.registry import Q, physics

Directions = Mapping[str, tuple[str, ...]] | tuple[str, ...]
Decorator = Callable[[Callable[..., Any]], Callable[..., Any]]


def formula(
    *,
    returns: Q | Mapping[str, Q],
    citation: str,
    validity: str,
    rises: Directions,
    falls: Directions,
    takes: Mapping[str, Q],
) -> Decorator:
    """Register an empirical formula whose arguments come as one mapping.

    Parameters
    ----------
    returns, citation, validity, rises, falls
        As for `physics`.
    takes
        The arguments by name.

    Returns
    -------
    Decorator
        Hands the formula back unchanged.
    """
    register = cast("Callable[..., Decorator]", physics)
    return register(
        returns=returns,
        citation=citation,
        validity=validity,
        rises=rises,
        falls=falls,
        empirical=True,
        slow=True,
        **takes,
    )
