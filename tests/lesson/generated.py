"""Parts made up at random: any mix of shows that a lesson could ask for, and worse."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from narrate.exact.caption import write
from narrate.exact.tree import Expr, Frac, Mixed, Op, Over, Piece, Relation, Whole, Writing
from narrate.items.item import Box, StripGiven
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
from narrate.lesson.view import ChoiceShown, PartView
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
    ShadeEach,
    Stretch,
    Strip,
)
from tests.lesson.samples import Sample, told

_SENTENCES = (
    "The first bed got more compost than the second one because Noor and Wen carried 3/4 of the "
    "sacks from the shed, 2 1/5 kilograms each; the rest waits (under a roof) for Friday."
)
WORDS = _SENTENCES.split()


def fractions(most: int = 12) -> st.SearchStrategy[Fraction]:
    return st.builds(Fraction, st.integers(1, most), st.integers(1, most))


def numerals(most: int = 99) -> st.SearchStrategy[Expr]:
    small = st.integers(1, most)
    return st.one_of(
        st.builds(Whole, small),
        st.builds(Frac, small, small),
        st.builds(Mixed, small, small, small),
        st.builds(
            Over,
            st.builds(Op, st.just("×"), st.builds(Whole, small), st.builds(Whole, small)),
            st.builds(Op, st.just("×"), st.builds(Whole, small), st.builds(Whole, small)),
        ),
    )


@st.composite
def sums(draw: st.DrawFn, most: int = 99, terms: int = 4) -> Expr:
    tree = draw(numerals(most))
    for _ in range(draw(st.integers(0, terms - 1))):
        tree = Op(draw(st.sampled_from("+−")), tree, draw(numerals(most)))
    return tree


@st.composite
def equations(draw: st.DrawFn, most: int = 99) -> Writing:
    sides = draw(st.lists(sums(most), min_size=1, max_size=3))
    return Relation("=", tuple(sides)) if len(sides) > 1 else sides[0]


@st.composite
def prose(draw: st.DrawFn, least: int = 3, most: int = 40) -> str:
    words = draw(st.lists(st.sampled_from(WORDS), min_size=least, max_size=most))
    return " ".join(words) + draw(st.sampled_from((".", "?")))


@st.composite
def strips(draw: st.DrawFn, name: str) -> list[Layer]:
    wholes, parts = draw(st.integers(1, 12)), draw(st.integers(1, 100))
    at = st.integers(0, wholes * parts).map(lambda n: Fraction(n, parts))
    layers: list[Layer] = [Strip(of=name, wholes=wholes, parts=parts)]
    for kind in draw(st.lists(st.sampled_from("scxbe"), max_size=4)):
        start, end = sorted((draw(at), draw(at)))
        if start == end:
            continue
        label = draw(numerals(30))
        tone = draw(st.sampled_from(("first", "second", "third", "rest")))
        match kind:
            case "s":
                layers.append(Shade(of=name, start=start, end=end, tone=tone, label=label))  # type: ignore[arg-type]
            case "c":
                layers.append(Cut(of=name, parts=parts * draw(st.integers(2, 4))))
            case "e":
                size = Fraction(1, parts)
                each = ShadeEach(
                    of=name,
                    pieces=wholes,
                    size=size,
                    count=1,
                    parts=parts * 2,
                    tone=tone,  # type: ignore[arg-type]
                )
                layers.append(each)
            case "x":
                layers.append(CrossOff(of=name, start=start, end=end, label=label))
            case _:
                layers.append(Brace(of=name, start=start, end=end, label=label))
    return layers


@st.composite
def number_lines(draw: st.DrawFn, name: str) -> list[Layer]:
    low = draw(st.integers(0, 10))
    high, parts = low + draw(st.integers(1, 10)), draw(st.integers(1, 6))
    at = st.integers(0, 60).map(lambda n: low + Fraction(n * (high - low), 60))
    layers: list[Layer] = [NumberLine(of=name, low=low, high=high, parts=parts)]
    for kind in draw(st.lists(st.sampled_from("spj"), max_size=4)):
        start, end = draw(at), draw(at)
        if start == end:
            continue
        label = draw(numerals(30))
        match kind:
            case "s":
                upper = draw(st.sampled_from([max(start, end), None]))
                layers.append(Stretch(of=name, start=min(start, end), end=upper))
            case "p":
                layers.append(Point(of=name, at=start, label=label))
            case _:
                layers.append(Jump(of=name, start=start, end=end, label=label))
    return layers


@st.composite
def bars(draw: st.DrawFn, name: str) -> list[Layer]:
    shorter, longer = sorted((draw(fractions()), draw(fractions())))
    labels = draw(numerals(30)), draw(numerals(30))
    return [
        Bars(
            of=name,
            longer=longer,
            shorter=shorter,
            longer_label=labels[0],
            shorter_label=labels[1],
        )
    ]


@st.composite
def views(draw: st.DrawFn) -> PartView:
    choices: tuple[ChoiceShown, ...] = ()
    boxes: tuple[Box, ...] = ()
    if draw(st.booleans()):
        text = st.one_of(sums(terms=3).map(write), prose(4, 15))
        texts = draw(st.lists(text, min_size=2, max_size=6))
        choices = tuple(
            ChoiceShown(letter=letter, text=each)
            for letter, each in zip("ABCDEF", texts, strict=False)
        )
    else:
        kinds: tuple[tuple[Box, ...], ...] = (
            ("number",),
            ("numerator", "denominator"),
            ("whole", "numerator", "denominator"),
        )
        boxes = draw(st.sampled_from(kinds))
    return PartView(
        label=draw(st.sampled_from(("Question 1", "Question 12, part B"))),
        stimulus=draw(st.one_of(st.just(""), prose(5, 60))),
        ask=draw(prose(3, 40)),
        choices=choices,
        boxes=boxes,
        unit=draw(st.sampled_from(("", "kilograms", "cups of stock"))),
        strip=draw(st.sampled_from((None, StripGiven(wholes=3, parts=10)))),
    )


@st.composite
def stem_marks(draw: st.DrawFn, view: PartView) -> StemMark:
    source = "stimulus" if view.stimulus and draw(st.booleans()) else "ask"
    text = view.stimulus if source == "stimulus" else view.ask
    start = draw(st.integers(0, len(text) - 2))
    role: Role = draw(st.sampled_from(("amount", "relationship", "unknown", "condition", "extra")))
    end = draw(st.integers(start + 1, min(len(text), start + 30)))
    return StemMark(source=source, start=start, end=end, role=role)  # type: ignore[arg-type]


@st.composite
def parts(draw: st.DrawFn) -> Sample:
    """A part with its beats; figures come layer by layer, choices go one by one."""
    view = draw(views())
    beats: list[tuple[str, list[Show]]] = [
        ("read", [PauseSign("Pause here and try it.")]),
        ("asked", [draw(stem_marks(view))]),
    ]
    layers = [
        *draw(st.one_of(st.just([]), strips("one"), bars("one"))),
        *draw(st.one_of(st.just([]), number_lines("two"), strips("two"))),
    ]
    shows: list[Show] = [Draw(layer) for layer in layers]
    for tree in draw(st.lists(equations(), max_size=6)):
        note = draw(st.sampled_from(("", "", "one whole is twelve twelfths")))
        shows.insert(
            draw(st.integers(0, len(shows))), Line(tree=tree, note=note, struck=len(shows) % 7 == 3)
        )
    for of in draw(st.lists(st.integers(2, 12), max_size=3, unique=True)):
        values = tuple(of * n for n in range(1, draw(st.integers(2, 13))))
        shows.insert(draw(st.integers(0, len(shows))), Multiples(of=of, values=values))
    shows += [Strike(letter=choice.letter, reason=draw(reasons())) for choice in view.choices[1:]]
    if view.choices:
        shows.append(Choose(view.choices[0].letter))
    if view.boxes:
        shows.append(FillBoxes(tuple(str(draw(st.integers(0, 9999))) for _ in view.boxes)))
    beats += [(f"beat-{number}", [show]) for number, show in enumerate(shows)]
    beats.append(("take-along", [Takeaway(draw(prose(4, 14)))]))
    return Sample(view=view, told=told("generated", *beats))


@st.composite
def reasons(draw: st.DrawFn) -> tuple[Piece, ...]:
    return draw(
        st.one_of(
            st.tuples(st.just("less than "), numerals()),
            st.tuples(st.just("adds the denominators")),
            st.tuples(numerals(), st.just(" is not "), numerals()),
        )
    )
