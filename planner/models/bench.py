"""What the parts on the bench come to: who goes where, what to take off, what goes back."""

from collections.abc import Mapping
from dataclasses import field

from planner.records import record


@record(kw_only=True, slots=False)
class Placed:
    """Parts put to one place.

    Attributes
    ----------
    where
        The place in shop words.
    parts
        Names of the parts as they are labelled on the bench.
    result
        What it comes to, as printed, and the single figures it is made of.
    value
        The same in the unit of the list.
    """

    where: str
    parts: tuple[str, ...]
    result: str
    value: float
    details: Mapping[str, str] = field(default_factory=dict)


@record(kw_only=True, slots=False)
class Placing:
    """Parts put to all their places.

    Attributes
    ----------
    says
        How the choice was made.
    spread
        Largest less smallest, as printed; and what it would be taking the parts in order.
    left_over
        Parts that stay in the box.
    warning
        What is not reached, in words.
    """

    id: str
    title: str
    unit: str
    says: str
    places: tuple[Placed, ...] = ()
    spread: str = ""
    in_order: str = ""
    left_over: tuple[str, ...] = ()
    warning: str = ""


@record(kw_only=True, slots=False)
class GoesBack:
    """A part to return to its seller, and why."""

    part: str
    because: str


@record(kw_only=True, slots=False)
class Tighten:
    """What one better step is worth: the chance when its scatter is halved."""

    what: str
    scatter: str
    chance: float


@record(kw_only=True, slots=False)
class Chance:
    """The predicted chance that a clearance conforms, before anything is cut.

    Attributes
    ----------
    inside
        Chance that one clearance truly lies inside its limits.
    proved
        Chance that its reading proves it, inside the guarded limits.
    all_proved
        The same for every item at once.
    tighten
        What to make better, the most useful first.
    """

    fit: str
    title: str
    items: int
    aim: str
    limits: str
    inside: float
    proved: float
    all_proved: float
    enough: bool
    tighten: tuple[Tighten, ...] = ()


@record(kw_only=True, slots=False)
class Bench:
    """Everything that can be said of the parts in hand before metal is cut."""

    placings: tuple[Placing, ...] = ()
    goes_back: tuple[GoesBack, ...] = ()
    chances: tuple[Chance, ...] = ()
    trials: int = 0
    seed: int = 0
