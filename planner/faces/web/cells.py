"""A plan cut into cells: what can change on the goals page, each by its own name."""

from collections.abc import Container, Iterator, Mapping

from markupsafe import Markup

from planner.faces.web.pages import template
from planner.models.groups import GROUPS, HEADLINES
from planner.models.plan import DecisionDoc, Plan

Cells = Mapping[str, Markup]
FOREMOST = (
    "compression_ratio",
    "expected_power",
    "piston_to_wall",
    "bore_oversize",
    "top_ring_gap",
    "rod_bearing_clearance",
)


def cells_of(plan: Plan, goals: Container[str] = ()) -> dict[str, Markup]:
    """Draw every cell of a plan.

    Parameters
    ----------
    plan
        The plan.
    goals
        Names that the form asks for; a conflict leads back to them.

    Returns
    -------
    dict
        Name of a cell to what stands in it, ready for the page.
    """
    drawn = template("cells").module
    found: dict[str, Markup] = {}
    for name, decision in _decisions(plan):
        found[f"value-{name}"] = drawn.value(decision)  # type: ignore[attr-defined]
        found[f"status-{name}"] = drawn.status(decision)  # type: ignore[attr-defined]
        found[f"because-{name}"] = drawn.because(decision, _missing(plan))  # type: ignore[attr-defined]
    for name in FOREMOST:
        if name in plan.decisions:
            found[f"fore-{name}"] = drawn.value(plan.decisions[name])  # type: ignore[attr-defined]
    found["conflicts"] = drawn.conflicts(plan, goals)  # type: ignore[attr-defined]
    found["stand"] = drawn.stand(plan, HEADLINES)  # type: ignore[attr-defined]
    for name in ("price", "days", "cautions", "questions", "missing", "work"):
        found[name] = getattr(drawn, name)(plan)
    return found


def groups_of(plan: Plan) -> list[tuple[str, list[tuple[str, DecisionDoc]]]]:
    """Group the decisions as a builder thinks of them."""
    return [
        (title, [(name, plan.decisions[name]) for name in names if name in plan.decisions])
        for title, names in GROUPS
    ]


def changed_cells(before: Cells, after: Cells) -> dict[str, Markup]:
    """Return the cells that differ."""
    return {name: text for name, text in after.items() if before.get(name) != text}


def titles_of(plan: Plan, changed: Mapping[str, Markup]) -> list[str]:
    """Name the decisions whose value changed."""
    return [decision.title for name, decision in _decisions(plan) if f"value-{name}" in changed]


def _decisions(plan: Plan) -> Iterator[tuple[str, DecisionDoc]]:
    for _, names in GROUPS:
        for name in names:
            if name in plan.decisions:
                yield name, plan.decisions[name]


def _missing(plan: Plan) -> dict[str, str]:
    return {each.name: each.what for each in plan.missing}
