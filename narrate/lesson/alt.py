"""Names of groups and their descriptions in words, for people who do not see the page.

Names are short and in symbols; descriptions say the quantities in words. All wording of pages
stands here, by language.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from narrate.exact import caption, spoken
from narrate.exact.tree import Blank, Frac, Mixed, Piece, Whole, Writing
from narrate.items.item import Box
from narrate.lesson.shows import Multiples, Role, StemMark
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

_ROLES: dict[Role, str] = {
    "amount": "an amount, boxed",
    "relationship": "how the amounts are related, dashed underline",
    "unknown": "what is asked, underlined",
    "condition": "a condition, underlined twice",
    "extra": "not needed, struck thinly",
}


def number(value: Fraction) -> Writing:
    """A number of a figure as it is written: whole, fraction below one, or mixed."""
    whole, rest = divmod(value.numerator, value.denominator)
    if rest == 0:
        return Whole(whole)
    if whole == 0:
        return Frac(rest, value.denominator)
    return Mixed(whole, rest, value.denominator)


def words(value: Fraction, language: str = "en") -> str:
    """A number in words."""
    return spoken.speak(number(value), language)


def line(tree: Writing, *, struck: bool = False) -> tuple[str, str]:
    """Name and description of a line of work."""
    spoken_line = spoken.speak(tree)
    said = f"a wrong line: {spoken_line}" if struck else spoken_line
    return f"line {caption.write(tree)}", said


def kept(trees: tuple[Writing, ...]) -> tuple[str, str]:
    """Name and description of the results that stay from earlier pages."""
    names = ", ".join(caption.write(tree) for tree in trees)
    return f"kept {names}", f"from before: {'; '.join(spoken.speak(tree) for tree in trees)}"


def mark(show: StemMark, phrase: str) -> tuple[str, str]:
    """Name and description of a marked phrase of the stem."""
    return f"mark {show.role} “{_short(phrase)}”", f"“{phrase}”: {_ROLES[show.role]}"


def strike(letter: str, reason: tuple[Piece, ...]) -> tuple[str, str]:
    """Name and description of a struck choice."""
    return f"strike {letter}", f"choice {letter} is struck: {spoken.say(reason)}"


def choose(letter: str) -> tuple[str, str]:
    """Name and description of the right choice's ring."""
    return f"ring {letter}", f"choice {letter} is ringed and ticked: it is right"


def multiples(show: Multiples) -> tuple[str, str]:
    """Name and description of a list of multiples."""
    listed = ", ".join(spoken.cardinal(value) for value in show.values)
    return f"multiples of {show.of}", f"multiples of {spoken.cardinal(show.of)}: {listed}"


def common(shows: Sequence[Multiples]) -> tuple[str, str]:
    """Name and description of the rings around the last multiple of some lists."""
    last = shows[0].values[-1]
    listed = " and of ".join(spoken.cardinal(show.of) for show in shows)
    said = f"{spoken.cardinal(last)} is ringed among the multiples of {listed}"
    return f"ring {last} in multiples of {' and '.join(str(show.of) for show in shows)}", said


def boxes(kinds: tuple[Box, ...], unit: str) -> tuple[str, str]:
    """Name and description of the empty answer boxes."""
    listed = " and ".join(f"one for the {kind}" for kind in kinds)
    return "answer boxes", f"empty answer boxes, {listed}" + (f", in {unit}" if unit else "")


def filled(digits: tuple[str, ...]) -> tuple[str, str]:
    """Name and description of the filled boxes."""
    written = ", ".join(digit or "nothing" for digit in digits)
    return f"answer {' '.join(digit for digit in digits if digit)}", f"the boxes hold {written}"


def layer(shown: Layer) -> tuple[str, str]:
    """Name and description of a layer of a figure."""
    name, said = _layer(shown)
    return f"{shown.of}: {name}", said


def _layer(shown: Layer) -> tuple[str, str]:
    match shown:
        case Strip(wholes=wholes, parts=parts):
            return "strip", _strip(wholes, parts)
        case Bars(longer=longer, shorter=shorter):
            said = f"two bars, {words(longer)} and {words(shorter)}; their difference is marked"
            return "two bars", said
        case NumberLine(low=low, high=high):
            ends = f"{spoken.cardinal(low)} to {spoken.cardinal(high)}"
            return f"number line {low} to {high}", f"a number line from {ends}"
        case Shade(start=start, end=end, tone=tone):
            name = "rest" if tone == "rest" else f"{caption.write(number(end - start))} shaded"
            said = "left empty" if tone == "rest" else "shaded"
            # where it ends may be the answer, so only what joins what is said
            return name, f"{words(end - start)} {said}{', joined on' if start else ''}"
        case CrossOff(start=start, end=end):
            size = end - start
            said = f"{words(size)} crossed off at the end of what is there"
            return f"{caption.write(number(size))} crossed off", said
        case Cut(parts=parts, start=start, end=end):
            if start is None or end is None:
                cut = "every whole"
            else:
                cut = f"the stretch of {words(end - start)}"
            return f"cut in {parts}", f"{cut} cut in {spoken.pieces_name(parts)}"
        case _:
            return _marked(shown)


def _marked(shown: Layer) -> tuple[str, str]:
    match shown:
        case Brace(label=Blank()):
            return "bracket ?", "a bracket marks the amount we look for with a question mark"
        case Brace(start=start, end=end, label=tree):
            ends = f"from {words(start)} to {words(end)}"
            said = f"a bracket {ends}, {spoken.speak(tree)}"
            return f"bracket {caption.write(tree)}", said
        case Stretch(start=start, end=None):
            said = f"the line from {words(start)} on marked"
            return f"from {caption.write(number(start))} on", said
        case Stretch(start=start, end=Fraction() as end):
            said = f"the stretch from {words(start)} to {words(end)} marked"
            return f"between {_ends(start, end)}", said
        case Point(at=at, label=tree):
            return f"point {caption.write(tree)}", f"a point at {words(at)}"
        case Jump(start=start, end=end, label=tree):
            said = f"a hop from {words(start)} to {words(end)}, {spoken.speak(tree)}"
            return f"hop {_ends(start, end)}", said
        case _:
            return "figure", "a figure"


def _ends(start: Fraction, end: Fraction) -> str:
    return f"{caption.write(number(start))} and {caption.write(number(end))}"


def _strip(wholes: int, parts: int) -> str:
    many = f"{spoken.cardinal(wholes)} whole{'s' if wholes > 1 else ''}"
    if parts == 1:
        return f"a bar of {many}, empty"
    return f"a strip of {many}, each cut in {spoken.pieces_name(parts)}, empty"


def _short(phrase: str) -> str:
    return phrase if len(phrase) <= 30 else f"{phrase[:29]}…"
