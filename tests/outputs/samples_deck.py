"""Lessons made by hand for the tests of the deck: few pages, every kind of mark and effect."""

from __future__ import annotations

from narrate.lesson.lesson import Beat, Chapter, Lesson, Sentence, Span, Timeline
from narrate.lesson.marks import Box, Build, Dot, Group, Page, Path, Plain, Rule, Stack, Text


def words(x: int, y: int, *lines: str, size: int = 2800, **more: object) -> Text:
    """A text of `size`, about as wide as its letters."""
    leading = size * 12 // 10
    width = max(len(line) for line in lines) * size * (60 if more.get("bold") else 52) // 100
    height = leading * len(lines)
    place = {"x": x, "y": y, "width": width, "height": height}
    return Text(**place, lines=lines, size=size, leading=leading, **more)  # type: ignore[arg-type]


def stack(x: int, y: int, top: str, bottom: str, size: int = 3600) -> Stack:
    """A stacked fraction 1.9 sizes high."""
    width = max(len(top), len(bottom)) * size * 56 // 100 + 600
    return Stack(x=x, y=y, width=width, height=size * 19 // 10, top=top, bottom=bottom, size=size)


def group(name: str, alt: str, *marks: Plain) -> Group:
    return Group(name=name, alt=alt, marks=marks)


def beat(own: str, say: str, item: str | None = "rain-barrel", *, waits: bool = True) -> Beat:
    sentences = tuple(Sentence(say=part, caption=part) for part in say.split("|"))
    return Beat(
        id=own,
        item=item,
        part=1 if item else None,
        move=own.split(".")[-1],
        sentences=sentences,
        waits=waits,
    )


def strip(x: int, y: int, parts: int, shaded: int) -> tuple[Plain, ...]:
    """A strip of one whole in equal parts, the first ones hatched."""
    width = 36_000 // parts
    return tuple(
        Box(
            x=x + n * width,
            y=y,
            width=width,
            height=4800,
            fill="first" if n < shaded else None,
            hatched=n < shaded,
        )
        for n in range(parts)
    )


def _greeting() -> Page:
    return Page(
        title="Garden week",
        heading=words(3600, 16000, "Garden week", size=5400, bold=True),
        base=(
            group(
                "subtitle", "Adding fractions", words(3600, 25000, "Adding fractions", size=3200)
            ),
        ),
        builds=(),
        beats=("start",),
    )


def _question() -> Page:
    stem = words(
        3600,
        9000,
        "A rain barrel is 3/4 full. A shower adds",
        "another 1/5 of the barrel. What fraction",
        "of the barrel is full now?",
    )
    return Page(
        title="Question 1",
        heading=words(3600, 3000, "Question 1", size=3600, bold=True),
        base=(
            group("stem", "The question: A rain barrel is three fourths full.", stem),
            group(
                "answer boxes",
                "An empty box over an empty box",
                Box(x=70_000, y=24_000, width=8000, height=6000, dashed=True),
                Rule(x1=69_000, y1=31_000, x2=79_000, y2=31_000, weight=250),
                Box(x=70_000, y=32_000, width=8000, height=6000, rounded=True),
            ),
        ),
        builds=(
            Build(
                beat="rain-barrel.1.read",
                group=group(
                    "stem mark 1",
                    "The amount three fourths in a box",
                    Box(x=20_300, y=8800, width=5000, height=3500, line="pen", weight=250),
                ),
                effect="appear",
            ),
            Build(
                beat="rain-barrel.1.read",
                group=group(
                    "stem mark 2",
                    "“adds” underlined with dashes",
                    Rule(
                        x1=43_000,
                        y1=12_200,
                        x2=50_000,
                        y2=12_200,
                        weight=300,
                        colour="third",
                        dashed=True,
                    ),
                ),
                effect="wipe",
            ),
            Build(
                beat="rain-barrel.1.asked",
                group=group(
                    "pause sign",
                    "Pause the video and try it",
                    Dot(x=3600, y=25_000, width=4800, height=4800, fill=None, line="second"),
                    Rule(x1=5300, y1=26_200, x2=5300, y2=28_600, weight=500, colour="second"),
                    Rule(x1=6700, y1=26_200, x2=6700, y2=28_600, weight=500, colour="second"),
                    words(9600, 25_700, "Pause & try <it>"),
                ),
            ),
        ),
        beats=("rain-barrel.1.read", "rain-barrel.1.asked"),
    )


def _work() -> Page:
    line = group(
        "line 3/4 + 1/5",
        "Three fourths plus one fifth",
        stack(3600, 9000, "3", "4"),
        words(8000, 10_300, "+", size=3600),
        stack(12_000, 9000, "1", "5"),
        words(16_400, 10_300, "=", size=3600),
        stack(20_400, 9000, "15 + 4", "20"),
    )
    hop = Path(
        points=(
            (60_000, 14_000),
            (62_000, 10_000),
            (68_000, 9000),
            (74_000, 10_000),
            (76_000, 14_000),
        ),
        line="first",
        weight=300,
    )
    arrow = Path(
        points=((75_000, 13_000), (76_000, 14_000), (77_000, 13_000)),
        closed=True,
        fill="first",
        line="first",
    )
    return Page(
        title="Question 1: the work",
        heading=words(3600, 3000, "Question 1: the work", size=3600, bold=True),
        base=(
            group(
                "number line",
                "A number line from 0 to 1",
                Rule(x1=56_000, y1=14_000, x2=90_000, y2=14_000, weight=250),
                words(59_400, 15_000, "0", size=2000),
                words(87_400, 15_000, "1", size=2000),
            ),
        ),
        builds=(
            Build(beat="rain-barrel.1.line", group=line),
            Build(
                beat="rain-barrel.1.line",
                group=group("answer", "Nineteen twentieths", stack(34_000, 9000, "19", "20")),
            ),
            Build(
                beat="rain-barrel.1.strip",
                group=group("strip", "A strip in fifths, two shaded", *strip(3600, 22_000, 5, 2)),
            ),
            Build(
                beat="rain-barrel.1.strip",
                group=group("hop", "A hop from 0 to 19/20", hop, arrow),
                effect="wipe",
            ),
            Build(
                beat="rain-barrel.1.strip",
                group=group(
                    "backwards",
                    "A slant",
                    Rule(x1=52_000, y1=28_000, x2=44_000, y2=22_000, weight=300),
                ),
                effect="wipe",
            ),
            Build(
                beat="rain-barrel.1.strip",
                group=group(
                    "dot", "A point at 1", Dot(x=87_500, y=13_500, width=1000, height=1000)
                ),
                effect="appear",
            ),
            Build(
                beat="rain-barrel.1.close",
                group=group(
                    "takeaway",
                    "Pieces of one size can be counted together.",
                    words(
                        48_000,
                        32_000,
                        "Pieces of one size",
                        "can be counted together.",
                        align="centre",
                        colour="pen",
                    ),
                ),
            ),
        ),
        beats=("rain-barrel.1.line", "rain-barrel.1.strip", "rain-barrel.1.close"),
    )


def _closing() -> Page:
    return Page(
        title="That’s all",
        heading=words(3600, 16000, "That’s all", size=5400, bold=True),
        base=(),
        builds=(),
        beats=("close",),
    )


def sample() -> Lesson:
    """Four pages: greeting, question, work, closing."""
    beats = (
        beat("start", "Welcome to garden week.|Take a pencil & paper.", None),
        beat("rain-barrel.1.read", "A rain barrel is three fourths full.|A shower adds one fifth."),
        beat("rain-barrel.1.asked", "What are we asked?"),
        beat("rain-barrel.1.line", "Fifteen and four are nineteen."),
        beat("rain-barrel.1.strip", "Here is a strip in fifths."),
        beat("rain-barrel.1.close", "Pieces of one size can be counted together."),
        beat("close", "See you next time.", None),
    )
    return Lesson(
        review="garden-week",
        title="Garden week",
        grade=5,
        language="en",
        beats=beats,
        pages=(_greeting(), _question(), _work(), _closing()),
        chapters=(Chapter(title="Question 1", first_beat="rain-barrel.1.read"),),
    )


def times(lesson: Lesson, length: int = 7350) -> Timeline:
    """Every beat `length` ms long."""
    spans = {b.id: Span(n * length, (n + 1) * length) for n, b in enumerate(lesson.beats)}
    return Timeline(beats=spans, sentences={own: (span,) for own, span in spans.items()})
