"""A ratio from the model with its band, its range and its reasons, for one engine and fuel."""

from dataclasses import dataclass
from math import inf

from planner.physics.cycle.crossings import Latest
from planner.physics.cycle.limits import BAR
from planner.physics.cycle.ratio_limit import ratio_limits
from planner.physics.cycle.setting import Point

NOT_KNOWN = (
    "The model knows nothing of preignition, hot spots, squish, deposits or the spread from "
    "cycle to cycle. Its ratio is a start for a careful first calibration with knock "
    "detection, not a safe spark."
)


@dataclass(frozen=True)
class Trust:
    """How far the model is trusted, and how widely; judged from its sensitivities."""

    petrol_boost: float  # highest boost it is trusted at on petrol, gauge [Pa]
    alcohol_boost: float  # the same with much ethanol [Pa]
    near_low: float  # from here the band on petrol is the narrow one, gauge [Pa]
    near_high: float  # to here [Pa]
    middle_low: float  # from here the band is the middle one [Pa]
    middle_high: float  # to here [Pa]
    near_band: float  # half width [-]
    middle_band: float  # [-]
    far_band: float  # [-]
    much_ethanol: float  # share by volume from which a fuel counts as ethanol [-]


@dataclass(frozen=True)
class OutOfRange:
    """One reason why the figure is outside the model's range."""

    what: str
    why: str
    way_back: str


@dataclass(frozen=True)
class Recommendation:
    """What the model says."""

    ratio: float | None  # rounded to 0.1; None when there is none between 5.5 and 17.5
    exact: float  # -inf or inf when there is none
    band: float  # half width
    governs: str  # "off boost" or "full boost"
    phasing_limit: float  # at the governing point [rad]
    out_of_range: tuple[OutOfRange, ...]
    says: str

    @property
    def in_range(self) -> bool:
        """Whether the model may move a recommendation here."""
        return self.ratio is not None and not self.out_of_range


def recommend(
    off: Point, full: Point, latest: Latest, trust: Trust, *, direct: bool, positive: bool
) -> Recommendation:
    """Recommend a ratio from the two operating points that limit it.

    Parameters
    ----------
    off, full
        Full load before boost comes, and at full boost.
    latest
        Latest phasing allowed: unboosted, slope and ever. [rad], [rad/Pa], [rad]
    trust
        The model's range and its bands.
    direct
        Whether fuel goes straight into the cylinder.
    positive
        Whether a positive-displacement blower makes the boost.

    Returns
    -------
    Recommendation
        Ratio, band, what governs, and why it may be out of range.
    """
    phasings = tuple(min(latest[2], latest[0] + latest[1] * each.boost) for each in (off, full))
    found = ratio_limits(off, full, latest)
    governing = 0 if found[0] <= found[1] else 1
    exact = found[governing]
    reasons = (
        *_refusals(full, trust),
        *_ways_in(direct=direct, positive=positive),
        *_beyond(exact),
    )
    ratio = None if exact in (inf, -inf) else round(exact, 1)
    band = _band(full, trust)
    return Recommendation(
        ratio=ratio,
        exact=exact,
        band=band,
        governs=("off boost", "full boost")[governing],
        phasing_limit=phasings[governing],
        out_of_range=reasons,
        says=_words(ratio, band, reasons),
    )


def _band(full: Point, trust: Trust) -> float:
    """Half width of what the model may be wrong by, in the trusted range or out of it."""
    alcohol = full.ethanol_share >= trust.much_ethanol or full.methanol_share > 0.0
    if trust.near_low <= full.boost <= trust.near_high and not alcohol:
        return trust.near_band
    if trust.middle_low <= full.boost <= trust.middle_high:
        return trust.middle_band
    return trust.far_band


def _refusals(full: Point, trust: Trust) -> tuple[OutOfRange, ...]:
    """Reasons that lie in fuel and boost."""
    reasons = []
    if full.methanol_share > 0.0:
        reasons.append(
            OutOfRange(
                "methanol", "no engine of known ratio holds the model there", "petrol or ethanol"
            )
        )
    alcohol = full.ethanol_share >= trust.much_ethanol
    most = trust.alcohol_boost if alcohol else trust.petrol_boost
    if full.boost > most:
        fuel = "ethanol" if alcohol else "petrol"
        reasons.append(
            OutOfRange(
                f"{full.boost * BAR[1]:.3g} bar of boost on {fuel}",
                "practice there leans on richer mixture, water and late timing",
                f"boost of {most * BAR[1]:.3g} bar or less",
            )
        )
    return tuple(reasons)


def _ways_in(*, direct: bool, positive: bool) -> tuple[OutOfRange, ...]:
    """Reasons that lie in how fuel and air come in."""
    reasons = []
    if direct:
        reasons.append(
            OutOfRange(
                "direct injection",
                "how much fuel turns to vapour in time decides the answer, and is not known",
                "port injection",
            )
        )
    if positive:
        reasons.append(
            OutOfRange(
                "a positive-displacement blower",
                "no engine of known ratio holds the model there",
                "a turbocharger",
            )
        )
    return tuple(reasons)


def _beyond(exact: float) -> tuple[OutOfRange, ...]:
    """Reason when there is no ratio to give."""
    if exact == -inf:
        return (
            OutOfRange(
                "a ratio below 5.5",
                "it knocks at every ratio that can be built",
                "less boost, a fuel of higher octane, or a cooler charge",
            ),
        )
    if exact == inf:
        return (
            OutOfRange(
                "a ratio above 17.5",
                "knock does not limit it",
                "valves, quench and starting decide instead",
            ),
        )
    return ()


def _words(ratio: float | None, band: float, reasons: tuple[OutOfRange, ...]) -> str:
    """Say it in one or two sentences."""
    figure = "no ratio" if ratio is None else f"{ratio:.1f}, give or take {band:.1f}"
    if not reasons:
        return f"The model says {figure}. {NOT_KNOWN}"
    listed = "; ".join(
        f"{each.what} ({each.why}; back in with {each.way_back})" for each in reasons
    )
    return f"Outside its range the model says {figure}: {listed}. {NOT_KNOWN}"
