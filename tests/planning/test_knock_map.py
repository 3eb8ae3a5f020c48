"""The map of a job: its own point, its own fuel, refused where something is not known."""

from pathlib import Path

import numpy as np
import pytest

from planner.errors import BorewrightError
from planner.planning.job_reader import read_job
from planner.planning.knock_map import knock_map
from planner.rulebook import evaluate, load_rulebook

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def rulebook():
    return load_rulebook([ROOT / "rules"], [ROOT / "catalogs"])


def reading(rulebook, job="larch", *settings):
    return read_job(ROOT / "shared" / "jobs" / f"{job}.yaml", rulebook, settings)


def test_the_map_agrees_with_the_plan_at_the_jobs_own_point(rulebook):
    job = reading(rulebook)
    found = knock_map(job, rulebook)
    results = evaluate(rulebook, job.facts)
    margin = results.outcomes["knock_phasing"].answers["hot_knock_margin"].entries[()].value
    boosts = np.array(found.boosts)
    row = np.array(found.margin[found.ratios.index(8.5)], dtype=float)
    at_job = np.interp(found.chosen_boost, boosts, row)
    assert found.chosen_ratio == pytest.approx(8.5)
    assert at_job == pytest.approx(np.degrees(margin), abs=0.25)
    assert found.in_range


def test_the_margin_never_grows_with_the_ratio(rulebook):
    found = knock_map(reading(rulebook, "sorrel"), rulebook)
    for column in zip(*found.margin, strict=True):
        known = [each for each in column if each is not None]
        assert (np.diff(known) <= 1e-6).all()
    assert not found.in_range
    assert found.trusted_boost == 1.5


def test_a_measured_charge_is_kept_and_a_cooler_heats_with_boost(rulebook):
    measured = knock_map(reading(rulebook), rulebook)
    assert set(measured.charges) == {55.0}
    text = (ROOT / "shared" / "jobs" / "larch.yaml").read_text(encoding="utf-8")
    without = "\n".join(line for line in text.splitlines() if "charge_temperature" not in line)
    path = ROOT / "shared" / "jobs" / "larch.yaml"
    cooled = knock_map(_typed(path, without, rulebook), rulebook)
    assert list(cooled.charges) == sorted(cooled.charges)
    assert cooled.charges[0] == pytest.approx(36.0)


def _typed(path, text, rulebook):
    from tempfile import TemporaryDirectory

    with TemporaryDirectory() as folder:
        copy = Path(folder) / path.name
        copy.write_text(text, encoding="utf-8")
        return read_job(copy, rulebook, ())


def test_a_goal_that_is_not_known_refuses_the_map_and_names_it(rulebook):
    path = ROOT / "shared" / "jobs" / "larch.yaml"
    text = path.read_text(encoding="utf-8").replace("  fuel: premium ", "  # fuel: premium ")
    with pytest.raises(BorewrightError, match="which is not known"):
        knock_map(_typed(path, text, rulebook), rulebook)


def test_fine_is_200_by_200_and_tells_how_far_it_is(rulebook):
    told = []
    found = knock_map(
        reading(rulebook), rulebook, fine=True, progress=lambda *each: told.append(each)
    )
    assert (len(found.ratios), len(found.boosts)) == (200, 200)
    assert told[-1] == (40000, 40000)
    assert len(told) > 5
