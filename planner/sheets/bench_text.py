"""The parts in hand in text: who goes where, what goes back, how likely it comes out."""

from planner.models.bench import Bench, Chance, Placing
from planner.sheets.layout import Lines, heading, marked, wrapped


def bench_text(found: Bench) -> str:
    """Print what can be said before metal is cut."""
    lines: Lines = []
    for each in found.placings:
        lines += _placing(each)
    if found.goes_back:
        lines += heading("Goes back to the seller")
        for back in found.goes_back:
            lines += wrapped(f"{back.because}.", "", f"{back.part}: ")
    if found.chances:
        lines += heading("Chance of conforming, before cutting")
        lines += wrapped(
            f"{found.trials} trials, seed {found.seed}: sizes scatter as the bench does, readings "
            "as the gauge does; proved means the reading lies inside the guarded limits."
        )
        for chance in found.chances:
            lines += _chance(chance)
    return "\n".join(lines)


def _placing(each: Placing) -> Lines:
    lines = heading(each.title)
    lines += wrapped(each.says[:1].upper() + each.says[1:] + ".")
    for place in each.places:
        details = ", ".join(f"{name} {text}" for name, text in place.details.items())
        parts = " + ".join(place.parts)
        held = ": ".join(each for each in (place.where, parts) if each)
        lines += marked(held + (f" ({details})" if details else ""), place.result)
    if each.spread:
        order = f" (in order it would be {each.in_order})" if each.in_order else ""
        lines += wrapped(f"{each.spread}{order}", "", "Spread: ")
    if each.left_over:
        lines += wrapped(", ".join(each.left_over), "", "Stays in the box: ")
    if each.warning:
        lines += wrapped(each.warning, "", "NOTICE: ")
    return lines


def _chance(each: Chance) -> Lines:
    mark = "ENOUGH" if each.enough else "TIGHTEN"
    lines = ["", *marked(f"{each.title}, aim {each.aim}, limits {each.limits}", mark)]
    lines += wrapped(
        f"truly inside {each.inside:.1%}, proved {each.proved:.1%}; all {each.items} proved "
        f"{each.all_proved:.1%}",
        "    ",
    )
    if each.enough:
        return lines
    lines += wrapped("What would help, one thing at a time, its scatter halved:", "    ")
    for step in each.tighten:
        lines += wrapped(f"{step.what} ({step.scatter}): proved {step.chance:.1%}", "      ", "- ")
    return lines
