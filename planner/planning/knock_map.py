"""Work the map of ratio by boost out for a job, on its hottest day and its fuel as it is."""

from collections.abc import Callable, Mapping
from math import ceil, degrees, floor, inf

from planner.errors import BorewrightError, Place
from planner.models.knock_map import KnockMap
from planner.planning.job_reader import JobReading
from planner.rulebook.advising import printed_text
from planner.rulebook.evaluate import decide_only
from planner.rulebook.refs import Ref
from planner.rulebook.syntax import Rulebook
from planner.rulebook.values import Entry
from planner.rulebook.world import World

Progress = Callable[[int, int], None]
BAR, ZERO = 1e5, 273.15
STEP_RATIO, STEP_BOOST, FINE = 0.5, 0.2, 200
LOWEST, HIGHEST, MOST_BOOST = 6.0, 14.0, 3.0

# Argument of the model by the name of the rulebook that holds it.
POINT = {
    "bore": "engine.bore",
    "stroke": "engine.stroke",
    "rod_length": "cycle_rod_length",
    "inlet_closing": "inlet_closing",
    "exhaust_opening": "cycle_exhaust_opening",
    "boost": "boost",
    "ambient_pressure": "air_pressure",
    "charge_temperature": "hot_charge",
    "speed": "full_boost_speed",
    "mixture": "cycle_full_boost_mixture",
    "ethanol_share": "knock_ethanol_share",
    "methanol_share": "fuel_data.methanol_share",
    "octane": "plain_octane",
    "evaporated_share": "evaporated_share",
    "port_heating": "cycle_port_heating",
    "port_temperature": "cycle_port_temperature",
    "residual_temperature": "cycle_residual_temperature",
    "exhaust_restriction": "cycle_exhaust_restriction",
    "turbine_back_pressure": "turbine_back_pressure",
    "burn_angle": "cycle_burn_angle",
    "burn_speed_growth": "cycle_burn_speed_growth",
    "late_burn_growth": "cycle_late_burn_growth",
    "knock_end": "cycle_knock_end",
    "delay_factor": "cycle_delay_factor",
    "wall_temperature": "cycle_wall_temperature",
    "heat_loss_factor": "cycle_heat_loss_factor",
    "petrol_heating_value": "cycle_petrol_heating_value",
    "petrol_density": "cycle_petrol_density",
}
COOLER = {
    "ambient_temperature": "ambient_high",
    "ambient_pressure": "air_pressure",
    "compressor_efficiency": "cycle_compressor_efficiency",
    "cooler_effectiveness": "cooler_effectiveness",
}
LIMIT = ("cycle_latest_unboosted", "latest_slope", "latest_ever")
OTHERS = ("compression_ratio.target", "trusted_boost", "cycle_best_phasing")
TOLD = (
    "Half burned after top centre, hottest day, charge {hot_charge}, fuel of {plain_octane} "
    "octane without margin, {full_boost_speed}, air {air_pressure}.",
    "The number in a tile is the latest phasing wanted at that boost less the phasing that "
    "knock allows, in degrees: below zero it knocks sooner than wanted.",
    "No preignition, hot spots, squish, deposits or spread from cycle to cycle: a place to "
    "start a conservative first calibration with knock detection.",
)


class _Answers:
    """Numbers of a job by the names of the rulebook."""

    def __init__(self, reading: JobReading, rulebook: Rulebook) -> None:
        self.world = World(rulebook, reading.facts)
        scope = self.world.scope
        names = (*POINT.values(), *COOLER.values(), *LIMIT, *OTHERS, "model_place")
        place = Place("", 0, 0)
        self.refs: Mapping[str, Ref] = {name: scope.resolve(name, place) for name in names}
        wanted = [ref.decision for ref in self.refs.values() if ref.decision is not None]
        decide_only(self.world, wanted)

    def entry(self, name: str) -> Entry:
        return self.world.entry(self.refs[name], {})

    def number(self, name: str) -> float:
        """Return a settled number, SI, or refuse with what is lacking."""
        entry = self.entry(name)
        if isinstance(entry.value, float):
            return entry.value
        lacking = entry.refused or ", ".join(entry.waiting_for) or "it is not settled"
        raise BorewrightError(
            problem=f"The map needs {name.replace('_', ' ')}, which is not known ({lacking}).",
            reason="A map of a fuel or an engine that is guessed would look as sure as any.",
            remedy="Give it in the job file, or with --set; borewright check names its key.",
        )


