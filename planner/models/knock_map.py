"""Map of compression ratio by boost for one job's fuel: how far each pair stands from knock."""

from planner.records import record

SCHEMA = "borewright.knock_map/1"


@record(kw_only=True, slots=False)
class KnockMap:
    """Ratio by boost; rows follow the ratios, columns the boosts.

    Attributes
    ----------
    ratios, boosts
        Rising values along the two sides; boost above the air around, in bar.
    charges
        Charge temperature at each boost, in degrees Celsius.
    latest
        Latest phasing wanted at each boost, in degrees after top centre.
    phasing
        Where knock lets half the charge be burned, in degrees after top centre; none where even
        50 degrees knocks.
    best
        Phasing of best torque, in degrees: where the burn stands when knock does not hold it.
    chosen_ratio, chosen_boost
        Where the job stands.
    trusted_boost
        Boost in bar up to which the model counts on this fuel.
    in_range
        Whether the job itself is inside the model's range.
    told
        What the map was worked out for, one sentence each.
    """

    schema: str = SCHEMA
    job: str
    fuel: str
    ratios: tuple[float, ...]
    boosts: tuple[float, ...]
    charges: tuple[float, ...]
    latest: tuple[float, ...]
    phasing: tuple[tuple[float | None, ...], ...]
    best: float
    chosen_ratio: float
    chosen_boost: float
    trusted_boost: float
    in_range: bool
    told: tuple[str, ...] = ()

    @property
    def margin(self) -> tuple[tuple[float | None, ...], ...]:
        """Latest phasing wanted less the phasing knock allows, in degrees; below zero knocks."""
        return tuple(
            tuple(
                None if each is None else latest - each
                for each, latest in zip(row, self.latest, strict=True)
            )
            for row in self.phasing
        )

    @property
    def free(self) -> tuple[tuple[bool, ...], ...]:
        """Whether knock leaves a tile alone at the timing of best torque."""
        return tuple(
            tuple(each is not None and each <= self.best + 0.01 for each in row)
            for row in self.phasing
        )

    def limit(self, column: int) -> float | None:
        """Find the ratio at which the margin is used up at one boost, straight between tiles."""
        margins = [row[column] for row in self.margin]
        for at in range(len(margins) - 1):
            below, above = margins[at], margins[at + 1]
            if below is None or below < 0.0:
                return None
            if above is None:
                return self.ratios[at]
            if above < 0.0:
                step = self.ratios[at + 1] - self.ratios[at]
                return self.ratios[at] + step * below / (below - above)
        return None
