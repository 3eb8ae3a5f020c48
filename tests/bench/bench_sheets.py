"""How long the packet takes on top of a plan, all sheets as HTML and PDF.

Run with ``python -m pytest tests/bench/bench_sheets.py -s``; not part of the fast suite. Times on
a shared machine mean little: the best of several runs is held, against a wide ceiling, and the
ceiling of the design, 0.8 s, is printed beside it.
"""

import sys
import time

from planner.planning.assemble import explainer
from planner.planning.job_reader import read_job
from planner.sheets.packet import packet_of
from planner.sheets.render_html import html_of
from planner.sheets.render_pdf import pdfs_of
from planner.sheets.view_material import gather
from tests.sheets.packets import JOBS, rulebook

CEILING, WIDE = 0.8, 3.0


def test_all_sheets_of_a_job_take_well_under_three_seconds():
    path = JOBS / "larch.yaml"
    reading = read_job(path, rulebook())
    worked = explainer(reading, rulebook())
    parts: dict[str, float] = {}

    def timed(name, work):
        begin = time.perf_counter()
        done = work()
        parts[name] = min(parts.get(name, 99.0), time.perf_counter() - begin)
        return done

    for _ in range(5):
        material = timed("gather", lambda: gather(worked, reading, path))
        sheets = timed("view", lambda material=material: packet_of(material))
        timed("html", lambda sheets=sheets: [html_of(each) for each in sheets])
        timed("pdf", lambda sheets=sheets, material=material: pdfs_of(sheets, material.document))
    told = ", ".join(f"{name} {took:.2f}" for name, took in parts.items())
    sys.stdout.write(f"\n{told}; all {sum(parts.values()):.2f} s (design: {CEILING} s)\n")
    assert sum(parts.values()) < WIDE
