"""Parts told by hand, for looking at pages and testing them: every show and every form."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import cast

from narrate.exact.parser import parse
from narrate.exact.tree import Blank
from narrate.items.item import StripGiven
from narrate.lesson.lesson import Beat, Sentence
from narrate.lesson.shows import (
    Choose,
    Draw,
    FillBoxes,
    Line,
    Multiples,
    PauseSign,
    Role,
    Show,
    StemMark,
    Strike,
    Takeaway,
)
from narrate.lesson.view import ChoiceShown, PartView, Told
from narrate.solution.figures import (
    Bars,
    Brace,
    CrossOff,
    Cut,
    Jump,
    Layer,
    NumberLine,
    Point,
    Shade,
    Stretch,
    Strip,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """A part as printed and as told."""

    view: PartView
    told: tuple[Told, ...]


def told(item: str, *beats: tuple[str, Sequence[Show]]) -> tuple[Told, ...]:
    """Beats by name with what they show."""
    return tuple(
        Told(
            beat=Beat(
                id=f"{item}.1.{name}",
                item=item,
                part=1,
                move=name,
                sentences=(Sentence(say=name, caption=name),),
            ),
            shows=tuple(shows),
        )
        for name, shows in beats
    )


def mark(view: PartView, phrase: str, role: Role) -> StemMark:
    """The mark on the first place where `phrase` stands."""
    if phrase in view.ask:
        start = view.ask.index(phrase)
        return StemMark(source="ask", start=start, end=start + len(phrase), role=role)
    start = view.stimulus.index(phrase)
    return StemMark(source="stimulus", start=start, end=start + len(phrase), role=role)


def line(text: str, note: str = "", *, struck: bool = False) -> Line:
    return Line(tree=parse(text), note=note, struck=struck)


def choices(**texts: str) -> tuple[ChoiceShown, ...]:
    return tuple(ChoiceShown(letter=letter, text=text) for letter, text in texts.items())


def draw(*layers: Layer) -> list[Show]:
    return [cast(Show, Draw(layer)) for layer in layers]


PAUSE = PauseSign("Pause here and try it.")


def story() -> Sample:
    """One right choice in a story: bar, number line, multiples, strikes."""
    view = PartView(
        label="Question 1",
        ask="A rain barrel is 3/4 full. A shower adds another 1/5 of the barrel. "
        "What fraction of the barrel is full now?",
        choices=choices(A="4/9", B="9/10", C="19/20", D="4/20"),
    )
    less = ("less than ", parse("3/4"))
    bar = "barrel"
    return Sample(
        view=view,
        told=told(
            "rain-barrel",
            ("read", [PAUSE]),
            ("asked", [mark(view, "What fraction of the barrel is full now", "unknown")]),
            (
                "related",
                [
                    mark(view, "3/4", "amount"),
                    mark(view, "adds another 1/5", "amount"),
                    *draw(
                        Strip(of=bar, wholes=1, parts=1),
                        Shade(
                            of=bar,
                            start=Fraction(0),
                            end=Fraction(3, 4),
                            tone="first",
                            label=parse("3/4"),
                        ),
                        Shade(
                            of=bar,
                            start=Fraction(3, 4),
                            end=Fraction(19, 20),
                            tone="second",
                            label=parse("1/5"),
                        ),
                        Brace(of=bar, start=Fraction(0), end=Fraction(19, 20), label=Blank()),
                    ),
                    line("3/4 + 1/5"),
                ],
            ),
            (
                "estimate",
                draw(
                    NumberLine(of="line", low=0, high=1, parts=4),
                    Stretch(of="line", start=Fraction(3, 4), end=Fraction(1)),
                ),
            ),
            ("rule-out", [Strike(letter="A", reason=less), Strike(letter="D", reason=less)]),
            ("plan", []),
            (
                "multiples",
                [
                    Multiples(of=5, values=(5, 10, 15, 20)),
                    Multiples(of=4, values=(4, 8, 12, 16, 20)),
                ],
            ),
            (
                "rewrite",
                [*draw(Cut(of=bar, parts=20)), line("3/4 = (3 × 5)/(4 × 5) = 15/20")],
            ),
            ("rewrite-2", [line("1/5 = (1 × 4)/(5 × 4) = 4/20")]),
            ("join", [line("15/20 + 4/20 = 19/20")]),
            ("rule-out-2", [Strike(letter="B", reason=(parse("18/20"),))]),
            (
                "look-back",
                [
                    line("19/20 − 4/20 = 15/20"),
                    *draw(Point(of="line", at=Fraction(19, 20), label=parse("19/20"))),
                    Choose("C"),
                ],
            ),
            ("take-along", [Takeaway("Make the pieces one size, then count them.")]),
        ),
    )


def strip_part() -> Sample:
    """The second part of an item with a strip: boxes, cross off, two bars compared."""
    view = PartView(
        label="Question 2, part B",
        stimulus="The first bed got 2 1/5 kilograms of compost. The second got 7/10 kilogram.",
        ask="How much more did the first bed get?",
        boxes=("numerator", "denominator"),
        unit="kilogram",
        strip=StripGiven(wholes=3, parts=10),
    )
    strip = "strip"
    return Sample(
        view=view,
        told=told(
            "compost",
            ("read", [PAUSE]),
            (
                "asked",
                [mark(view, "How much more", "unknown"), mark(view, "2 1/5 kilograms", "amount")],
            ),
            (
                "related",
                [
                    mark(view, "7/10 kilogram", "amount"),
                    *draw(
                        Bars(
                            of="beds",
                            longer=Fraction(11, 5),
                            shorter=Fraction(7, 10),
                            longer_label=parse("2 1/5"),
                            shorter_label=parse("7/10"),
                        )
                    ),
                    line("2 1/5 − 7/10"),
                ],
            ),
            (
                "shade",
                [
                    *draw(
                        Strip(of=strip, wholes=3, parts=10),
                        Shade(
                            of=strip,
                            start=Fraction(0),
                            end=Fraction(22, 10),
                            tone="first",
                            label=parse("2 2/10"),
                        ),
                    ),
                    line("2 1/5 = 2 2/10 = 22/10"),
                ],
            ),
            (
                "cross-off",
                draw(
                    CrossOff(
                        of=strip, start=Fraction(15, 10), end=Fraction(22, 10), label=parse("7/10")
                    ),
                    Brace(of=strip, start=Fraction(0), end=Fraction(15, 10), label=Blank()),
                ),
            ),
            ("join", [line("22/10 − 7/10 = 15/10")]),
            ("fit", [FillBoxes(("15", "10"))]),
            ("look-back", [line("15/10 + 7/10 = 22/10", note="where we started")]),
            (
                "take-along",
                [Takeaway("On a strip that is cut already, take pieces off and count.")],
            ),
        ),
    )


def regroup() -> Sample:
    """Mixed numbers, three boxes, regrouping, hops on a number line."""
    view = PartView(
        label="Question 6",
        ask="A recipe for the harvest soup takes 5 1/6 cups of stock. Noor has poured in 2 3/4 "
        "cups. How many more cups of stock does the soup take?",
        boxes=("whole", "numerator", "denominator"),
        unit="cups",
    )
    return Sample(
        view=view,
        told=told(
            "soup",
            ("read", [PAUSE]),
            ("asked", [mark(view, "How many more cups of stock", "unknown")]),
            (
                "related",
                [
                    mark(view, "5 1/6 cups", "amount"),
                    mark(view, "has poured in", "relationship"),
                    mark(view, "2 3/4 cups", "amount"),
                    line("5 1/6 − 2 3/4"),
                ],
            ),
            (
                "estimate",
                draw(
                    NumberLine(of="line", low=0, high=6),
                    Stretch(of="line", start=Fraction(2), end=Fraction(3)),
                ),
            ),
            (
                "multiples",
                [
                    Multiples(of=6, values=(6, 12)),
                    Multiples(of=4, values=(4, 8, 12)),
                ],
            ),
            ("rewrite", [line("5 1/6 = 5 2/12")]),
            ("rewrite-2", [line("2 3/4 = 2 9/12")]),
            ("regroup", [line("5 2/12 = 4 14/12", note="one whole is 12 twelfths")]),
            ("subtract", [line("4 14/12 − 2 9/12 = 2 5/12")]),
            ("fit", [FillBoxes(("2", "5", "12"))]),
            (
                "look-back",
                [
                    *draw(
                        Point(of="line", at=Fraction(31, 6), label=parse("5 1/6")),
                        Point(of="line", at=Fraction(29, 12), label=parse("2 5/12")),
                        Jump(
                            of="line",
                            start=Fraction(31, 6),
                            end=Fraction(29, 12),
                            label=parse("−2 3/4"),
                        ),
                    ),
                ],
            ),
            ("take-along", [Takeaway("When there are too few pieces, cut one whole.")]),
        ),
    )


def select_all() -> Sample:
    """Select all of five expressions; the telling stops at the comparison."""
    view = PartView(
        label="Question 7",
        ask="Which expressions are equal to 2/3 + 1/6? Select all that apply.",
        choices=choices(A="4/6 + 1/6", B="3/9", C="5/6", D="8/12 + 2/12", E="2/6 + 1/6"),
    )
    return Sample(
        view=view,
        told=told(
            "equal",
            ("read", [PAUSE]),
            ("asked", [mark(view, "Select all that apply", "condition")]),
            ("multiples", [Multiples(of=6, values=(6,)), Multiples(of=3, values=(3, 6))]),
            ("rewrite", [line("2/3 = (2 × 2)/(3 × 2) = 4/6")]),
            ("join", [line("4/6 + 1/6 = 5/6"), Choose("A"), Choose("C")]),
            ("rule-out", [Strike(letter="B", reason=("adds the denominators",))]),
            (
                "rule-out-2",
                [Strike(letter="E", reason=(parse("2/6"), " is not ", parse("2/3")))],
            ),
            ("also", [line("8/12 + 2/12 = 10/12 = 5/6"), Choose("D")]),
            ("take-along", [Takeaway("Equal amounts can be cut in different pieces.")]),
        ),
    )


def long_stem() -> Sample:
    """Five sentences, four sentences to choose from, a sum of three amounts."""
    view = PartView(
        label="Question 9",
        stimulus="Three pupils weed the long bed behind the school kitchen. Ida weeds 1/3 of the "
        "bed before lunch. Tomas weeds another 2/5 of the bed after lunch. Wen fetches 12 crates "
        "from the shed for the weeds. The rest of the bed is left for Friday.",
        ask="Which statement about the part of the bed that is left for Friday is true?",
        choices=choices(
            A="It is 4/15 of the bed, which is less than the part that Ida weeds.",
            B="It is 11/15 of the bed, which is more than the part that Tomas weeds.",
            C="It is 3/8 of the bed, because one third and two fifths make three eighths.",
            D="It is 1/2 of the bed, because the two pupils share the work fairly between them.",
        ),
    )
    bed = "bed"
    return Sample(
        view=view,
        told=told(
            "weeding",
            ("read", [PAUSE]),
            ("asked", [mark(view, "the part of the bed that is left for Friday", "unknown")]),
            (
                "related",
                [
                    mark(view, "1/3 of the bed", "amount"),
                    mark(view, "2/5 of the bed", "amount"),
                    mark(view, "12", "extra"),
                    mark(view, "The rest of the bed", "relationship"),
                    *draw(
                        Strip(of=bed, wholes=1, parts=1),
                        Shade(
                            of=bed,
                            start=Fraction(0),
                            end=Fraction(1, 3),
                            tone="first",
                            label=parse("1/3"),
                        ),
                        Shade(
                            of=bed,
                            start=Fraction(1, 3),
                            end=Fraction(11, 15),
                            tone="second",
                            label=parse("2/5"),
                        ),
                        Brace(of=bed, start=Fraction(11, 15), end=Fraction(1), label=Blank()),
                    ),
                    line("1 − 1/3 − 2/5"),
                ],
            ),
            (
                "multiples",
                [
                    Multiples(of=3, values=(3, 6, 9, 12, 15)),
                    Multiples(of=5, values=(5, 10, 15)),
                ],
            ),
            ("rewrite", [*draw(Cut(of=bed, parts=15)), line("1/3 = 5/15"), line("2/5 = 6/15")]),
            ("subtract", [line("15/15 − 5/15 − 6/15 = 4/15")]),
            ("rule-out", [Strike(letter="B", reason=("that is the part weeded",))]),
            ("rule-out-2", [Strike(letter="C", reason=("adds the denominators",))]),
            ("rule-out-3", [Strike(letter="D", reason=("not ", parse("4/15")))]),
            ("choose", [Choose("A")]),
            ("look-back", [line("4/15 + 5/15 + 6/15 = 15/15")]),
            ("take-along", [Takeaway("What is left and what is used make one whole.")]),
        ),
    )


def what_went_wrong() -> Sample:
    """A pupil's answer is found to be wrong and put right."""
    view = PartView(
        label="Question 11",
        ask="Sami wrote 2/5 + 1/2 = 3/7. What went wrong, and what is the sum?",
        boxes=("numerator", "denominator"),
    )
    return Sample(
        view=view,
        told=told(
            "what-went-wrong",
            ("read", [PAUSE]),
            ("asked", [mark(view, "What went wrong", "unknown")]),
            ("claim", [line("2/5 + 1/2 = 3/7", struck=True)]),
            (
                "estimate",
                draw(
                    NumberLine(of="line", low=0, high=1, parts=2),
                    Point(of="line", at=Fraction(3, 7), label=parse("3/7")),
                    Point(of="line", at=Fraction(1, 2), label=parse("1/2")),
                ),
            ),
            ("rewrite", [line("2/5 = 4/10"), line("1/2 = 5/10")]),
            ("join", [line("4/10 + 5/10 = 9/10"), FillBoxes(("9", "10"))]),
            ("take-along", [Takeaway("Count pieces of one size; the size does not add.")]),
        ),
    )


