"""The cautions that close every plan, whatever the job."""

from planner.models.steps import CautionDoc

_STANDING = (
    (
        "warning",
        "This plan gives starting values. The part maker's own instructions, local law and a "
        "licensed practitioner's word win over every figure in it.",
    ),
    (
        "warning",
        "Lifting: use a rated hoist and stand, keep hands and feet from under a hanging block, "
        "and lift heavy castings with two people.",
    ),
    (
        "warning",
        "Rotating machines and grinding wheels: guard, wheel speed and ring check, eye "
        "protection, no gloves or loose sleeves near a turning part.",
    ),
    (
        "warning",
        "Hot caustic wash burns skin and blinds: face shield, gauntlets, and water at hand "
        "before the lid is opened.",
    ),
    (
        "warning",
        "Magnetic-particle lamps shine ultraviolet: filter fitted and sound, eyes and skin "
        "covered.",
    ),
    (
        "warning",
        "Dust: wet the work or draw the dust off. Identify the seat alloy first; dust of "
        "beryllium copper is poisonous, so do not cut or blend it in this shop.",
    ),
    (
        "warning",
        "Compressed air can spin a crank and drive chips into an eye: piston locked at top "
        "centre for leak-down, eye protection, never point it at a person.",
    ),
    (
        "danger",
        "Fuel and its vapour burn and explode: no flame or spark, air moving, a fire "
        "extinguisher in reach at every test and first start.",
    ),
    (
        "warning",
        "Ethanol fuel attacks unsuited hoses and seals and takes up water: check every part of "
        "the fuel system and measure the ethanol content at each fill.",
    ),
    (
        "warning",
        "Boost and detonation break engines in seconds: hold boost low until the calibration is "
        "proved step by step, and stop at any knock.",
    ),
    (
        "danger",
        "A flywheel or clutch can burst above its rating: crack-test or replace a cast flywheel "
        "of unknown history, and fit a rated one with a shield above the original rev ceiling.",
    ),
    (
        "notice",
        "Crack test before money: no machining and no order before block, crank, rods and head "
        "are proved sound.",
    ),
    (
        "notice",
        "Emissions, noise and road-legality rules differ by place; they are the owner's to check.",
    ),
)


def standing_cautions() -> tuple[CautionDoc, ...]:
    """Return the standing cautions in the order they are printed."""
    return tuple(CautionDoc(severity=severity, text=text) for severity, text in _STANDING)
