"""A blank sheet to measure by: every reading a component needs, how, and a box for each figure."""

from collections.abc import Iterator
from textwrap import wrap

from planner.rulebook.ranges import range_text
from planner.rulebook.syntax import STAGES, Field
from planner.teardown.asked import AXES, ROWS, Asked

WIDTH = 78
BOX = "________"
_HEAD = "Clean, 20 degC, gauge zeroed on a standard of the size; each point twice within 0.002 mm."


def components(asked: Asked, stage: str = "inspected") -> dict[str, list[Field]]:
    """Group what is measured by the component it stands under in the job.

    Parameters
    ----------
    asked
        The job.
    stage
        How far to ask.

    Returns
    -------
    dict
        Component (``bores``, ``guides``, ``history``) to its inputs, in the rulebook's order.
    """
    reached = STAGES.index(stage)
    found: dict[str, list[Field]] = {}
    for each in asked.inputs():
        if STAGES.index(each.stage) <= reached:
            head, _, rest = each.job.partition(".")
            name = rest.partition(".")[0] if head == "teardown" else head
            found.setdefault(name, []).append(each)
    return found


def blank_sheet(asked: Asked, name: str, inputs: list[Field]) -> list[str]:
    """Write the sheet of one component.

    Parameters
    ----------
    asked
        The job: its items, and the depths and axes that it lists already.
    name
        The component.
    inputs
        What is measured on it.

    Returns
    -------
    list of str
        Lines of at most 78 columns.
    """
    title = name.replace("_", " ").upper()
    lines = [title, "=" * WIDTH, *wrap(_HEAD, WIDTH), _signed()]
    for each in inputs:
        lines += ["", *_told(each)]
        lines += list(_boxes(asked, each))
    lines += ["", *wrap(_findings(asked, name), WIDTH)]
    return [line.rstrip() for line in lines]


def _signed() -> str:
    return f"Gauge {BOX * 2}   part {BOX} degC   by {BOX}   on {BOX}"


def _told(each: Field) -> list[str]:
    unit = f" [{each.type.unit.name}]" if each.type.unit else ""
    lines = wrap(f"{each.ask}{unit}; {range_text(each.type)}", WIDTH)
    return [*lines, *wrap(f"how: {each.how}", WIDTH, initial_indent="  ", subsequent_indent="  ")]


def _boxes(asked: Asked, each: Field) -> Iterator[str]:
    spoken = asked.called(each.type.per[0]) if each.type.per else ""
    items = asked.items(each)
    if each.type.form != "grid":
        yield from _row_of_boxes(spoken, items)
        return
    rows, axes = _points(asked, each)
    lead = max([len(f"{spoken} {item} {row}") for item in items for row in rows], default=0) + 2
    for start in range(0, len(axes), 6):
        some = axes[start : start + 6]
        yield " " * lead + "".join(f"{axis[:9]:<10}" for axis in some)
        for item in items:
            for row in rows:
                label = f"{spoken} {item} {row}".strip()
                yield f"{label:<{lead}}" + "".join(f"{BOX:<10}" for _ in some)


def _row_of_boxes(spoken: str, items: tuple[str, ...]) -> Iterator[str]:
    if items == ("",):
        yield f"  {BOX}"
        return
    for start in range(0, len(items), 6):
        some = items[start : start + 6]
        yield f"  {spoken:<14}" + "".join(f"{item:<10}" for item in some)
        yield f"  {'':<14}" + "".join(f"{BOX:<10}" for _ in some)


def _points(asked: Asked, each: Field) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the rows and axes to measure: as the job lists them, else as the rulebook asks."""
    first, last = (each.grid_axes[0], each.grid_axes[-1]) if each.grid_axes else ("", "")
    rows = asked.listed(each, ROWS) or each.points.get(first, ("1",))
    axes = asked.listed(each, AXES) or each.points.get(last, ("1", "2"))
    return rows, axes


def _findings(asked: Asked, name: str) -> str:
    words = {part for part in name.rstrip("s").split("_") if len(part) > 2}
    seen = [
        f"{each.finding} ({', '.join(each.type.words)})"
        for each in asked.rulebook.inputs.values()
        if each.finding and words & set(each.name.split("_"))
    ]
    return f"Look for: {'; '.join(seen)}." if seen else "Write down what else was seen."
