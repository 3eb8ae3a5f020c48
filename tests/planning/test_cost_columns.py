from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.planning.cost_columns import column
from planner.planning.cost_trials import triangular

CENTS = st.integers(0, 500_000).map(lambda cents: Decimal(cents) / 100)
BANDS = st.lists(st.tuples(CENTS, CENTS, CENTS).map(lambda band: tuple(sorted(band))), min_size=1)
SHARES = st.floats(0, 1)


def total_at(bands, share):
    low = sum(band[0] for band in bands)
    high = sum(band[2] for band in bands)
    return (low + (high - low) * Decimal(share)).quantize(Decimal("0.01"))


@given(BANDS, SHARES)
def test_a_column_adds_up_to_the_cent(bands, share):
    total = total_at(bands, share)
    found = column(bands, total, 2)
    assert sum(found.lines) == found.total == total
    assert all(line == line.quantize(Decimal("0.01")) for line in found.lines)


@given(BANDS, SHARES, SHARES)
def test_a_line_rises_from_column_to_column(bands, one, two):
    low, high = sorted((one, two))
    below = column(bands, total_at(bands, low), 2)
    above = column(bands, total_at(bands, high), 2)
    # The widest line carries what rounding leaves over, half a cent of every other line at most.
    slack = Decimal("0.01") * (len(bands) + 1)
    assert all(a <= b + slack for a, b in zip(below.lines, above.lines, strict=True))


def test_a_line_without_room_keeps_its_price():
    fixed, loose = (Decimal(40),) * 3, (Decimal(0), Decimal(10), Decimal(60))
    assert column([fixed, loose], Decimal("55.00"), 2).lines[0] == Decimal("40.00")


def test_a_price_that_nothing_moves_is_its_own_column():
    fixed = (Decimal(40),) * 3
    assert column([fixed], Decimal("40.00"), 2).lines == (Decimal("40.00"),)


@given(SHARES, st.tuples(CENTS, CENTS, CENTS), st.tuples(CENTS, CENTS, CENTS))
def test_a_dearer_band_is_dearer_in_every_trial(share, one, two):
    cheap = [float(min(pair)) for pair in zip(sorted(one), sorted(two), strict=True)]
    dear = [float(max(pair)) for pair in zip(sorted(one), sorted(two), strict=True)]
    assert triangular(share, *cheap) <= triangular(share, *dear) + 1e-6


@pytest.mark.parametrize(("share", "value"), [(0.0, 0.0), (0.125, 5.0), (0.5, 10.0), (1.0, 20.0)])
def test_a_triangle_has_the_shares_that_areas_give(share, value):
    # Half base times height: up to 5 of a triangle 0, 10, 20 lies an eighth of its area.
    assert triangular(share, 0.0, 10.0, 20.0) == pytest.approx(value)
