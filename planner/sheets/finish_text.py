"""The figures of a measured surface as text."""

from planner.planning.trace_finish import Figure
from planner.sheets.layout import wrapped
from planner.units import to_unit

_REFUSED = "No figure of this plan stands beside them: name the job with --job."
_ADVICE = (
    "Ra alone never passes a plateau: peaks low enough (Rpk), core shallow (Rk) and valleys kept "
    "(Rvk) all count. The ring supplier's own table wins."
)


def finish_text(figures: list[Figure], finish: str = "") -> str:
    """Set the figures out, each with its limits and whether it lies inside them.

    Parameters
    ----------
    figures
        What was worked out.
    finish
        The finish that the plan asks for, in words; empty without a job.

    Returns
    -------
    str
        Lines of at most eighty columns.
    """
    lines = [f"Finish wanted: {finish}"] if finish else []
    lines += [_line(each) for each in figures]
    outside = [each.name for each in figures if not each.inside]
    judged = [each for each in figures if each.low is not None or each.high is not None]
    lines.append("")
    if outside:
        lines += wrapped(f"Outside: {', '.join(outside)}. Put it right before the final wash.")
    elif judged:
        lines += wrapped(
            "Inside every limit, as read; the instrument's own doubt is not taken off."
        )
    else:
        lines += wrapped(_REFUSED)
    return "\n".join([*lines, *wrapped(_ADVICE)])


def _line(figure: Figure) -> str:
    if figure.share:
        return f"  {figure.name:<4}{figure.measured * 100.0:7.1f} %"
    shown = f"  {figure.name:<4}{to_unit(figure.measured, 'um'):7.2f} µm"
    limits = _limits(figure)
    return f"{shown}   {limits:<22}{'inside' if figure.inside else 'OUTSIDE'}" if limits else shown


def _limits(figure: Figure) -> str:
    if figure.high is None:
        return ""
    high = to_unit(figure.high, "um")
    if figure.low is None:
        return f"up to {high:.2f}"
    return f"{to_unit(figure.low, 'um'):.2f} to {high:.2f}"
