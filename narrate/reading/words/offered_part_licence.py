"""Which lines of parts and percents the words license: the part itself, or what it leaves."""

from __future__ import annotations

import re

from narrate.reading.words.lexicon import TIMES, UNITS, one
from narrate.reading.words.offered_amounts import Amount
from narrate.reading.words.offered_shape import Offer
from narrate.reading.words.offered_sum_licence import TOTAL
from narrate.reading.words.plain import word_set
from narrate.reading.words.whom import PEOPLE

REST = r"left|remain\w*|leftover|rest|others?|not|n't|un\w+ed|still|keep|kept"
"""What a question says that asks for what is left, or is not so."""


def _base_is(made: Offer, part: Amount, amount: Amount) -> bool:
    """Whether a part is of the very amount: 2/3 of the seeds, of them; it is told before."""
    story = made.story
    if amount.told.partitive or story.says(COMPARED):
        return False
    behind = re.match(
        r"[\w/.%-]+(?: (?:percent|thirds?|quarters?|fourths?|fifths?|half|halves|sixths?"
        r"|sevenths?|eighths?|ninths?|tenths?))?(?P<of> of (?:all )?(?:the|his|her|their|its|these"
        r"|those|this|that|them|it|what|\d+)?(?: \d+)? ?(?P<what>[a-z]+(?: [a-z]+)?)?)?",
        story.text[part.told.start :],
    )
    own = amount.names | amount.told.who | amount.told.around | set(amount.told.of_one)
    before = re.search(
        r"\bof (?:the|these|those|his|her) ([a-z]+(?: [a-z]+)?), $", _before(made, part)
    )
    if before is not None:
        return bool({one(w) for w in before[1].split()} & own)
    if re.search(r" of (?:the |an? |his |her )?(?:[a-z]+ of )?$", _between(made, part, amount)):
        return True
    if behind is None or behind["of"] is None:
        return amount.told.start < part.told.start
    if re.match(r" of (?:them|it|these|those|this|that)\b", behind["of"]):
        return amount.told.start < part.told.start
    what = {one(w) for w in (behind["what"] or "").split()}
    return bool(what & own) or re.match(r" of (?:the )?\d", behind["of"]) is not None


def _before(made: Offer, part: Amount) -> str:
    return made.story.text[: part.told.start]


def _between(made: Offer, part: Amount, amount: Amount) -> str:
    """The words from a part to the amount behind it."""
    return made.story.text[part.told.start : amount.told.start]


COMPARED = (
    r"than|times as|as (?:much|many|long|tall|far|heavy|old|wide|high|big|large)|price of|size of"
    r"|twice|longer|taller|combined|together"
)


def _names_part(made: Offer, part: Amount) -> bool:
    """Whether the question says of what is asked what the story says of the part."""
    story = made.story
    after = re.split(
        r"[.?!;]|,? (?:and|while) (?:all )?(?:the )?(?:rest|others?|remain\w*)",
        story.text[part.told.start :],
    )[0]
    whole = {*story.query.thing} | {w for a in made.of("amount") for w in a.names} | UNITS
    whole |= TIMES | {"last", "this", "next"}
    said = {one(w) for w in re.findall("[a-z]+", after)} - whole - SMALL
    asked = {one(w) for w in re.findall("[a-z]+", story.question)} - whole - SMALL
    other = story.says(r"rest|others?|remain\w*")
    people = part.told.who & (story.names | PEOPLE)
    if people and story.query.words & story.names - part.told.who:
        return False
    if 0 <= part.told.start - story.query.start < len(story.question):
        return True
    head = (
        not story.head
        or story.head in UNITS
        or story.head in {w for a in made.of("amount") for w in a.names}
    )
    done = part.told.verb == story.query.verb not in ("", "be", "have")
    named = bool(said & asked) or done
    return bool(named) and (head or story.head in said) and not (other and not said & asked)


SMALL = word_set(
    "the a an of in on at to for is are was were be been do did does how many much what have has "
    "had and it them they he she his her their that this these those by with from there as"
)


def part_left(made: Offer) -> bool:
    """Whether what the parts of one amount leave is asked for."""
    story = made.story
    (amount,) = made.of("amount")
    parts = made.of("part")
    left = story.asks(REST) or story.says("(?:the )?(?:rest|others|remaining|remainder)")
    if not left or story.asks(f"{TOTAL}|than|more|fewer"):
        return False
    again = story.says(r"of the (?:rest|remain\w*|others)|of what (?:was|is|were)|again")
    own = all(_base_is(made, part, amount) for part in parts)
    kinds = story.asks(REST) or not any(
        _names_part(made, part) and part.told.verb in ("", "be", "have", story.query.verb)
        for part in parts
    )
    whole = amount.names | {"dollar"}
    alike = not story.head or story.head in whole or bool({*story.query.thing} & whole)
    return own and not again and kinds and (alike or story.says("rest|others"))


def percent_on(made: Offer) -> bool:
    """Whether what is there with a percent more is asked for: with tax, after a raise."""
    story = made.story
    percent, amount = made.of("percent")[0], made.of("amount")[0]
    first = amount.told.start < percent.told.start
    up = story.says(r"tax|tip|raise[ds]?|increas\w+|went up|rose|interest")
    less = story.says(r"take-home|deduct\w*|paying tax|decreas\w*|discount|lost|than")
    return (
        first
        and up
        and not less
        and story.asks(r"new|total|pay|now|in all|cost|altogether|this|after")
    )
