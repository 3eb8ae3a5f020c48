"""Packing records into plain lists and back."""

import json
from dataclasses import dataclass, fields

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.rulebook.packing import Kind, Packer, Unpacker


@dataclass(frozen=True)
class Leaf:
    text: str
    number: float | None = None


@dataclass(frozen=True)
class Branch:
    leaf: Leaf | None
    leaves: tuple[Leaf, ...]
    named: dict
    anything: object


def kinds():
    return [
        Kind(made, lambda each, made=made: [getattr(each, f.name) for f in fields(made)], made)
        for made in (Leaf, Branch)
    ]


def through(value):
    packed = json.loads(json.dumps(Packer(kinds()).pack(value)))
    return Unpacker(kinds()).unpack(packed)


plain = st.none() | st.booleans() | st.integers() | st.text() | st.floats(allow_nan=False)
leaf = st.builds(Leaf, st.text(max_size=3), st.none() | st.floats(allow_nan=False))
anything = st.recursive(
    plain | leaf,
    lambda inner: (
        st.lists(inner, max_size=3).map(tuple)
        | st.dictionaries(st.text(max_size=3), inner, max_size=3)
        | st.dictionaries(st.tuples(st.text(max_size=3)), inner, max_size=3)
        | st.frozensets(st.text(max_size=3), max_size=1)
    ),
    max_leaves=8,
)
branch = st.builds(
    Branch,
    st.none() | leaf,
    st.lists(leaf, max_size=3).map(tuple),
    st.dictionaries(st.text(max_size=3), leaf | plain, max_size=3),
    anything,
)


@given(st.lists(branch, max_size=6).map(tuple))
def test_what_is_packed_comes_out_the_same_to_the_last_type(branches):
    assert repr(through(branches)) == repr(branches)


def test_a_record_held_twice_is_packed_once():
    one = Leaf("one")
    first, second = through((one, one))
    assert first is second


def test_what_is_not_listed_is_not_packed():
    with pytest.raises(TypeError, match="Path cannot be packed"):
        Packer(kinds()).pack((__import__("pathlib").Path(),))


def test_a_place_in_a_table_that_is_not_there_is_refused():
    packed = Packer(kinds()).pack(Branch(Leaf("one"), (), {}, None))
    packed[1] = ["@", 1, 7]
    with pytest.raises(IndexError):
        Unpacker(kinds()).unpack(packed)
