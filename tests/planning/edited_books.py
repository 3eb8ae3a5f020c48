"""Our rules with one edit, and folders of jobs, for tests of what an edit does."""

import shutil
from pathlib import Path

ROOT = Path(__file__).parents[2]
EDIT = ("0.0009 / 0.00105 / 0.0012 mm/mm", "0.0008 / 0.0010 / 0.0011 mm/mm")


def edited(folder: Path) -> Path:
    """Write our rules with another clearance for a street 2618 piston; one row is other."""
    shutil.copytree(ROOT / "rules", folder / "rules")
    shutil.copytree(ROOT / "catalogs", folder / "catalogs")
    path = folder / "rules" / "piston_clearance.yaml"
    text = path.read_text(encoding="utf-8")
    assert text.count(EDIT[0]) == 1
    path.write_text("# another comment\n" + text.replace(*EDIT), encoding="utf-8")
    return folder


def jobs(folder: Path, count: int = 2) -> Path:
    """Write some jobs: the Larch as it is, and with other boosts."""
    folder.mkdir()
    text = (ROOT / "shared" / "jobs" / "larch.yaml").read_text(encoding="utf-8")
    for number in range(count):
        boost = f"boost: {1.1 - 0.05 * (number % 8):.2f} bar"
        assert "boost: 1.1 bar" in text
        (folder / f"job_{number}.yaml").write_text(
            text.replace("boost: 1.1 bar", boost), encoding="utf-8"
        )
    return folder
