"""The finished engine in text: readings and verdicts, cures, hold points, the final record."""

from collections.abc import Iterable

from planner.models.asbuilt import (
    SETTLED,
    BuildRecord,
    Cure,
    FitDoc,
    HoldDoc,
    ItemVerdict,
    Verification,
)
from planner.sheets.layout import Lines, counted, heading, marked, wrapped

METAL = {
    "none": "no metal",
    "exchange": "no metal, another part",
    "polish": "polish",
    "hone": "hone",
    "cut": "cut",
    "replace": "replace",
}
VERDICTS = {
    "conform": "proved inside",
    "nonconform": "proved outside",
    "indeterminate": "not proved either way",
    "gauge too coarse": "no reading of this gauge could prove it",
}


def verification_text(found: Verification, *, full: bool = False) -> str:
    """Print a verification: counts, what is open, cures, hold points.

    Parameters
    ----------
    found
        What was measured.
    full
        Print what passed too.

    Returns
    -------
    str
        The text.
    """
    lines: Lines = [_counted(found)]
    open_ = [fit for fit in found.fits if any(each.state not in SETTLED for each in fit.items)]
    clearances = [fit for fit in found.fits if fit.clearance]
    others = [fit for fit in found.fits if not fit.clearance]
    lines += heading("Clearances")
    lines += _fits(clearances, full=True)
    lines += heading("Sizes, forms and loads" if full else "Sizes, forms and loads still open")
    lines += _fits(others if full else [fit for fit in others if fit in open_], full=full)
    if found.cures:
        lines += heading("What to do, least metal first")
        lines += _cures(found.cures)
    lines += heading("Hold points")
    lines += [line for each in found.holds for line in _hold(each)]
    for name, why in found.not_applicable.items():
        lines += wrapped(f"{name} does not apply: {why}.")
    for each in found.questions:
        lines += wrapped(f"Question: {each}.")
    return "\n".join(lines)


def record_text(record: BuildRecord) -> str:
    """Print the final record of a build."""
    lines: Lines = [
        f"BUILD RECORD  {record.name}",
        f"Reference {record.reference or '-'}   engine {record.engine}",
        f"Rules edition {record.rules_edition}, check code {record.rules_sha256[:16]}; "
        f"borewright {record.version}",
        f"Job file revision {record.revision}, check code {record.job_sha256[:16]}",
        f"Check code of this record: {record.sha256}",
    ]
    lines += heading("Specification")
    for title, text in record.specification.items():
        lines += wrapped(text, "", f"{title}: ")
    lines += heading("As built")
    lines += _fits(record.fits, full=True)
    lines += heading("Hold points")
    lines += [line for each in record.holds for line in _hold(each)]
    lines += heading("Work")
    for step in record.steps:
        done = f"{step.day} {step.by}".strip() or "not marked"
        lines += marked(f"{step.id}: {step.title}", done)
    return "\n".join(lines)


def _counted(found: Verification) -> str:
    total = sum(found.counts.values())
    told = ", ".join(f"{number} {state}" for state, number in found.counts.items())
    return f"{counted(total, 'reading')} wanted: {told}."


def _fits(fits: Iterable[FitDoc], *, full: bool) -> Lines:
    lines: Lines = []
    for fit in fits:
        lines += _fit(fit, full=full)
    return lines or ["none"]


def _fit(fit: FitDoc, *, full: bool) -> Lines:
    states = {each.state for each in fit.items}
    whole = states.pop().upper() if len(states) == 1 else "SEE BELOW"
    limits = {each.limits for each in fit.items}
    held = f", {limits.pop()}" if len(limits) == 1 and "" not in limits else ""
    lines = marked(f"{fit.id}: {fit.title}{held}", whole)
    if whole == "MISSING":
        return [*lines, *wrapped(f"measured at {fit.at}", "    ")]
    shown = fit.items if full else [each for each in fit.items if each.state not in SETTLED]
    for each in shown:
        lines += _item(each, alone=not held)
    return [*lines, *_taken(fit)]


def _item(each: ItemVerdict, *, alone: bool) -> Lines:
    where = f"{each.where}: " if each.where else ""
    limits = f" (wanted {each.limits})" if alone and each.limits else ""
    if each.state == "missing":
        return marked(f"    {where}not measured{limits}", "MISSING", "        ")
    told = []
    if each.state != "pass" and each.inside_limit is not None:
        plain = "inside the limit" if each.inside_limit else "outside the limit"
        told.append(f"{plain}; {VERDICTS.get(each.verdict, each.verdict)}")
    if each.probability is not None:
        told.append(f"{each.probability:.0%} likely inside")
    if each.because:
        told.append(each.because)
    lines = marked(f"    {where}{each.reading}{limits}", each.state.upper(), "        ")
    return [*lines, *(wrapped("; ".join(told), "        ") if told else [])]


def _taken(fit: FitDoc) -> Lines:
    """Say who measured, with what and when, once where all items agree."""
    told: dict[str, list[str]] = {}
    for each in fit.items:
        if each.state == "missing":
            continue
        taken = each.taken
        parts = [
            taken.instrument or taken.gauge.replace("_", " "),
            f"within {taken.uncertainty}" if taken.uncertainty else "",
            f"worked out of {taken.worked_out}" if taken.worked_out else "",
            " ".join(part for part in (taken.by, taken.on) if part),
            f"let stand by {taken.confirmed}" if taken.confirmed else "",
        ]
        told.setdefault(", ".join(part for part in parts if part), []).append(each.where)
    lines: Lines = []
    for text, places in told.items():
        lead = "" if len(told) == 1 else f"{', '.join(place for place in places if place)}: "
        lines += wrapped(f"{lead}{text}", "    ") if text else []
    return lines


def _cures(cures: Iterable[Cure]) -> Lines:
    lines: Lines = []
    before = ("", "")
    for each in cures:
        if (each.fit, each.where) != before:
            before = (each.fit, each.where)
            amount = f": {each.amount}" if each.amount else ""
            lines += ["", *wrapped(f"{each.fit} {each.where}".strip() + amount)]
        lines += wrapped(each.says, "  ", f"[{METAL[each.metal]}] ")
        if each.parts:
            lines += wrapped(f"In hand and would do: {'; '.join(each.parts)}.", "      ")
        if each.repeat_from:
            done = f", of which done: {', '.join(each.reopens_done)}" if each.reopens_done else ""
            after = len(each.reopens) - 1
            steps = f" and {counted(after, 'step')} after it" if after else ""
            lines += wrapped(f"Repeat from {each.repeat_from}{steps}{done}.", "      ")
    return lines


def _hold(each: HoldDoc) -> Lines:
    signed = f" {each.day} {each.by}".rstrip() if each.by else ""
    lines = marked(f"{each.operation}: {each.hold}{signed}", each.state.upper())
    if each.open:
        shown = "; ".join(each.open[:MOST])
        more = f"; and {len(each.open) - MOST} more" if len(each.open) > MOST else ""
        lines += wrapped(f"open: {shown}{more}", "    ")
    return lines


MOST = 4
"""How many open readings a hold point names."""
