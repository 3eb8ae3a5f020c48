"""Several possible answers brought to one: a stretch, the choices left, names perhaps called."""

from collections.abc import Sequence

from planner.rulebook.intervals import hull
from planner.rulebook.values import Band, Interval, Names, OneOf, Value


def joined(values: Sequence[Value], words: tuple[str, ...] = ()) -> Value:
    """Bring possible answers to one that holds them all.

    Parameters
    ----------
    values
        What could be the answer; at least one.
    words
        Words of the choice in their order, for choices.

    Returns
    -------
    Value
        The value itself when all agree.
    """
    first = values[0]
    if all(value == first for value in values):
        return first
    bands = [value for value in values if isinstance(value, Band)]
    if len(bands) == len(values):
        return _bands(bands)
    numbers = [value for value in values if isinstance(value, (float, Interval))]
    if len(numbers) == len(values):
        return hull(numbers)
    left = {word for value in values for word in _words(value)}
    ordered = tuple(word for word in words if word in left)
    return OneOf((*ordered, *sorted(left - set(ordered))))


def _bands(bands: Sequence[Band]) -> Band:
    targets = [band.target for band in bands if band.target is not None]
    return Band(
        hull([band.low for band in bands]),
        hull([band.high for band in bands]),
        hull(targets) if len(targets) == len(bands) else None,
    )


def _words(value: Value) -> tuple[str, ...]:
    if isinstance(value, OneOf):
        return value.words
    return (value,) if isinstance(value, str) else ()


def gathered(sure: Sequence[Names], could: Sequence[Names], item: str) -> Names:
    """Gather names: called where a row surely applies, else perhaps."""
    called = tuple(dict.fromkeys(name for names in sure for name in names.called))
    perhaps = tuple(
        dict.fromkeys(name for names in could for name in names.called if name not in called)
    )
    where = (item,) if item else ()
    return Names(called, perhaps, dict.fromkeys(called, where))
