"""Which lines of equal groups the words license: what is in them, how many, how much each."""

from __future__ import annotations

import re

from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.offered_amounts import Amount
from narrate.reading.words.offered_asked import Told
from narrate.reading.words.offered_part_licence import REST
from narrate.reading.words.offered_shape import Offer
from narrate.reading.words.offered_sum_licence import KINDS, TOTAL, asks_all
from narrate.reading.words.plain import word_set


def _tied(made: Offer) -> bool:
    """Whether every rate is for each of what a line multiplies it with."""
    each, groups = made.of("each"), made.of("groups")
    if len(groups) == 1 and made.story.says(f"each of the {groups[0].said}"):
        return True
    return all(any(g.head in e.per or g.names & e.per for g in groups) for e in each)


def _one_span(made: Offer) -> bool:
    """Whether no time is asked for that no amount of the line counts: a day, in a week?"""
    whole = rf"\b(?:in|for|per|an?|each|every|during|over|one|whole|many) (?:the |an? )?({_SPANS})"
    spans = {one(w) for w in re.findall(whole, made.story.question)}
    used = {w for a in made.amounts for w in (a.unit, *a.per)}
    asked = {made.story.head, *made.story.query.per}
    told = {one(w) for w in re.findall(rf"\b(?:an?|per|each|every) ({_SPANS})", made.story.text)}
    return not (spans - used - asked) and not (told - used)


_SPANS = r"second|minute|hour|day|week|month|year"


def chained(made: Offer) -> bool:
    """Whether groups hold groups: 3 crates of 4 bags of 6."""
    each = made.of("each")
    linked = any(a.per & b.names and a is not b for a in each for b in each)
    heads = {made.story.head, *made.story.query.thing}
    if any(made.story.head in e.per or e.told.verb_sort == "lose" for e in each):
        return False
    last = any(e.names & heads or e.unit in heads for e in each)
    return linked and last and not made.story.asks(f"{REST}|than|more|fewer") and _one_span(made)


def containers(made: Offer) -> bool:
    """Whether it is asked how many groups of so many each there are."""
    story = made.story
    (each,) = made.of("each")
    amounts = made.of("amount")
    asked = {story.head, story.query.head} - {""}
    timed = story.asks("how long") and bool(each.per & _CLOCK)
    if not (asked & each.per or timed) or story.asks(
        "left|remain\\w*|cuts?|percent|fraction|each|per"
    ):
        return False
    alike = all(_alike(a, each) for a in amounts)
    return alike and not story.says("out of every|between") and not asks_all(story)


def _alike(amount: Amount, each: Amount) -> bool:
    """Whether two amounts count one thing, as far as it is said: flowerpots, pots."""
    one_word, other = amount.head, each.head
    if amount.unit == each.unit or amount.names & each.names or not each.names:
        return True
    return bool(one_word and other) and (one_word.endswith(other) or other in KINDS)


_CLOCK = word_set("second minute hour day week month year")


def joined_containers(made: Offer) -> bool:
    """Whether all amounts in the brackets are told in one way, and joined as the sign says."""
    one_way = {(a.told.verb, a.told.who) for a in made.amounts if a.role == "amount"}
    plain = made.of("amount")
    if not containers(made) or any(a.told.total for a in plain):
        return False
    if "+" in made.shape:
        if any(a.told.partitive for a in plain):
            return False
        told = len(one_way) == 1 or made.story.says("they|together|all")
        return told and len({v for v, _ in one_way}) == 1 and not made.story.says(_GONE)
    some = any(a.told.partitive and a.told.verb != "be" for a in plain[1:])
    return made.story.says(_GONE) or some


_GONE = r"left|already|gave|ate|sold|lost|used|broke\w*|spoil\w*|after|rest|remaining"


def groups_taken(made: Offer) -> bool:
    """Whether some of what the groups hold is gone, or groups are taken from what there was."""
    story = made.story
    each, plain = made.of("each"), made.of("amount")
    groups = made.of("groups")
    if not _tied(made) or not _one_span(made) or story.asks(f"than|each|average|{TOTAL}"):
        return False
    alike = all(any(a.unit == e.unit or a.names & e.names or not a.names for e in each)
        for a in plain)  # fmt: skip
    first_is_plain = made.shape.startswith("amount")
    went = each if first_is_plain else plain
    goes = story.asks(r"left|remain\w*|stay\w*|change|still|not|empty|free|unsold|unused|rest|now")
    gone = first_is_plain or all(
        a.told.partitive or a.told.verb_sort in ("lose", "take") or a.told.passive for a in went
    )
    if any(a.told.partitive and a.told.sentence == e.told.sentence for a in plain for e in each):
        return False  # 4 of the 10 in a pack are blue
    return alike and goes and gone and not story.says("two \\$|three \\$|four \\$") and bool(groups)


def pairs(made: Offer) -> bool:
    """Whether all groups are asked for, or how two compare, as the sign says."""
    story = made.story
    differs = story.query.sign != 0 or story.asks("than|difference|more|fewer")
    if ("−" in made.shape) != differs or not _tied(made) or not _one_span(made):
        return False
    names = [g.names - UNITS for g in made.of("groups")]
    shared = frozenset.intersection(*names) if names else frozenset()
    own = [n - shared for n in names]
    per = [e.per | e.told.who for e in made.of("each")]
    told = all(own) and all(n & p for n, p in zip(own, per, strict=False))
    if not told and not _stand_together(made):
        return False
    kinds = [e.names for e in made.of("each")]
    if (
        not differs
        and any(k & asked_words(story) for k in kinds)
        and not all(k & asked_words(story) for k in kinds)
    ):
        return False
    if story.asks(r"does (?:an?|one)"):
        return False
    asked = story.query.words
    return differs or all(n & asked for n in own) or not any(n & asked for n in own)


def _stand_together(made: Offer) -> bool:
    """Whether each number of groups stands right before what they hold: 4 boxes of 9 peaches."""
    each, groups = made.of("each"), made.of("groups")
    return len(each) == len(groups) and all(
        re.fullmatch(r" (?:[a-z]+ ){1,2}(?:of|with|at|for) \$?", made.story.text[g.told.start
            + len(g.told.text.split()[0]) : e.told.start])
        for g, e in zip(groups, each, strict=True)
    )  # fmt: skip


def asked_words(story: Told) -> frozenset[str]:
    """The words that say what is asked for."""
    also = (w for more in story.query.also for w in more)
    return story.query.words | {*story.query.thing, *also}


def both_each(made: Offer) -> bool:
    """Whether two rates are for each of the same, and both or what they leave are asked for."""
    story = made.story
    per = [e.per for e in made.of("each")]
    units = {e.unit for e in made.of("each")}
    alike = len(per) == len("ab") and len(units) == 1
    alike = alike and bool(per[0] & per[1] or not (per[0] and per[1]))
    if "−" in made.shape:
        return alike and story.asks(f"{REST}|profit|gain|more|than")
    more = (story.asks(TOTAL) or story.says("more")) and not any(
        e.told.total for e in made.of("each")
    )
    plain = not story.asks(f"{REST}|than|save|profit") and not story.says("wide|long|left|area")
    return alike and more and plain and _tied(made)
