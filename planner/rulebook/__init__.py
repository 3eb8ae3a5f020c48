"""The rule language: read a rulebook, prove it, evaluate it on a job, explain the answers."""

from planner.rulebook.evaluate import evaluate
from planner.rulebook.load import load_rulebook

__all__ = ["evaluate", "load_rulebook"]
