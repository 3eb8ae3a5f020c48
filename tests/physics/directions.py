"""Hold every declared direction of a formula against many random pairs of values."""

from hypothesis import given, reject, settings
from hypothesis import strategies as st

from planner.errors import OutsideValidity
from planner.physics.registry import REGISTRY


def assert_directions(name, examples=60, slack=1e-9, **ranges):
    """Move each argument of each declared direction alone; the result must not turn back.

    A range is a pair (low, high); a single number or a list is held still. Values that the
    formula refuses are drawn again, and hypothesis complains when that happens too often.
    A formula that is stepped through time needs more slack, a share of the result.
    """
    signature = REGISTRY[name]
    moving = {key for key, pair in ranges.items() if isinstance(pair, tuple)}
    declared = [
        (result, argument, sign)
        for sign, table in ((1.0, signature.rises), (-1.0, signature.falls))
        for result, arguments in table.items()
        for argument in arguments
    ]
    assert declared, f"{name} declares no direction"
    still = sorted({argument for _, argument, _ in declared} - moving)
    assert not still, f"{name}: no range for {still}"
    values = st.fixed_dictionaries(
        {
            key: st.floats(*pair) if isinstance(pair, tuple) else st.just(pair)
            for key, pair in ranges.items()
        }
    )

    @settings(max_examples=examples, deadline=None)
    @given(values, values)
    def turns_back_nowhere(first, second):
        for result, argument, sign in declared:
            ends = sorted((first[argument], second[argument]))
            low, high = (_run(signature, {**first, argument: end})[result] for end in ends)
            least = -slack * max(abs(low), abs(high))
            assert sign * (high - low) >= least, (result, argument, ends, low, high)

    turns_back_nowhere()


def _run(signature, values):
    try:
        answer = signature.function(**values)
    except OutsideValidity:
        reject()
    return answer if isinstance(answer, dict) else {signature.name: answer}
