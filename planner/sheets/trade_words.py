"""Words of the trade explained to a customer; a sheet explains those that stand on it."""

import re
from collections.abc import Iterable

# Meanings: common practice, in our own words.
MEANINGS = {
    "balance": "taking metal off turning parts until they run without shaking",
    "bearing": "thin soft-metal lining in which a shaft turns on a film of oil",
    "block": "the main casting of the engine, which holds cylinders and crank",
    "boost": "extra pressure that the turbocharger adds to the air the engine breathes",
    "bore": "the round hole a piston runs in, or how wide it is",
    "cap": "the half of a bearing's seat that is bolted on",
    "clearance": "the planned gap between two parts, filled with oil or closed by heat",
    "compression ratio": "how hard the cylinder squeezes its filling before it burns",
    "crank": "the shaft that turns the pistons' up and down into turning",
    "cross-hatch": "fine crossed grooves that hold oil on a cylinder wall",
    "damper": "the ring on the crank's nose that soaks up twisting",
    "deck": "the flat face of the block that the head is bolted to",
    "detonation": "fuel going off by itself in hard blows; it breaks pistons",
    "dry sump": "oil kept in its own tank and pumped back, so that it cannot run away in corners",
    "end gap": "the small opening in a piston ring, which heat closes",
    "fretting": "rubbing marks where two parts that should be still have moved",
    "gasket": "the seal between two faces that are bolted together",
    "guide": "the sleeve a valve's stem slides in",
    "hone": "to bring a hole to its last size with fine stones",
    "honing": "bringing a hole to its last size with fine stones",
    "journal": "the polished part of a shaft that runs in a bearing",
    "knock": "fuel going off by itself; it breaks pistons",
    "line hone": "making the row of holes that the crank lies in round and straight again",
    "oversize": "a cylinder made wider by a set step, with a piston to suit",
    "peening": "hammering a surface with fine shot so that cracks start less easily",
    "piston": "the plug that burning gas pushes down the cylinder",
    "piston pin": "the pin that joins piston and connecting rod",
    "plateau": "a smooth wall with fine grooves left in it for oil",
    "ring": "a springy band round the piston that keeps gas and oil where they belong",
    "rod": "the bar that joins a piston to the crank",
    "scored": "scratched deeply enough to feel",
    "seat": "the ring in the head that a valve closes on",
    "shell": "one half of a bearing lining",
    "spring": "here, a valve spring: it closes the valve",
    "stud": "a bolt without a head, screwed in first and tightened by a nut",
    "torque plate": "a thick plate bolted on while honing, to pull the block as the head will",
    "turbocharger": "a pump driven by exhaust gas that presses more air into the engine",
    "undersize": "a shaft ground smaller by a set step, with thicker bearings to suit",
    "valve": "the gate that lets air into the cylinder or burnt gas out",
    "vapour honing": "cleaning castings with water and fine grit, for looks",
}


def words_in(texts: Iterable[str]) -> dict[str, str]:
    """Return the trade words that stand in some texts, each with its meaning.

    Examples
    --------
    >>> list(words_in(["We hone each bore."]))
    ['bore', 'hone']
    """
    said = " ".join(texts).lower()
    return {
        word: meaning
        for word, meaning in MEANINGS.items()
        if re.search(rf"\b{re.escape(word)}(s|es|d|ed)?\b", said)
    }
