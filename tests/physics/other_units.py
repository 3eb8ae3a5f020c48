"""Prove a formula's dimensions by asking it the same question in other units.

A formula that is right in metres is right in any unit of length: when every length that
goes in grows by one per cent in number, each result must grow as its own dimension says.
A bare constant that carries a unit breaks that, wherever it hides, in math and numpy alike.
"""

import doctest
import inspect
import math
import sys

from planner.errors import OutsideValidity

# Near one, so that a case stays inside the formula's range; the first that it takes counts.
FACTORS = (1.01, 0.99, 1.001, 0.999)
AGREEMENT = 1e-6


def recorded_calls(signature):
    """Run the docstring's examples and give the arguments of each call of the formula."""
    calls = []

    def recorder(**values):
        calls.append(values)
        return signature.function(**values)

    namespace = dict(vars(sys.modules[signature.function.__module__]))
    namespace[signature.name] = recorder
    for example in doctest.DocTestParser().get_examples(inspect.getdoc(signature.function) or ""):
        exec(compile(example.source, signature.name, "single"), namespace)
    return calls


def disagreements(signature, values):
    """List the results that do not change with the units as their dimensions say."""
    found = []
    plain = results(signature, values)
    for base in ("length", "mass", "time", "temperature"):
        factor, other = _in_other_units(signature, values, base)
        for name, declared in signature.results.items():
            expected = plain[name] * factor ** float(getattr(declared.dimension, base))
            if not math.isclose(other[name], expected, rel_tol=AGREEMENT, abs_tol=1e-17):
                found.append(f"{name} in other units of {base}: {other[name]} not {expected}")
    return found


def results(signature, values):
    """Give the results by name, whether there is one or several."""
    answer = signature.function(**values)
    return answer if isinstance(answer, dict) else {signature.name: answer}


def _in_other_units(signature, values, base):
    for factor in FACTORS:
        scaled = {
            name: _scaled(value, factor ** float(getattr(declared.dimension, base)))
            for name, declared in signature.arguments.items()
            for value in [values[name]]
        }
        try:
            return factor, results(signature, scaled)
        except OutsideValidity as refusal:
            last = refusal
    raise AssertionError(f"the example stands on the edge of the validity range: {last}")


def _scaled(value, by):
    """Turn one number, or each number of a grid, into the other unit."""
    if by == 1:
        return value
    if isinstance(value, tuple | list):
        return tuple(_scaled(each, by) for each in value)
    return value * by
