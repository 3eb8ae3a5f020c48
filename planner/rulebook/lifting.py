"""Working part by part where bands are among the values, and gathering from several pieces."""

from collections.abc import Callable, Iterator

from planner.rulebook.checker import Checker
from planner.rulebook.pieces import Env, Gather, Typed
from planner.rulebook.values import Band, Entry, Number, Value


def both(*parts: Gather) -> Gather:
    """Gather from several pieces."""

    def gather(env: Env) -> Iterator[tuple[str, Entry]]:
        for part in parts:
            yield from part(env)

    return gather


def lift(function: Callable[..., Number], *values: Value) -> Value:
    """Work a formula out for numbers, or part by part where a band is among them."""
    bands = [value for value in values if isinstance(value, Band)]
    if not bands:
        return function(*values)

    def part(name: str) -> Number:
        return function(*(getattr(v, name) if isinstance(v, Band) else v for v in values))

    target = None if bands[0].target is None else part("target")
    return Band(part("low"), part("high"), target)


def joined_form(left: Typed, right: Typed, checker: Checker) -> str:
    """Say which form two joined values have; a band and limits do not join."""
    forms = {side.form for side in (left, right) if side.banded}
    if len(forms) == 2:
        raise checker.bad("a band and limits cannot be joined", "name the parts")
    return forms.pop() if forms else "number"
