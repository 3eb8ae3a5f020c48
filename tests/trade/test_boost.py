"""More boost never makes the engine less careful, with the ratio given."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.rulebook.values import Band
from tests.trade.conftest import Answers, Job

BOOSTS = (0.0, 0.3, 0.5, 0.7, 0.8, 1.0, 1.1, 1.2, 1.4, 1.5)  # above, Larch's wall is refused
GIVEN = "given={compression_ratio: {low: 8.4, high: 8.6, from: owner}}"


def climb(answers: Answers, job: str, *goals: str) -> list[Job]:
    """Return the job at every boost, rising."""
    return [answers(job, *goals, GIVEN, f"goals.boost={boost} bar gauge") for boost in BOOSTS]


@pytest.mark.parametrize("job", ["larch", "sorrel"])
@pytest.mark.parametrize("name", ["top_ring_gap", "second_ring_gap"])
def test_more_boost_never_narrows_a_ring_gap(answers: Answers, job: str, name: str) -> None:
    for less, more in pairwise(climb(answers, job)):
        pairs = zip(less.band(name), more.band(name), strict=True)
        assert all(above >= below - 1e-9 for below, above in pairs)


@pytest.mark.parametrize("job", ["larch", "sorrel"])
@pytest.mark.parametrize("name", ["pin_wall", "peak_cylinder_pressure", "wall_floor"])
def test_more_boost_never_thins_a_pin_or_a_wall(answers: Answers, job: str, name: str) -> None:
    for less, more in pairwise(climb(answers, job)):
        assert more.number(name) >= less.number(name) - 1e-12


@pytest.mark.slow
@settings(max_examples=20)
@given(
    use=st.sampled_from(["street", "street_track", "track", "endurance"]),
    noise=st.sampled_from(["low", "some", "any"]),
    fuel=st.sampled_from(["regular", "premium", "e85"]),
    cooling=st.sampled_from(["none", "air", "water"]),
    step=st.integers(0, len(BOOSTS) - 2),
)
def test_more_boost_never_drops_a_caution(
    answers: Answers, use: str, noise: str, fuel: str, cooling: str, step: int
) -> None:
    goals = (f"goals.use={use}", f"goals.noise={noise}", f"goals.fuel={fuel}",
             f"goals.charge_cooling={cooling}", GIVEN)  # fmt: skip
    less, more = (
        answers("larch", *goals, f"goals.boost={boost} bar gauge")
        for boost in BOOSTS[step : step + 2]
    )
    severities = [sorted(each for _, each in job.cautions()) for job in (less, more)]
    for word in ("danger", "warning", "caution"):
        assert severities[1].count(word) >= severities[0].count(word)


def test_the_practice_ratio_never_rises_with_boost(answers: Answers) -> None:
    for less, more in pairwise(
        answers("larch", f"goals.boost={boost} bar gauge") for boost in BOOSTS
    ):
        below, above = less.value("ratio_practice"), more.value("ratio_practice")
        assert isinstance(below, Band)
        assert isinstance(above, Band)
        assert all(b <= a for a, b in zip(below.parts(), above.parts(), strict=True))
