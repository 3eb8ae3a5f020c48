"""Answers of slow formulas kept by content: the same question is worked out once.

The key holds the formula's name and every argument to the last digit; the file's name holds a
stamp of the program and of its formulas. So an answer is never stale: what has changed asks
anew. A missing, damaged or foreign file is as good as an empty one.
"""

import hashlib
import json
import os
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from contextvars import ContextVar
from pathlib import Path
from typing import Any

from planner.errors import OutsideValidity
from planner.physics.registry import Signature
from planner.rulebook.stamps import program_stamp

MOST = 4000
Answer = float | dict[str, float]


class Memory:
    """Answers of one program version, read once and written when new ones came.

    Parameters
    ----------
    folder
        Where the file stands.
    """

    def __init__(self, folder: Path) -> None:
        self._path = folder / f"answers-{program_stamp('physics')}.json"
        self._answers = _read(self._path)
        self._new = False

    def answer(self, key: str, work: Callable[[], Answer]) -> Answer:
        """Return what a question comes to, from memory where it was asked before.

        Raises
        ------
        OutsideValidity
            As the work did.
        """
        if key not in self._answers:
            if len(self._answers) >= 2 * MOST:
                self._answers = dict(list(self._answers.items())[-MOST:])
            self._answers[key] = _asked(work)
            self._new = True
        found = self._answers[key]
        if "refused" in found:
            problem, reason, remedy = found["refused"]
            raise OutsideValidity(problem=problem, reason=reason, remedy=remedy)
        answer: Answer = found["answer"]
        return answer

    def keep(self) -> None:
        """Write new answers, whole or not at all; a folder that cannot be written is left be."""
        if not self._new:
            return
        kept = dict(list(self._answers.items())[-MOST:])
        with suppress(OSError):
            self._path.parent.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(dir=self._path.parent, suffix=".part")
            with os.fdopen(handle, "w", encoding="utf-8") as stream:
                json.dump(kept, stream)
            Path(name).replace(self._path)
            self._new = False
            _drop_others(self._path)


_MEMORY: ContextVar[Memory | None] = ContextVar("memory", default=None)


@contextmanager
def remembering(kept: Path | Memory | None) -> Iterator[None]:
    """Keep answers of slow formulas in a folder while this runs; none keeps nothing.

    A memory that is handed in goes on being used and is written by whoever holds it.
    """
    if kept is None:
        yield
        return
    memory = kept if isinstance(kept, Memory) else Memory(kept)
    token = _MEMORY.set(memory)
    try:
        yield
    finally:
        _MEMORY.reset(token)
        if memory is not kept:
            memory.keep()


def called(signature: Signature, values: Mapping[str, Any]) -> Answer:
    """Call a formula, through the memory where it is slow and there is one."""
    if not signature.slow:
        answer: Answer = signature.function(**values)
        return answer
    return kept(signature.name, values, lambda: signature.function(**values))


def kept(name: str, values: Mapping[str, Any], work: Callable[[], Answer]) -> Answer:
    """Work something out, or take it from memory where the same was asked before.

    Parameters
    ----------
    name
        What is worked out.
    values
        Everything the answer hangs on; their ``repr`` must tell them apart.
    work
        Works it out: a number, or several by name.

    Returns
    -------
    float or dict of str to float
        The answer.
    """
    memory = _MEMORY.get()
    return work() if memory is None else memory.answer(_key(name, values), work)


def _asked(work: Callable[[], Answer]) -> dict[str, Any]:
    try:
        answer = work()
    except OutsideValidity as error:
        return {"refused": [error.problem, error.reason, error.remedy]}
    if isinstance(answer, dict):
        return {"answer": {name: float(value) for name, value in answer.items()}}
    return {"answer": float(answer)}


def _key(name: str, values: Mapping[str, Any]) -> str:
    told = json.dumps([name, sorted((key, repr(value)) for key, value in values.items())])
    return hashlib.sha256(told.encode()).hexdigest()[:32]


def _read(path: Path) -> dict[str, dict[str, Any]]:
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return {}
    if not isinstance(found, dict):
        return {}
    return {key: value for key, value in found.items() if _sound(value)}


def _sound(value: object) -> bool:
    """Tell whether a kept entry has the form of an answer or of a refusal."""
    if not isinstance(value, dict):
        return False
    if "refused" in value:
        told = value["refused"]
        return isinstance(told, list) and len(told) == 3 and all(isinstance(t, str) for t in told)
    answer = value.get("answer")
    numbers = answer.values() if isinstance(answer, dict) else (answer,)
    return all(isinstance(number, float) for number in numbers)


def _drop_others(path: Path) -> None:
    """Remove what earlier versions of the program kept."""
    for other in path.parent.glob("answers-*.json"):
        if other != path:
            other.unlink(missing_ok=True)
