"""How far a job has come: as far as its data allow, and no further than the shop says."""

from collections.abc import Collection

from planner.rulebook.syntax import STAGES

_SHOWS = {
    "inspected": ("teardown", "teardown readings"),
    "released": ("parts_in_hand", "readings of the new parts"),
    "built": ("as_built", "as-built measurements"),
}


def stage_of(held: str | None, blocks: Collection[str]) -> tuple[str, str]:
    """Find the stage of a job and say why.

    Parameters
    ----------
    held
        The stage the job says, or None. It may hold the job back, never push it on.
    blocks
        Names of the blocks of the job that hold something.

    Returns
    -------
    tuple of str
        The stage, and the reason in words.

    Examples
    --------
    >>> stage_of(None, {"teardown"})
    ('inspected', 'as far as the job goes: it holds teardown readings')
    >>> stage_of("enquiry", {"teardown"})
    ('enquiry', 'held back by the job; its data would allow inspected')
    >>> stage_of("built", {"teardown"})[0]
    'inspected'
    """
    reached, why = STAGES[0], "as far as the job goes: it holds no teardown readings"
    for stage in STAGES[1:]:
        block, shows = _SHOWS[stage]
        if block not in blocks:
            break
        reached, why = stage, f"as far as the job goes: it holds {shows}"
    if held is None or held == reached:
        return reached, why
    if STAGES.index(held) < STAGES.index(reached):
        return held, f"held back by the job; its data would allow {reached}"
    block, shows = _SHOWS[STAGES[STAGES.index(reached) + 1]]
    return reached, f"the job says {held}, but it holds no {shows}"
