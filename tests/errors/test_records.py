"""Records: as frozen dataclasses are, and faster to open."""

import copy
import pickle
from dataclasses import FrozenInstanceError, dataclass, field, fields, replace

import pytest

from planner.records import record


@record
class Hole:
    size: float
    depth: float = 0.0
    marks: dict = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Like:
    size: float
    depth: float = 0.0
    marks: dict = field(default_factory=dict)


@record(kw_only=True)
class Base:
    name: str = ""


@record(kw_only=True)
class Wider(Base):
    width: float


@record
class One:
    only: tuple = ()


def test_a_record_prints_and_compares_as_a_dataclass_does():
    assert repr(Hole(8.0)) == repr(Like(8.0)).replace("Like", "Hole")
    assert Hole(8.0) == Hole(8.0, 0.0, {})
    assert Hole(8.0) != Hole(8.5)
    assert Hole(8.0) != Like(8.0)
    assert [each.name for each in fields(Hole)] == [each.name for each in fields(Like)]


def test_nothing_of_a_record_can_be_changed():
    hole = Hole(8.0)
    with pytest.raises(FrozenInstanceError, match="cannot change field 'size'"):
        hole.size = 9.0
    with pytest.raises(FrozenInstanceError):
        del hole.size
    with pytest.raises(FrozenInstanceError):
        hole.other = 1


def test_equal_records_are_one_key_and_a_record_with_a_dict_is_none():
    assert len({One((1,)), One((1,)), One((2,))}) == 2
    with pytest.raises(TypeError, match="unhashable"):
        hash(Hole(8.0))


def test_defaults_are_made_anew_each_time():
    assert Hole(8.0).marks is not Hole(8.0).marks


def test_replace_copy_and_pickle_keep_every_field():
    hole = Hole(8.0, 2.0, {"a": 1})
    assert replace(hole, depth=3.0) == Hole(8.0, 3.0, {"a": 1})
    assert copy.deepcopy(hole) == hole
    assert pickle.loads(pickle.dumps(hole)) == hole


def test_a_record_may_widen_another():
    assert repr(Wider(width=2.0)) == "Wider(name='', width=2.0)"
    with pytest.raises(TypeError, match="width"):
        Wider(name="x")


def test_a_missing_or_an_unknown_field_is_refused_by_name():
    with pytest.raises(TypeError, match="size"):
        Hole()
    with pytest.raises(TypeError, match="length"):
        Hole(8.0, length=1.0)
