# ruff: noqa: E501 - rules stand as an author writes them, one to a line
"""A small shop for tests: a rulebook of a dozen rules, one engine, and a job that is in order."""

from functools import cache
from pathlib import Path
from tempfile import mkdtemp

from planner.datafiles.reader import read_yaml_text
from planner.errors import ProblemsFound
from planner.planning.job_overrides import with_overrides
from planner.planning.job_reader import JobReading, read_job_node
from planner.rulebook import load_rulebook
from planner.rulebook.syntax import Rulebook

RULES = """
edition: test
sources:
  practice: {status: common practice}
  recalled: {status: from memory}
  derived: {status: derived}
  invented: {status: demo}
inputs:
  engine:
    one_from: engines
    fields:
      bore: {unit: mm, kind: diameter, range: "[60 mm .. 120 mm]"}
      stroke: {unit: mm, range: "[50 mm .. 130 mm]"}
      cylinders: {range: "[1 .. 16]"}
      mains: {range: "[2 .. 9]"}
      exhaust_valves: {range: "[1 .. 48]"}
      rod_length: {unit: mm, range: "[90 mm .. 220 mm]"}
      deck_height: {unit: mm, range: "[150 mm .. 320 mm]"}
      main_journal: {unit: mm, kind: diameter, form: limits, range: "[25 mm .. 100 mm]"}
      main_housing: {unit: mm, kind: diameter, form: limits, range: "[30 mm .. 110 mm]"}
      treatment: {one_of: [unknown, nitrided, none]}
  cylinder: {items: engine.cylinders}
  main: {items: engine.mains}
  exhaust: {items: engine.exhaust_valves, of: cylinder, called: exhaust valve}
  oversizes: {all_of: engine.oversizes, fields: {size: {unit: mm, kind: diameter, range: "[60 mm .. 125 mm]"}}}
  boost: {ask: Highest boost, unit: bar, kind: gauge, range: "[0 bar .. 4 bar]", job: goals.boost}
  use: {ask: What the car is for, one_of: [track, street], job: goals.use}
  rev_ceiling: {ask: Highest speed, unit: rpm, kind: speed of rotation, range: "[3000 rpm .. 12000 rpm]", job: goals.rev_ceiling}
  altitude_low: {ask: Lowest place, unit: m, range: "[-100 m .. 4000 m]", job: goals.altitude_low}
  altitude_high: {ask: Highest place, unit: m, range: "[-100 m .. 5000 m]", job: goals.altitude_high}
  ambient_high: {ask: Hottest day, unit: degC, kind: reading, range: "[0 degC .. 55 degC]", job: goals.ambient_high, assume: {value: 38 degC, because: a hot summer day, source: recalled}}
  oil_pressure: {ask: Hot oil pressure, unit: bar, kind: gauge, range: "[0 bar .. 8 bar]", stage: inspected, job: history.oil_pressure.idle, how: mechanical gauge}
  bores: {ask: Bore readings, unit: mm, kind: diameter, per: cylinder, grid: [depth, axis], range: "[60 mm .. 125 mm]", stage: inspected, job: teardown.bores, how: dial bore gauge}
  score_depth: {ask: Deepest score, unit: mm, per: cylinder, range: "[0 mm .. 1 mm]", stage: inspected, job: teardown.bores.score_depth, how: profile gauge, unlisted: {value: 0 mm, because: looked at and none found}}
  wall: {ask: Least wall, unit: mm, per: cylinder, range: "[0.5 mm .. 20 mm]", stage: inspected, job: teardown.bores.wall, how: ultrasonic gauge}
  main_journals: {ask: Main journal readings, unit: mm, kind: diameter, per: main, grid: [plane, axis], range: "[25 mm .. 100 mm]", stage: inspected, job: teardown.main_journals, how: micrometer}
  guide_exhaust: {ask: Exhaust guide clearance, unit: mm, kind: clearance on diameter, per: exhaust, range: "[0 mm .. 1 mm]", stage: inspected, job: teardown.guides.exhaust, how: small-hole gauge}
  deck_flatness: {ask: Deck out of flat, unit: mm, range: "[0 mm .. 1 mm]", stage: inspected, job: teardown.deck.flatness, how: straightedge}
  piston_size: {ask: New pistons, unit: mm, kind: diameter, per: cylinder, range: "[60 mm .. 125 mm]", stage: released, job: parts_in_hand.pistons.gauge_point, how: micrometer}
  cap_fretting: {finding: Fretting on the caps, per: main, one_of: [heavy, light, none], stage: inspected, how: eye}
  crack_block: {finding: Crack in the block, one_of: [cracked, sound], stage: inspected, how: magnetic particle}
decisions:
  entry_bore_below_new: {means: Allowed below new, gives: {unit: mm, range: "[0 mm .. 1 mm]"}, value: 0.02 mm, source: recalled}
  entry_journal_above_new: {means: Allowed above new, gives: {unit: mm, range: "[0 mm .. 1 mm]"}, value: 0.003 mm, source: recalled}
  entry_bottom_over_top: {means: Allowed at the bottom, gives: {unit: mm, range: "[0 mm .. 1 mm]"}, value: 0.005 mm, source: recalled}
  entry_repeats_apart: {means: Allowed between repeats, gives: {unit: mm, range: "[0 mm .. 1 mm]"}, value: 0.003 mm, source: practice}
  entry_oval_low_down: {means: Allowed oval at the bottom, gives: {unit: mm, range: "[0 mm .. 1 mm]"}, value: 0.005 mm, source: recalled}
  entry_warm: {means: Allowed from 20 degC, gives: {unit: K, range: "[0 K .. 50 K]"}, value: 2 K, source: practice}
  entry_expansion_iron: {means: Expansion, gives: {unit: 1/K, range: "[0 1/K .. 1 1/K]"}, value: 11.4e-6 1/K, source: recalled}
  honing_stock: {means: Stock, gives: {unit: mm, kind: clearance on diameter, range: "[0 mm .. 1 mm]"}, value: 0.1 mm, source: practice}
  bore_worn:
    means: Largest reading of each bore
    per: cylinder
    gives: {unit: mm, kind: diameter, range: "[60 mm .. 125 mm]"}
    compute: largest(bores)
    source: derived
  size_needed:
    means: Bore that cleans the worst cylinder
    gives: {unit: mm, kind: diameter, range: "[60 mm .. 125 mm]"}
    compute: largest(bore_worn) + honing_stock
    source: derived
  bore_oversize:
    means: One oversize for all cylinders
    choose:
      from: oversizes
      needs: {cleans the worst bore: oversizes.size >= size_needed}
      prefer: [least oversizes.size]
      none: no stocked size cleans it; sleeve it
    source: practice
  wall_left:
    means: Wall left in each bore
    per: cylinder
    gives: {unit: mm, range: "[-5 mm .. 20 mm]", step: 0.01 mm}
    compute: wall - (bore_oversize.size - engine.bore) / 2
    source: derived
  compression_ratio:
    means: Compression ratio
    gives: {form: band, range: "[6 .. 14]", step: 0.1}
    table:
      columns: [boost, use]
      rows:
        - {boost: up to 0 bar, use: any, compression_ratio: 10.5 / 11.0 / 11.5}
        - {boost: over 0 bar, use: street, compression_ratio: 8.3 / 8.5 / 8.8}
        - {boost: over 0 bar, use: track, compression_ratio: 8.0 / 8.3 / 8.5}
    source: practice
  piston_to_wall_practice:
    means: Practice clearance
    gives: {unit: mm, form: band, kind: clearance on diameter, range: "[0.02 mm .. 0.25 mm]", step: 0.001 mm}
    value: 0.080 / 0.090 / 0.100 mm
    source: practice
  piston_to_wall_physics:
    means: Clearance by expansion
    gives: {unit: mm, form: band, kind: clearance on diameter, range: "[0.02 mm .. 0.25 mm]", step: 0.001 mm}
    value: 0.085 / 0.096 / 0.110 mm
    source: derived
  piston_to_wall:
    means: Piston to wall clearance
    gives: {unit: mm, form: band, kind: clearance on diameter, range: "[0.02 mm .. 0.25 mm]", step: 0.001 mm}
    weigh: {says: {practice: piston_to_wall_practice, physics: piston_to_wall_physics}, governs: first}
    given: {question_over: 10 %}
    source: practice
  guide_verdict:
    means: Each exhaust guide as measured
    per: exhaust
    gives: {one_of: [replace, watch, accept]}
    table:
      columns: [guide_exhaust]
      rows:
        - {guide_exhaust: over 0.08 mm, guide_verdict: replace}
        - {guide_exhaust: over 0.06 to 0.08 mm, guide_verdict: watch}
        - {guide_exhaust: up to 0.06 mm, guide_verdict: accept}
    source: recalled
  hot_cylinder:
    means: A cylinder that ran hot
    per: cylinder
    evidence:
      for:
        a guide of it is worn: {guide_verdict: some(replace)}
        its bore is scored: {score_depth: over 0 mm}
      against:
        the car sees a track: {use: track}
      then: "Prove the injector of {where}."
    source: practice
  block_calls:
    means: What the caps call for
    per: main
    gives: {form: names}
    table:
      hit: collect
      columns: [cap_fretting]
      rows:
        - {cap_fretting: "heavy, light", block_calls: line_hone}
        - {cap_fretting: none, block_calls: none}
    source: practice
advice:
  clearance:
    about: [piston_to_wall]
    builder: "Piston to wall {piston_to_wall}."
    customer: "Room for the piston to grow."
    cautions:
      - {severity: warning, text: "Under {piston_to_wall.low} the skirt can seize."}
    source: practice
operations:
  crack_test: {does: Crack-test the block, lane: block, station: bench, class: inspection, hours: {low: 1 h, likely: 2 h, high: 3 h}, hold: crack decision before money, if_skipped: Money goes into scrap., source: practice, cautions: [{severity: warning, text: "Ultraviolet lamp: eye shield."}]}
  line_hone: {does: Hone the main bores, lane: block, station: line hone, hours: {low: 2 h, likely: 3 h, high: 5 h}, when: called, after: {crack_test: no money into a cracked block}, if_skipped: The bearings do not line up., source: practice}
  bore: {does: Bore the cylinders, lane: block, station: boring machine, hours: {low: 2 h, likely: 3 h, high: 4 h}, after: {line_hone: bores are set from the crank line, crack_test: no money into a cracked block}, inspect: [{measure: wall, target: wall_left, instrument: ultrasonic gauge}], if_skipped: Rings cannot follow., source: practice}
  hone: {does: Hone with the plate on, lane: block, station: hone, hours: {low: 3 h, likely: 4 h, high: 6 h}, needs: [receive_pistons], after: {bore: stock must be there, receive_pistons: each bore is honed to its piston}, inspect: [{measure: clearance, target: piston_to_wall, instrument: bore gauge}], hold: a second person signs, if_skipped: It burns oil., source: practice, why: {customer: We make each bore to its own piston.}}
  receive_pistons: {does: Measure the new pistons, lane: block, station: bench, class: inspection, when: called, hours: {low: 1 h, likely: 1 h, high: 2 h}, if_skipped: Nobody knows what to hone to., source: practice}
"""
ENGINE = """
stock_of: engines
source: invented
rows:
  test-2.0: {bore: 86 mm, stroke: 86 mm, cylinders: 2, mains: 3, exhaust_valves: 4, rod_length: 143 mm, deck_height: 216 mm, main_journal: 53.982 / 54.000 mm, main_housing: 58.000 / 58.018 mm, treatment: none, oversizes: {"86.25": {size: 86.25 mm}, "86.50": {size: 86.5 mm}}}
"""
JOB = """
format: 1
job: {name: Test job, stage: inspected}
engine: test-2.0
goals:
  boost: 1.1 bar gauge
  use: street
  rev_ceiling: 7200 rpm
teardown:
  bores:
    unit: mm
    depths: [15, 65]
    axes: [thrust, crank]
    readings:
      1: [[86.071, 86.046], [86.042, 86.031]]
      2: [[86.138, 86.083], [86.074, 86.052]]
    score_depth: {2: 0.04}
    wall: {1: 6.1, 2: 5.6}
  main_journals: {unit: mm, readings: {1: [[53.986, 53.984]], 2: [[53.983, 53.980]], 3: [[53.968, 53.956]]}}
  guides: {unit: mm, exhaust: [0.05, 0.07, 0.09, 0.05]}
  deck: {unit: mm, flatness: 0.06}
  findings:
    - {id: cap_fretting, where: main 2, note: brown patches}
"""


@cache
def folders() -> tuple[Path, Path]:
    """Write the shop's rules and catalogs once."""
    root = Path(mkdtemp(prefix="shop"))
    rules, catalogs = root / "rules", root / "catalogs"
    rules.mkdir()
    (catalogs / "engines").mkdir(parents=True)
    (rules / "rules.yaml").write_text(RULES, encoding="utf-8")
    (catalogs / "engines" / "test-2.0.yaml").write_text(ENGINE, encoding="utf-8")
    return rules, catalogs


@cache
def rulebook() -> Rulebook:
    rules, catalogs = folders()
    return load_rulebook([rules], [catalogs])


def read(*settings: str, job: str = JOB) -> JobReading:
    """Read the job with some keys replaced."""
    root = with_overrides(read_yaml_text(job, "job.yaml"), settings)
    return read_job_node(root, rulebook())


def problems(*settings: str, job: str = JOB) -> list[str]:
    """Return the problems of the job with some keys replaced, as printed."""
    try:
        read(*settings, job=job)
    except ProblemsFound as found:
        return [str(each) for each in found.problems]
    return []


def doubts(*settings: str, job: str = JOB) -> list[str]:
    return [str(each) for each in read(*settings, job=job).doubts]
