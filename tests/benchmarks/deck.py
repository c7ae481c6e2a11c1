"""How fast the deck is written, as ratios in one run: medians of five.

Run from the project's folder: `python -m tests.benchmarks.deck [SLIDES]...` (20, 100, 200 and
1,000 where none is given). A slide has about 40 shapes and its notes. Asked for: at most 3 times
the time of writing the same bytes as raw parts, at least 8 times faster than the same shapes
through python-pptx calls, and a slide of 1,000 costs at most twice one of 100. What is missed exits
with 1.
"""

from __future__ import annotations

import io
import sys
import time
import tracemalloc
import zipfile
from collections.abc import Callable, Sequence
from statistics import median
from typing import Any

from pptx import Presentation
from pptx.enum.shapes import MSO_CONNECTOR, MSO_SHAPE
from pptx.util import Emu

from narrate.lesson.lesson import Beat, Lesson, Sentence
from narrate.lesson.marks import Box, Build, Dot, Group, Page, Path, Plain, Rule, Stack, Text
from narrate.outputs import USUAL, deck
from tests.outputs.samples_deck import group, stack, strip, times, words

SIZES = (20, 100, 200, 1000)
EMU = 127
MOST_TO_RAW, LEAST_TO_CALLS, MOST_GROWTH = 3.0, 8.0, 2.0


def page(number: int) -> Page:
    """40 shapes: 8 words, 4 stacks of 4, a strip of 11, a hop, rules and dots; 8 builds.

    No page has the words or the stripes of another, so that nothing kept from one serves the next.
    """
    texts = [
        group(f"w{n}", "words", words(3600, 8000 + n * 3600, f"Some words {n} of {number}"))
        for n in range(6)
    ]
    work = [
        group(f"s{n}", "a fraction", stack(30_000 + n * 9000, 8000, str(number), str(n + 2)))
        for n in range(4)
    ]
    rules = Rule(x1=60_000, y1=30_000, x2=90_000, y2=30_000, weight=200)
    hop = Path(points=((60_000, 30_000), (66_000, 26_000), (72_000, 30_000)), line="first")
    point = Dot(x=71_500, y=29_500, width=1000, height=1000)
    figure = [
        group("strip", "a strip", *strip(30_000 + number % 997, 22_000, 10, 3)),
        group("hop", "a hop", hop),
    ]
    lines = [group("line", "a line", rules), group("point", "a point", point)]
    shown = [*work, *figure, *lines]
    builds = tuple(Build(beat=f"b{number}", group=one, effect="fade") for one in shown)
    heading = words(3600, 3000, f"Question {number}", size=3600, bold=True)
    return Page(
        title=heading.lines[0],
        heading=heading,
        base=tuple(texts),
        builds=builds,
        beats=(f"b{number}",),
    )


def lesson(slides: int) -> Lesson:
    """A lesson of so many pages, each with one beat."""
    said = Sentence(say="Three fourths and one fifth are nineteen twentieths.", caption="")
    beats = tuple(
        Beat(id=f"b{n}", item=f"item-{n // 5}", part=1, move="work", sentences=(said,) * 3)
        for n in range(slides)
    )
    pages = tuple(page(n) for n in range(slides))
    return Lesson(
        review="r", title="R", grade=5, language="en", beats=beats, pages=pages, chapters=()
    )


def ours(told: Lesson) -> bytes:
    """The deck as we write it, lint and all."""
    sink = io.BytesIO()
    deck.write(told, times(told), USUAL, sink)
    return sink.getvalue()


def raw(parts: Sequence[tuple[zipfile.ZipInfo, bytes]]) -> None:
    """The same bytes, ready made, into a package."""
    with zipfile.ZipFile(io.BytesIO(), "w", zipfile.ZIP_DEFLATED) as package:
        for entry, data in parts:
            package.writestr(fresh_entry(entry), data)


def fresh_entry(entry: zipfile.ZipInfo) -> zipfile.ZipInfo:
    """A fresh entry of the same name, as writing changes it."""
    fresh = zipfile.ZipInfo(entry.filename, entry.date_time)
    fresh.compress_type = zipfile.ZIP_DEFLATED
    return fresh


