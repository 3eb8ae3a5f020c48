"""The torque and stretch sheet: blocked wherever the maker's figure has not been typed in."""

from planner.models.job import Job
from planner.models.work import RunInStep, TorqueLine
from planner.planning.decision_docs import source_mark
from planner.planning.names import Names
from planner.planning.shop_rows import Row, rows_of
from planner.planning.triggers import Sure, Triggers
from planner.rulebook.results import Answer, Results
from planner.rulebook.values import Status

TYPED = "from the maker, typed by you"


def torque_lines(results: Results, names: Names, job: Job) -> tuple[TorqueLine, ...]:
    """Fill in the sheet for the fasteners that this plan tightens.

    Parameters
    ----------
    results
        What the rulebook said.
    names
        Prints values.
    job
        Holds the figures that were typed.

    Returns
    -------
    tuple of TorqueLine
        In the shop's order.
    """
    called = {each.operation.name for each in results.called}
    rows = rows_of(results.rulebook, "fastener_lines").values()
    return tuple(
        _line(row, results, names, job) for row in rows if called & set(row.names("tightened_at"))
    )


def _line(row: Row, results: Results, names: Names, job: Job) -> TorqueLine:
    called = {each.operation.name for each in results.called}
    typed = job.torque_sheet.get(row.id)
    title = row.id.replace("_", " ")
    blocked = (
        f"BLOCKED: no figure from the maker. Do not tighten the {title} for good until "
        f"torque_sheet.{row.id} holds it."
    )
    return TorqueLine(
        id=row.id,
        title=title,
        grade="; ".join(
            filter(None, (_text(name, results, names) for name in row.names("grade")))
        ),
        tightened_at=tuple(name for name in row.names("tightened_at") if name in called),
        lubricant=row.text("lubricant"),
        sequence=row.text("sequence"),
        method=row.text("method"),
        value=typed.value if typed else "",
        origin=f"{typed.origin} ({TYPED})" if typed else "",
        blocked="" if typed else blocked,
        ours={name: text for name in row.names("ours") if (text := _text(name, results, names))},
        source=source_mark(row.source, results.rulebook.sources).status,
    )


def _text(name: str, results: Results, names: Names) -> str:
    """Print a decision, or nothing where it does not apply or the rules do not know it."""
    owner, result = results.rulebook.results.get(name, (name, ""))
    outcome = results.outcomes.get(owner)
    if outcome is None or outcome.status == Status.NOT_APPLICABLE:
        return ""
    wanted = [each for each in outcome.answers.values() if not result or each.name == result]
    return "; ".join(_of_chosen(each, results, names) for each in wanted)


def _of_chosen(answer: Answer, results: Results, names: Names) -> str:
    """Print a figure; one worked out for every row of a stock, only for the row chosen."""
    stocks = results.rulebook.stocks
    if len(answer.type.per) == 1 and answer.type.per[0] in stocks:
        chosen = _chosen_rows(answer.type.per[0], results)
        kept = {key: entry for key, entry in answer.entries.items() if key[0] in chosen}
        return "; ".join(names.one(entry, answer.type.over(())) for entry in kept.values())
    return names.text(answer.entries, answer.type)


def _chosen_rows(stock: str, results: Results) -> set[str]:
    """Return the rows that some decision chose from a stock."""
    return {
        entry.value
        for outcome in results.outcomes.values()
        for answer in outcome.answers.values()
        if answer.type.catalog == stock and outcome.decision.form == "choose"
        for entry in answer.entries.values()
        if isinstance(entry.value, str)
    }


def run_in_steps(results: Results, triggers: Triggers) -> tuple[RunInStep, ...]:
    """List the steps of first start and break-in that count on this job."""
    found = []
    for row in rows_of(results.rulebook, "run_in_steps").values():
        sure = triggers.any_of(row.names("only_with"))
        if sure == Sure.NO:
            continue
        found.append(
            RunInStep(
                number=row.id,
                phase=row.word("phase"),
                text=row.text("says"),
                caution=row.text("caution"),
                may_apply=sure == Sure.PERHAPS,
                source=source_mark(row.source, results.rulebook.sources).status,
            )
        )
    return tuple(found)
