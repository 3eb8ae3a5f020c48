"""An enquiry at the counter: the questions that matter first, and the job they make."""

from collections.abc import Mapping
from dataclasses import dataclass

from planner.datafiles.nodes import Scalar
from planner.datafiles.splice import Plain, flow
from planner.errors import BorewrightError, Place, nearest
from planner.planning.starter import told
from planner.rulebook.literals import read_literal
from planner.rulebook.printing import show_value
from planner.rulebook.ranges import Unreadable
from planner.rulebook.syntax import Field, Rulebook

UNKNOWN = ("", "unknown", "?", "-")
COUNTER = (
    "use",
    "boost",
    "power",
    "rev_ceiling",
    "fuel",
    "ethanol",
    "corner_load",
    "longest_full_load",
    "ambient_low",
    "budget_high",
    "weeks_available",
)
"""What the counter asks, in the order that people answer easiest."""
UNLISTED = ("cylinders", "bore", "stroke", "block_material")
"""What anyone can say of an engine that is not in the catalog."""
_AT = Place("answer", 1, 1)


@dataclass(frozen=True, slots=True)
class Asking:
    """One question: where its answer goes, what it asks, and what is taken without an answer."""

    path: str
    text: str
    without: str
    field: Field | None = None
    words: tuple[str, ...] = ()

    def wrong(self, answer: str) -> str:
        """Say what is wrong with an answer; nothing when it can stand."""
        if answer.strip().casefold() in UNKNOWN:
            return ""
        if self.words and answer not in self.words:
            offer = nearest(answer, self.words)
            return f"did you mean {offer}?" if offer else f"known: {', '.join(self.words)}"
        return _unreadable(answer, self.field) if self.field is not None else ""


def _unreadable(answer: str, field: Field) -> str:
    node = Scalar(answer, answer, quoted=False, place=_AT, span=(0, 0))
    try:
        read_literal(node, field.type, field.name)
    except Unreadable as error:
        return f"{error.problem.what}; {error.problem.fix}"
    except BorewrightError as error:
        return f"{error.problem} {error.remedy}"
    return ""


def counter_questions(rulebook: Rulebook) -> list[Asking]:
    """List the questions at the counter.

    Parameters
    ----------
    rulebook
        Says what each asks, and what is assumed without an answer.

    Returns
    -------
    list of Asking
        The complaint and the engine first; none of them has to be answered.
    """
    record = rulebook.records.get("engine")
    engines = tuple(rulebook.stock_rows.get(record.catalog, {})) if record else ()
    return [
        Asking("job.name", "Whose car, or the name of the job", "the job has no name"),
        Asking("history.complaint", "Why it is here, in the customer's words", "not said"),
        Asking("engine", f"Engine: {', '.join(engines)}", "four figures are asked", words=engines),
        *(_asking(rulebook.inputs[name]) for name in COUNTER if name in rulebook.inputs),
    ]


def engine_questions(rulebook: Rulebook) -> list[Asking]:
    """List what to ask of an engine that is not in the catalog."""
    record = rulebook.records.get("engine")
    fields = record.fields if record else {}
    return [
        Asking(f"engine.{name}", told(fields[name]), "waits", fields[name])
        for name in UNLISTED
        if name in fields
    ]


def _asking(field: Field) -> Asking:
    assume = field.assume
    without = "not known: what needs it waits"
    if assume is not None and assume.value is not None:
        without = f"assumed {show_value(assume.value, field.type)}, because {assume.because}"
    return Asking(field.job, told(field).partition("; if empty")[0], without, field)


def enquiry_job(answers: Mapping[str, str]) -> str:
    """Write the job file that the answers make.

    Parameters
    ----------
    answers
        By path; those not known are left out, and never become a figure.

    Returns
    -------
    str
        YAML.
    """
    tree: dict[str, Plain] = {"format": 1}
    for path, answer in answers.items():
        if answer.strip().casefold() in UNKNOWN:
            continue
        *heads, last = path.split(".")
        branch = tree
        for head in heads:
            inner = branch.setdefault(head, {})
            if isinstance(inner, dict):
                branch = inner
        branch[last] = answer.strip()
    lines = [f"format: {tree.pop('format')}"]
    for head, value in tree.items():
        if isinstance(value, dict):
            lines.append(f"{head}:")
            lines += _block(value, "  ")
        else:
            lines.append(f"{head}: {flow(value)}")
    return "\n".join(lines) + "\n"


def _block(branch: Mapping[str, Plain], indent: str) -> list[str]:
    lines = []
    for key, value in branch.items():
        if isinstance(value, dict):
            lines += [f"{indent}{key}:", *_block(value, indent + "  ")]
        else:
            lines.append(f"{indent}{key}: {_written(value)}")
    return lines


def _written(value: Plain) -> str:
    """Write plain figures as figures and words as words."""
    if isinstance(value, str):
        try:
            return flow(float(value)) if "." in value else flow(int(value))
        except ValueError:
            return flow(value)
    return flow(value)
