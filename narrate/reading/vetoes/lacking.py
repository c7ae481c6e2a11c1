"""What has a thing and what lacks it, and what is told only to be left out: all but 6, except 3."""

from __future__ import annotations

import re
from fractions import Fraction

from narrate.exact.tree import Expr
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import factors, numbers, operations
from narrate.reading.vetoes.told_numbers import COUNT, NUMBER, SO_MANY, found_all, read_number
from narrate.reading.words.lexicon import UNITS, one

_PART = re.compile(
    rf"{NUMBER}(?:%| percent)?"
    r"|\b(?:half|thirds?|fourths?|quarters?|fifths?|sixths?|eighths?|tenths?)\b"
)
_LACKS = re.compile(
    r"\b(?:(?:ha(?:ve|s|d)|with|wears?|wore|eats?|ate|brings?|brought|owns?|shows?|uses?|used|needs?"
    r"|drinks?|drank|plays?|played|keeps?|gets?|got) no|lack(?:s|ed)?|\w+n't|never"
    r"|(?:is|are|was|were|do|does|did|has|have|had|can|could) not"
    r"|without (?!looking|replac|peeking)|fail(?:s|ed)? to|miss(?:es|ed)?|missing)\b"
)


def takes_lack_for_having(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the part that lacks a thing is given where the part that has it is asked, or back."""
    if "−" in operations(tree) or not _is_part(tree) or "leftover" in story:
        return False  # what had not been eaten is the leftover that is shared
    told = [each for each in re.split(r"[.;]\s|,? (?:and|but) ", story) if _PART.search(each)]
    lacked = any(_LACKS.search(each) for each in told)
    return bool(told) and lacked != bool(_LACKS.search(question))


def _is_part(tree: Expr | None) -> bool:
    """Whether work takes a part of an amount, or makes a fraction of two."""
    ops = operations(tree)
    below = [f for f in factors(tree) if f is not None and f < 1]
    return (
        bool(below)
        or ops == "÷"
        or (not ops and any(n is not None and n < 1 for n in numbers(tree)))
    )


_ALL_BUT = re.compile(
    r"\ball (?:(?:of )?(?:them|it|those|these|(?:the|his|her|their) [a-z]+) )?(?:but|except|save)\b"
    r"|\beverything (?:but|except)\b"
)
_EXCEPT = re.compile(
    r"\b(?:(?<!all )(?<!them )except|apart from|other than|aside from|but not|though not"
    rf"|but none of)\b[^.?!]*?\b{SO_MANY}\b"
)


_GATE = re.compile(r"\bexcept (?:for|at) (?:an?|one|the) (?:opening|gap|gate|door|doorway)\b")


def takes_what_is_left_out(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a text leaves some out by "all but" or "except", which work takes for the others."""
    text = story + question
    if _GATE.search(text) and "−" in operations(tree):
        return False
    if _EXCEPT.search(text):
        return True
    if _ALL_BUT.search(text) is None:
        return False
    end_asked = re.search(r"\b(?:left|still|remain\w*|now|have|has|keep)\b", question)
    return operations(tree).strip("×") != "−" or end_asked is not None


_LABEL = re.compile(
    r"(?<!the )(?<!st )(?<!nd )(?<!rd )(?<!th )(?<!a )(?<!last )(?<!next )(?<!each )(?<!every )"
    r"(?<!one )(?<!this )(?<!per )(?<!an )\b(?:weeks?|months?|days?|hours?|minutes?|years?|batch"
    r"|miles?|laps?|round|level|steps?|stop|grade|room|page|team|chapter|lesson|unit|question|shelf"
    r"|bed|row|table|group|class|lane|gate|bus|game|trial|test|station|floor|platform|track|aisle|bay"
    r"|january|february|march|april|may|june|july|august|september|october|november|december"
    r"|plot|section|site|tank|bin|jar|box|crate) "
    r"(\d+)(?! ?(?:%|percent|[./]\d|more|fewer|less|of|times))(?! [a-z]+s\b)\b"
)


def counts_a_label(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a number that only says which one is worked with: 12 kilograms in week 2."""
    text = story + question
    labels = {
        read_number(found[1])
        for found in found_all(_LABEL, text)
        if one(text[found.end() :].strip().partition(" ")[0]) not in UNITS
    }
    used = [*numbers(tree)]
    if labels.isdisjoint(used) or "pattern" in text:
        return False
    other = _LABEL.sub(" ", text)
    told = [read_number(each) for each in re.findall(rf"\b{COUNT}\b", other)]
    return any(used.count(label) > told.count(label) for label in labels)


_RATIO = re.compile(r"\bratio\b[^.?!]*?(\d+) ?(?::|to) ?(\d+)")


def adds_to_a_ratio(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the numbers of a ratio are added to an amount, as if they counted anything."""
    found = _RATIO.search(story + question)
    if found is None or operations(tree).strip("+−"):
        return False
    shares = {Fraction(found[1]), Fraction(found[2])}
    used = {*numbers(tree)}
    return bool(used & shares) and not used <= shares


ROWS: Rows = (
    Row(
        takes_lack_for_having,
        "some have it and some do not, and the others are asked about",
        "no |not|n't|never|fail|lack|miss|without",
    ),
    Row(
        takes_what_is_left_out,
        "some are told only to be left out",
        "all but|but |except|save|apart|other than|aside|though not",
    ),
    Row(
        counts_a_label,
        "a number only says which one it is",
        "ary|march|april|may|june|july|august|ber|week|month|day|hour|minute|year|batch|mile|lap|round|level|step|stop|grade|room"
        "|page|team|chapter|lesson|unit|question|shelf|bed|row|table|group|class|lane"
        "|gate|bus|game|trial|test|station|floor|platform|track|aisle|bay|plot|section"
        "|site|tank|bin|jar|box|crate",
    ),
    Row(adds_to_a_ratio, "the numbers of a ratio count nothing", "ratio"),
)
