"""Names of groups and their descriptions in words, for people who do not see the page.

Names are short and in symbols, and the same in every language: builds are known by them.
Descriptions say the quantities in words; their phrases are those of `shapes` in the language's
`labels.yaml`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from functools import lru_cache

from narrate.exact import caption, prose, spoken
from narrate.exact.tree import Blank, Decimal, Frac, Mixed, Piece, Whole, Writing
from narrate.items.item import Box
from narrate.lesson.shows import Multiples, StemMark
from narrate.lesson.templates import labels
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

Named = tuple[str, str]
"""A name and a description."""


@lru_cache(maxsize=8)
def _phrases(language: str) -> dict[str, str]:
    return labels("shapes", language)


def _said(name: str, language: str, /, **parts: str) -> str:
    return _phrases(language)[name].format(**parts)


def _listed(parts: Iterable[str], language: str) -> str:
    """Some things joined by the language's word for and."""
    return _phrases(language)["and"].join(parts)


def number(value: Fraction) -> Writing:
    """A number of a figure as it is written: whole, fraction below one, or mixed."""
    whole, rest = divmod(value.numerator, value.denominator)
    if rest == 0:
        return Whole(whole)
    if whole == 0:
        return Frac(rest, value.denominator)
    return Mixed(whole, rest, value.denominator)


def words(value: Fraction, language: str) -> str:
    """A number in words."""
    return spoken.speak(number(value), language)


def _amount(value: Fraction, language: str) -> str:
    """How much of a figure is shaded: three fourths, one whole, two wholes."""
    if value.denominator > 1:
        return words(value, language)
    return _said("whole" if value == 1 else "wholes", language, count=words(value, language))


def line(tree: Writing, language: str, *, struck: bool = False, note: str = "") -> Named:
    """A line of work, with the note that stands beside it."""
    work = spoken.speak(tree, language)
    work += f"; {prose.say_prose(note, language)}" if note else ""
    said = _said("wrong_line", language, work=work) if struck else work
    return f"line {caption.write(tree)}", said


def kept(trees: tuple[Writing, ...], language: str) -> Named:
    """The results that stay from earlier pages."""
    names = ", ".join(caption.write(tree) for tree in trees)
    work = "; ".join(spoken.speak(tree, language) for tree in trees)
    return f"kept {names}", _said("kept", language, work=work)


def mark(show: StemMark, phrase: str, language: str) -> Named:
    """A marked phrase of the stem."""
    said = _said(f"mark_{show.role}", language, phrase=phrase)
    return f"mark {show.role} “{_short(phrase)}”", said


def strike(letter: str, reason: tuple[Piece, ...], language: str) -> Named:
    """A struck choice."""
    said = _said("struck", language, letter=letter, reason=spoken.say(reason, language))
    return f"strike {letter}", said


def choose(letter: str, language: str) -> Named:
    """The right choice's ring."""
    return f"ring {letter}", _said("ringed", language, letter=letter)


def multiples(show: Multiples, language: str) -> Named:
    """A list of multiples."""
    listed = ", ".join(spoken.cardinal(value, language) for value in show.values)
    number = spoken.cardinal(show.of, language)
    return f"multiples of {show.of}", _said("multiples", language, number=number, listed=listed)


def common(shows: Sequence[Multiples], language: str) -> Named:
    """The rings around the last multiple of some lists."""
    last = shows[0].values[-1]
    of = _phrases(language)["and_of"].join(spoken.cardinal(show.of, language) for show in shows)
    said = _said("common", language, number=spoken.cardinal(last, language), listed=of)
    return f"ring {last} in multiples of {' and '.join(str(show.of) for show in shows)}", said


def boxes(kinds: tuple[Box, ...], unit: str, language: str) -> Named:
    """The empty answer boxes."""
    listed = _listed((_said(f"box_{kind}", language) for kind in kinds), language)
    phrase = "boxes_with_unit" if unit else "boxes"
    return "answer boxes", _said(phrase, language, listed=listed, unit=unit)


