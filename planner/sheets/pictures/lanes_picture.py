"""The operations picture: lanes side by side, steps down, the longest chain and the holds."""

from collections.abc import Collection, Iterable, Mapping, Sequence

from planner.models.steps import Step
from planner.route.edges import Edges
from planner.route.lanes import Layout, Spot, Wire, laid_out, pages_of
from planner.sheets.letters import lines
from planner.sheets.pictures.ink import Theme, ink_on
from planner.sheets.pictures.svg import Drawing, Point

_TOP, _GAP, _TRACK, _RAIL = 22.0, 8.0, 2.6, 3.2
_BOX, _WIDE = 27.0, 95.0


class LanesPicture:
    """Draws one page of operations.

    Parameters
    ----------
    steps
        All operations of the plan by id.
    layout
        Where those of this page stand.
    chain
        Operations on the longest chain.
    width
        Width to fill. [pt]
    lanes
        All lanes of the plan: a lane has one colour on every page.
    """

    def __init__(
        self,
        steps: Mapping[str, Step],
        layout: Layout,
        chain: Collection[str],
        width: float,
        lanes: Sequence[str],
    ) -> None:
        self.steps, self.layout, self.chain, self.width = steps, layout, set(chain), width
        self.colour = {lane: place for place, lane in enumerate(lanes)}
        self.rails = [
            _most(each.track for each in layout.wires if each.rail and self._lane(each) == lane)
            for lane in range(len(layout.lanes))
        ]
        self.gaps = [
            _most(each.track for each in layout.wires if row in (each.leaves, each.enters))
            for row in range(layout.rows)
        ]
        gutters = sum(self._gutter(lane) for lane in range(len(layout.lanes)))
        self.box = min(150.0, (width - gutters - 2) / max(1, len(layout.lanes)))
        self.tops = self._tops()

    @property
    def height(self) -> float:
        """Height of the picture, in points."""
        return self.tops[-1] + 2

    def draw(self, theme: Theme, name: str, alt: str) -> Drawing:
        """Draw it in a theme."""
        used = self._left(len(self.layout.lanes) - 1) + self.box + 2
        drawing = Drawing(name, theme, (max(used, self.width), self.height), alt)
        for lane, title in enumerate(self.layout.lanes):
            left = self._left(lane)
            drawing.text((left, 12), title.capitalize(), 9, bold=1, room=self.box)
            drawing.line((left, 16), (left + self.box, 16), stroke_width=1)
        on_top = sorted(self.layout.wires, key=self._is_chain)
        for wire in on_top:
            self._wire(drawing, wire)
        for each, spot in self.layout.spots.items():
            self._step(drawing, self.steps[each], spot)
        return drawing

    def _lane(self, wire: Wire) -> int:
        return self.layout.spots[wire.later].lane

    def _gutter(self, lane: int) -> float:
        return 10.0 + _RAIL * self.rails[lane]

    def _left(self, lane: int) -> float:
        return sum(self._gutter(each) for each in range(lane + 1)) + self.box * lane

    def _tops(self) -> list[float]:
        tops, at = [], _TOP
        for row in range(self.layout.rows):
            tops.append(at)
            at += _BOX + _GAP + _TRACK * self.gaps[row]
        return [*tops, at]

    def _is_chain(self, wire: Wire) -> bool:
        return wire.earlier in self.chain and wire.later in self.chain

    def _wire(self, drawing: Drawing, wire: Wire) -> None:
        start, end = self.layout.spots[wire.earlier], self.layout.spots[wire.later]
        points = self._points(wire, start, end)
        chain = self._is_chain(wire)
        ink = drawing.theme.ink if chain else drawing.theme.faint
        drawing.line(*points, stroke=ink, stroke_width=2.2 if chain else 0.8)
        x, y = points[-1]
        drawing.shape([(x - 2.4, y - 4), (x + 2.4, y - 4), (x, y)], fill=ink)

    def _points(self, wire: Wire, start: Spot, end: Spot) -> list[Point]:
        begin = (self._middle(start.lane), self.tops[start.row] + _BOX)
        finish = (self._middle(end.lane), self.tops[end.row])
        if wire.leaves is None:
            return [begin, finish]
        turn = self._track_y(wire.leaves, wire.track)
        if wire.enters is None:
            return [begin, (begin[0], turn), (finish[0], turn), finish]
        rail = self._left(end.lane) - 4 - _RAIL * wire.track
        back = self._track_y(wire.enters, wire.track)
        return [
            begin,
            (begin[0], turn),
            (rail, turn),
            (rail, back),
            (finish[0], back),
            finish,
        ]

    def _track_y(self, row: int, track: int) -> float:
        return self.tops[row] + _BOX + 3 + _TRACK * track

    def _middle(self, lane: int) -> float:
        return self._left(lane) + self.box / 2

    def _step(self, drawing: Drawing, step: Step, spot: Spot) -> None:
        theme = drawing.theme
        at = (self._left(spot.lane), self.tops[spot.row])
        fill = theme.lanes[self.colour[step.lane] % len(theme.lanes)]
        drawing.box(
            at,
            (self.box, _BOX),
            fill=fill,
            stroke=theme.ink,
            stroke_width=1.8 if step.id in self.chain else 0.5,
            **({"stroke_dasharray": "3 2"} if step.perhaps else {}),
        )
        ink = ink_on(fill)
        drawing.text((at[0] + 3, at[1] + 11), str(step.step), 9, bold=1, fill=ink)
        room = self.box - 21 - (9 if step.hold else 0)
        size = 8.0 if self.box > _WIDE else 7.0
        told = lines(short_name(step), room, size, most=2)
        for row, line in enumerate(told):
            drawing.text((at[0] + 19, at[1] + 10 + (size + 0.4) * row), line, size, fill=ink)
        before = [str(self.steps[each].step) for each in self.layout.from_before.get(step.id, ())]
        self._foot(drawing, step, at, before, ink)

    def _foot(
        self, drawing: Drawing, step: Step, at: Point, before: Sequence[str], ink: str
    ) -> None:
        """Set the hold bar at the right edge, and what an earlier page must finish."""
        if step.hold:
            x = at[0] + self.box - 8
            drawing.box((x, at[1]), (8, _BOX), fill=drawing.theme.ink)
            for row, letter in enumerate("HOLD"):
                place = (x + 4, at[1] + 6.9 + 6 * row)
                drawing.text(place, letter, 6, bold=1, anchor="middle", fill=drawing.theme.ground)
        if before:
            room = self.box - 6 - (9 if step.hold else 0)
            drawing.text(
                (at[0] + 3, at[1] + 24.5), f"after {', '.join(before)}", 6.3, fill=ink, room=room
            )


def _most(tracks: Iterable[int]) -> int:
    return max(tracks, default=-1) + 1


def short_name(step: Step) -> str:
    """Say a step in as few words as it has: its name, with a question mark when in doubt."""
    name = step.id.replace("_", " ")
    return f"{name}?" if step.perhaps else name


def operations_pictures(
    steps: Sequence[Step], lanes: Sequence[str], chain: Collection[str], width: float
) -> list[tuple[LanesPicture, list[str]]]:
    """Lay all operations out, on one page or on as many as they need.

    Parameters
    ----------
    steps
        In working order.
    lanes
        From left to right.
    chain
        The longest chain.
    width
        Width to fill. [pt]

    Returns
    -------
    list of LanesPicture and of the ids it shows
        In working order.
    """
    by_id = {each.id: each for each in steps}
    edges: Edges = {each.id: each.after for each in steps}
    lane_of = {each.id: each.lane for each in steps}
    return [
        (LanesPicture(by_id, laid_out(names, edges, lane_of, lanes), chain, width, lanes), names)
        for names in pages_of([each.id for each in steps], edges, lane_of)
    ]
