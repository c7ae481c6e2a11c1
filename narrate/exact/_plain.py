"""Numbers and abbreviations in plain words, spoken: times, money, units, whatever digit is left."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from narrate.exact._language import Language, Unit
from narrate.exact._scanner import GLYPHS, MAX_DIGITS
from narrate.exact.spoken import fraction_words
from narrate.exact.tree import Decimal, Frac, Relation, Whole, Writing

SENTENCE_END = r"(?=[\"'”’)\]]*(?:\s*$|\s+[\"'“‘(]*[A-Z]))"
"""What follows a full stop that ends a sentence."""

_HALF = rf"[apAP]\.[mM](?:\.(?!{SENTENCE_END}))?|[apAP][mM](?!\w)"

YEAR = r"""(?:(?<=\bIn\ )|(?<=[Ss]ince\ )|(?<=\byear\ )|(?<=\b[Ii]n\ May\ )|(?<=\b[Ii]n\ June\ ))
    (?:1[5-9]|20)\d\d
    (?=[.?!]?\s*$|,\s|\s(?:the|a|an|there|this|he|she|it|they|we|his|her|their|and)\b)
    (?!.*\b(?:digit|place|value|number)\b)"""
"""A year (verbose), not an amount: In 2026 the class ..., but not: In 1820, which digit."""

# What is said in another way than it is printed. Of two that fit, the first one counts.
_SAID = re.compile(
    rf"""
    (?P<clock>    (?<![\w:])\d{{1,2}}:[0-5]\d(?![\d:])(?:\s*(?:{_HALF}))? )
  | (?P<half>     (?<!\w)[apAP]\.[mM](?:\.(?!{SENTENCE_END}))? )
  | (?P<ratio>    (?<![\d:])\d+:\d+(?![\d:]) )
  | (?P<ordinal>  (?<!\w)\d+(?:st|nd|rd|th)(?!\w) )
  | (?P<fraction> (?<![\d./⁄∕])\d+[/⁄∕]0*[1-9]\d*(?!\w|[./⁄∕]\d) )
  | (?P<span>     (?<![\d–-])\d+[-–]\d+(?![\d–-]) )
  | (?P<year>     {YEAR} )
  | (?P<whole>    [0-9]{{1,3}}(?:,[0-9]{{3}})+(?!\d)|\d+ )
  | (?P<point>    (?<=\d)\.(?=\d) )
  | (?P<dash>     (?<=\d)[-–](?=\d) )
  | (?P<over>     (?<=□)[/⁄∕](?=\d)|(?<=[\d□])[/⁄∕](?=□) )
  | (?P<slash>    (?<=\d)[/⁄∕](?=\d) )
  | (?P<symbol>   (?<!\S)[+=<>−×÷≠≤≥≈](?!\S) )
  | (?P<sign>     [^\x00-\x7f] )
    """,
    re.VERBOSE,
)
_NOT_DIGITS = re.compile(r"\D+")


def plain(text: str, words: Language) -> str:
    """Words of an item as spoken: no digit is left in them, all else stays as it is."""
    return _SAID.sub(lambda found: _spaced(found, _say(found, words)), text)


def _say(found: re.Match[str], words: Language) -> str:
    kind = found.lastgroup or "sign"
    return _RULES[kind](found.group(), words)


def _spaced(found: re.Match[str], said: str) -> str:
    """Spoken words never grow together with letters beside them: `3D` is "three D"."""
    if said == found.group():
        return said
    before = found.string[max(found.start() - 1, 0) : found.start()]
    after = found.string[found.end() : found.end() + 1]
    return f"{' ' * _is_word(before)}{said}{' ' * after.isalpha()}"


def _is_word(character: str) -> bool:
    return character.isalnum() or character == "□"


def _clock(text: str, words: Language) -> str:
    hour, minute = (int(part) for part in _NOT_DIGITS.split(text)[:2])
    half = re.search(r"[ap]", text.lower())
    return words.clock(hour, minute, half.group() if half else "")


def _half(text: str, words: Language) -> str:
    return words.half_day.format(text[0].upper())


def _pair(text: str, between: str, words: Language) -> str:
    first, second = (_whole(part, words) for part in _NOT_DIGITS.split(text))
    return f"{first} {between} {second}"


def _ordinal(text: str, words: Language) -> str:
    digits = text[:-2]
    return words.ordinal(int(digits)) if len(digits) <= MAX_DIGITS else _whole(digits, words)


def _fraction(text: str, words: Language) -> str:
    parts = _NOT_DIGITS.split(text)
    if max(map(len, parts)) > MAX_DIGITS:
        return _pair(text, words.over, words)
    return fraction_words(int(parts[0]), int(parts[1]), words.code)


def _whole(text: str, words: Language) -> str:
    digits = text.replace(",", "")
    if len(digits) > MAX_DIGITS or (len(digits) > 1 and int(digits[0]) == 0):
        return _one_by_one(digits, words)
    return words.cardinal(int(digits))


def _one_by_one(digits: str, words: Language) -> str:
    return " ".join(words.cardinal(int(digit)) for digit in digits)


def _sign(text: str, words: Language) -> str:
    if text in words.powers:
        return words.powers[text]
    if text == "□":
        return words.blank
    if text in GLYPHS:
        return fraction_words(*GLYPHS[text], words.code)
    return words.cardinal(unicodedata.digit(text)) if text.isdigit() else text


_RULES: dict[str, Callable[[str, Language], str]] = {
    "clock": _clock,
    "half": _half,
    "ratio": lambda text, words: _pair(text, words.to, words),
    "ordinal": _ordinal,
    "fraction": _fraction,
    "span": lambda text, words: _pair(text, words.to, words),
    "year": lambda text, words: words.year(int(text)),
    "whole": _whole,
    "point": lambda _, words: f"{words.point} ",
    "dash": lambda *_: "",
    "over": lambda _, words: f"{words.over} ",
    "slash": lambda _, words: f"{words.slash} ",
    "symbol": lambda text, words: words.symbols[text],
    "sign": _sign,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A unit found behind a number: `text[:end]` is its abbreviation, and the space before."""

    unit: Unit
    end: int


