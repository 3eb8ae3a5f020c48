"""Verification of the finished engine: readings, verdicts, cures and hold points."""
