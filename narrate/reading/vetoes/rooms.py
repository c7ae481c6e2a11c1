"""What there is room for, what must be done and what is wanted: none of it is there to be added to.

A shelf with room for 50 pots holds none yet; who must read 90 pages has read none.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence, Set
from fractions import Fraction

from narrate.exact.tree import Expr
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import Term, sums, worth
from narrate.reading.vetoes.told_numbers import NUMBER, found_all, read_number

_UP_TO = r"(?:up to |at most |only |exactly |about )?"
_TO_DO = (
    r"(?:must|should|(?:has|have|had|needs?|needed|wants?|wanted|plans?|planned|hopes?|hoped|aims?"
    r"|aimed|promised|expects?|expected|is|are|was|were|going) to|would like to)"
)
_LIMIT = (
    rf"(?:limit|maximum|capacity|goal|target|aim)(?: [a-z]+)? (?:is|was|of)(?: to [a-z]+)? {_UP_TO}"
)
_SEATS = r"(?<!each )(?:seats?|fits?|accommodates?|holds? up to)"
_VESSEL = (
    r"(?:bucket|tank|jar|pitcher|jug|barrel|pot|pail|bottle|can|tub|drum|cooler|crate|basin|vat"
    r"|trough|bowl|dispenser|kettle|pan|keg|bag|sack|box|bin)"
)
_ROOM = tuple(
    re.compile(pattern)
    for pattern in (
        rf"\b(?:room|spaces?|places?|seats?|seating|beds) for {_UP_TO}({NUMBER})",
        rf"\b{_SEATS} {_UP_TO}\$?({NUMBER})",
        rf"\b(?:can|could) (?:hold|seat|carry|take|fit|store|contain) {_UP_TO}({NUMBER})",
        rf"\bopen to {_UP_TO}({NUMBER})",
        rf"\b{_LIMIT}\$?({NUMBER})",
        rf"\b{_TO_DO} [a-z]+ (?:up |out |in |back )?\$?({NUMBER})",
        rf"\b(?:needs?|needed|wants?|wanted) (?:at least )?\$?({NUMBER})",
        rf"({NUMBER})-[a-z]+ {_VESSEL} (?:has|had|contains|contained|holds|held)\b",
        rf"\b(?:from|of|off) (?:an?|the|his|her|one) ({NUMBER})-[a-z]+ [a-z]+\b(?! of\b)",
        rf"\bin (?:an?|the|his|her) ({NUMBER})-[a-z]+ {_VESSEL}\b",
    )
)
_EACH = re.compile(r"\b(?:each|every|per|all)\b")
_FULL = re.compile(r"\b(?:full|fills|filled|overflow\w*|brim)\b")
_IF_DONE = re.compile(r"\b(?:will|would)\b[^?]*\b(?:then|if)\b|\bif\b")
_MISSING = re.compile(
    r"\b(?:more|still|left|remain\w*|room|spaces?|places|empty|free|unused|unfilled|short|away|need"
    r"|needs|until|before|over|beyond|past|too many|too much|yet|greater|less|fewer"
    r"|farther|further|longer|higher|taller)\b"
)


def counts_room_in(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the work adds to what there is only room for, or what is only to be done."""
    joined = sums(tree)
    if not joined:
        return False
    text = story + question
    rooms = set(_told_by(_ROOM, text))
    if _IF_DONE.search(question):
        return False
    ends = not (_MISSING.search(question) or re.search(r"\bshort\b", story))
    return any(_adds_to(terms, rooms) or (ends and _takes_from(terms, rooms)) for terms in joined)


def _adds_to(terms: Sequence[Term], rooms: Set[Fraction | None]) -> bool:
    """Whether other amounts are added to a room."""
    added = [worth(term) for sign, term in terms if sign > 0]
    return not rooms.isdisjoint(added) and not rooms >= set(added)


def _takes_from(terms: Sequence[Term], rooms: Set[Fraction | None]) -> bool:
    """Whether other amounts are taken from a room."""
    taken = [worth(term) for sign, term in terms if sign < 0]
    there = any(sign > 0 and worth(term) in rooms for sign, term in terms)
    return there and any(of not in rooms for of in taken)


def _told_by(patterns: Sequence[re.Pattern[str]], text: str) -> Iterator[Fraction]:
    for pattern in patterns:
        for found in found_all(pattern, text):
            sentence = text[text.rfind(".", 0, found.start()) + 1 : found.end()]
            if not _EACH.search(sentence) and not _FULL.search(text):
                yield read_number(found[1])


ROWS: Rows = (
    Row(
        counts_room_in,
        "what there is room for, or is still to be done, is not there yet",
        "room|space|place|seat|bed|fit|accommodat|hold|can |could |open to|limit|maximum"
        "|capacity|goal|target|aim|must|should| to |need|want|-",
    ),
)
