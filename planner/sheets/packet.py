"""The packet of a job: its sheets, each written as HTML, and as PDF where typst is installed."""

from collections.abc import Callable, Collection

from planner.sheets.view import Sheet
from planner.sheets.view_customer import customer
from planner.sheets.view_first_start import first_start
from planner.sheets.view_material import Material
from planner.sheets.view_measuring import measuring
from planner.sheets.view_route import route
from planner.sheets.view_spec import specification
from planner.sheets.view_torque import torque

SHEETS: dict[str, Callable[[Material], Sheet]] = {
    "customer": customer,
    "specification": specification,
    "route": route,
    "measuring": measuring,
    "torque": torque,
    "first-start": first_start,
}


def packet_of(material: Material, only: Collection[str] = ()) -> tuple[Sheet, ...]:
    """Make the sheets of a job.

    Parameters
    ----------
    material
        What they show.
    only
        Names of the sheets wanted; all when none is named.

    Returns
    -------
    tuple of Sheet
        In the order a job goes through them; a sheet with nothing on it is left out.
    """
    made = (make(material) for name, make in SHEETS.items() if not only or name in only)
    return tuple(each for each in made if each.sections)
