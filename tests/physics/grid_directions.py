"""Hold the declared directions of a formula on grids, one reading moved at a time."""

from hypothesis import given, reject, settings
from hypothesis import strategies as st

from planner.errors import OutsideValidity
from planner.physics.registry import REGISTRY


def assert_grid_directions(name, grid, low, high, rows=3, columns=2, **others):
    """Move each reading up alone; the result must follow as declared for the whole grid.

    The other arguments are ranges (low, high) and move too, each as declared.
    """
    signature = REGISTRY[name]
    sign = dict.fromkeys(signature.rises[name], 1.0) | dict.fromkeys(signature.falls[name], -1.0)
    assert grid in sign, f"{name} declares no direction for {grid}"
    reading = st.floats(low, high)
    readings = st.lists(reading, min_size=rows * columns, max_size=rows * columns)
    ranges = {key: st.floats(*pair) for key, pair in others.items()}
    arguments = st.fixed_dictionaries({grid: readings, **ranges})

    @settings(max_examples=80, deadline=None)
    @given(arguments, arguments)
    def turns_back_nowhere(first, second):
        for argument, way in sign.items():
            changes = [{**first, argument: second[argument]}]
            if argument == grid:
                changes = [
                    {**first, grid: [*first[grid][:k], second[grid][k], *first[grid][k + 1 :]]}
                    for k in range(rows * columns)
                ]
            for change in changes:
                step = _size(change[argument]) - _size(first[argument])
                moved = _run(signature, grid, change, columns)
                rise = moved - _run(signature, grid, first, columns)
                assert way * step * rise >= -1e-12 * abs(step), (argument, first, change)

    turns_back_nowhere()


def _size(value):
    return sum(value) if isinstance(value, list) else value


def _run(signature, grid, values, columns):
    flat = values[grid]
    rows = tuple(tuple(flat[k : k + columns]) for k in range(0, len(flat), columns))
    try:
        return signature.function(**{**values, grid: rows})
    except OutsideValidity:
        reject()
