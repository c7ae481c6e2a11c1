"""How fast decks are put together for those who were away, against copying their slides' bytes.

Run from the project's folder: `python -m tests.benchmarks.catch_up`. 30 pupils, each with 5 parts
of the two demo reviews, drawn by chance; the reviews are built before the clock starts, and read
from there while it runs. Copying is writing the same parts, ready made, into packages as decks are
packed (deflated), one for each pupil. Both alternate; asked for is at most 3 times, the median of
five. What is missed exits with 1.
"""

from __future__ import annotations

import io
import sys
import zipfile
from datetime import date
from pathlib import Path
from random import Random
from statistics import median
from tempfile import TemporaryDirectory

from narrate import built, pipeline
from narrate.lesson.joining import Piece, join, pieces
from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.missed import About, start
from narrate.lesson.timeline import predict
from narrate.lesson.wording import Words
from narrate.outputs import USUAL, Options, deck, keeping_slides
from tests.benchmarks.deck import raw, seconds

PUPILS, PARTS, MOST, RUNS = 30, 5, 3.0, 5
ROOT = Path(__file__).resolve().parents[2]
REVIEWS = ("garden-week", "kitchen-market")
DAYS = (date(2026, 5, 4), date(2026, 5, 6))


def shelf(folder: Path) -> list[Piece]:
    """All parts of the demo reviews, read from where they were built."""
    found: list[Piece] = []
    for name in REVIEWS:
        was = built.find(folder / name, print)
        assert was is not None
        made = pieces(was.lesson, was.timeline, Words("en").terms_in)
        taken = {piece.item for piece in found}
        found += [p for item, some in made.items() if item not in taken for p in some]
    return found


def drawn(folder: Path, random: Random) -> list[list[Piece]]:
    """What each pupil missed, of lessons read anew."""
    parts = shelf(folder)
    return [random.sample(parts, PARTS) for _ in range(PUPILS)]


def put_together(begun: Lesson, times: Timeline, chosen: list[Piece], options: Options) -> bytes:
    """A pupil's deck."""
    sink = io.BytesIO()
    joined = join(begun, times, chosen)
    deck.write(joined.lesson, joined.timeline, options, sink)
    return sink.getvalue()


def main() -> int:
    """Measures, prints, and is 1 where the limit is missed."""
    with TemporaryDirectory() as folder:
        paths = [ROOT / "problems" / f"{name}.yaml" for name in REVIEWS]
        pipeline.build(paths, to=Path(folder))
        return measured(Path(folder))


def measured(folder: Path) -> int:
    """The same, of what was built in a folder."""
    chosen = drawn(folder, Random(1))
    words = Words("en")
    begun = start(words, About(name="missed", grade=5, count=PARTS, days=DAYS))
    times = predict(begun)
    packages = []
    options = keeping_slides(USUAL)
    for some in chosen:
        data = put_together(begun, times, some, options)
        with zipfile.ZipFile(io.BytesIO(data)) as package:
            packages.append([(entry, package.read(entry)) for entry in package.infolist()])

    def ours() -> None:
        options = keeping_slides(USUAL)
        for some in drawn(folder, Random(1)):
            put_together(begun, times, some, options)

    def copied() -> None:
        for each in packages:
            raw(each)

    pairs = [(seconds(ours), seconds(copied)) for _ in range(RUNS)]
    ratio = median(own / bare for own, bare in pairs)
    size = sum(len(data) for each in packages for _, data in each) / 1e6
    print(
        f"{PUPILS} decks of {PARTS} parts: {median(own for own, _ in pairs):.2f} s, copying their "
        f"{size:.1f} MB of parts {median(bare for _, bare in pairs):.2f} s: {ratio:.2f} × as long"
    )
    return int(ratio > MOST)


if __name__ == "__main__":
    sys.exit(main())
