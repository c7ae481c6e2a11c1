"""What a single text may hold: characters, numbers, names, choices.

A `Flaw` says what is wrong with a text, what would be right, and at which character.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import islice

from narrate.errors import ExactError
from narrate.exact.measures import two_units
from narrate.exact.parser import parse
from narrate.exact.tree import (
    Decimal,
    Frac,
    Mixed,
    Over,
    Relation,
    Whole,
    WithRest,
    Writing,
    value,
    walk,
)
from narrate.items.item import Choice
from narrate.items.spelled import spelled

MAX_DIGITS = 12

# Characters that have no place in a text: XML 1.0 (section 2.2) shuts most of them out of a deck,
# and the rest break lines or end captions early. Written as escapes, as they cannot be seen.
_UNWANTED = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufdd0-\ufdef\ufeff\ufffe\uffff]"
    "|["
    + "".join(
        f"{chr(plane * 0x10000 + 0xFFFE)}{chr(plane * 0x10000 + 0xFFFF)}" for plane in range(1, 17)
    )
    + "]"
)
_NUMBER = re.compile(r"\d(?:[\d,]*\d)?(?:\.\d+)?")
_OVER_ZERO = re.compile(r"\d[ \t]*[/⁄∕][ \t]*(0+)(?![\d.,]*\d)")
_DOLLARS = re.compile(r"\$ ?(?P<number>[0-9][0-9,]*(?:\.[0-9]+)?)")
_QUANTITY = re.compile(
    r"(?P<number>[−-]?\d[\d,]*(?:\.\d+|[ ]*[/⁄]\s*\d+|[ ]+\d+[ ]*[/⁄][ ]*\d+)?)[ ]+"
    r"(?P<unit>[^\W\d_][^\d=+×÷<>]{0,59}(?<!\^)(?:\^ ?[23])?)"
)
PERCENT = "percent"
"""The unit of a choice that is a percent."""
_PERCENT = re.compile(r"(?P<number>\d[\d,]*(?:\.\d+)?) ?(?:%|percent)")
_WITH_REST = re.compile(
    r"(?P<full>\d[\d,]*) ?(?:[Rr]\.?|(?:with )?(?:a )?(?:remainder|rem\.?)(?: of)?) ?"
    r"(?P<rest>\d[\d,]*)"
)
_DEGREES = re.compile(r"(?P<number>[−–-]?\d[\d,]*(?:\.\d+)?) ?°(?: ?[CF])?")
_WORD = re.compile(r"[^\W\d_]{2,}")
_PAIR = re.compile(r"[−-]?\d[\d,]*(?:[./]\d+)? and [−-]?\d[\d,]*(?:[./]\d+)?")
_RATIO = re.compile(r"\d{1,3} ?(?::|to) ?\d{1,3}")
_SIGN = re.compile(r"[<>=≤≥+×÷−-]")
_PROPERTY = re.compile(
    r"(?:the )?(?:associative|commutative|distributive|identity|zero)(?: property)?"
    r"(?: (?:of|for) (?:addition|multiplication|zero))?\.?",
    re.IGNORECASE,
)
_TIME = re.compile(r"\d{1,2}(?::\d\d)? ?[ap]\.? ?m\.?|\d{1,2}:\d\d", re.IGNORECASE)
_LIST = re.compile(
    r"[−-]?[$\d./⁄ %]*\d[$\d./⁄ %]*(?:(?:, |; |, and )[−-]?[$\d./⁄ %]*\d[$\d./⁄ %]*)+"
)
_RULE = re.compile(r"(?:add|subtract|multiply by|divide by|times|plus|minus) \d+\.?", re.IGNORECASE)
_STEP = re.compile(
    r"(?:(?:add|subtract) [\d.,/]+ (?:to|from)|multiply|divide) both sides(?: of the equation)?"
    r"(?: by [\d.,/]+)?\.?",
    re.IGNORECASE,
)
_ANGLE = re.compile(r"(?:an? )?(?:acute|right|obtuse|straight|reflex)(?: angle)?\.?", re.IGNORECASE)
_SETTLED = (_ANGLE, _STEP, _TIME, _LIST, _PAIR, _SIGN, _RATIO, _PROPERTY, _RULE)
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,63}")
# Microsoft, "Naming Files, Paths, and Namespaces": names a Windows disk keeps for devices.
_DEVICE = re.compile(r"con|prn|aux|nul|com\d|lpt\d", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Flaw:
    """What is wrong with a text and what would be right; `offset` counts characters from 0."""

    wrong: str
    right: str
    offset: int = 0


def unwanted(text: str, most: int) -> list[Flaw]:
    """The first `most` characters that may not stand in a text."""
    return [_unwanted(match) for match in islice(_UNWANTED.finditer(text), most)]


def _unwanted(match: re.Match[str]) -> Flaw:
    character = match[0]
    kinds = {"Cc": "the control character", "Cs": "half of a character,", "Cn": "the non-character"}
    kind = kinds.get(unicodedata.category(character), "the invisible character")
    return Flaw(f"{kind} U+{ord(character):04X} stands here", "remove it", match.start())


def flaw(text: str) -> Flaw | None:
    """The first thing no text may hold: unwanted characters, giant numbers, a zero denominator."""
    for match in _UNWANTED.finditer(text):
        return _unwanted(match)
    for match in _NUMBER.finditer(text):
        digits = sum(character.isdigit() for character in match[0])
        if digits > MAX_DIGITS:
            return Flaw(
                f"a number of {digits} digits", f"use at most {MAX_DIGITS} digits", match.start()
            )
    for match in _OVER_ZERO.finditer(text):
        return Flaw("a denominator is zero", "write a denominator of 1 or more", match.start(1))
    return None


def clean(text: str) -> str:
    """The text in composed characters (NFC), every run of white space one space."""
    return " ".join(unicodedata.normalize("NFC", text).split())


def name_flaw(name: str, what: str) -> Flaw | None:
    """Why a name cannot be that of a file or folder on every system; `what` is what it names."""
    if not _NAME.fullmatch(name):
        return Flaw(
            f'{what} "{shorten(name)}" cannot name files',
            "use letters a to z, digits, - and _, at most 64, a letter or digit first",
        )
    if _DEVICE.fullmatch(name):
        return Flaw(f'{what} "{name}" is reserved on Windows', "choose another name")
    return None


@lru_cache(maxsize=4096)  # a text is read when it is checked and again when its item is built
def mathematics(text: str) -> Writing:
    """The expression or relation a text stands for. Raises ExactError with the column."""
    tree = parse(text)
    for node in walk(tree):
        match node:
            case Frac(denominator=0) | Mixed(denominator=0):
                raise ExactError("a denominator is zero", 1)
            case Over(bottom=bottom):
                _refuse_zero(bottom)
            case _:
                pass
    return tree


def _refuse_zero(bottom: Writing) -> None:
    try:
        zero = not isinstance(bottom, Relation) and value(bottom) == 0
    except ExactError:  # a blank: it may be anything
        return
    if zero:
        raise ExactError("a denominator is zero", 1)


def mathematics_flaw(text: str) -> Flaw | None:
    """Why a text is no expression or equation."""
    try:
        mathematics(text)
    except ExactError as error:
        return _not_exact(text, error)
    return None


def _not_exact(text: str, error: ExactError) -> Flaw:
    return Flaw(
        f'"{shorten(text)}" is no number or expression ({error.message})',
        "write one such as 3/4, 2 1/5 or 3/4 + 1/5",
        max(error.column - 1, 0),
    )


def choice_flaw(text: str, *, keyed: bool) -> Flaw | None:
    """Why a text cannot be a choice; `keyed` says that the item declares its key."""
    try:
        read_choice("A", text, keyed=keyed)
    except ExactError as error:
        if not _WORD.search(text):
            return _not_exact(text, error)
        return Flaw(
            f'choice "{shorten(text)}" is no number or expression',
            "write one; where choices are sentences, declare the key, and tell the item with told: "
            "if its words are not read",
        )
    return None


def unread_sort(text: str) -> str:
    """What a choice is that is neither number nor sentence, "" where it is one of them."""
    if _TIME.fullmatch(text):
        return "times of day"
    return "lists of numbers" if _LIST.fullmatch(text) else ""


def read_choice(letter: str, text: str, *, keyed: bool) -> Choice:
    """A choice with its tree; a number may be followed by a unit of words or %, or be dollars.

    Sentences, times of day and lists are choices only where the key is declared: nothing else tells
    which is right.
    Raises ExactError.
    """
    try:
        return Choice(letter=letter, text=text, tree=mathematics(text))
    except ExactError:
        if dollars := _DOLLARS.fullmatch(text):
            return Choice(letter=letter, text=text, tree=mathematics(dollars["number"]))
        if percent := _PERCENT.fullmatch(text):
            tree = mathematics(percent["number"])
            return Choice(letter=letter, text=text, tree=tree, unit=PERCENT)
        if found := _WITH_REST.fullmatch(text):
            full, rest = (int(found[name].replace(",", "")) for name in ("full", "rest"))
            return Choice(letter=letter, text=text, tree=WithRest(full, rest))
        if (said := spelled(text)) is not None:
            return Choice(letter=letter, text=text, tree=said)
        if degrees := _DEGREES.fullmatch(text):
            tree = mathematics(degrees["number"])
            return Choice(letter=letter, text=text, tree=tree, unit="degrees")
        if quantity := _QUANTITY.fullmatch(text):
            tree = mathematics(quantity["number"])
            return Choice(letter=letter, text=text, tree=tree, unit=quantity["unit"])
        if keyed and (_WORD.search(text) or unread_sort(text)):
            return Choice(letter=letter, text=text, tree=None)
        if times_letter(text) and not _WORD.search(text):
            return Choice(letter=letter, text=text, tree=mathematics(with_times(text)))
        if (work := told_work(text)) is not None:
            return Choice(letter=letter, text=text, tree=work)
        if settled_by_question(text):
            return Choice(letter=letter, text=text, tree=None)
        raise


def settled_by_question(text: str) -> bool:
    """Whether a choice is no number, and still one that the words of a question may settle.

    A list of numbers, two numbers, a sign to compare with, the name of a property, an amount in two
    units, a time of day.
    """
    two = two_units(text)
    return any(pattern.fullmatch(text) for pattern in _SETTLED) or (
        two is not None and two[1] == len(text)
    )


def of_one(percent: Choice) -> Choice:
    """A percent beside other numbers, as the decimal that it stands for: 60% is 0.60."""
    match percent.tree:
        case Whole(number):
            whole, digits = str(number // 100), f"{number % 100:02d}"
        case Decimal(whole, places):
            digits = f"{whole or '0':0>3}"
            whole, digits = digits[:-2], digits[-2:] + places
        case _:
            return percent
    return replace(percent, tree=Decimal(whole, digits), unit="")


_TIMES_LETTER = re.compile(r"(?<=[0-9)])(?=[a-z](?![a-z]))|(?<=[a-z])(?=\()")


def times_letter(text: str) -> bool:
    """Whether a choice multiplies by a letter and writes no sign for it: 6p."""
    return _TIMES_LETTER.search(text) is not None


def with_times(text: str) -> str:
    """A choice whose number times a letter has no sign, with it: 15 + 20h is 15 + 20 × h."""
    return _TIMES_LETTER.sub(" × ", text)


_TOLD = (
    (r"subtract (.+) from (.+)", "{1} − {0}"),
    (r"take (.+?) (?:away )?from (.+)", "{1} − {0}"),
    (r"add (.+) (?:and|to) (.+)", "{0} + {1}"),
    (r"multiply (.+) (?:and|by|times) (.+)", "{0} × {1}"),
    (r"divide (.+) by (.+)", "{0} ÷ {1}"),
)


def told_work(text: str) -> Writing | None:
    """The work that a choice tells in words or in dollars: divide 180 by 20, $4 + $3."""
    plain = re.sub(r"\$(?=[\d.])", "", text.strip().rstrip("."))
    for pattern, signs in _TOLD:
        if found := re.fullmatch(pattern, plain, re.IGNORECASE):
            plain = signs.format(*found.groups())
            break
    try:
        return mathematics(plain)
    except ExactError:
        return None


def shorten(text: str) -> str:
    """A text short and plain enough to stand in a message of one line."""
    text = clean("".join(c if c.isprintable() else " " for c in text))
    return text if len(text) <= 40 else f"{text[:39]}…"
