"""What solving one part costs, in milliseconds: `narrate solve` on many parts against one.

Run from the project's folder: `python -m tests.benchmarks.solving [PARTS]`. Bare sums of two
fractions with denominators up to 12 are written to a `.jsonl` file; starting up is measured with
one part and taken off. Under 10 ms a part is asked for; more exits with 1.
"""

from __future__ import annotations

import json
import sys
import tempfile
from collections.abc import Iterator
from itertools import islice, product
from pathlib import Path
from statistics import median

from tests.benchmarks.cold_start import NARRATE, seconds

LIMIT_MS = 10.0


def main() -> int:
    """Print the milliseconds for one part."""
    parts = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    with tempfile.TemporaryDirectory() as folder:
        many, one = (save(Path(folder) / f"{count}.jsonl", count) for count in (parts, 1))
        times = [(solve(many), solve(one)) for _ in range(3)]
    long, short = (median(column) for column in zip(*times, strict=True))
    cost = 1_000 * (long - short) / (parts - 1)
    print(f"{cost:.2f} ms a part over {parts} parts (limit {LIMIT_MS:.0f})")
    return int(cost > LIMIT_MS)


def solve(path: Path) -> float:
    return seconds([sys.executable, "-c", NARRATE, "solve", str(path), "--json"])


def save(path: Path, count: int) -> Path:
    """Write `count` items, one a line."""
    lines = (json.dumps(item) for item in islice(items(), count))
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    if count > 1:
        assert len(path.read_text(encoding="utf-8").splitlines()) == count
    return path


def items() -> Iterator[dict[str, object]]:
    """Sums with both proper fractions, in a fixed order."""
    proper = [(top, bottom) for bottom in range(2, 13) for top in range(1, bottom)]
    for number, ((a, b), (c, d)) in enumerate(product(proper, proper)):
        stem = f"{a}/{b} + {c}/{d} = □"
        yield {"id": f"sum-{number}", "stem": stem, "boxes": ["numerator", "denominator"]}


if __name__ == "__main__":
    sys.exit(main())
