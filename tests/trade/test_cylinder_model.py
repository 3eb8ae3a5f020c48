"""The cylinder model beside practice: how it moves the ratio, and that it never does harm."""

from collections.abc import Callable, Iterator
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.planning.assemble import plan_job
from planner.planning.job_reader import read_job
from planner.rulebook import evaluate
from planner.rulebook.evaluate import decide_only
from planner.rulebook.explain import why
from planner.rulebook.syntax import Rulebook
from planner.rulebook.values import Band, Entry, Status
from planner.rulebook.world import World
from tests.trade.conftest import ROOT

Ratio = Callable[..., Entry]
FUELS = ("regular", "mid", "premium", "race_unleaded")
BOOSTS = (0.0, 0.1, 0.3, 0.5, 0.55, 0.7, 0.9, 1.0, 1.1, 1.15, 1.2, 1.3, 1.6, 2.0, 2.5)


@pytest.fixture(scope="session")
def ratio(rulebook: Rulebook) -> Ratio:
    """Return a function that works out one decision of a job alone."""

    def entry(name: str, job: str, *changes: str) -> Entry:
        path = ROOT / "shared" / "jobs" / f"{job}.yaml"
        world = World(rulebook, read_job(path, rulebook, changes).facts)
        decision, result = rulebook.results[name]
        return decide_only(world, [decision])[decision].answers[result].entries[()]

    return entry


def aim(found: Entry) -> float:
    assert isinstance(found.value, Band), found.refused or found.waiting_for
    assert isinstance(found.value.target, float)
    return found.value.target


def at(boost: float) -> str:
    return f"goals.boost={boost} bar gauge"


@pytest.mark.parametrize("use", ["street", "track"])
@pytest.mark.parametrize("fuel", FUELS)
def test_the_recommended_ratio_never_rises_with_boost(ratio: Ratio, fuel: str, use: str) -> None:
    goals = (f"goals.fuel={fuel}", f"goals.use={use}")
    found = [aim(ratio("compression_ratio", "larch", *goals, at(boost))) for boost in BOOSTS]
    assert all(more <= less + 1e-9 for less, more in pairwise(found))


@pytest.mark.parametrize("tested", ["yes", "no"])
def test_on_ethanol_it_never_rises_with_boost(ratio: Ratio, tested: str) -> None:
    found = [
        aim(ratio("compression_ratio", "sorrel", f"goals.ethanol_tested={tested}", at(boost)))
        for boost in BOOSTS
    ]
    assert all(more <= less + 1e-9 for less, more in pairwise(found))


ENGINES = st.tuples(
    st.sampled_from(FUELS).map(lambda each: f"goals.fuel={each}"),
    st.integers(1500, 6000).map(lambda each: f"goals.full_boost_speed={each} rpm"),
    st.integers(30, 75).map(lambda each: f"goals.inlet_closing={each} deg"),
    st.integers(20, 90).map(lambda each: f"goals.charge_temperature={each} degC"),
)


@settings(max_examples=25, deadline=None)
@given(goals=ENGINES, low=st.floats(0.0, 3.0), more=st.floats(0.0, 1.0))
def test_whatever_the_engine_more_boost_never_raises_it(
    ratio: Ratio, goals: tuple[str, ...], low: float, more: float
) -> None:
    less, greater = (
        aim(ratio("compression_ratio", "larch", *goals, at(round(each, 3))))
        for each in (low, low + more)
    )
    assert greater <= less + 1e-9


@pytest.mark.parametrize("boost", [0.0, 0.4, 0.9, 1.1, 1.8])
def test_it_never_falls_with_octane(ratio: Ratio, boost: float) -> None:
    found = [
        aim(ratio("compression_ratio", "larch", f"goals.fuel={fuel}", at(boost))) for fuel in FUELS
    ]
    assert all(better >= worse - 1e-9 for worse, better in pairwise(found))


def test_model_and_move_are_continuous_where_boost_begins(ratio: Ratio) -> None:
    none, little = (
        aim(ratio("ratio_model", "larch", at(boost), "goals.altitude_low=0 m"))
        for boost in (0.0, 0.0005)
    )
    assert little == pytest.approx(none, abs=0.005)
    moves = [ratio("model_move", "larch", at(boost)).value for boost in (0.0, 0.0005, 0.49)]
    assert len(set(moves)) == 1


def test_the_aim_stays_in_the_practice_range_and_moves_by_three_tenths_at_most(
    ratio: Ratio,
) -> None:
    for fuel in FUELS:
        for boost in (0.2, 0.6, 1.1, 1.5):
            goals = (f"goals.fuel={fuel}", at(boost))
            practice = ratio("ratio_practice", "larch", *goals).value
            assert isinstance(practice, Band)
            low, target, high = practice.parts()
            found = aim(ratio("compression_ratio", "larch", *goals))
            assert low - 1e-9 <= found <= high + 1e-9
            assert abs(found - target) <= 0.3 + 1e-9


@pytest.mark.parametrize(
    "changes",
    [
        ("goals.injection=direct",),
        ("goals.charging=positive_displacement",),
        ("goals.fuel=methanol",),
    ],
)
def test_where_nothing_holds_the_model_it_moves_nothing(
    ratio: Ratio, changes: tuple[str, ...]
) -> None:
    assert ratio("model_move", "larch", *changes).status is Status.NOT_APPLICABLE
    practice = ratio("ratio_practice", "larch", *changes)
    assert ratio("compression_ratio", "larch", *changes).value == practice.value


