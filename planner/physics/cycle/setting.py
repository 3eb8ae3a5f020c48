"""What one operating point is made of, and many of them as arrays."""

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from planner.physics.cycle.burned import CELLS, burned_table
from planner.physics.cycle.fuels import Blend, blend
from planner.physics.cycle.gas import Array, Gas, fresh, fuel_share, residual


@dataclass(frozen=True)
class Point:
    """One operating point of one engine on one fuel; the ratio and the phasing come apart."""

    bore: float  # [m]
    stroke: float  # [m]
    rod_length: float  # [m]
    inlet_closing: float  # after bottom centre [rad]
    exhaust_opening: float  # before bottom centre [rad]
    boost: float  # gauge [Pa]
    ambient_pressure: float  # absolute [Pa]
    charge_temperature: float  # in the manifold [K]
    speed: float  # [rad/s]
    mixture: float  # equivalence ratio [-]
    ethanol_share: float  # by volume [-]
    methanol_share: float  # by volume [-]
    octane: float  # [-]
    evaporated_share: float  # of the fuel, before the inlet closes [-]
    port_heating: float  # share of the way to the port temperature [-]
    port_temperature: float  # [K]
    residual_temperature: float  # [K]
    exhaust_restriction: float  # exhaust over ambient pressure without boost [-]
    turbine_back_pressure: float  # exhaust pressure gained for each pascal of boost [-]
    burn_angle: float  # from 10 to 90 % burned, best timing, 2500 rpm [rad]
    burn_speed_growth: float  # exponent of speed [-]
    late_burn_growth: float  # share by which 10 degrees of delay lengthen the burn [-]
    knock_end: float  # burned share after which knock does no harm [-]
    delay_factor: float  # on the ignition delay [-]
    wall_temperature: float  # [K]
    heat_loss_factor: float  # on the wall heat [-]
    petrol_heating_value: float  # [J/kg]
    petrol_density: float  # [kg/m**3]

    @property
    def fuel(self) -> Blend:
        """The fuel blend."""
        return blend(
            self.ethanol_share,
            self.methanol_share,
            self.petrol_heating_value,
            self.petrol_density,
        )


NUMBERS = tuple(each.name for each in fields(Point))


@dataclass(frozen=True, eq=False)
class Setting:
    """Operating points as arrays, one entry for each case of a batch."""

    value: dict[str, Array]  # by the names of Point
    fresh: tuple[Array, ...]  # r, c0..c4, datum of the fresh charge
    residual: tuple[Array, ...]
    fuel_share: Array  # of the fresh charge, by mass [-]
    vaporising: Array  # [J/kg of fuel]
    heating_value: Array  # [J/kg of fuel]
    table: tuple[Array, ...]  # bilinear coefficients of all burned gases met
    offset: NDArray[np.int64]  # where in them each case begins

    def part(self, chosen: NDArray[np.int64] | slice) -> "Setting":
        """Take some of the cases, in the order given."""
        return Setting(
            {name: each[chosen] for name, each in self.value.items()},
            tuple(each[chosen] for each in self.fresh),
            tuple(each[chosen] for each in self.residual),
            self.fuel_share[chosen],
            self.vaporising[chosen],
            self.heating_value[chosen],
            self.table,
            self.offset[chosen],
        )

    def with_values(self, **changed: Array) -> "Setting":
        """Put other values in the place of some; not for what makes the fuel or mixture."""
        return Setting(
            {**self.value, **changed},
            self.fresh,
            self.residual,
            self.fuel_share,
            self.vaporising,
            self.heating_value,
            self.table,
            self.offset,
        )

    @property
    def size(self) -> int:
        """How many cases there are."""
        return int(self.offset.size)


def setting(points: Sequence[Point]) -> Setting:
    """Lay operating points out as arrays."""
    tables = [burned_table(each.fuel, each.mixture) for each in points]
    keys = sorted({each.key for each in tables})
    cells = {each.key: each.cells for each in tables}
    joined = np.concatenate([cells[key] for key in keys], axis=1)
    return Setting(
        value={name: np.array([getattr(each, name) for each in points]) for name in NUMBERS},
        fresh=_columns([fresh(each.fuel, each.mixture) for each in points]),
        residual=_columns([residual(each.fuel, each.mixture) for each in points]),
        fuel_share=np.array([fuel_share(each.fuel, each.mixture) for each in points]),
        vaporising=np.array([each.fuel.vaporising for each in points]),
        heating_value=np.array([each.fuel.heating_value for each in points]),
        table=tuple(joined),
        offset=np.array([keys.index(each.key) * CELLS for each in tables], dtype=np.int64),
    )


def _columns(gases: Sequence[Gas]) -> tuple[Array, ...]:
    """Gas constant, heat coefficients and datum, each over the cases."""
    rows = [(each.constant, *each.heat, each.datum) for each in gases]
    return tuple(np.array(column) for column in zip(*rows, strict=True))