def calls(told: Lesson) -> None:
    """The same shapes and notes through python-pptx calls; without builds, which it lacks."""
    made: Any = Presentation()
    layout = made.slide_layouts[5]
    for one, beat in zip(told.pages, told.beats, strict=True):
        slide = made.slides.add_slide(layout)
        slide.shapes.title.text = one.title
        for shown in (*one.base, *(build.group for build in one.builds)):
            add_group(slide.shapes, shown)
        slide.notes_slide.notes_text_frame.text = beat.say
    made.save(io.BytesIO())


def add_group(shapes: Any, shown: Group) -> None:
    """A group, or its only mark."""
    into = shapes.add_group_shape().shapes if len(shown.marks) > 1 else shapes
    for mark in shown.marks:
        add(into, mark)


def add(shapes: Any, mark: Plain) -> None:
    """One mark as python-pptx makes it."""
    match mark:
        case Text():
            place(shapes.add_textbox, mark).text_frame.text = "\n".join(mark.lines)
        case Stack():
            inner = shapes.add_group_shape().shapes
            for words_ in (mark.top, mark.bottom):
                place(inner.add_textbox, mark).text_frame.text = words_
            inner.add_connector(MSO_CONNECTOR.STRAIGHT, 0, 0, Emu(mark.width * EMU), 0)
        case Rule():
            ends = (Emu(at * EMU) for at in (mark.x1, mark.y1, mark.x2, mark.y2))
            shapes.add_connector(MSO_CONNECTOR.STRAIGHT, *ends)
        case Path():
            builder = shapes.build_freeform(*mark.points[0], scale=float(EMU))
            builder.add_line_segments(mark.points[1:], close=mark.closed)
            builder.convert_to_shape()
        case Box():
            place(lambda *at: shapes.add_shape(MSO_SHAPE.RECTANGLE, *at), mark)
        case Dot():
            place(lambda *at: shapes.add_shape(MSO_SHAPE.OVAL, *at), mark)


def place(make: Callable[..., Any], mark: Text | Stack | Box | Dot) -> Any:
    """A shape in the place of the mark."""
    return make(*(Emu(at * EMU) for at in (mark.x, mark.y, mark.width, mark.height)))


def seconds(work: Callable[[], object]) -> float:
    """Processor time of a run: nothing here waits, and a busy machine then matters less."""
    start = time.process_time()
    work()
    return time.process_time() - start


def peak(work: Callable[[], object]) -> float:
    """The most memory held at once, in MB."""
    tracemalloc.start()
    work()
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return most / 1e6


def measure(slides: int) -> tuple[bool, float]:
    """Print one row; whether its limits hold, and the time of one slide."""
    told = lesson(slides)
    with zipfile.ZipFile(io.BytesIO(ours(told))) as package:
        parts = [(entry, package.read(entry)) for entry in package.infolist()]
    # Ours and the raw parts alternate, so that a busy machine slows both.
    pairs = [(seconds(lambda: ours(told)), seconds(lambda: raw(parts))) for _ in range(5)]
    own, to_raw = median(own for own, _ in pairs), median(own / bare for own, bare in pairs)
    to_calls = seconds(lambda: calls(told)) / own
    print(
        f"{slides:>5} slides: {own:.3f} s, {to_raw:.2f} × raw parts, python-pptx calls"
        f" {to_calls:.1f} × as long, peak {peak(lambda: ours(told)):.0f} MB"
    )
    return to_raw <= MOST_TO_RAW and to_calls >= LEAST_TO_CALLS, own / slides


def main() -> int:
    """Measure every size; 1 where a limit is missed."""
    sizes = tuple(int(size) for size in sys.argv[1:]) or SIZES
    ours(lesson(1))
    rows = [measure(size) for size in sizes]
    few = sizes.index(100) if 100 in sizes else 0
    growth = rows[-1][1] / rows[few][1]
    print(f"a slide of {sizes[-1]} costs {growth:.2f} times one of {sizes[few]}")
    return int(not all(held for held, _ in rows) or growth > MOST_GROWTH)


if __name__ == "__main__":
    sys.exit(main())
