"""The rule language: read a rulebook, prove it, evaluate it on a job, explain the answers."""

from typing import TYPE_CHECKING, Any

from planner.rulebook.evaluate import evaluate

if TYPE_CHECKING:
    from planner.rulebook.load import load_rulebook

__all__ = ["evaluate", "load_rulebook"]


def __getattr__(name: str) -> Any:  # noqa: ANN401 - a function
    """Open what reads and proves rules when it is asked for: a compiled rulebook needs none."""
    if name != "load_rulebook":
        raise AttributeError(name)
    from planner.rulebook.load import load_rulebook

    return load_rulebook
