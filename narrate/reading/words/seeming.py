"""Amounts that are not what they seem: with them in it, a sum is refused.

Half of what is left, or of a part told before, is no part of the whole. What someone plans to use,
or what almost flew away, is still there. In "25 had left" nobody has 25. And an answer in another
unit than the amounts are told in is refused: nothing here converts it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from narrate.reading.words import lexicon
from narrate.reading.words.clauses import Clause
from narrate.reading.words.comparing import LONGER
from narrate.reading.words.facts import Answer, Story
from narrate.reading.words.lexicon import VERBS
from narrate.reading.words.measured_amounts import behind
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity

_SUMS = frozenset(
    (
        "put together", "take apart", "take from", "add to", "in and out", "difference", "change",
        "needed", "not so",
    )
)  # fmt: skip

_REST = re.compile(
    r"^(?:[\w/⁄%-]+(?:\.\d+)? ){1,3}?(?:of )?(?:all |only )?"
    r"(?:(?:the|what|her|his|their|its|this|that|these|those) )?"
    r"(?:was |is |were |are |had |still )*"
    r"(?:rest|remain\w*|left\w*|unused|other|others)\b"
)
STILL_THERE = re.compile(
    r"^(?:[\w/⁄%-]+(?:\.\d+)? ){1,3}?of (?:the|her|his|their|its) (?:\w+ ){1,3}?"
    r"(?:(?:which|that) )?(?:(?:she|he|they|it) )?(?:has|have|had|are|were|is|was) "
    r"(?:still )?(?:left|remaining)\b"
)
_PART = re.compile(
    r"^(?:[\w/⁄%-]+(?:\.\d+)? ){1,3}?of (?:the|that|this|her|his|their|its|these|those) "
    r"(?:\w+ ){0,2}?"
    r"(?:part|portion|half|third|quarter|section|share|amount)\b"
)
_IT = re.compile(
    r"^(?:(?:[\w/⁄%-]+(?:\.\d+)? ){1,3}?(?:of )?(?:it|that|this|them|these|those)\b"
    r"|half(?:$|[.,;?]| (?!of|an?\b|the\b)))"
)
_DONE = re.compile(
    r"^(?:[\w/⁄%-]+(?:\.\d+)? ){1,3}?of (?:the|his|her|their) (?P<how>\w+(?:ed|own|oken|ut)) \w"
)


def doubt(story: Story, answer: Answer) -> str:
    """Why an amount that an answer is made of is not what it seems, "" if none is."""
    if _of_another_part(story, answer):
        return "a part is of less than the whole"
    if _with_its_own_part(story, answer):
        return "a part is added to its own whole"
    if _only_meant(story, answer):
        return "it is only planned"
    if _in_another_unit(story, answer):
        return "the question asks in another unit"
    if _in_two_units(story, answer):
        return "an amount is told in two units"
    if answer.situation != "needed" and any(falls_short(story, q) for q in answer.used):
        return "what is missing is not there"
    if _of_two_others(story, answer):
        return "an amount is held against two"
    if _is_faster(story, answer):
        return "who is faster takes less time"
    if _of_one_group(story, answer):
        return "one of the groups is told by itself"
    if _ends_with_the_other(story, answer):
        return "the one was so until the other"
    if _is_comparison(answer):
        return "what is longer by so much is no amount of its own"
    if _asks_one_way(story, answer):
        return "the question asks for one of the ways"
    if story.query.kind == "fraction" and _is_no_part(answer):
        return "the question asks for a part, not for how many"
    return _of_what_is_told(story, answer)


def _of_what_is_told(story: Story, answer: Answer) -> str:
    """Why an amount told in a clause of its own is not what it seems, "" if none is."""
    if any(_only_if(story, q) for q in answer.used):
        return "it is so only if something else happens"
    told = [q for q in answer.used if q.clause < len(story.clauses)]
    unsaid = [q for q in story.quantities if not q.known and q.clause < len(story.clauses)]
    undone = any(_is_not_so(story.clauses[q.clause]) for q in (*told, *unsaid))
    counted = any(q.verb_sort == "be" and _is_not_so(story.clauses[q.clause]) for q in told)
    if undone and (answer.unknown != "not so" or counted):
        return "it is not quite so"
    people = story.names - lexicon.DATES
    several = len(people) > 1 and bool(story.query.words & people)
    if several and any(_is_somebody(story, q) for q in told):
        return "who is meant is not certain"
    if any(_less_of_it(story, q) for q in told):
        return "the words work with a number"
    if _is_one_of_two(story, [q for q in story.original if q.start in answer.places]):
        return "it is the one or the other"
    if _of_another_day(story, answer):
        return "the question asks for one day"
    return "what was done is not certain" if any(_had_done(story, q) for q in told) else ""


def _is_no_part(answer: Answer) -> bool:
    """Whether an answer counts groups or things, or is more than a whole."""
    counted = all(q.sort == "amount" for q in answer.used) and answer.unknown != "fraction"
    counts = counted and answer.value > 1
    return answer.unknown == "number of groups" or counts


def _is_somebody(story: Story, q: Quantity) -> bool:
    """Whether an amount is of a "she" or "he" who is not known: Tom and Ana, she sold 23 cups."""
    clause = story.clauses[q.clause]
    pronoun = {t.low for t in clause.subject} & {"he", "she"}
    return not q.who and bool(pronoun) and "still" not in clause.lows  # he who gave still has 29


def _less_of_it(story: Story, q: Quantity) -> bool:
    """Whether a number is taken from what stands before it in the words: half of them less 5."""
    return re.search(r"\b(?:less|minus|plus) $", story.text[: q.start]) is not None


_NOT_QUITE = word_set("almost nearly never hardly barely might")


def _is_not_so(clause: Clause) -> bool:
    """Whether what a clause tells did not happen: almost, did not, would have."""
    lows = [t.low for t in clause.tokens]
    meant = any(a in ("could", "would", "should") and b == "have" for a, b in pairwise(lows))
    return clause.negative or meant or bool(clause.lows & _NOT_QUITE)


def _is_one_of_two(story: Story, told: Sequence[Quantity]) -> bool:
    """Whether "or" stands between two amounts, and both are used."""
    places = sorted((q.start, q.end) for q in told)
    between = [story.text[a_end:b_start] for (_, a_end), (b_start, _) in pairwise(places)]
    return any(" or " in words and not re.search(r"[.?!] ", words) for words in between)


_MEASURES = tuple(
    map(
        word_set,
        (
            "inch foot yard mile meter centimeter kilometer millimeter",
            "gram kilogram pound ounce ton milligram",
            "liter milliliter gallon quart pint cup tablespoon teaspoon",
            "second minute hour day week month year decade",
            "dollar cent penny",
        ),
    )
)
"""Units that measure one thing, each set in one sort of measure."""


def _in_another_unit(story: Story, answer: Answer) -> bool:
    """Whether an answer is asked for in a unit that no amount of its measure is told in."""
    query = story.query
    named = re.findall(r"\b(?:in|to) (?:square |cubic )?([^\W\d_]+)\b", story.text[query.start :])
    asked = set(query.thing) | {lexicon.one(word) for word in named}
    used = {w for q in answer.used for w in (*q.thing, *q.per)}
    used |= {w for q in story.original if q.start in answer.places for w in (*q.thing, *q.per)}
    other = any(asked & units and used & units and not asked & used & units for units in _MEASURES)
    return other or bool({"dozen", "dozens"} & set(query.lows))


def _in_two_units(story: Story, answer: Answer) -> bool:
    """Whether one amount is told in two units, one right behind the other: 2 feet 6 inches."""
    for q in story.original:
        told = _TWO_UNITS.match(story.text, q.start)
        units = {lexicon.one(told[1].lower()), lexicon.one(told[2].lower())} if told else set()
        if q.start in answer.places and any(units <= measure for measure in _MEASURES):
            return len(units) > 1
    return False


_TWO_UNITS = re.compile(r"[\d.,/]+ ([A-Za-z]+),?(?: and)? [\d.,/]+ ([A-Za-z]+)")


def _with_its_own_part(story: Story, answer: Answer) -> bool:
    """Whether a total has in it an amount and a share of the same: 60 seeds and 45% of them."""
    shares = [q for q in answer.used if q.made_by == "part of"]
    pairs = ((a, b) for a in answer.used for b in answer.used if a.clause == b.clause)
    if any(re.fullmatch(_OF_HIS, story.text[a.start : b.start]) for a, b in pairs):
        return answer.unknown == "total"  # 45 of his 78 tickets
    shares = [q for q in shares if not re.match(_AS_MUCH, story.text[q.start :])]
    told = {q.start for q in answer.used if q not in shares}
    return answer.unknown == "total" and any(told & set(q.parts) for q in shares)


def _ends_with_the_other(story: Story, answer: Answer) -> bool:
    """Whether a total has in it what was so only until the other came: 12 kg until 3 were out."""
    told = [q for q in answer.used if q.sort == "amount"]
    between = (story.text[a.end : b.start] for a, b in pairwise(sorted(told, key=_place)))
    return answer.unknown == "total" and any(map(_UNTIL.search, between))


def _place(q: Quantity) -> int:
    return q.start


_UNTIL = re.compile(r"^[^.?!;]*\b(?:until|till|before|after)\b")
_OF_HIS = r"[\d.,/]+(?: \d+/\d+)?(?: \w+)? of (?:all (?:of )?)?(?:the|his|her|their|its) "
_AS_MUCH = r"\S+ (?:of )?(?:that|as) (?:much|many)\b"


def _is_comparison(answer: Answer) -> bool:
    """Whether a total has in it how much longer something is: another worm is 1/2 inch longer."""
    told = [q for q in answer.used if q.sort == "amount" and not q.made_by]
    return answer.unknown == "total" and any(LONGER.fullmatch(w) for q in told for w in q.thing)


def _of_one_group(story: Story, answer: Answer) -> bool:
    """Whether rates are joined of which one is of a single group: a bag of 30 and 2 bags of 12."""
    rates = [q for q in answer.used if q.sort == "rate"]
    one = r"\b(?:an?|one|another) (?:[a-z]+ )?[a-z]+ of $"
    single = [q for q in rates if re.search(one, story.text[: q.start])]
    return 0 < len(single) < len(rates)


def falls_short(story: Story, q: Quantity) -> bool:
    """Whether an amount is what someone is short of."""
    return re.match(r"^[$\d.,/ ]*\d(?: [a-z]+){0,2}? short\b", story.text[q.start :]) is not None


def _of_two_others(story: Story, answer: Answer) -> bool:
    """Whether an amount is held against two: 8 fewer than Pip and Rosa."""
    told = (q for q in answer.used if q.sort in ("compare", "times") or q.made_by in _COMPARED)
    starts = {at for q in told for at in (q.start, *q.parts)}
    return any(_TWO_OTHERS.match(story.text[at:]) for at in starts)


_COMPARED = frozenset(("larger", "smaller", "times as many", "times fewer"))
_TWO_OTHERS = re.compile(
    r"[^.,;?]*\b(?:than|as) (?:(?:the|an?|her|his|their) )?[a-z']+(?: [a-z']+)? and"
    r" (?:(?:the|an?|her|his|their) )?[a-z']+(?: [a-z]+)?"
    r"(?: (?:together|combined|did|do|have|had))?\s*(?:[.,;?]|$)"
)


def _is_faster(story: Story, answer: Answer) -> bool:
    """Whether times are compared by how fast someone is: faster is less time."""
    times = any(set(q.thing) & {"second", "minute", "hour"} for q in answer.used)
    told = frozenset().union(*(q.near for q in answer.used if q.sort == "compare"))
    return times and bool({"faster", "slower", "quicker"} & (told | set(story.query.lows)))


def _only_if(story: Story, q: Quantity) -> bool:
    """Whether an amount will be so if something happens, and it is asked what is so now."""
    if q.clause >= len(story.clauses) or {"will", "would"} & set(story.query.lows):
        return False
    clause = story.clauses[q.clause]
    beside = [c for c in story.clauses if c.sentence == clause.sentence and c is not clause]
    if "would" in clause.lows:
        return True
    return "will" in clause.lows and any(c.link == "if" for c in beside)


def _asks_one_way(story: Story, answer: Answer) -> bool:
    """Whether a sum of ways is made where the question begins at the end of one: from the lake."""
    lows = story.query.lows
    begins = lows.index("from") + 1 if "from" in lows else len(lows)
    there = {lexicon.one(low) for low in lows[begins : begins + 2]}
    return answer.unknown in ("total", "result") and any(q.to & there for q in answer.used)


def _of_another_day(story: Story, answer: Answer) -> bool:
    """Whether a total has a day in it besides the one that the question names."""
    asked = set(story.query.lows) & lexicon.TIMES
    if not asked or answer.unknown != "total":
        return False
    told = [q for q in answer.used if q.clause < len(story.clauses)]
    near = [(q, behind(story, q)) for q in told]
    own = [words if words & {"in", "on"} else q.around for q, words in near]
    days = [words & asked for words in own]
    return any(days) and not all(days)


def _had_done(story: Story, q: Quantity) -> bool:
    """Whether "had" only helps another verb: 25 had left."""
    if q.verb != "have" or not q.before_verb:
        return False
    pairs = pairwise(t.low for t in story.clauses[q.clause].tokens if t.start > q.start)
    return any(a in ("had", "has", "have") and VERBS.get(b, "have") != "have" for a, b in pairs)


def _of_another_part(story: Story, answer: Answer) -> bool:
    """Whether a sum has a part in it that is a part of less than the whole."""
    if answer.situation not in _SUMS:
        return False
    parts = [q for q in answer.used if q.sort == "part"]
    return any(_is_of_less(story, q) for q in parts)


def _is_of_less(story: Story, part: Quantity) -> bool:
    words = story.text[part.start :]
    if _REST.match(words) or _PART.match(words) or STILL_THERE.match(words):
        return True
    done = _DONE.match(words)
    if done and re.search(rf"\b{done['how']}\b", story.text[: part.start]):
        return True
    before = [q for q in story.quantities if q.sort == "part" and q.start < part.start]
    there = any(q.verb_sort in ("be", "own", "gain") for q in before)
    there = there or any(
        q.clause == part.clause and q.before_verb for q in before
    )  # 1/2 of them with a friend
    return there and bool(_IT.match(words))


_MEANT = word_set("plan want hope intend wish expect need")
_WILL = word_set("will would if after")


def _only_meant(story: Story, answer: Answer) -> bool:
    """Whether an amount is taken away or added that someone only plans to, asked before it is.

    What someone did do is not asked of what was planned, whatever it is.
    """
    did = "did" in story.query.lows
    if set(story.query.lows) & _WILL or not (did or answer.situation in _SUMS):
        return False
    if answer.situation == "needed":
        return False  # he wants to raise $250, and has raised $165
    moved = [q for q in answer.used if did or q.verb_sort in ("lose", "take", "gain")]
    return any(q.known and _is_meant(story, q) for q in moved)


def _is_meant(story: Story, q: Quantity) -> bool:
    words = story.text[max(0, q.start - 40) : q.start]
    found = re.search(r"\b(\w+?)(?:s|ned|ed)? to (\w+) [^.,;?]*$", words)
    return found is not None and found[1] in _MEANT
