"""Which keys a job file may hold: the fixed ones, and one for each input of the rulebook."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import chain
from typing import Literal

from planner.rulebook.syntax import Field, Rulebook

FORMAT = "1"
BLOCK_KEYS = (
    "unit",
    "readings",
    "repeats",
    "depths",
    "planes",
    "axes",
    "gauge",
    "temperature",
    "by",
    "on",
    "note",
    "photo",
)
"""Keys any block of readings may hold beside its readings."""

Meaning = Literal["", "text", "special"]

_TEXTS = (
    "format",
    "job.name",
    "job.reference",
    "job.sheet_units",
    "job.stage",
    "job.note",
    "quote.number",
    "quote.date",
    "quote.start",
    "quote.note",
    "goals.budget.low",
    "goals.budget.high",
    "goals.budget.currency",
    "goals.deadline",
    "goals.accessories",
    "goals.transmission",
    "goals.note",
    "history.complaint",
    "history.distance",
    "history.hours",
    "history.oil_use",
    "history.modifications",
    "history.overheating",
    "history.water_in_oil",
    "history.note",
    "parts_in_hand.pistons.coated",
)
# Read by a part of their own, or kept for a later stage of the job.
_SPECIAL = (
    "engine",
    "teardown.findings",
    "given",
    "parts_in_hand.pieces",
    "progress",
    "as_built",
    "torque_sheet",
)
_HEADS = ("job", "quote", "goals", "history", "teardown", "parts_in_hand")


@dataclass(slots=True)
class Branch:
    """One key of the job file: what may stand below it, and the inputs read here."""

    path: str
    children: "dict[str, Branch]" = field(default_factory=dict)
    inputs: list[Field] = field(default_factory=list)
    meaning: Meaning = ""

    def child(self, key: str) -> "Branch":
        """Return the branch under a key, growing it when it is new."""
        path = f"{self.path}.{key}" if self.path else key
        return self.children.setdefault(key, Branch(path))

    def at(self, path: str) -> "Branch":
        """Return the branch at a dotted path below this one."""
        branch = self
        for key in path.split("."):
            branch = branch.child(key)
        return branch

    def paths(self) -> list[str]:
        """List the paths of all keys below this one."""
        below = [each.paths() for each in self.children.values()]
        return [*(each.path for each in self.children.values()), *chain.from_iterable(below)]

    @property
    def is_block(self) -> bool:
        """Whether readings, with their unit and notes, may stand here."""
        return any(each.type.per or each.type.form == "grid" for each in self.inputs)


def job_tree(rulebook: Rulebook) -> Branch:
    """Return every key that a job for this rulebook may hold.

    Parameters
    ----------
    rulebook
        Its inputs say where in the job they stand.

    Returns
    -------
    Branch
        The root.
    """
    root = Branch("")
    for path in _HEADS:
        root.at(path)
    for path in _TEXTS:
        root.at(path).meaning = "text"
    for path in _SPECIAL:
        root.at(path).meaning = "special"
    for each in rulebook.inputs.values():
        if not each.finding:
            root.at(each.job).inputs.append(each)
    for record in rulebook.records.values():
        if record.job and record.job != "engine":
            root.at(record.job).meaning = "text"
    return root


def allowed_keys(branch: Branch) -> tuple[str, ...]:
    """List the keys that may stand directly under a branch, for messages."""
    extra: Iterable[str] = BLOCK_KEYS if _holds_readings(branch) else ()
    return (*branch.children, *(key for key in extra if key not in branch.children))


def _holds_readings(branch: Branch) -> bool:
    """Tell whether units and notes may stand here for what is below."""
    under_readings = branch.path.partition(".")[0] in ("teardown", "parts_in_hand", "history")
    return branch.is_block or (under_readings and bool(branch.inputs or branch.children))