def unit_after(text: str, words: Language) -> Measure | None:
    """The unit whose abbreviation starts a text, such as ` cm`, `°`, ` mi/h` or ` in.²`."""
    found = _unit_pattern(words).match(text)
    if found is None:
        return None
    unit = words.units[found["unit"]]
    if found["power"]:
        unit = words.raised(unit, found["power"])
    if found["per"]:
        unit = words.rate(unit, words.units[found["per"]])
    return Measure(unit=unit, end=found.end())


@lru_cache(maxsize=8)
def _unit_pattern(words: Language) -> re.Pattern[str]:
    """`in` needs its full stop; a full stop that ends the sentence too is left to it."""
    names = "|".join(re.escape(name) for name in sorted(words.units, key=len, reverse=True))
    return re.compile(
        rf"[ \u00a0]?(?P<unit>{names})(?<!\bin(?!\.))"
        rf"(?:\.?(?P<power>[²³]))?(?:/(?P<per>{names}))?"
        rf"(?:(?<=[A-Za-z])\.(?!{SENTENCE_END}))?(?![\w'’-])(?!/\w)"
    )


def written_unit_after(before: str, tree: Writing, text: str, words: Language) -> Measure | None:
    """The unit written out at the start of a text that `tree`, less than one, is a part of.

    In `3/4 cup of oats` or `3/4 cups`; not in `a 3/4 cup measure`, which is a thing of that size.
    """
    part = tree.sides[-1] if isinstance(tree, Relation) else tree
    if not isinstance(part, Frac) or not 0 < part.numerator < part.denominator:
        return None
    found = _written_pattern(words).match(text)
    if found is None:
        return None
    last = before.split()[-1:]
    if last and last[0].lower() in words.articles and not found["of"]:
        return None
    return Measure(unit=words.written_units[found["unit"]], end=found.end("unit"))


@lru_cache(maxsize=8)
def _written_pattern(words: Language) -> re.Pattern[str]:
    longest_first = sorted(words.written_units, key=len, reverse=True)
    names = "|".join(re.escape(name) for name in longest_first)
    return re.compile(rf"[ \u00a0]+(?P<unit>{names})(?![\w'’-])(?P<of>\s+of\b)?")


def with_unit(tree: Writing, said: str, unit: Unit) -> str:
    """`said`, what `tree` is called, with its unit: one, a part of one, or many."""
    last = tree.sides[-1] if isinstance(tree, Relation) else tree
    match last:
        case Whole(1):
            return f"{said} {unit.one}"
        case Frac(numerator, denominator) if numerator < denominator:
            return f"{said}{unit.part}"
        case _:
            return f"{said} {unit.many}"


def with_money(tree: Writing, said: str, words: Language) -> str:
    """What a number behind a dollar sign is called."""
    match tree:
        case Whole(number):
            return words.money(str(number), "")
        case Decimal(whole, places):
            return words.money(whole or "0", places)
        case _:
            return with_unit(tree, said, words.coin)
