"""How a cold build compares with loading its libraries: a ratio of medians in one run.

Run from the project's folder: `python -m tests.benchmarks.cold_start [RUNS]`. The two commands
alternate, so that a busy machine slows both, and both run from compiled modules, as they do once
installed. At most 5 is asked for; a higher ratio exits with 1.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

LIBRARIES = "import pptx, jinja2, yaml, num2words"
LIMIT = 5.0
REVIEW = Path(__file__).resolve().parents[2] / "problems" / "garden-week.yaml"
NARRATE = "import sys; from narrate.cli import main; sys.exit(main())"


def main() -> int:
    """Print both medians and their ratio."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    with tempfile.TemporaryDirectory() as folder:
        build = [sys.executable, "-c", NARRATE, "build", str(REVIEW), "--to", folder]
        load = [sys.executable, "-c", LIBRARIES]
        compiled = {"PYTHONPYCACHEPREFIX": folder, "PYTHONDONTWRITEBYTECODE": ""}
        environment = os.environ | compiled
        for command in (build, load):
            seconds(command, environment)
        times = [(seconds(build, environment), seconds(load, environment)) for _ in range(runs)]
    built, loaded = (median(column) for column in zip(*times, strict=True))
    ratio = built / loaded
    print(f"build {built:.2f} s, libraries {loaded:.2f} s, ratio {ratio:.2f} (limit {LIMIT:.0f})")
    return int(ratio > LIMIT)


def seconds(command: list[str], environment: dict[str, str] | None = None) -> float:
    """How long a command takes. Raises CalledProcessError where it fails."""
    start = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True, env=environment)
    return time.perf_counter() - start


if __name__ == "__main__":
    sys.exit(main())
