import pytest

from planner.datafiles import locate
from planner.datafiles.locate import shipped_folder
from planner.errors import DataNotFound


def test_a_checkout_reads_the_folders_beside_the_package():
    for kind in ("rules", "catalogs"):
        folder = shipped_folder(kind)
        assert folder.name == kind
        assert (folder.parent / "planner").is_dir()


def test_an_installed_package_reads_the_folders_inside_it(tmp_path, monkeypatch):
    inside = tmp_path / "planner" / "_data" / "rules"
    inside.mkdir(parents=True)
    (tmp_path / "rules").mkdir()
    monkeypatch.setattr(locate, "files", lambda _: tmp_path / "planner")
    assert shipped_folder("rules") == inside


def test_both_places_are_named_when_there_is_nothing(tmp_path, monkeypatch):
    monkeypatch.setattr(locate, "files", lambda _: tmp_path / "planner")
    with pytest.raises(DataNotFound) as error:
        shipped_folder("catalogs")
    said = str(error.value)
    assert str(tmp_path / "planner" / "_data" / "catalogs") in said
    assert str(tmp_path / "catalogs") in said
