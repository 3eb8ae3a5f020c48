"""Answers to `why` as text: reasons of a decision, or of an operation."""

import textwrap
from collections.abc import Iterable, Mapping

from planner.models.steps import Step
from planner.sheets.layout import WIDTH, Lines, wrapped
from planner.sheets.operations import step_lines


def fitted(lines: Iterable[str]) -> Lines:
    """Wrap indented lines to the page, each hanging under where it began."""
    fitted_lines: Lines = []
    for line in lines:
        body = line.lstrip()
        pad = " " * (len(line) - len(body))
        fitted_lines += textwrap.wrap(
            body,
            WIDTH,
            initial_indent=pad,
            subsequent_indent=f"{pad}    ",
            break_long_words=False,
            break_on_hyphens=False,
        ) or [""]
    return fitted_lines


def decision_text(
    reasons: Iterable[str],
    advice: Mapping[str, str],
    cautions: Iterable[tuple[str, str]],
    audience: str,
) -> str:
    """Tell why a decision came out as it did.

    Parameters
    ----------
    reasons
        Lines of the explanation: value, rule, numbers, rejected choices, voices.
    advice
        What the rules tell each of the three people.
    cautions
        Signal word and text of each.
    audience
        Who asks; the customer is told the advice alone.

    Returns
    -------
    str
        Lines of at most eighty columns.
    """
    told = advice.get(audience) or advice.get("builder", "")
    lines: Lines = [] if audience == "customer" and told else fitted(reasons)
    if told:
        lines += ([""] if lines else []) + wrapped(told, "", "Why: ")
    for severity, text in cautions:
        lines += wrapped(text, "", f"{severity.upper()}: ")
    return "\n".join(lines) + "\n"


def operation_text(
    step: Step, numbers: Mapping[str, int], afterwards: Mapping[str, str], audience: str
) -> str:
    """Tell why an operation is in the plan, where it stands and what follows it."""
    lines = step_lines(step, numbers, audience)
    if audience != "customer":
        for later, reason in afterwards.items():
            lines += wrapped(reason, "     ", f"Before {numbers[later]} {later}: ")
    if step.source:
        lines += wrapped(step.source, "     ", "Source: ")
    return "\n".join(lines) + "\n"
