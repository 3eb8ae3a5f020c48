"""Frozen records that open fast.

A frozen dataclass writes and compiles six functions when its module opens, and a plan opens
some hundred and fifty of them: a tenth of a second. Here only ``__init__`` is compiled; the
rest is shared. Fields, `replace`, `fields` and pickling work as with `dataclasses`.
"""

from collections.abc import Callable
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field, fields
from operator import attrgetter
from typing import Any, TypeVar, dataclass_transform, overload

Made = TypeVar("Made")


@overload
def record(made_of: type[Made]) -> type[Made]: ...
@overload
def record(*, kw_only: bool = False, slots: bool = True) -> Callable[[type[Made]], type[Made]]: ...
@dataclass_transform(frozen_default=True, field_specifiers=(field, Field))
def record(made_of: Any = None, *, kw_only: bool = False, slots: bool = True) -> Any:
    """Make a class a frozen record with slots, as ``@dataclass(frozen=True, slots=True)`` does.

    A class with two records above it can have no slots.

    Examples
    --------
    >>> @record
    ... class Hole:
    ...     size: float
    ...     depth: float = 0.0
    >>> Hole(8.0), Hole(8.0) == Hole(8.0, 0.0)
    (Hole(size=8.0, depth=0.0), True)
    """
    if made_of is None:
        return lambda each: _made(each, kw_only=kw_only, slots=slots)
    return _made(made_of, kw_only=kw_only, slots=slots)


def _made(written: type, *, kw_only: bool, slots: bool) -> type:
    plain = dataclass(init=False, repr=False, eq=False, slots=slots, kw_only=kw_only)
    made: Any = plain(written)
    listed = fields(made)
    made.__init__ = _init(listed)
    made.__repr__ = _told
    made.__setattr__ = made.__delattr__ = _refused
    made.__getstate__, made.__setstate__ = _state, _restored
    names = [each.name for each in listed]
    compared = _getter(names)
    made.__eq__ = lambda one, other: (
        compared(one) == compared(other) if one.__class__ is other.__class__ else NotImplemented
    )
    made.__hash__ = lambda one: hash(compared(one))
    return made  # type: ignore[no-any-return]  # the class that was written, with its functions


def _init(listed: tuple[Any, ...]) -> Any:  # noqa: ANN401 - a function of any shape
    """Write the only function that has to fit the fields."""
    known: dict[str, Any] = {"_set": object.__setattr__}
    plain: list[str] = []
    named: list[str] = []
    lines: list[str] = []
    for each in listed:
        told, value = _argument(each, known)
        (named if each.kw_only else plain).append(told)
        lines.append(f" _set(self, {each.name!r}, {value})")
    order = [*plain, *(["*", *named] if named else [])]
    text = f"def __init__(self, {', '.join(order)}):\n" + ("\n".join(lines) or " pass")
    exec(text, known)  # noqa: S102 - the names of our own fields, as dataclasses do it
    return known["__init__"]


def _argument(each: Any, known: dict[str, Any]) -> tuple[str, str]:  # noqa: ANN401 - a field
    """Give a field as an argument with its default, and the value to keep."""
    name = each.name
    if each.default_factory is not MISSING:
        known[f"_make_{name}"], known["_MISSING"] = each.default_factory, MISSING
        return f"{name}=_MISSING", f"_make_{name}() if {name} is _MISSING else {name}"
    if each.default is not MISSING:
        known[f"_default_{name}"] = each.default
        return f"{name}=_default_{name}", name
    return name, name


def _getter(names: list[str]) -> Callable[[Any], Any]:
    if len(names) > 1:
        return attrgetter(*names)
    return lambda one: tuple(getattr(one, name) for name in names)


def _told(one: Any) -> str:  # noqa: ANN401 - any record
    held = ", ".join(f"{each.name}={getattr(one, each.name)!r}" for each in fields(one))
    return f"{type(one).__qualname__}({held})"


def _refused(one: object, name: str, value: object = None) -> None:  # noqa: ARG001 - as Python calls it
    raise FrozenInstanceError(f"cannot change field {name!r}")


def _state(one: Any) -> list[Any]:  # noqa: ANN401 - any record
    return [getattr(one, each.name) for each in fields(one)]


def _restored(one: Any, state: list[Any]) -> None:  # noqa: ANN401 - any record
    for each, value in zip(fields(one), state, strict=True):
        object.__setattr__(one, each.name, value)
