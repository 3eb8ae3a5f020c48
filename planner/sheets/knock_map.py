"""The map of ratio by boost as a picture, as JSON or as comma-separated values."""

import csv
import io
import json
from dataclasses import asdict

from planner.models.knock_map import KnockMap
from planner.sheets.pictures.ink import LIGHT, THEMES
from planner.sheets.pictures.knock_picture import knock_picture

COLUMNS = ("ratio", "boost_bar", "charge_degC", "phasing_deg", "latest_deg", "margin_deg")


def map_svg(each: KnockMap, theme: str = "light") -> str:
    """Return the picture, on light or dark ground."""
    found = next((known for known in THEMES if known.name == theme), LIGHT)
    return knock_picture(each, found).svg() + "\n"


def map_json(each: KnockMap) -> str:
    """Return the map as a JSON document; a tile that knocks at any timing is null."""
    told = {**asdict(each), "margin": each.margin}
    return json.dumps(told, ensure_ascii=False, indent=1) + "\n"


def map_csv(each: KnockMap) -> str:
    """Return one line for each tile; what knocks at any timing is left empty."""
    text = io.StringIO()
    out = csv.writer(text, lineterminator="\n")
    out.writerow(COLUMNS)
    for ratio, phasings, margins in zip(each.ratios, each.phasing, each.margin, strict=True):
        for column, boost in enumerate(each.boosts):
            phasing, margin = phasings[column], margins[column]
            out.writerow(
                (ratio, boost, each.charges[column], _cell(phasing), each.latest[column],
                 _cell(margin))
            )  # fmt: skip
    return text.getvalue()


def _cell(value: float | None) -> str:
    return "" if value is None else f"{value:.3f}"
