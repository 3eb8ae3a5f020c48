"""The torque and stretch sheet, and the steps of first start and break-in."""

from collections.abc import Mapping
from dataclasses import field

from planner.records import record


@record(kw_only=True, slots=False)
class TorqueLine:
    """One group of fasteners.

    Attributes
    ----------
    value, origin
        The fastener maker's figure as a person typed it, and whose it is.
    blocked
        What must not be done until the figure is there; empty when it is.
    ours
        Our own working figures, to question a typed one with, never to tighten to.
    """

    id: str
    title: str
    grade: str = ""
    tightened_at: tuple[str, ...] = ()
    lubricant: str = ""
    sequence: str = ""
    method: str = ""
    value: str = ""
    origin: str = ""
    blocked: str = ""
    ours: Mapping[str, str] = field(default_factory=dict)
    source: str = ""


@record(kw_only=True, slots=False)
class RunInStep:
    """One step of first start or break-in."""

    number: str
    phase: str
    text: str
    caution: str = ""
    may_apply: bool = False
    source: str = ""
