"""Boxes to fill in at a step: one for each cylinder, journal or valve that a check is about."""

import re
from collections.abc import Mapping

from planner.models.steps import Step, Target
from planner.sheets.letters import clean
from planner.sheets.view import Check

Sets = Mapping[str, tuple[str, ...]]
# Which items a check is about, by the words of what it measures and the decision it is held to.
# The first line that fits counts.
_ABOUT: tuple[tuple[str, tuple[str, ...]], ...] = (
    (r"\bmain(s| journal| clearance| housing)|each housing|every main|honed_housing", ("main",)),
    (r"\brod (journal|clearance|side|bolt|big)|big end|bolt stretch|free length", ("rod",)),
    (r"\bexhaust (stem|margin|contact|valve|seat)", ("exhaust_valve",)),
    (r"\bintake (stem|margin|contact|valve|seat)", ("intake_valve",)),
    (
        r"each valve|valve depth|coil.bind|load (with|at)|spring load|retainer to|stem wear"
        r"|face run-out|run-out to the guide|guides, three",
        ("intake_valve", "exhaust_valve"),
    ),
    (
        r"\bbores?\b|cylinder|\bpistons?\b|ring (end )?gap|rail end gap|chamber|pin in|skirt"
        r"|honed_|cross.hatch|finish_r|quench|injector|wall left|least wall|stock left"
        r"|compression height|ring in groove|ring behind|each volume",
        ("cylinder",),
    ),
)
_NOT_SINGLE = re.compile(r"largest .* less|spread|line (over|between)|on the order|together")
_MANY = 6  # more boxes than fit in a row with their whole names
_WORK = frozenset({"work", "inspection", "commissioning"})


def check_of(target: Target, step: Step, sets: Sets) -> Check:
    """Turn a target into a check with its boxes.

    Parameters
    ----------
    target
        What the plan asks for.
    step
        The operation; only its items get a box where it names some.
    sets
        Items of the engine.

    Returns
    -------
    Check
        With at least one box.
    """
    text = clean(target.text.replace("_", " "))
    same = len(set(target.per.values())) == 1
    if target.per and not same:
        text = "each to its own, in the boxes"
    elif target.per:
        text = clean(next(iter(target.per.values())))
    return Check(
        measure=clean(target.measure[:1].upper() + target.measure[1:]),
        target=text,
        instrument=clean(target.instrument),
        status="" if target.status in ("", "firm") else target.status,
        boxes=_boxes(target, step, sets, same=same),
    )


def _boxes(target: Target, step: Step, sets: Sets, *, same: bool) -> tuple[tuple[str, str], ...]:
    if target.per:
        return tuple(
            (clean(label), "" if same else short(clean(told)))
            for label, told in target.per.items()
        )
    about = items_of(target, step, sets)
    if len(about) > _MANY:
        about = tuple(label.replace(" valve", "") for label in about)
    return tuple((label, "") for label in about) or (("", ""),)


def items_of(target: Target, step: Step, sets: Sets) -> tuple[str, ...]:
    """Name the items that a check is about; none when it is about one thing."""
    said = f"{target.measure} {target.decision}".lower()
    # Several sorts of part at once: one box for all of them.
    listed = target.measure.count(",") > 1 and not target.decision
    if listed or step.work_class not in _WORK or _NOT_SINGLE.search(said):
        return ()
    for pattern, names in _ABOUT:
        if re.search(pattern, said):
            return _among(names, step, sets)
    return ()


def _among(names: tuple[str, ...], step: Step, sets: Sets) -> tuple[str, ...]:
    labels = [f"{name.replace('_', ' ')} {item}" for name in names for item in sets.get(name, ())]
    here = [label for label in labels if label in step.where]
    return tuple(here or labels)


def short(text: str) -> str:
    """Shorten a target for a box.

    Examples
    --------
    >>> short("86.480 to 86.505 mm, aim 86.500 mm")
    '86.480–86.505, aim 86.500'
    >>> short("5.850 mm")
    '5.850'
    """
    return text.replace(" to ", "–").replace(" mm", "")
