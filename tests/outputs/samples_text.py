"""A review made by hand, for the outputs that are text: two parts, a greeting and a closing.

It is written the way a lesson comes to an output, so that these tests depend on no other room.
"""

from __future__ import annotations

from narrate.lesson.lesson import Beat, Chapter, Lesson, Sentence
from narrate.lesson.marks import Box, Build, Group, Page, Text


def said(say: str, caption: str = "", pause: int = 500, *, stem: bool = False) -> Sentence:
    return Sentence(say=say, caption=caption or say, pause_ms=pause, stem=stem)


def beat(
    name: str,
    *sentences: Sentence,
    item: str | None = "rain-barrel",
    appears: tuple[str, ...] = (),
    waits: bool = True,
) -> Beat:
    return Beat(
        id=f"{item}.1.{name}" if item else name,
        item=item,
        part=1 if item else None,
        move=name,
        sentences=sentences,
        appears=appears,
        waits=waits,
    )


def page(title: str, beats: tuple[Beat, ...]) -> Page:
    builds = tuple(
        Build(beat=one.id, group=group(f"{one.move} {number}", words))
        for one in beats
        for number, words in enumerate(one.appears, start=1)
    )
    heading = Text(x=6_000, y=3_000, width=30_000, height=4_000, lines=(title,), size=2_800,
                   leading=3_400)  # fmt: skip
    ids = tuple(one.id for one in beats)
    return Page(title=title, heading=heading, base=(), builds=builds, beats=ids)


def group(name: str, words: str) -> Group:
    mark = Box(x=6_000, y=10_000, width=20_000, height=6_000)
    return Group(name=name, alt=words, marks=(mark,))


GREETING = beat(
    "greeting",
    said("Hello, and welcome back."),
    said("Here's our garden week, question by question.", pause=1_500),
    item=None,
    waits=False,
)
READ = beat(
    "read",
    said("Question one.", "Question 1."),
    said("A rain barrel is three fourths full.", "A rain barrel is 3/4 full.", stem=True),
    said(
        "A shower adds another one fifth of the barrel.",
        "A shower adds another 1/5 of the barrel.",
        stem=True,
    ),
    said("What fraction of the barrel is full now?", stem=True),
    said("Pause here and try it.", pause=5_000),
    appears=("the sign to pause",),
    waits=False,
)
ASKED = beat(
    "asked",
    said("What are we looking for?", pause=3_000),
    said("How full the barrel is after the rain.", pause=1_000),
    appears=("the question underlined: the unknown",),
)
RELATED = beat(
    "related",
    said(
        "The rain joins what's already there, so we add: three fourths plus one fifth.",
        "The rain joins what's already there, so we add: 3/4 + 1/5.",
        1_500,
    ),
    appears=("3/4 boxed: an amount", "1/5 boxed: an amount", "a bar, 3/4 shaded, 1/5 joined on"),
)
REWRITE = beat(
    "rewrite",
    said(
        "Three fourths equals three times five over four times five, and that equals fifteen "
        "twentieths.",
        "3/4 = (3 × 5)/(4 × 5), and that = 15/20.",
    ),
    said("Cut each fifth into four."),
    said("One piece becomes four twentieths.", "1 piece becomes 4/20.", 1_000),
    appears=("3/4 = (3 × 5)/(4 × 5) = 15/20", "1/5 = (1 × 4)/(5 × 4) = 4/20"),
)
JOIN = beat(
    "join",
    said(
        "Fifteen twentieths plus four twentieths equals nineteen twentieths.",
        "15/20 + 4/20 = 19/20.",
    ),
    said("They're still twentieths.", pause=1_000),
    said(
        "So A and D are out: four ninths and four twentieths are both less than three fourths.",
        "So A and D are out: 4/9 and 4/20 are both < 3/4.",
        1_000,
    ),
    appears=("15/20 + 4/20 = 19/20", "A and D struck: less than 3/4"),
)
COMPOST = beat(
    "read",
    said("Question two, part A.", "Question 2, part A."),
    said(
        "The first bed got two and one fifth kilograms of compost & the second got seven tenths "
        "kilogram.",
        "The first bed got 2 1/5 kilograms of compost & the second got 7/10 kilogram.",
        stem=True,
    ),
    said(
        "How many kilograms of compost were used on both beds, if nothing was left over in the "
        "cart at the end of the day?",
        pause=5_000,
        stem=True,
    ),
    item="compost",
    appears=("the strip of 3 wholes",),
    waits=False,
)
COUNT = beat(
    "count",
    said(
        "Two and one fifth plus seven tenths equals twenty-two tenths plus seven tenths.",
        "2 1/5 + 7/10 = 22/10 + 7/10.",
        1_000,
    ),
    said("That's twenty-nine tenths: two and nine tenths.", "That's 29/10: 2 9/10."),
    item="compost",
    appears=("29 tenths shaded", "the boxes filled: 2, 9, 10"),
)
CLOSING = beat(
    "closing", said("Try them again tomorrow, without me.", pause=1_000), item=None, waits=False
)

BEATS = (GREETING, READ, ASKED, RELATED, REWRITE, JOIN, COMPOST, COUNT, CLOSING)

LESSON = Lesson(
    review="garden-week",
    title="Garden week <& kitchen>",
    grade=5,
    language="en",
    beats=BEATS,
    pages=(
        page("Garden week", (GREETING,)),
        page("Question 1", (READ, ASKED, RELATED)),
        page("Question 1: the work", (REWRITE, JOIN)),
        page("Question 2, part A", (COMPOST, COUNT, CLOSING)),
    ),
    chapters=(
        Chapter(title="Welcome", first_beat=GREETING.id),
        Chapter(title="Question 1", first_beat=READ.id, standard="5.NF.A.2"),
        Chapter(title="Question 2 <A> & more", first_beat=COMPOST.id, standard="5.NF.A.2"),
    ),
)
