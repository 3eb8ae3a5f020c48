import subprocess
import sys

from planner.physics import find_formula, load_all
from planner.physics.index import WHERE
from planner.physics.registry import REGISTRY

PREFIX = "planner.physics."


def test_the_index_lists_every_formula_and_its_module():
    load_all()
    register = {
        name: each.function.__module__.removeprefix(PREFIX)
        for name, each in REGISTRY.items()
        if each.function.__module__.startswith(PREFIX)
    }
    lines = "\n".join(f'    "{name}": "{register[name]}",' for name in sorted(register))
    assert register == WHERE, f"put these lines into planner/physics/index.py:\n{lines}"


def test_the_index_is_in_order():
    assert list(WHERE) == sorted(WHERE)


def test_a_formula_is_found_by_name():
    name = next(iter(WHERE))
    assert find_formula(name).name == name


def test_looking_one_formula_up_imports_no_other_formula_module():
    name, module = next(iter(WHERE.items()))
    code = (
        "import sys; from planner.physics import find_formula;"
        f"find_formula({name!r}); print(*sorted(sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = done.stdout.split()
    assert f"{PREFIX}{module}" in loaded
    others = {f"{PREFIX}{each}" for each in WHERE.values()} & set(loaded)
    assert len(others) < len(set(WHERE.values()))
    assert "numpy" not in loaded
