"""Kill a writer 500 times at random moments: the job file is whole each time, nothing is lost.

Run: ``python tests/bench/bench_kills.py``
"""

import subprocess
import sys
import tempfile
import time
from pathlib import Path

KILLING = Path(__file__).parents[1] / "planning" / "killing.py"
KILLS = 500


def main() -> None:
    """Run it in a folder of its own and say how it went."""
    with tempfile.TemporaryDirectory() as folder:
        job = Path(folder) / "job.yaml"
        job.write_text("format: 1\n", encoding="utf-8")
        begun = time.perf_counter()
        ended = subprocess.run(
            [sys.executable, str(KILLING), str(job), str(KILLS), "20270112"],
            capture_output=True,
            text=True,
            check=False,
        )
        told = ended.stdout.strip() or ended.stderr.strip()
        sys.stdout.write(f"{told} in {time.perf_counter() - begun:.0f} s\n")
        raise SystemExit(ended.returncode)


if __name__ == "__main__":
    main()
