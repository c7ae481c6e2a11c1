"""Whole questions about changes, distances and chances that a rule answers, with the work.

CCSSM (2010) 7.NS.A.1 (distances), 7.RP.A.3 (percents of change), 7.SP.C.5 (chances).
"""

from __future__ import annotations

import re
from contextlib import suppress

from narrate.errors import ExactError
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr, Op, value
from narrate.reading.words.more_number_facts import SIDES
from narrate.reading.words.whole_questions import (
    ANY,
    ASKS,
    Row,
    in_plain_digits,
    number,
    work,
    worked,
)

# -- percents of change, chances, distances

_UP = r"(?:rose|increased|went up|grew|was raised|climbed)"
_DOWN = r"(?:fell|decreased|dropped|went down|was reduced|was lowered|was marked down)"
_MONEY = r"\$?(\d[\d,]*(?:\.\d+)?)"


def _change(found: re.Match[str]) -> Expr | None:
    """By what percent an amount is more or less than before, where all words say the same way."""
    before, after = number(found["a"]), number(found["b"])
    more = after > before
    verb, asked = found["verb"].lower(), found["asked"].lower()
    told = {True: _UP, False: _DOWN}[more]
    fits = re.fullmatch(told, verb) or verb in ("went", "changed", "was changed", "changes")
    fits = fits and asked in ("change", "increase" if more else "decrease")
    if not fits or not before or before == after:
        return None
    greater, less = (found["b"], found["a"]) if more else (found["a"], found["b"])
    ends = 10**4 % ((number(greater) - number(less)) / before).denominator == 0
    return worked("({} − {}) ÷ {} × 100", greater, less, found["a"]) if ends else None


_AMOUNT = r"\$?(?P<{}>\d[\d,]*(?:\.\d+)?)(?: [a-z]+)?"
_NOT_SAID = r"(?!.*\b(?:then|later|again|each|every|twice|another|not)\b)"


def _distance(found: re.Match[str]) -> Expr | None:
    low, high = sorted((int(found[1]), int(found[2])))
    taken = f"({low})" if low < 0 else str(low)
    return parse_expr(f"{high} − {taken}") if high >= 0 > low else None


def _repeated(found: re.Match[str]) -> Expr | None:
    """The number at an early place of a pattern that goes by two steps each time: × 2, then + 1."""
    count = _PLACES.get(found["nth"].lower(), 0)
    work = in_plain_digits(found["first"])
    for _ in range(count - 1):
        sign = "+" if found["then"].lower() == "add" else "−"
        held = f"({work})" if re.search(r"[+−]", work) else work
        work = f"{held} × {found['times']} {sign} {found['more']}"
    with suppress(ExactError):
        made = parse_expr(work)
        return made if isinstance(made, Op) and value(made) >= 0 else None
    return None


_PLACES = {"second": 2, "third": 3}
_CHANCES = {
    "heads": "1/2", "tails": "1/2", "an even number": "1/2", "an odd number": "1/2",
    "a head": "1/2", "a tail": "1/2",
}  # fmt: skip


def _both(found: re.Match[str]) -> Expr | None:
    """The chance of two things that have nothing to do with each other."""
    chances = [_CHANCES.get(each.lower()) or "1/6" for each in found.groups()]
    return parse_expr(" × ".join(chances if len(chances) > 1 else chances * 2))


_TOSSED = r"(?:is |are )?(?:fairly )?(?:tossed|flipped|rolled|thrown)"
_CUBE = r"(?:(?:number |numbered )cube|die|standard number cube)"
_FACE = r"(?:an even number|an odd number|an? [1-6]|[1-6])"
_CHANCE = r"what is the (?:probability|chance) (?:of (?:getting|tossing|rolling) |that )?"
OTHERS = (
    Row(
        rf"a (?:fair )?coin {_TOSSED} (?:twice|two times)[.] {_CHANCE}(?:it (?:lands|comes up) "
        rf"(?:on )?)?"
        r"(heads|tails) (?:both times|twice|on both (?:tosses|flips))",
        _both, why="both chances",
    ),
    Row(
        rf"a (?:fair )?coin {_TOSSED} and a (?:fair )?{_CUBE} {_TOSSED}[.] {_CHANCE}"
        rf"(heads|tails|a head|a tail) and ({_FACE})",
        _both, why="both chances",
    ),
    Row(
        rf"two (?:fair )?{_CUBE}s {_TOSSED}[.] {_CHANCE}both (?:show|land on|cubes show|are) "
        rf"({_FACE})s?",
        _both, why="both chances",
    ),
    Row(
        r"how many more (?:sides|angles|vertices) does an? ([a-z]+) have than an? ([a-z]+)",
        lambda m: (
            worked("{} − {}", str(SIDES[m[1].lower()]), str(SIDES[m[2].lower()]))
            if {m[1].lower(), m[2].lower()} <= set(SIDES)
            else None
        ),
        why="sides apart",
    ),
    Row(
        rf"{_NOT_SAID}[a-z' ]+? (?P<verb>{_UP}|{_DOWN}|went|changed|was changed) from "
        rf"{_AMOUNT.format('a')} to {_AMOUNT.format('b')}(?: [a-z ]+)?[.] (?:what (?:is|was)|find) "
        r"the percent(?:age)? (?:of )?(?P<asked>increase|decrease|change)(?: (?:in|of) [a-z ]+)?",
        _change, why="percent of change",
    ),
    Row(
        r"the (?:probability|chance) (?:of|that) (?P<what>[a-z ]+) is (\d+/\d+|0?\.\d+)[.] what is "
        r"the (?:probability|chance) (?:that (?:it|the [a-z]+|[a-z]+) (?:does|do|will|is|are|did) "
        r"not|of not)(?: [a-z ]+)?",
        lambda m: worked("1 − {}", m[2]), why="chance of not",
    ),
    Row(
        rf"{ASKS} the distance (?:between|from) (-?\d+) (?:and|to) (-?\d+)"
        r"(?: on (?:a|the) number line)?",
        _distance, why="distance",
    ),
    Row(rf"{ASKS} the square of {ANY}", work("{0} × {0}"), why="square of"),
    Row(rf"{ASKS} the cube of {ANY}", work("{0} × {0} × {0}"), why="cube of"),
    Row(
        r"(?:the|a) (?:rule (?:for|of) (?:a|the|this) (?:number )?pattern|pattern(?:'s)? rule) is "
        r"(?:to )?\"?multiply by (?P<times>\d+),? (?:and )?then (?P<then>add|subtract) "
        r"(?P<more>\d+)[.\"]* (?:the (?:pattern (?:starts|begins) with|first (?:number|term)"
        r"(?: in the pattern)? is)) (?P<first>\d+)[.] what is the (?P<nth>second|third) "
        r"(?:number|term)(?: in the pattern)?",
        _repeated, why="two steps again",
    ),
)  # fmt: skip

ROWS = OTHERS
