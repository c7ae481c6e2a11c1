"""The numbers of a story that a line does not use: each must have a reason to be left out.

Numbers that only name are none; those in words that count what is told ("the two classes"), what
another person has, and amounts of a kind that is not asked for have nothing to do with a line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from narrate.exact.tree import leaves, value
from narrate.reading.words.lexicon import TIMES, UNITS, one
from narrate.reading.words.naming import is_name
from narrate.reading.words.offered_amounts import Amount
from narrate.reading.words.offered_asked import Told
from narrate.reading.words.offered_shape import Offer
from narrate.reading.words.offered_sum_licence import KINDS
from narrate.reading.words.plain import plain, word_set
from narrate.reading.words.token import Token
from narrate.reading.words.tokens import tokens


def leaves_one_out(made: Offer, whole: Told, text: str) -> bool:
    """Whether a number of a text is not used that has no reason to be left out."""
    return any(not _may_be_left_out(made, whole, text, each) for each in unused(made, text))


def unused(made: Offer, text: str) -> Iterator[Token]:
    """The numbers of a text that a line does not hold."""
    free = [value(leaf) for leaf in leaves(made.tree)]
    for top, bottom in re.findall(r"(?<![\d.,] )(?<![\d.,])([\d.,]+)/([\d.,]+)", made.line):
        free += [Fraction(n.replace(",", "")) for n in (top, bottom)]
    plainly = plain(text)
    for token in tokens(text):
        if token.kind != "n" or token.tree is None:
            continue
        if token.value in free:
            free.remove(token.value)
        elif not is_name(plainly, token.start, made.story.question):
            yield token


def _may_be_left_out(made: Offer, whole: Told, text: str, number: Token) -> bool:
    low = text.lower()
    before, behind = low[: number.start], low[number.end :]
    if number.text.lower() == "one":
        asked = number.start >= made.story.query.start > 0
        return asked or not _counts_one(made, behind)
    if made.story.asks("range|other") and _is_of_list(made, number, before):
        return True
    if number.text[:1].isalpha() and not number.sort and _counts_what_is_told(made, number, before):
        return True
    if any(a.worth == number.value and _said_again(a, before, behind) for a in made.amounts):
        return True
    if number.joined:
        return _unit_behind(behind) != made.story.head
    amount = next((a for a in whole.amounts if a.told.start == number.start), None)
    return amount is not None and _is_beside(made, whole, amount)


def _is_of_list(made: Offer, number: Token, before: str) -> bool:
    """Whether a number stands in a list whose range is asked for, or "two" before one of them."""
    if made.story.asks("range"):
        return made.shape == "amount − amount"
    return number.text.lower() == "two" and not before.strip()


def _counts_one(made: Offer, behind: str) -> bool:
    """Whether "one" counts one more of what a line counts: only one sandwich for breakfast."""
    word = re.match(r" ([a-z]+)", behind)
    names = {w for a in made.amounts if a.role != "each" for w in a.names} | {made.story.head}
    names -= {w for a in made.amounts for w in a.per} | UNITS | _PIECES
    return word is not None and one(word[1]) in names - {""}


_PIECES = word_set("piece part section")


def _unit_behind(behind: str) -> str:
    found = re.match(r"-([a-z]+)", behind)
    return found[1] if found else ""


_TWO, _FOUR = 2, 4


def _counts_what_is_told(made: Offer, number: Token, before: str) -> bool:
    """Whether a number in words counts the amounts of a line: the two classes, three bins."""
    counted = {len(made.amounts), len({id(a) for a in made.amounts}), _TWO}
    if {"into", "more", "fewer", "times"} & {a.role for a in made.amounts}:
        counted = {_TWO}
    elif {a.role for a in made.amounts} != {"amount"}:
        return False
    said = re.search(r"\b(?:the|these|those|both|all|of|into|altogether,?) $", before) is not None
    return said and _TWO <= number.value <= _FOUR and number.value in counted


def _said_again(amount: Amount, before: str, behind: str) -> bool:
    """Whether a number says an amount once more: all 4 barrels."""
    again = re.search(r"\b(?:the|all|these|those|of) $", before) is not None
    word = re.match(r" ([a-z]+)", behind)
    return again and word is not None and any(word[1].startswith(n) for n in amount.names)


def _is_beside(made: Offer, whole: Told, amount: Amount) -> bool:
    """Whether an amount is of a kind, or a person, that is not asked about."""
    story = made.story
    if amount.role != "amount" or amount.told.start >= story.query.start > 0:
        return False
    roles = {a.role for a in made.amounts}
    compared = {
        w for a in made.amounts if a.role in _RELATIONS for w in (*a.told.who, *a.told.other)
    }
    if not roles <= {"amount", *_RELATIONS} or compared & amount.told.who & whole.names:
        return False
    asked = {*story.query.thing, story.head, *story.query.words} - {""}
    people = whole.names - TIMES
    own = amount.told.who & people
    if story.query.sign or story.asks(r"than|difference|\w+er (?:is|was|are|were|does|did)"):
        return False
    if own and asked & people and not own & asked and not story.asks(_ALL):
        theirs = any(own & a.told.who for a in made.amounts)
        return not theirs and not amount.told.to & asked
    used = {w for a in made.amounts for w in (*a.names, *a.per, *a.told.who, *a.told.around)}
    kind = {w for w in (amount.head, amount.unit) if w}
    named = bool(story.head) and all(story.head in a.names for a in made.amounts)
    alike = any(a.told.verb == amount.told.verb for a in made.amounts)
    beside = (
        roles == {"amount"}
        and bool(kind)
        and not kind & (UNITS | used | asked)
        and not amount.told.before_verb
    )
    each = story.says(rf"(?:each|every|per) (?:of )?(?:the )?{amount.head or '_'}")
    return beside and named and alike and not each and story.head not in KINDS | {"dollar"}


_RELATIONS = ("more", "fewer")
_ALL = "altogether|in all|total|both|together|combined|they|one"