def filled(digits: tuple[str, ...], language: str) -> Named:
    """The filled boxes."""
    written = ", ".join(digit or _said("nothing", language) for digit in digits)
    name = f"answer {' '.join(digit for digit in digits if digit)}"
    return name, _said("filled", language, digits=written)


def layer(shown: Layer, language: str) -> Named:
    """A layer of a figure."""
    name, said = _layer(shown, language)
    return f"{shown.of}: {name}", said


def _layer(shown: Layer, language: str) -> Named:
    match shown:
        case Strip():
            return "strip", _strip(shown, language)
        case Bars(longer=longer, shorter=shorter):
            pair = {"longer": words(longer, language), "shorter": words(shorter, language)}
            return "two bars", _said("bars", language, **pair)
        case NumberLine():
            low, high = (shown.number(count) for count in (shown.low, shown.high))
            ends = {"low": spoken.speak(low, language), "high": spoken.speak(high, language)}
            name = f"number line {caption.write(low)} to {caption.write(high)}"
            return name, _said("number_line", language, **ends)
        case Shade(start=start, end=end, tone=tone):
            name = "rest" if tone == "rest" else f"{caption.write(number(end - start))} shaded"
            phrase = "left_empty" if tone == "rest" else "shaded"
            # where it ends may be the answer, so only what joins what is said
            phrase += "_joined" if start else ""
            return name, _said(phrase, language, amount=_amount(end - start, language))
        case ShadeEach(count=count, parts=parts):
            each = spoken.fraction_words(count, parts, language)
            return f"{count}/{parts} shaded in each piece", _said(
                "shaded_each", language, amount=each
            )
        case CrossOff(start=start, end=end):
            name = f"{caption.write(number(end - start))} crossed off"
            return name, _said("crossed_off", language, amount=_amount(end - start, language))
        case Cut(parts=parts, start=start, end=end):
            pieces = spoken.pieces_name(parts, language=language)
            if start is None or end is None:
                return f"cut in {parts}", _said("cut", language, pieces=pieces)
            amount = words(end - start, language)
            return f"cut in {parts}", _said("cut_stretch", language, amount=amount, pieces=pieces)
        case _:
            return _marked(shown, language)


def _marked(shown: Layer, language: str) -> Named:
    match shown:
        case Brace(label=Blank()):
            return "bracket ?", _said("bracket_unknown", language)
        case Brace(start=start, end=end, label=tree):
            ends = {"start": words(start, language), "end": words(end, language)}
            said = _said("bracket", language, label=spoken.speak(tree, language), **ends)
            return f"bracket {caption.write(tree)}", said
        case Stretch(start=start, end=None):
            said = _said("line_from", language, start=words(start, language))
            return f"from {caption.write(number(start))} on", said
        case Stretch(start=start, end=Fraction() as end):
            ends = {"start": words(start, language), "end": words(end, language)}
            return f"between {_ends(start, end)}", _said("stretch", language, **ends)
        case Point(at=at, label=tree):
            place = (
                spoken.speak(tree, language) if isinstance(tree, Decimal) else words(at, language)
            )
            return f"point {caption.write(tree)}", _said("point", language, at=place)
        case Jump(start=start, end=end, label=tree):
            ends = {"start": words(start, language), "end": words(end, language)}
            said = _said("hop", language, label=spoken.speak(tree, language), **ends)
            return f"hop {_ends(start, end)}", said
        case _:
            return "figure", _said("figure", language)


def _ends(start: Fraction, end: Fraction) -> str:
    return f"{caption.write(number(start))} and {caption.write(number(end))}"


def _strip(shown: Strip, language: str) -> str:
    one = shown.wholes == 1
    count = spoken.cardinal(shown.wholes, language)
    wholes = _said("whole" if one else "wholes", language, count=count)
    if shown.parts == 1:
        return _said("bar", language, wholes=wholes)
    pieces = spoken.pieces_name(shown.parts, language=language)
    return _said("strip", language, wholes=wholes, pieces=pieces)


def _short(phrase: str) -> str:
    return phrase if len(phrase) <= 30 else f"{phrase[:29]}…"
