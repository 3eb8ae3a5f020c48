"""The pictures of a plan as blocks: each only when the plan has something to show in it."""

from planner.models.plan import Plan
from planner.sheets.letters import clean
from planner.sheets.pictures import bore_map, clearances, cost_range, shells
from planner.sheets.pictures.bore_map import BoreReadings
from planner.sheets.pictures.knock_picture import knock_picture
from planner.sheets.pictures.lanes_picture import operations_pictures, short_name
from planner.sheets.view import Block, Picture, Pictures, Words
from planner.sheets.view_common import picture
from planner.sheets.view_material import Material

_PAGE = 516.0


def bore_pictures(material: Material, *, worst_only: bool = False) -> tuple[Block, ...]:
    """Show the wear of each bore, or of the worst one alone."""
    bores = material.bores
    if not bores:
        return ()
    times = bore_map.exaggeration(bores)
    shown = [max(bores, key=_worn)] if worst_only else list(bores)
    unit = bore_map.small_unit(material.system)
    caption = (
        f"Wear over the unworn size on the diameter, in {unit}: a cell for each reading, denser "
        f"hatching for more wear. Beside it the walls, wear drawn {times} times wider than it is."
    )
    items = tuple(_bore(each, times, material.system) for each in shown)
    return (Pictures(items=items, caption=caption, columns=2 if len(items) > 1 else 1),)


def _worn(bore: BoreReadings) -> float:
    return max(max(row) for row in bore.rows) - bore.unworn


def _bore(bore: BoreReadings, times: int, system: str) -> Picture:
    return picture(lambda theme: bore_map.bore_map(bore, theme, times=times, system=system), "")


def clearance_pictures(material: Material) -> tuple[Block, ...]:
    """Show how clearances move from the coldest start to full heat."""
    found = clearances.clearances_of(material.plan.decisions)
    if not found:
        return ()
    items = tuple(
        picture(
            lambda theme, each=each, place=place: clearances.clearance_picture(  # type: ignore[misc]  # defaults bind the loop's names
                each, theme, f"clearance-{place}"
            ),
            "",
        )
        for place, each in enumerate(found)
    )
    caption = (
        "Clearances from the coldest start over the bench to full heat, each on a scale of its "
        "own. The bar beside the middle column is the band to build to."
    )
    return (Pictures(items=items, caption=caption, columns=3),)


def knock_pictures(material: Material) -> tuple[Block, ...]:
    """Show the map of ratio by boost, or say why there is none."""
    knock = material.knock
    if knock is None:
        reason = material.no_knock
        said = f"The knock map is not drawn: {reason}" if reason else ""
        return (Words(text=clean(said), look="small"),) if said else ()
    caption = "Ratio by boost: degrees in hand before knock on the hottest day. The job is ringed."
    return (picture(lambda theme: knock_picture(knock, theme), caption),)


def shell_pictures(material: Material) -> tuple[Block, ...]:
    """Show the pair of shells of each journal, once they are chosen."""
    caption = (
        "Pair of shells for each journal, and the clearance that it gives within what is allowed."
    )
    return tuple(
        picture(
            lambda theme, each=each, place=place: shells.shells_picture(  # type: ignore[misc]  # as above
                each, theme, f"shells-{place}"
            ),
            f"{each.title}. {caption}",
        )
        for place, each in enumerate(
            shells.shell_choices(material.plan.decisions, material.shells)
        )
    )


def cost_pictures(plan: Plan) -> tuple[Block, ...]:
    """Show what the job may cost."""
    cost = plan.cost
    if cost is None:
        return ()
    caption = (
        f"In {cost.currency}, tax included. Bar: likely. Thin line and the three figures: low, "
        "likely, high."
    )
    return (picture(lambda theme: cost_range.cost_picture(cost, theme), caption),)


def operation_pages(plan: Plan) -> tuple[Picture, ...]:
    """Show the operations in lanes, on as many pages as they need, and as lists for a phone."""
    steps = {each.id: each for each in plan.operations}
    lanes = tuple(dict.fromkeys(each.lane for each in plan.operations))
    chain = plan.schedule.critical_path
    pages = operations_pictures(plan.operations, lanes, chain, _PAGE)
    found = []
    for place, (page, names) in enumerate(pages):
        first, last = steps[names[0]].step, steps[names[-1]].step
        alt = (
            f"Operations {first} to {last} in lanes: {', '.join(page.layout.lanes)}. "
            "The list of steps says the same in words."
        )
        listed = tuple(_listed(plan, name, chain) for name in names)
        caption = (
            f"Operations {first} to {last}. Heavy lines: the longest chain, which sets the "
            "finish. Black HOLD tab: signed before the next step. Broken frame: perhaps."
        )
        found.append(
            picture(
                lambda theme, page=page, place=place, alt=alt: page.draw(  # type: ignore[misc]  # as above
                    theme, f"operations-{place}", alt
                ),
                caption,
                listed=listed,
                page=True,
            )
        )
    return tuple(found)


def _listed(plan: Plan, name: str, chain: tuple[str, ...]) -> str:
    step = next(each for each in plan.operations if each.id == name)
    numbers = {each.id: each.step for each in plan.operations}
    before = ", ".join(str(numbers[each]) for each in step.after)
    told = [f"{step.step} {short_name(step)} ({step.lane})"]
    told += [f"after {before}"] if before else []
    told += ["HOLD"] if step.hold else []
    told += ["longest chain"] if name in chain else []
    return "; ".join(told)
