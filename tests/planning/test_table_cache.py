"""Tables of burned gas in the user's cache: found again, ignored when damaged, never harmful."""

import numpy as np
import pytest

from planner.physics.cycle import burned
from planner.physics.cycle.fuels import blend
from planner.physics.cycle.keeping import keep_tables_with
from planner.planning.table_cache import TableCache, use_user_cache

FUEL = blend(0.37, 0.0, 43.4e6, 745.0)


@pytest.fixture
def cache(tmp_path, monkeypatch):
    """A cache in an empty folder, and no table known yet."""
    monkeypatch.setattr(burned, "_known", {})
    made = TableCache(tmp_path / "tables")
    keep_tables_with(made)
    yield made
    keep_tables_with(None)


def test_a_blend_is_built_once_and_found_by_the_next_process(cache, monkeypatch):
    first = burned.burned_table(FUEL, 1.15)
    monkeypatch.setattr(burned, "_known", {})
    monkeypatch.setattr(burned, "build", lambda _: pytest.fail("built in vain"))
    again = burned.burned_table(FUEL, 1.15)
    assert np.array_equal(first.values, again.values)
    assert [each.name for each in cache.folder.iterdir()] == [f"burned_{first.key}.table"]


@pytest.mark.parametrize("harm", ["cut", "flipped", "empty", "other shape", "not a number"])
def test_a_damaged_table_is_built_again(cache, monkeypatch, harm):
    first = burned.burned_table(FUEL, 1.15)
    (path,) = cache.folder.iterdir()
    held = bytearray(path.read_bytes())
    if harm == "other shape":
        cache.keep(first.key, first.values[:, :5])
    elif harm == "not a number":
        cache.keep(first.key, first.values * np.nan)
    else:
        held[900] ^= 1
        path.write_bytes({"cut": held[:500], "flipped": held, "empty": b""}[harm])
    monkeypatch.setattr(burned, "_known", {})
    again = burned.burned_table(FUEL, 1.15)
    assert np.array_equal(first.values, again.values)


def test_a_folder_that_cannot_be_made_stops_nothing(tmp_path):
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    cache = TableCache(tmp_path / "file" / "tables")
    cache.keep("key", np.zeros((2, 2)))
    assert cache.find("key") is None


def test_a_file_that_holds_something_else_is_ignored(cache):
    cache.folder.mkdir()
    body = b"no table at all"
    from hashlib import sha256

    (cache.folder / "burned_x.table").write_bytes(sha256(body).digest() + body)
    assert cache.find("x") is None


def test_the_command_line_uses_the_users_folder(monkeypatch, tmp_path):
    from planner.physics.cycle.keeping import keeper

    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    use_user_cache()
    assert isinstance(keeper(), TableCache)
    keep_tables_with(None)