def test_untested_ethanol_is_sized_for_the_leanest_legal_fill(ratio: Ratio) -> None:
    assert ratio("knock_ethanol_share", "sorrel").value == pytest.approx(0.85)
    untested = "goals.ethanol_tested=no"
    assert ratio("knock_ethanol_share", "sorrel", untested).value == pytest.approx(0.51)
    tested, lean = (
        aim(ratio("ratio_model", "sorrel", each))
        for each in ("goals.ethanol_tested=yes", untested)
    )
    assert lean < tested - 0.3


def test_ethanol_sometimes_counts_as_the_middle_petrol(ratio: Ratio) -> None:
    sometimes = ("goals.ethanol=sometimes",)
    assert ratio("knock_ethanol_share", "sorrel", *sometimes).value == 0.0
    assert ratio("plain_octane", "sorrel", *sometimes).value == pytest.approx(90.0)


def test_a_hot_day_and_the_margin_are_never_both_added(ratio: Ratio) -> None:
    hot, mild = "goals.ambient_high=50 degC", "goals.ambient_high=26 degC"
    assert ratio("knock_charge", "larch", hot).value == pytest.approx(328.15)  # as measured
    cooled = {
        day: ratio("knock_charge_worked", "larch", f"goals.ambient_high={day} degC").value
        for day in (26, 36, 50)
    }
    normal = ratio("cooled_normal", "larch", mild).value
    assert cooled[26] == cooled[36] == pytest.approx(normal + 15.0)  # type: ignore[operator]
    assert cooled[50] == ratio("cooled_hot", "larch", hot).value


def test_a_figure_that_is_assumed_is_said(ratio: Ratio, rulebook: Rulebook) -> None:
    path = ROOT / "shared" / "jobs" / "larch.yaml"
    text = path.read_text(encoding="utf-8")
    kept = [line for line in text.splitlines() if "full_boost_speed" not in line]
    assert len(kept) < len(text.splitlines())
    found = plan_job(_job(kept, rulebook), rulebook).decisions["compression_ratio"]
    assert found.status == "provisional"
    assert "full_boost_speed" in found.assumed


def _job(lines: list[str], rulebook: Rulebook):  # type: ignore[no-untyped-def]
    from pathlib import Path
    from tempfile import TemporaryDirectory

    with TemporaryDirectory() as folder:
        copy = Path(folder) / "job.yaml"
        copy.write_text("\n".join(lines), encoding="utf-8")
        return read_job(copy, rulebook, ())


def voices(rulebook: Rulebook, job: str) -> Iterator[tuple[str, object]]:
    path = ROOT / "shared" / "jobs" / f"{job}.yaml"
    plan = plan_job(read_job(path, rulebook, ()), rulebook)
    for each in plan.decisions["compression_ratio"].evidence:
        yield each.name, each
    yield "plan", plan


def test_larch_shows_practice_and_model_with_its_band_and_why_they_differ(
    rulebook: Rulebook,
) -> None:
    said = dict(voices(rulebook, "larch"))
    model, practice, plan = said["cylinder model physics"], said["practice"], said["plan"]
    assert (practice.low, practice.high) == pytest.approx((8.3, 8.8))  # type: ignore[attr-defined]
    assert not model.outside_range  # type: ignore[attr-defined]
    assert model.high - model.low == pytest.approx(0.6)  # type: ignore[attr-defined]
    found = plan.decisions["compression_ratio"]  # type: ignore[attr-defined]
    assert 8.3 <= found.target <= 8.5
    assert "It differs from practice because" in found.because["builder"]
    for word in ("preignition", "hot spots", "squish", "deposits", "cycle to cycle"):
        assert word in found.because["builder"]
    assert "starting ratio for a conservative first calibration" in found.because["builder"]


def test_sorrel_shows_the_model_outside_its_range_and_what_brings_it_back(
    rulebook: Rulebook,
) -> None:
    said = dict(voices(rulebook, "sorrel"))
    model, plan = said["cylinder model physics"], said["plan"]
    assert model.outside_range  # type: ignore[attr-defined]
    assert not model.governs  # type: ignore[attr-defined]
    assert "at 1.50 bar gauge or less" in model.outside_because  # type: ignore[attr-defined]
    found = plan.decisions["compression_ratio"]  # type: ignore[attr-defined]
    assert (found.low, found.high) == pytest.approx((9.8, 10.3))
    assert 9.8 <= found.target <= 10.0
    texts = " ".join(each.text for each in found.cautions)
    assert "rests on practice alone" in texts
    assert "counts again at 1.50 bar gauge or less" in texts
    assert "with full boost no earlier than" in found.because["builder"]
    about = [each.between for each in plan.conflicts]  # type: ignore[attr-defined]
    assert ("compression_ratio",) not in about


def test_why_leaves_a_long_list_of_arguments_out_and_tells_what_they_hold(
    rulebook: Rulebook,
) -> None:
    path = ROOT / "shared" / "jobs" / "larch.yaml"
    results = evaluate(rulebook, read_job(path, rulebook, ()).facts)
    told = why(results, "knock_phasing")
    assert "[knock_margin_of_ratio(…)]" in told[0]
    assert any("cycle_wall_temperature" in line for line in told)
