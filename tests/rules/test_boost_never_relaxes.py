"""More boost, ratio held: no gap narrows, no pin thins, no clamp falls, no caution goes."""

import itertools

import pytest

from tests.rules.demo_builds import build, parts, rests_on_a_refusal, shipped, shown_cautions

BOOSTS = (0.0, 0.3, 0.5, 0.7, 0.8, 1.0, 1.1, 1.2, 1.4, 1.5, 1.6, 1.8, 2.0, 2.2, 2.5, 3.0)
RATIOS = {
    "larch": "{low: 8.3, high: 8.8, from: test}",
    "sorrel": "{low: 9.8, high: 10.2, from: test}",
}
STEPS = list(itertools.pairwise(BOOSTS))
NEVER_FALLS = (
    "top_ring_gap",
    "second_ring_gap",
    "oil_rail_gap",
    "pin_wall",
    "pin_wall_practice",
    "clamp_wanted",
    "head_lift",
    "main_fastener_strength",
    "spring_closed_wanted",
    "rod_bearing_clearance",
    "main_bearing_clearance",
    "piston_to_wall",
    "pin_clearance_bush",
    "peak_cylinder_pressure",
    "wall_floor_practice",
    "exhaust_seat_cut_width",
    "seat_interference",
    "oil_strength_needed",
    "rod_rank_needed",
    "plug_steps_colder",
)
# Advice whose cautions more boost may rightly end, and why.
MAY_END = {
    "gauge_doubt_bores": "the limit moves away from the reading, out of the gauge's doubt",
    "power_words": "the power wanted comes within reach",
}


def at(job, boost):
    return build(job, f"goals.boost={boost} bar gauge", f"given.compression_ratio={RATIOS[job]}")


@pytest.mark.parametrize("job", RATIOS)
@pytest.mark.parametrize("name", NEVER_FALLS)
def test_more_boost_never_asks_for_less(job, name):
    for lower, higher in STEPS:
        before, after = parts(at(job, lower), name), parts(at(job, higher), name)
        for key, was in before.items():
            now = after[key]
            if was is None or now is None:
                continue
            assert all(new >= old - 1e-12 for new, old in zip(now, was, strict=True)), (
                f"{name} falls from {was} at {lower} bar to {now} at {higher} bar"
            )


@pytest.mark.parametrize("job", RATIOS)
@pytest.mark.parametrize("name", ["pin_wall", "rod_grade", "head_fasteners", "head_gasket"])
def test_what_was_refused_stays_refused_with_more_boost(job, name):
    spoken = [
        all(
            entry.value is not None
            for entry in at(job, boost).outcomes[name].answers[name].entries.values()
        )
        for boost in BOOSTS
    ]
    assert spoken == sorted(spoken, reverse=True), dict(zip(BOOSTS, spoken, strict=True))


@pytest.mark.parametrize("job", RATIOS)
def test_more_boost_never_drops_a_caution(job):
    for lower, higher in STEPS:
        before, after = shown_cautions(at(job, lower)), shown_cautions(at(job, higher))
        for key in before.keys() - after.keys():
            advice, caution = before[key]
            excused = advice.name in MAY_END or rests_on_a_refusal(
                at(job, higher), advice, caution
            )
            assert excused, f"at {higher} bar {advice.name} no longer says: {caution.text}"


def test_the_excuses_name_advice_that_exists():
    assert set(MAY_END) <= set(shipped().advice)


def test_some_cautions_come_with_boost():
    none, much = shown_cautions(at("larch", 0.0)), shown_cautions(at("larch", 1.5))
    assert len(much) > len(none)


@pytest.mark.parametrize("job", RATIOS)
def test_more_boost_never_loosens_what_a_part_must_carry(job):
    """The chosen head fastener and rod bolt never get weaker."""
    book = shipped()
    for name, stock, field in (
        ("head_fasteners", "head_fixings", "yield_strength"),
        ("rod_bolt_grade", "rod_bolts", "tensile"),
        ("rod_grade", "rods", "rank"),
        ("bearing_material", "shells", "load_limit"),
    ):
        strengths = [
            book.stock_rows[stock][chosen].values[field]
            for boost in BOOSTS
            if isinstance(chosen := _choice(at(job, boost), name), str)
        ]
        assert strengths == sorted(strengths), f"{name}: {strengths}"


def _choice(results, name):
    (entry,) = results.outcomes[name].answers[name].entries.values()
    return entry.value
