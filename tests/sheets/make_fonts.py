"""Make the fonts that the sheets ship: cut two full ones down, and measure what is left.

Run by hand, with fontTools and brotli installed, when the fonts change::

    python tests/sheets/make_fonts.py FOLDER_WITH_FULL_FONTS

The folder holds FiraSans-Regular.ttf, FiraSans-Bold.ttf and the licence as LICENSE. The licence
(SIL Open Font License 1.1, no reserved font name) allows cutting down.
"""

import json
import sys
from collections import defaultdict
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

FONTS = Path(__file__).parents[2] / "planner" / "sheets" / "fonts"
WEIGHTS = ("Regular", "Bold")
RANGES = (
    (0x20, 0x7E),
    (0xA0, 0x24F),
    (0x2B0, 0x2FF),
    (0x300, 0x36F),
    (0x370, 0x3FF),
    (0x400, 0x52F),
    (0x1E00, 0x1EFF),
    (0x2000, 0x209F),
    (0x20A0, 0x20BF),
    (0x2100, 0x214F),
    (0x2150, 0x218F),
    (0x2190, 0x21FF),
    (0x2200, 0x22FF),
    (0x25A0, 0x25FF),
)
FEATURES = ["kern", "mark", "mkmk", "ccmp", "tnum", "locl"]


def cut_down(source: Path, weight: str) -> "TTFont":
    """Keep the letters of the ranges and the features that the sheets use."""
    from fontTools import subset
    from fontTools.ttLib import TTFont

    options = subset.Options()
    options.layout_features = FEATURES
    options.hinting = False
    options.notdef_outline = True
    options.name_IDs = ["*"]
    font = TTFont(source / f"FiraSans-{weight}.ttf", recalcTimestamp=False)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=[code for low, high in RANGES for code in range(low, high + 1)])
    cutter.subset(font)
    return font


def advances(font: "TTFont") -> dict[str, str]:
    """Return the letters of a font by their advance, in thousandths of the type size."""
    scale = 1000 / font["head"].unitsPerEm
    found: defaultdict[int, list[str]] = defaultdict(list)
    for code, glyph in sorted(font.getBestCmap().items()):
        found[round(font["hmtx"][glyph][0] * scale)].append(chr(code))
    return {str(width): "".join(letters) for width, letters in sorted(found.items())}


def main() -> None:
    """Write fonts, licence and table of advances."""
    source = Path(sys.argv[1])
    table = {}
    for weight in WEIGHTS:
        font = cut_down(source, weight)
        table[weight.lower()] = advances(font)
        font.save(FONTS / f"FiraSans-{weight}.ttf")
        font.flavor = "woff2"
        font.save(FONTS / f"FiraSans-{weight}.woff2")
    (FONTS / "LICENSE").write_bytes((source / "LICENSE").read_bytes())
    text = json.dumps(table, indent=1, ensure_ascii=False, sort_keys=True)
    (FONTS / "advances.json").write_text(f"{text}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
