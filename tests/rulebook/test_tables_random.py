"""Lookup and proof held against counting out every case, on thousands of random tables."""

import itertools
import random
from collections import Counter

import pytest

from planner.rulebook.hits import Hit
from planner.rulebook.table_proof import SHOWN_OVERLAPS, prove
from planner.rulebook.values import Interval, OneOf
from tests.rulebook.table_samples import samples

SEEDS = range(6)
EACH = 400


def answering(sample, matching):
    """Say by hand which rows answer."""
    if sample.table.hit.collects or not matching:
        return matching
    if sample.table.hit is Hit.PRIORITY:
        return [min(matching, key=lambda row: (sample.results[row], row))]
    return matching[:1]


def pairs_at_odds(sample, matched):
    """List by hand the pairs of rows that meet and may not."""
    if sample.table.hit not in (Hit.UNIQUE, Hit.ANY):
        return set()
    met = {pair for rows in matched for pair in itertools.combinations(rows, 2)}
    if sample.table.hit is Hit.UNIQUE:
        return met
    return {(a, b) for a, b in met if sample.results[a] != sample.results[b]}


@pytest.mark.parametrize("seed", SEEDS)
def test_lookup_and_proof_agree_with_counting_out_every_case(seed):
    seen = Counter()
    for sample in samples(seed, EACH):
        table, cases = sample.table, sample.cases()
        matched = [sample.matching(case) for case in cases]
        answered = [answering(sample, rows) for rows in matched]
        for case, rows, answer in zip(cases, matched, answered, strict=True):
            assert table.lookup(sample.inside(case)) == rows
            assert table.decide(sample.inside(case)) == answer
        proof = prove(table)
        check_overlaps(sample, proof, matched)
        check_gaps(sample, proof, matched)
        check_dead(sample, proof, answered)
        assert not proof.given_up
        assert proof.holds == (not proof.problems(None))
        seen.update(
            overlaps=bool(proof.overlaps), gaps=bool(proof.gaps), dead=bool(proof.dead),
            holds=proof.holds, fails=not proof.holds,
        )  # fmt: skip
    assert min(seen[each] for each in ("overlaps", "gaps", "dead", "holds", "fails")) > 20


def check_overlaps(sample, proof, matched):
    expected = pairs_at_odds(sample, matched)
    found = {(each.first, each.second) for each in proof.overlaps}
    assert found <= expected
    assert len(proof.overlaps) + proof.more_overlaps == len(expected)
    assert proof.more_overlaps == max(0, len(expected) - SHOWN_OVERLAPS)
    for each in proof.overlaps:
        assert {each.first, each.second} <= set(sample.table.lookup(each.case.values))
        assert {each.first, each.second} <= set(sample.matching(sample.outside(each.case.values)))


def check_gaps(sample, proof, matched):
    allowed = sample.table.hit in (Hit.COLLECT, Hit.COLLECT_SUM, Hit.COLLECT_COUNT)
    uncovered = 0 if allowed else sum(not rows for rows in matched)
    assert bool(proof.gaps) == bool(uncovered)
    for gap in proof.gaps:
        assert sample.matching(sample.outside(gap.values)) == []
    assert len({sample.outside(gap.values) for gap in proof.gaps}) == len(proof.gaps) <= uncovered


def check_dead(sample, proof, answered):
    alive = {row for rows in answered for row in rows}
    expected = set() if sample.table.hit is Hit.UNIQUE else set(range(len(sample.admits))) - alive
    assert {each.row for each in proof.dead} == expected
    for dead in proof.dead:
        assert dead.row not in dead.because
        assert dead.because


@pytest.mark.parametrize("seed", SEEDS)
def test_what_an_unsettled_case_could_give_holds_every_settled_one(seed):
    rng, narrowed = random.Random(1000 + seed), 0
    for sample in samples(seed, 150):
        parts, values = [], []
        for each in sample.columns:
            some = sorted(rng.sample(sorted(each.cases), rng.randint(1, min(3, len(each.cases)))))
            if each.numeric:
                some = [case for case in sorted(each.cases) if some[0] <= case <= some[-1]]
                values.append(Interval(some[0] * 1e-3, some[-1] * 1e-3))
            else:
                values.append(OneOf(tuple(some)))
            parts.append(some)
        cases = list(itertools.product(*parts))
        matched = [set(sample.matching(case)) for case in cases]
        could = sample.table.could_match(values)
        assert could.rows == sorted(set().union(*matched))
        assert could.surely == sorted(set.intersection(*matched))
        deciding = sample.table.could_decide(values)
        answers = {row for case in cases for row in answering(sample, sample.matching(case))}
        assert answers <= set(deciding) <= set(could.rows)
        narrowed += len(deciding) < len(could.rows)
    assert narrowed > 0
