"""Somebody and so many others: Mila and her 3 friends are 4, who does the same does it too."""

from __future__ import annotations

import re
from collections.abc import Set
from fractions import Fraction

from narrate.exact.tree import Expr
from narrate.reading.vetoes.again import takes_again
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import factors, operations, sums, worth
from narrate.reading.vetoes.told_numbers import COUNT, found_all, read_number
from narrate.reading.words.lexicon import NO_THING

_HIS = r"(?:his|her|their|its|my|the|our)"
_AND_OTHERS = (
    re.compile(
        rf"(?P<before>(?:[^\s.?!]+ ){{0,4}})[a-z]+ and (?:each of |all of )?"
        rf"(?:{_HIS} )?(?:other )?(?P<n>{COUNT}) (?:other |more )?(?P<others>[a-z]+(?: [a-z]+)?)"
    ),
    re.compile(
        rf"\b(?P<n>{COUNT}) (?:[a-z]+ )?(?P<others>[a-z]+) and (?:(?:an?|{_HIS}) )?(?!{COUNT}\b)"
        r"(?P<before>)[a-z]+ (?:each|all|both)\b"
    ),
    re.compile(rf"\b(?P<before>)besides [a-z]+[^.?!]*?(?P<n>{COUNT}) (?P<others>[a-z]+)"),
    re.compile(
        rf"\b(?P<n>{COUNT}) (?:other )?(?P<others>[a-z]+)\b[^?]*\bincluding (?P<before>)(?!the\b)"
    ),
    re.compile(
        rf"\b(?:for|among|between) (?:him|her|them|my)sel(?:f|ves)\b(?P<before>)[^.?!]*?"
        rf"(?P<n>{COUNT}) (?P<others>[a-z]+)"
    ),
)
_SHARES = r"(?:shares?|shared|splits?|divides?|divided|sharing)"
_MANY = r"(?:two|three|four|five|six|seven|eight|nine|ten|twelve)\b"
_WITH = (
    re.compile(
        rf"\b(?P<n>{COUNT}) (?P<others>[a-z]+)(?P<before>) and (?:(?:an?|{_HIS}) )?(?!{COUNT}\b)"
        rf"(?:[a-z']+ )?[a-z']+ {_SHARES}\b"
    ),
    re.compile(
        rf"\b(?P<n>{COUNT}) (?P<others>[a-z]+)(?P<before>) {_SHARES}\b[^.?!]*?"
        rf"\bwith (?!\d|no|some|equal|as |each|{_MANY})[a-z]+"
    ),
    re.compile(
        rf"\btogether with (?P<before>)[^.?!]*?(?P<n>{COUNT}) (?P<others>[a-z]+) {_SHARES}\b"
    ),
    re.compile(
        rf"\b{_SHARES}\b[^.?!]*? with (?P<before>)(?:{_HIS} )?(?P<n>{COUNT}) (?P<others>[a-z]+)\b"
        r"(?! each\b)"
    ),
)
_EVERYBODY = re.compile(
    r"\b(?:each|all|equally|evenly|split|shared?|everyone|everybody|pay|paid)\b"
)


def leaves_one_out(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the work goes by the others only, though somebody is there beside them."""
    text = story + question
    by = set(factors(tree))
    if any(worth(term) == 1 for terms in sums(tree) for _, term in terms):
        return False  # 3 + 1
    if not by or takes_again(text, tree) or _EVERYBODY.search(text) is None:
        return False
    if any(_goes_by(each, by) for pattern in _WITH for each in found_all(pattern, text)):
        return True
    found = (each for pattern in _AND_OTHERS for each in found_all(pattern, text))
    return any(_goes_by(each, by) and _are_all_meant(each, text) for each in found)


def _goes_by(found: re.Match[str], by: Set[Fraction | None]) -> bool:
    """Whether work goes by the number of a pattern."""
    return found["n"] not in ("a", "an") and read_number(found["n"]) in by


def _are_all_meant(found: re.Match[str], text: str) -> bool:
    """Whether somebody stands beside the others, and the others alone are not asked about."""
    if re.search(rf"\b{COUNT}\b", found["before"].replace("a ", "").replace("an ", "")):
        return False  # 2 red pots and 3 pans: two things that are counted
    others = "|".join(re.escape(re.sub("e?s$", "", word)) for word in found["others"].split())
    return not re.search(rf"\b(?:each|every|per)(?: of (?:the|{_HIS}))? (?:{others})", text)


_EACH_OF_TWO = re.compile(rf"\b([a-z]+) and (?:{_HIS} |an? )?(?!{COUNT} )([a-z]+) (?:each|both)\b")
_THE_SAME = re.compile(
    r"\b(?:does|did|do) the same\b"
    r"|[.,] (?:and |but )?(?!each|every)[a-z]+ (?:also )?(?!put|divid|shar)[a-z]+"
    r" the same (?:number|amount)(?: of [a-z]+)?(?! (?:[a-z]+ )?(?:in|on|into|onto|to|at|for)\b)"
)
_SO_DOES = re.compile(r"\bso (?:does|do|did|has|have|is|are|was|were) (?!it\b|this\b)[a-z]+")
_TOGETHER = re.compile(r"\b(?:they|together|both|altogether|in all|in total|total)\b")


def forgets_the_second(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the work takes once what two have or do, each of them."""
    if takes_again(story + question, tree):
        return False
    if _SO_DOES.search(story):
        return True
    if _THE_SAME.search(story):
        return _TOGETHER.search(question) is not None
    pair = _EACH_OF_TWO.search(story)
    if pair is None or not NO_THING.isdisjoint(pair.groups()):
        return False
    return not any(re.search(rf"\b{re.escape(name)}\b", question) for name in pair.groups())


_IN_FRONT = re.compile(r"\b(?:in front of|ahead of|before) (?:him|her|me|them|[a-z]+)\b")
_BEHIND = re.compile(r"\b(?:behind|after)(?: (?:him|her|me|them))?\b")


def forgets_who_queues(story: str, question: str, tree: Expr | None) -> bool:
    """Whether somebody in a queue is left out between those in front and those behind."""
    queue = re.search(r"\b(?:queue|line|row)\b", story + question)
    if queue is None or not (_IN_FRONT.search(story) and _BEHIND.search(story)):
        return False
    return (
        operations(tree) == "+"
        and re.search(r"\b(?:all|altogether|total|line|queue)\b", question) is not None
    )


ROWS: Rows = (
    Row(
        leaves_one_out,
        "somebody is there beside the others",
        "each|all|equally|evenly|split|share|every|pay|paid",
    ),
    Row(
        forgets_the_second,
        "somebody else does the same, or has the same",
        "so do|so did|so ha|so is|so are|so was|so were|the same| each| both",
    ),
    Row(forgets_who_queues, "somebody stands between them", "queue|line|row"),
)
