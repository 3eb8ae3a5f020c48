"""Goals that do not go together come out as named conflicts with ways out."""

import pytest

from tests.trade.conftest import Answers

ELEVEN = "given={compression_ratio: {low: 10.8, high: 11.2, from: owner}}"
NINE = "given={compression_ratio: {low: 9.0, high: 9.2, from: owner}}"
TEN = "given={compression_ratio: {low: 9.8, high: 10.2, from: owner}}"


@pytest.mark.parametrize(
    ("name", "settings"),
    [
        ("conflict_high_ratio_on_petrol", (ELEVEN, "goals.boost=20 psi gauge")),
        ("conflict_ratio_on_petrol", (NINE, "goals.boost=0.6 bar gauge")),
        ("conflict_ethanol_sometimes", (TEN, "goals.ethanol=sometimes")),
        ("conflict_fuel_and_ethanol", ("goals.fuel=e85",)),
        ("conflict_quiet_and_boost", ("goals.noise=low", "goals.boost=2 bar gauge")),
        ("conflict_old_bolts", ("goals.rev_ceiling=9000 rpm", "goals.keep.rod_bolts=yes")),
        ("conflict_quick_revs", ("goals.rev_ceiling=9000 rpm",)),
        ("conflict_power", ("goals.power=300 kW",)),
        ("conflict_track_sump", ("goals.use=track", "goals.corner_load=1.3 g_load")),
        ("conflict_keep_after_failure", ("goals.keep.rods=yes",)),
    ],
)
def test_each_conflict_is_named_with_two_or_three_ways_out(
    answers: Answers, name: str, settings: tuple[str, ...]
) -> None:
    found = answers("larch", *settings).conflicts()
    assert name in found
    assert len(found[name]) in (2, 3)


def test_goals_that_agree_raise_no_conflict(answers: Answers) -> None:
    assert answers("larch", "goals.power=190 kW").conflicts() == {}