def knock_map(
    reading: JobReading,
    rulebook: Rulebook,
    *,
    fine: bool = False,
    progress: Progress | None = None,
) -> KnockMap:
    """Work out how far each pair of ratio and boost stands from knock on this job.

    Parameters
    ----------
    reading
        The job as read.
    rulebook
        The rules.
    fine
        200 by 200 instead of a map whose tiles can be read one by one.
    progress
        Called with tiles done and tiles in all.

    Returns
    -------
    KnockMap
        The map.

    Raises
    ------
    BorewrightError
        When something that the model needs is not known, or outside its limits.
    """
    answers = _Answers(reading, rulebook)
    best = answers.number("cycle_best_phasing")
    from planner.physics.cycle.limits import operating_point
    from planner.physics.cycle.ratio_map import ratio_map

    point = operating_point({name: answers.number(told) for name, told in POINT.items()})
    ratio, boost = answers.number("compression_ratio.target"), point.boost / BAR
    ratios, boosts = _sides(ratio, boost, fine=fine)
    charges = _charges(answers, boosts)
    found = ratio_map(
        point,
        ratios,
        [each * BAR for each in boosts],
        latest=(answers.number(LIMIT[0]), answers.number(LIMIT[1]), answers.number(LIMIT[2])),
        best=best,
        charge=charges,
        progress=progress,
    )
    return KnockMap(
        job=reading.job.name,
        fuel=printed_text(answers.world, "{fuel}, designed for {design_fuel}"),
        ratios=ratios,
        boosts=boosts,
        charges=tuple(round(each - ZERO, 2) for each in charges),
        latest=tuple(round(degrees(each), 3) for each in found.latest),
        phasing=tuple(tuple(_told(each) for each in row) for row in found.phasing.tolist()),
        best=round(degrees(best), 3),
        chosen_ratio=round(ratio, 6),
        chosen_boost=round(boost, 6),
        trusted_boost=round(answers.number("trusted_boost") / BAR, 6),
        in_range=answers.entry("model_place").value == "inside_its_range",
        told=tuple(printed_text(answers.world, each) for each in TOLD),
    )


def _told(phasing: float) -> float | None:
    return None if phasing == inf else round(degrees(phasing), 3)


def _sides(
    ratio: float, boost: float, *, fine: bool
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Choose ratios and boosts round the chosen point, in steps that read well."""
    low = max(LOWEST, floor(2.0 * (ratio - 2.0)) / 2.0)
    high = min(HIGHEST, low + 4.5)
    most = min(MOST_BOOST, max(1.6, STEP_BOOST * ceil((boost + 0.5) / STEP_BOOST - 1e-9)))
    rows = FINE if fine else round((high - low) / STEP_RATIO) + 1
    columns = FINE if fine else round(most / STEP_BOOST) + 1
    return (
        tuple(round(low + (high - low) * at / (rows - 1), 6) for at in range(rows)),
        tuple(round(most * at / (columns - 1), 6) for at in range(columns)),
    )


def _charges(answers: _Answers, boosts: tuple[float, ...]) -> list[float]:
    """Charge on the hottest day at each boost: as measured, else behind the cooler [K]."""
    measured = answers.world.facts.inputs.get("charge_temperature")
    if measured is not None:
        return [answers.number("hot_charge")] * len(boosts)
    from planner.physics.cycle.cooler import cooled_charge_temperature

    air = {name: answers.number(told) for name, told in COOLER.items()}
    return [cooled_charge_temperature(boost=each * BAR, **air) for each in boosts]
