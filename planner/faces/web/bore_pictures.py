"""The bore wear map, drawn as the readings go in."""

from dataclasses import dataclass

from planner.planning.job_reader import JobReading
from planner.sheets.pictures.bore_map import BoreReadings, bore_map, exaggeration
from planner.sheets.pictures.ink import DARK, LIGHT
from planner.teardown.asked import AXES, ROWS, Asked


@dataclass(frozen=True, slots=True)
class Drawn:
    """One bore in both themes."""

    cylinder: str
    light: str
    dark: str


def bores_drawn(reading: JobReading, asked: Asked) -> tuple[Drawn, ...]:
    """Draw every bore that is measured whole."""
    fact = reading.facts.inputs.get("bores")
    field = asked.rulebook.inputs.get("bores")
    if fact is None or field is None:
        return ()
    bores = [
        BoreReadings(
            cylinder=key[0],
            rows=entry.value,
            depths=_names(asked.listed(field, ROWS), len(entry.value)),
            axes=_names(asked.listed(field, AXES), len(entry.value[0])),
            unworn=min(min(row) for row in entry.value),
        )
        for key, entry in fact.entries.items()
        if isinstance(entry.value, tuple) and entry.value
    ]
    times, system = exaggeration(bores), reading.job.sheet_units
    return tuple(
        Drawn(
            each.cylinder,
            *(bore_map(each, theme, times=times, system=system).svg() for theme in (LIGHT, DARK)),
        )
        for each in bores
    )


def _names(listed: tuple[str, ...], count: int) -> tuple[str, ...]:
    return listed if len(listed) == count else tuple(str(at) for at in range(1, count + 1))