def sum_of_three() -> Sample:
    """Long lines: three amounts, an improper sum, one line that must be broken."""
    view = PartView(
        label="Question 4",
        ask="What is 3/4 + 5/6 + 7/10?",
        boxes=("numerator", "denominator"),
    )
    return Sample(
        view=view,
        told=told(
            "three",
            ("read", [PAUSE]),
            ("line", [line("3/4 + 5/6 + 7/10")]),
            (
                "multiples",
                [
                    Multiples(of=10, values=(10, 20, 30, 40, 50, 60)),
                    Multiples(of=6, values=(6, 12, 18, 24, 30, 36, 42, 48, 54, 60)),
                    Multiples(
                        of=4, values=(4, 8, 12, 16, 20, 24, 28, 32, 36, 40, 44, 48, 52, 56, 60)
                    ),
                ],
            ),
            ("rewrite", [line("3/4 = (3 × 15)/(4 × 15) = 45/60")]),
            ("rewrite-2", [line("5/6 = (5 × 10)/(6 × 10) = 50/60")]),
            ("rewrite-3", [line("7/10 = (7 × 6)/(10 × 6) = 42/60")]),
            ("join", [line("3/4 + 5/6 + 7/10 = 45/60 + 50/60 + 42/60 = 137/60")]),
            ("fit", [FillBoxes(("137", "60"))]),
            ("take-along", [Takeaway("Three amounts, one size of pieces.")]),
        ),
    )


SAMPLES = {
    "story": story,
    "strip": strip_part,
    "regroup": regroup,
    "select-all": select_all,
    "long-stem": long_stem,
    "what-went-wrong": what_went_wrong,
    "three": sum_of_three,
}
