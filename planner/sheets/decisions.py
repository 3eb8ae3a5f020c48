"""Decisions as text: value, status and mark, evidence, rejected choices, reasons, cautions."""

import re
from collections import Counter
from collections.abc import Iterable, Mapping

from planner.models.plan import DecisionDoc, Evidence, Plan
from planner.models.steps import CautionDoc
from planner.sheets.layout import NOT_KNOWN, Lines, is_whole, marked, shortened, wrapped

INDENT = "    "
MANY_REJECTED = 8
_GRAVITY = ("danger", "warning", "caution", "notice")


def status_word(decision: DecisionDoc) -> str:
    """Return the mark at the right edge: FIRM, PROVISIONAL, WAITING and so on."""
    word = decision.status.upper()
    return f"{word}, GIVEN" if decision.given else word


class DecisionTexts:
    """Tells decisions to one of the three people, each reason and caution once.

    Parameters
    ----------
    plan
        The plan they are of.
    audience
        builder, machinist or customer. The customer is spared names, rows and evidence.
    """

    def __init__(self, plan: Plan, audience: str) -> None:
        self.audience = audience
        self._missing = {each.name: each.what for each in plan.missing}
        self._told: dict[str, str] = {}
        self._titles = {name: each.title for name, each in plan.decisions.items()}

    def lines(self, name: str, decision: DecisionDoc) -> Lines:
        """Tell one decision in lines of at most eighty columns."""
        plain = self.audience == "customer"
        title = decision.title if plain else f"{name}: {decision.title}"
        lines = marked(title, status_word(decision))
        lines += _value(decision, self.audience)
        if self.audience == "builder":
            lines += _evidence(decision)
            lines += _rejected(decision)
        lines += self._reason(name, decision)
        lines += _unsettled(decision, self._missing)
        return lines + self._cautions(name, decision)

    def _reason(self, name: str, decision: DecisionDoc) -> Lines:
        """Give the reason, or point to where the same words stand already."""
        text = decision.because.get(self.audience) or decision.because.get("builder", "")
        if not text:
            return []
        if decision.status in ("waiting", "refused"):
            text = _known_part(text)
        if not text:
            return []
        told = self._told.setdefault(text, name)
        if told == name:
            return wrapped(shortened(text), INDENT, "Why: ")
        plain = self.audience == "customer"
        other = f"'{self._titles[told]}'" if plain else told
        return wrapped(f"as for {other}, above", INDENT, "Why: ")

    def _cautions(self, name: str, decision: DecisionDoc) -> Lines:
        new = [
            each for each in decision.cautions if self._told.setdefault(each.text, name) == name
        ]
        return caution_lines(new, INDENT)


def _known_part(text: str) -> str:
    """Return the sentences of a reason that do not turn on what is not known yet."""
    sentences = re.split(r"(?<=[.!?]) ", shortened(text))
    known = dict.fromkeys(each for each in sentences if is_whole(each))
    return " ".join(known)


def short_lines(name: str, decision: DecisionDoc) -> Lines:
    """Tell a decision in its value and status alone."""
    return [
        *marked(f"{name}: {decision.title}", status_word(decision)),
        *_value(decision, "builder"),
    ]


def caution_lines(cautions: Iterable[CautionDoc], indent: str) -> Lines:
    """Tell cautions by signal word."""
    lines: Lines = []
    for each in sorted(cautions, key=lambda caution: _GRAVITY.index(caution.severity)):
        may = "(may apply) " if each.may_apply else ""
        lines += wrapped(f"{may}{shortened(each.text)}", indent, f"{each.severity.upper()}: ")
    return lines


def _value(decision: DecisionDoc, audience: str) -> Lines:
    if decision.not_applicable is not None:
        return wrapped(decision.not_applicable, INDENT, "Does not apply: ")
    mark = _marks(decision)
    suffix = f"  [{mark}]" if mark else ""
    if decision.results:
        lines: Lines = []
        for name, each in decision.results.items():
            label = name.replace("_", " ") if audience == "customer" else name
            lines += wrapped(f"{label} = {shortened(each.text)}", INDENT)
        lines[-1:] = wrapped(lines[-1].strip() + suffix, INDENT)
        return lines
    return wrapped(f"{shortened(decision.text)}{suffix}", INDENT, "= ")


def _marks(decision: DecisionDoc) -> str:
    """Say where the figure comes from: its marks, and the citation of a published one."""
    told = [
        f"{each.status}: {each.cite}" if each.cite else each.status for each in decision.sources
    ]
    return "; ".join(dict.fromkeys(told))


def _evidence(decision: DecisionDoc) -> Lines:
    """Show every voice, the governing one first in sign."""
    lines: Lines = []
    for each in decision.evidence:
        lead = f"> {each.name}, governs: " if each.governs else f"- {each.name}: "
        lines += wrapped(_voice(each), INDENT, lead)
    if len(decision.evidence) > 1 and decision.governed_because:
        lines += wrapped(f"({decision.governed_because})", f"{INDENT}  ")
    return lines


def _voice(each: Evidence) -> str:
    kind = "" if each.name.endswith(each.kind) else f", {each.kind}"
    source = f"  [{each.source}{kind}]" if each.source else f"  [{each.kind}]"
    said = shortened(each.text or f"refused: {each.refused}")
    told = each.outside_range and said != NOT_KNOWN
    outside = f" (outside its range: {each.outside_because})" if told else ""
    return f"{said}{outside}{source}"


def _rejected(decision: DecisionDoc) -> Lines:
    """Show the nearest misses with their numbers, and count the rest by what they failed."""
    lines: Lines = []
    for each in decision.rejected[:MANY_REJECTED]:
        lines += wrapped(f"fails '{each.failed}' ({each.why})", INDENT, f"not {each.choice}: ")
    rest = Counter(each.failed for each in decision.rejected[MANY_REJECTED:])
    for need, count in rest.items():
        lines += wrapped(f"and {count} more fail '{need}'", INDENT)
    if decision.margins:
        lines += wrapped("; ".join(decision.margins), INDENT, "passes: ")
    if decision.also_fit:
        lines += wrapped(", ".join(decision.also_fit), INDENT, "would do too, not preferred: ")
    return lines


def _unsettled(decision: DecisionDoc, missing: Mapping[str, str]) -> Lines:
    """Say what keeps the decision from being firm."""
    lines: Lines = []
    if decision.refused:
        lines += wrapped(decision.refused, INDENT, "Refused: ")
    if decision.waiting_for:
        names = [missing.get(each, each.replace("_", " ")) for each in decision.waiting_for]
        lines += wrapped("; ".join(names), INDENT, "Waits for: ")
    if decision.status == "provisional" and decision.assumed:
        rests = "; ".join(_assumed(name, text) for name, text in decision.assumed.items())
        lines += wrapped(rests, INDENT, "Rests on: ")
    return lines


def _assumed(name: str, text: str) -> str:
    return text if name == text else f"{name.replace('_', ' ')} taken as {text}"


def also_worked_out(plan: Plan, listed: frozenset[str]) -> dict[str, DecisionDoc]:
    """Return further decisions that the rules have something to say about."""
    return {
        name: each
        for name, each in plan.decisions.items()
        if name not in listed and (each.because or each.cautions)
    }
