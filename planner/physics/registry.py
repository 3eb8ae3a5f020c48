"""The register of formulas: what each takes and gives, how far it holds, who says so.

How to write a formula so that the tests can prove it:

1. Keyword-only SI floats in, a float (or a dict with exactly the result names) out.
   math and numpy are both fine; import numpy inside the function that needs it.
2. The Examples section calls the function at least once with every argument named and
   written as a literal (3.0, 12e-6, ((1.0, 2.0), (1.1, 2.1))), inside its validity and
   not on its edge, and shows the answer. Each such call is re-run by the tests in other
   units: metres, kilograms, seconds and kelvins a little larger or smaller. The results
   must change as their declared dimensions say. That catches any bare constant that
   carries a unit; give such a constant as an argument, or mark the formula empirical=True
   when its published coefficients carry units. Temperatures are kelvin, never degC inside.
3. A limit of validity may be a bare SI number: `if not 0.075 <= bore <= 0.105`. Refuse
   with `outside(...)`, never extrapolate, never clamp in silence.
4. Each argument is described under Parameters with its unit in brackets: [m], [Pa], [K],
   [1/K], [rad], [rad/s], [kg*m**2]; a plain number is [-]. The same holds under Returns.
   The tests read the bracket and compare it with the declared dimension.
5. References is a citation, or begins "Derived above", or "Common practice, no source".
6. rises and falls name only arguments in which the result never turns back over the whole
   validity range; a property test of yours backs each one.
7. spreads names grids of which the single result is a spread: nothing when all readings
   agree, never more than the largest less the smallest, unmoved when all move together.
   `tests/physics/test_spreads.py` holds it.
"""

import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, NoReturn, TypeVar

from planner.errors import BadSignature, OutsideValidity
from planner.units.dimension import Dimension
from planner.units.kinds import known_kind

Formula = TypeVar("Formula", bound=Callable[..., Any])
Directions = Mapping[str, tuple[str, ...]] | tuple[str, ...]


@dataclass(frozen=True)
class Q:
    """What an argument or a result is: its dimension, its kind, one number or a grid."""

    dimension: Dimension
    kind: str | None = None
    grid: bool = False


@dataclass(frozen=True)
class Signature:
    """A registered formula.

    `returns` is one Q, or one for each named result. `rises` and `falls` give, for each
    result name (the formula's own name when there is one result), the arguments it
    surely rises or falls with; `spreads` names the grids of which the result is a spread.
    """

    name: str
    function: Callable[..., Any]
    returns: Q | Mapping[str, Q]
    arguments: Mapping[str, Q]
    rises: Mapping[str, tuple[str, ...]]
    falls: Mapping[str, tuple[str, ...]]
    citation: str
    validity: str
    empirical: bool
    spreads: tuple[str, ...] = ()
    slow: bool = False

    @property
    def results(self) -> Mapping[str, Q]:
        """The results by name; a single result goes by the formula's own name."""
        return {self.name: self.returns} if isinstance(self.returns, Q) else self.returns


REGISTRY: dict[str, Signature] = {}


def physics(
    *,
    returns: Q | Mapping[str, Q],
    citation: str,
    validity: str,
    rises: Directions = (),
    falls: Directions = (),
    empirical: bool = False,
    spreads: tuple[str, ...] = (),
    slow: bool = False,
    **arguments: Q,
) -> Callable[[Formula], Formula]:
    """Register a formula under its own name, after checking it against what is declared.

    Parameters
    ----------
    returns
        What comes out: one Q, or a mapping from result name to Q.
    citation
        Where the formula comes from, or "derived".
    validity
        The range it holds for, in words.
    rises, falls
        Arguments the result surely rises or falls with: a tuple for a single result,
        a mapping from result name to tuple for several.
    empirical
        True when published coefficients carry units, so dimensions cannot be proved.
    slow
        True when one answer takes more than a few milliseconds: it is kept between runs.
    spreads
        Grids of which the single result is a spread; see rule 7 above.
    **arguments
        One Q for each keyword-only argument of the function, by name.

    Returns
    -------
    Callable
        A decorator that hands the function back unchanged.

    Raises
    ------
    BadSignature
        When the function and the declaration do not agree.
    """

    def register(function: Formula) -> Formula:
        name = function.__name__
        signature = Signature(
            name=name,
            function=function,
            returns=returns,
            arguments=arguments,
            rises=_by_result(name, returns, rises),
            falls=_by_result(name, returns, falls),
            citation=citation,
            validity=validity,
            empirical=empirical,
            spreads=spreads,
            slow=slow,
        )
        _check(signature)
        REGISTRY[name] = signature
        return function

    return register


