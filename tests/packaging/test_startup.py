"""What a part imports, counted in modules: a slow import shows here before a clock shows it."""

import subprocess
import sys

import pytest

SLOW = {"pint", "numpy", "networkx", "pydantic", "rich", "click", "scipy", "jinja2"}


def loaded(statement):
    """Give the top packages loaded after a statement in a fresh interpreter."""
    code = f"import sys; {statement}; print(*{{name.partition('.')[0] for name in sys.modules}})"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


@pytest.mark.parametrize(
    "statement",
    [
        "import planner.units; planner.units.parse_quantity('1.1 bar gauge')",
        "import planner.units; planner.units.show(0.0865, 'mm', system='both')",
        "import planner.errors",
        "import planner.physics",
    ],
)
def test_nothing_slow_is_imported_to_read_or_print_a_quantity(statement):
    assert not loaded(statement) & (SLOW | {"yaml"})


def test_reading_a_file_imports_yaml_and_nothing_else_that_is_slow():
    names = loaded(
        "from planner.datafiles.reader import read_yaml_text; read_yaml_text('a: 1', 'f')"
    )
    assert "yaml" in names
    assert not names & SLOW


def test_the_registry_alone_imports_pint():
    assert "pint" in loaded("import planner.units.registry")
