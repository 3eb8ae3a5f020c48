"""Questions and conflicts that voices and given values raise."""

from collections.abc import Iterator

from planner.rulebook.intervals import high, low
from planner.rulebook.printing import show_value
from planner.rulebook.results import Outcome, Question, Trace, Voice
from planner.rulebook.syntax import WeighBody
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Band, Value


def main_number(value: Value | None) -> float | None:
    """Return the figure to compare: a target, the middle of limits, or the number itself."""
    if isinstance(value, Band):
        middle = (low(value.low) + high(value.high)) / 2
        value = middle if value.target is None else value.target
    return value if isinstance(value, float) else None


def _ends(value: Value | None) -> tuple[float, float] | None:
    if isinstance(value, Band):
        return low(value.low), high(value.high)
    return (value, value) if isinstance(value, float) else None


def _type(outcome: Outcome) -> ValueType:
    return next(iter(outcome.answers.values())).type


def given_questions(outcome: Outcome) -> tuple[Question, ...]:
    """Ask about a given value that lies outside the rules' own by more than allowed."""
    over = outcome.decision.given_question_over
    if outcome.given is None or over is None:
        return ()
    told: list[Question] = []
    name = outcome.given.name
    for key, trace in outcome.traces.items():
        own = trace.own.value if trace.own is not None else None
        given = outcome.given.entries.get(key)
        if given is None or own is None or not _far(given, own, over):
            continue
        declared = outcome.answers[name].type
        text = (
            f"{outcome.given.origin or 'the job'} gives {show_value(given, declared)}; the "
            f"rules say {show_value(own, declared)}. More than {over:.0%} apart: please confirm."
        )
        told.append(Question(outcome.decision.name, text))
    return tuple(dict.fromkeys(told))


def _far(given: Value, own: Value, over: float) -> bool:
    ends, mine = _ends(given), _ends(own)
    if ends is None or mine is None:
        return own != given
    slack_low, slack_high = over * abs(mine[0]), over * abs(mine[1])
    return ends[0] < mine[0] - slack_low or ends[1] > mine[1] + slack_high


def voice_conflicts(outcome: Outcome) -> tuple[Question, ...]:
    """Name voices whose figures lie further apart than the decision allows unremarked."""
    body = outcome.decision.body
    if not isinstance(body, WeighBody) or body.question_over is None:
        return ()
    told = []
    for trace in outcome.traces.values():
        told += [
            Question(outcome.decision.name, text)
            for text in _apart(trace, body.question_over, _type(outcome))
        ]
    return tuple(dict.fromkeys(told))


def _apart(trace: Trace, over: float, declared: ValueType) -> Iterator[str]:
    heard = [
        voice
        for voice in trace.voices
        if main_number(voice.entry.value) is not None and not voice.outside_range
    ]
    if len(heard) < 2:
        return
    lowest = min(heard, key=_number)
    highest = max(heard, key=_number)
    low, high = _number(lowest), _number(highest)
    if high - low <= over * max(abs(low), abs(high)):
        return
    governing = next((voice.name for voice in trace.voices if voice.governs), "none")
    yield (
        f"{lowest.name} says {_shown(lowest, declared)}, {highest.name} says "
        f"{_shown(highest, declared)}: more than {over:.0%} apart; {governing} governs."
    )


def _number(voice: Voice) -> float:
    return main_number(voice.entry.value) or 0.0


def _shown(voice: Voice, declared: ValueType) -> str:
    value = voice.entry.value
    return "nothing" if value is None else show_value(value, declared)


def voice_questions(outcome: Outcome) -> tuple[Question, ...]:
    """Ask where a voice is looser than the others and the decision wants that asked."""
    body = outcome.decision.body
    if not isinstance(body, WeighBody) or body.ask_if is None:
        return ()
    voice, sign = body.ask_if
    told = []
    for trace in outcome.traces.values():
        by_name = {each.name: each for each in trace.voices}
        mine = main_number(by_name[voice].entry.value)
        others = [
            main_number(each.entry.value)
            for each in trace.voices
            if each.name != voice and not each.outside_range
        ]
        known = [each for each in others if each is not None]
        if mine is None or not known:
            continue
        if (mine < min(known)) if sign == "smaller" else (mine > max(known)):
            shown = _shown(by_name[voice], _type(outcome))
            text = f"the {voice} figure, {shown}, is {sign} than ours: confirm it from the sheet."
            told.append(Question(outcome.decision.name, text))
    return tuple(dict.fromkeys(told))
