"""A resolved name of the rule language."""

from typing import Literal

from planner.records import record
from planner.rulebook.value_type import ValueType

PARTS = ("low", "target", "high")
Origin = Literal["input", "record", "stock", "result", "chosen"]


@record
class Ref:
    """A resolved name: where its value comes from and what it holds."""

    text: str
    origin: Origin
    name: str
    type: ValueType
    field: str | None = None
    part: str | None = None
    optional: bool = False
    decision: str | None = None
