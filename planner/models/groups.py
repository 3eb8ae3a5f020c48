"""The decisions every plan answers, in the groups and the order a builder thinks in."""

GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "Ratio, pressure and power",
        (
            "compression_ratio",
            "effective_compression_ratio",
            "crown_volume",
            "quench_distance",
            "deck_clearance",
            "head_gasket",
            "peak_cylinder_pressure",
            "knock_margin",
            "expected_power",
            "mean_piston_speed",
            "fuel_flow",
            "charge_limit",
        ),
    ),
    (
        "Block",
        (
            "block_route",
            "bore_oversize",
            "finished_bore",
            "wall_after_bore",
            "deck_cut",
            "main_line_hone",
            "torque_plate",
            "bore_finish",
            "cap_and_brace",
        ),
    ),
    (
        "Pistons, pins and rings",
        (
            "piston_alloy",
            "piston_form",
            "piston_to_wall",
            "pin_grade",
            "pin_wall",
            "pin_clearance_boss",
            "pin_clearance_bush",
            "ring_pack",
            "top_ring_gap",
            "second_ring_gap",
            "oil_rail_gap",
            "ring_side_clearance",
        ),
    ),
    ("Rods", ("rod_grade", "rod_bolt_grade", "rod_bolt_preload", "rod_side_clearance")),
    (
        "Crank",
        (
            "crank_route",
            "main_undersize",
            "rod_undersize",
            "oil_hole_chamfer",
            "bobweight",
            "residual_unbalance",
            "thrust_clearance",
            "damper",
        ),
    ),
    (
        "Bearings and oil",
        (
            "main_bearing_clearance",
            "rod_bearing_clearance",
            "bearing_material",
            "main_shells",
            "rod_shells",
            "oil_film",
            "oil_grade",
            "oil_system",
            "oil_pump",
            "piston_jets",
        ),
    ),
    (
        "Head",
        (
            "head_route",
            "intake_valve",
            "exhaust_valve",
            "valve_guide",
            "guide_clearance",
            "valve_seat",
            "seat_profile",
            "valve_spring",
            "retainer",
            "port_blend",
            "head_fasteners",
            "clamp_margin",
            "piston_to_valve",
            "camshaft",
        ),
    ),
    (
        "Options, priced apart",
        (
            "option_vapour_hone",
            "option_cold_treatment",
            "option_peening",
            "option_dry_sump",
            "option_braced_mains",
        ),
    ),
)

SIX: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Compression ratio", ("compression_ratio",)),
    ("Pistons and their clearance", ("bore_oversize", "piston_alloy", "piston_to_wall")),
    ("Ring gaps", ("top_ring_gap", "second_ring_gap")),
    ("Piston pin", ("pin_wall", "pin_grade")),
    (
        "Bearings",
        ("main_undersize", "rod_undersize", "main_bearing_clearance", "rod_bearing_clearance"),
    ),
)
"""Five of the six choices a plan opens with; the sixth is the machining order."""

HEADLINES: tuple[str, ...] = tuple(name for _, names in GROUPS for name in names)
