"""How often something is done, and how much again: twice, just as much, every other day."""

from __future__ import annotations

import re
from fractions import Fraction

from narrate.exact.tree import Expr, Op
from narrate.reading.vetoes.again import takes_again
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import numbers, operations, sums, worth
from narrate.reading.vetoes.told_numbers import NUMBER, counted, found_all, read_number

_OFTEN = (
    (re.compile(r"\bonce\b(?! (?:he|she|they|it)\b)"), 1),
    (re.compile(r"\btwice\b(?! (?:as|that|the|his|her|its)\b)"), 2),
    (re.compile(r"\bthrice\b"), 3),
)


def counts_how_often(story: str, question: str, tree: Expr | None) -> bool:
    """Whether "twice" is added or taken away as if it were 2 things."""
    text = story + question
    told = counted(text)
    often = {Fraction(n) for pattern, n in _OFTEN if pattern.search(text) and not told[Fraction(n)]}
    return any(worth(term) in often for terms in sums(tree) for _, term in terms)


_AS_MUCH = re.compile(
    r"(?<!times )(?<!twice )(?<!half )(?<!third )(?<!thirds )"
    r"(?<!fourths )(?<!quarter )(?<!quarters )(?<!fifths )(?<!\d )\b(?:just |exactly )?"
    r"as (?:much|many)\b(?: again)?(?! [a-z]+ as\b| as\b)"
)


def leaves_as_much_out(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what is just as much again is left out."""
    if not tree or _AS_MUCH.search(story) is None:
        return False
    return not takes_again(story + question, tree)


_EVERY_OTHER = re.compile(
    r"\bevery (?:other|second|third|fourth|fifth) (?!(?:an?|the|his|her|it|he|she|they|of)\b)[a-z]+"
)


def takes_every_other_for_every(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what is done every other day is worked out for every day."""
    return _EVERY_OTHER.search(story) is not None and "÷" not in operations(tree)


_PARTLY = re.compile(
    r"\b(?:left|still|missing|remain\w*|more|un[a-z]+ed|yet|rest|short"
    r"|from the (?:finish|end|top))\b"
    r"|\b(?:has|have|does|do)\b[^?]*\bto go\b(?! \d)"
)
_RUNS_OUT = re.compile(
    r"\b(?:burns? down|runs? (?:dry|out)|lasts?|leaks?|empt(?:y|ies)|drains?|melts?|uses? up)\b"
)


def gives_the_done_part(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what is done at a rate is given where what is left of the whole is asked."""
    signs = set(operations(tree))
    if signs != {"×", "÷"}:
        return False
    runs = _RUNS_OUT.search(story)
    left = runs is not None and runs[0].split()[0][:4] not in question and "after" in question
    return left or _PARTLY.search(question) is not None


_RELATED_SIDE = re.compile(
    r"\b(?:times|half|twice|third|double|more|less|shorter|longer|wider|narrower)\b"
)
_SIDE = re.compile(r"\b(?:width|length|wide|long|side|height|breadth)\b")


def gives_a_side_for_the_area(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the side that is told by the other is given as the area."""
    asked = re.search(r"\barea\b", question) and len(operations(tree)) == 1
    return bool(asked and _RELATED_SIDE.search(story) and len(_SIDE.findall(story)) > 1)


_SEVERAL = re.compile(r"\b(?:both|all|together|total|altogether)\b")


def squares_all_sides(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the area of several squares is that of one square with their sides in a row."""
    if not (re.search(r"\barea\b", question) and _SEVERAL.search(question)):
        return False
    return (
        isinstance(tree, Op)
        and tree.sign == "×"
        and tree.left == tree.right
        and bool(operations(tree.left))
    )


_LIKE_SO_MANY = re.compile(rf"\bas (?:much|many|heavy|long|tall) as {NUMBER}\b")


def leaves_the_other_out(story: str, question: str, tree: Expr | None) -> bool:
    """Whether one that is as much as 4 others is given where it and another are put together."""
    together = re.search(r"\b(?:together|and|in all|in total|altogether)\b", question)
    return bool(_LIKE_SO_MANY.search(story) and together) and "+" not in operations(tree)


_LASTS = re.compile(rf"\b(?:lasts?|for|of) ({NUMBER}) (?:days|weeks|months)\b")
_HABIT = re.compile(
    r"\b(?:in the (?:morning|evening|afternoon)|at (?:noon|night|lunch|breakfast|dinner)|a day"
    r"|daily|(?:each|every) (?:day|morning|evening|night))\b"
)


def does_it_for_a_day_only(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what is done every day is worked out for a single day of several."""
    if _HABIT.search(question) or "day" in question or not _HABIT.search(story):
        return False
    spans = {read_number(found[1]) for found in found_all(_LASTS, story)}
    return bool(spans) and bool(operations(tree)) and spans.isdisjoint(numbers(tree))


ROWS: Rows = (
    Row(counts_how_often, "how often something is done counts nothing", "once|twice|thrice"),
    Row(leaves_as_much_out, "just as much again is told", "as much|as many"),
    Row(
        takes_every_other_for_every,
        "not every day is meant",
        "every other|every second|every third|every fourth|every fifth",
    ),
    Row(
        gives_the_done_part,
        "what is left of the whole is asked",
        "left|still|missing|remain|more|un|yet|rest|short|from the|after",
    ),
    Row(gives_a_side_for_the_area, "an area takes both sides", "area"),
    Row(squares_all_sides, "several squares are not a larger one", "area"),
    Row(
        leaves_the_other_out,
        "both are asked about",
        " as much as | as many as | as heavy as | as long as | as tall as ",
    ),
    Row(does_it_for_a_day_only, "it goes on for several days", "days|weeks|months"),
)