def outside(argument: str, value_text: str, limits_text: str, remedy: str) -> NoReturn:
    """Refuse to answer outside a formula's range.

    Parameters
    ----------
    argument
        The argument that lies outside, in shop words.
    value_text
        Its value with the unit, as a person would write it.
    limits_text
        The range the formula holds for.
    remedy
        What the reader can do instead.

    Raises
    ------
    OutsideValidity
        Always.
    """
    raise OutsideValidity(
        problem=f"{argument} is {value_text}, outside {limits_text}.",
        reason="The formula was never checked there, so its answer could mislead.",
        remedy=remedy,
    )


def _by_result(
    name: str, returns: Q | Mapping[str, Q], directions: Directions
) -> Mapping[str, tuple[str, ...]]:
    """Bring both ways of writing directions to one: result name to arguments."""
    if isinstance(directions, Mapping):
        return dict(directions)
    if isinstance(returns, Q):
        return {name: directions}
    if directions:
        raise _bad(name, "gives several results but states directions for one", "a mapping")
    return {}


def _check(signature: Signature) -> None:
    """Hold the function against its declaration."""
    name = signature.name
    if name in REGISTRY and REGISTRY[name].function.__module__ != signature.function.__module__:
        raise _bad(name, "is registered twice, in two modules", "one name for each formula")
    if not (signature.citation.strip() and signature.validity.strip()):
        raise _bad(name, "has no citation or no validity", "both, in words")
    _check_arguments(signature)
    for each in (*signature.arguments.values(), *signature.results.values()):
        if each.kind is not None:
            known_kind(each.kind, each.dimension)
    _check_directions(signature)


def _check_arguments(signature: Signature) -> None:
    """Every argument keyword-only, without a default, and declared; none beside."""
    taken = inspect.signature(signature.function).parameters
    for argument in taken.values():
        if argument.kind is not inspect.Parameter.KEYWORD_ONLY:
            raise _bad(signature.name, f"takes {argument.name!r} by position", "keyword-only")
        if argument.default is not inspect.Parameter.empty:
            raise _bad(signature.name, f"has a default for {argument.name!r}", "no default")
    odd = sorted(taken.keys() ^ signature.arguments.keys())
    if odd:
        raise _bad(signature.name, f"and its declaration differ in {', '.join(odd)}", "a match")


def _check_directions(signature: Signature) -> None:
    """Directions may name only results and number arguments, and never both ways."""
    for result in (*signature.rises, *signature.falls):
        if result not in signature.results:
            raise _bad(signature.name, f"has no result {result!r}", "a result it gives")
    for name in signature.spreads:
        grid = signature.arguments.get(name)
        if grid is None or not grid.grid or not isinstance(signature.returns, Q):
            raise _bad(signature.name, f"is no spread of {name!r}", "a grid it takes, one result")
    for result in signature.results:
        rising = set(signature.rises.get(result, ()))
        falling = set(signature.falls.get(result, ()))
        unknown = sorted((rising | falling) - signature.arguments.keys())
        if unknown:
            raise _bad(signature.name, f"has no argument {unknown[0]!r}", "an argument it takes")
        if rising & falling:
            both = min(rising & falling)
            raise _bad(signature.name, f"both rises and falls with {both!r}", "one direction")


def _bad(name: str, what: str, wanted: str) -> BadSignature:
    """Word a signature error."""
    return BadSignature(
        problem=f"The formula {name} {what}.",
        reason="Rules are proved from the declaration, so it has to be true.",
        remedy=f"Write it with {wanted}.",
    )
