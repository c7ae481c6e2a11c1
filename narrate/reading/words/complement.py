"""A whole of which one part is told and the other is asked for: so many taken, so many free.

What is asked is the other part where the two are opposites (a row of OPPOSITES, "un-", "not"), or
where the story names two parts and no third (CCSSM 2010, glossary Table 1, take apart, addend
unknown).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from narrate.exact.tree import Expr, Whole, value, write_sum
from narrate.reading.words import lexicon
from narrate.reading.words.facts import KINDS, Answer, Story, tree_of
from narrate.reading.words.lexicon import TIMES, VERBS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.verbs import BE, HAVE

_OPPOSITES = """
    girl, female / boy, male; woman, female / man, male; adult, grown-up / child, kid
    taken, occupied, full, filled, booked, reserved, used, in use / free, empty, available, vacant
    full, filled / empty
    open / shut, closed; shut, closed / open
    on / off, out, dark; lit / dark, off, out; broken, cracked, damaged / whole, intact, good
    clean / dirty; dirty / clean; wet / dry; alive, living / dead; right, correct / wrong, incorrect
    ripe / green; fresh / stale; left-handed / right-handed; asleep, sleeping / awake
    present, here, there / absent, missing, away; even / odd; heads / tails
    standing / sitting, seated; inside, indoors / outside, outdoors
    in ground, underground, below ground, under ground / above ground, out of ground
    in water, underwater, under water, below water / above water, out of water
    on loan, out on loan, out, lent out, borrowed, checked out / on shelf, in, in library
    locked / open; finished, done / left to do
"""
OPPOSITES = tuple(
    tuple(frozenset(phrase.strip() for phrase in side.split(",")) for side in row.split("/"))
    for row in _OPPOSITES.replace("\n", ";").split(";")
    if row.strip()
)
"""Pairs of what things can be, where what is not the one is the other."""


def complement(story: Story) -> Iterator[Answer]:
    """The other part of a whole, told by its opposite."""
    query = story.query
    whole, part = _whole_and_part(story)
    if query.than or query.sign or query.per or query.also or query.total or part is None:
        return
    if whole is not None and whole.made_by == "equal groups" and not part.partitive:
        return  # 4 tables of 6, and 2 pupils are standing: they may be no part of the 24
    told = _told(story, part, whole)
    asked = _asked(story, part, whole, told)
    if not (told and asked and _other_part(story, told, asked)):
        return
    naming = _naming(story, told, asked)
    more = any(not q.known and q.clause not in naming for q in story.quantities)
    if more or any(c.lows & _LATER for c in story.clauses):
        return  # somebody opens some more windows; then he turns off the others
    first: Expr = Whole(1) if whole is None else tree_of(whole)
    tree = write_sum([(1, first), (-1, tree_of(part))])
    if value(tree) > 0:
        yield Answer(
            tree=tree,
            used=(part,) if whole is None else (whole, part),
            situation="take apart",
            unknown="not so" if query.negative else "addend",
            said=frozenset(one(word) for word in asked.split()),
            told=naming,
        )


_LATER = word_set("then later afterward afterwards others")


def _whole_and_part(story: Story) -> tuple[Quantity | None, Quantity | None]:
    """A whole and the part that is told; the whole is None where it is 1."""
    known = [q for q in story.quantities if q.known]
    if story.query.kind == "fraction" and len(known) == 1 and known[0].sort == "part":
        return None, known[0]
    if len(known) != len("ab"):
        return None, None
    whole, part = known
    if re.fullmatch(
        r"\S+ of (?:the|his|her|their|its|these) ", story.text[whole.start : part.start]
    ):
        whole, part = part, whole  # 13 of the 24 pupils
    of_all = story.query.lows[2:4] == ("of", "the")  # how many of the 40 lamps
    some = _is_some_of(story, part, whole) and (of_all or not whole.asked)
    return (whole, part) if some else (None, None)


def _is_some_of(story: Story, part: Quantity, whole: Quantity) -> bool:
    """Whether an amount counts some of those counted before: 4 of them, 13 are girls."""
    if whole.sort != "amount" or not whole.thing:
        return False
    plain = part.sort == "amount" and not (part.more or part.left or part.equal or part.asked)
    same = part.borrowed or not part.thing or part.head == whole.head
    same = same or part.head in KINDS.get(whole.head, ()) or not set(part.thing) - set(whole.thing)
    asked = story.query.thing
    counts = not asked or story.agrees(whole, asked[-1:]) or part.head != whole.head
    counts = counts or set(asked) <= whole.who or asked[-1] not in story.heads
    return plain and same and counts and part.money == whole.money


# -- what is told of the part, and what is asked


_SMALL = lexicon.DETERMINERS | word_set("already still now yet there only just but currently")


def _told(story: Story, part: Quantity, whole: Quantity | None) -> str:
    """What is told of a part in a few words, "" where more is told than that: are taken."""
    clause = story.clauses[part.clause]
    here = [s for s in clause.stretches if s and s[0].start <= part.start < s[-1].end]
    if not here or clause.negative or any(_adds(s, part, whole) for s in clause.stretches):
        return ""
    words = here[0]
    at = next(i for i, t in enumerate(words) if t.start == part.start)
    known = _words_of(whole) | set(part.thing)
    known |= part.who | {t.lemma for t in words if VERBS.get(t.low) == part.verb}
    if any(t.low not in _BEFORE and t.lemma not in known for t in words[:at]):
        return ""
    behind = [t.low for t in words[at + 1 :] if not (whole and t.start == whole.start)]
    be = next((i for i, low in enumerate(behind) if low in BE), None)
    if be is None and not part.before_verb and part.partitive and part.verb_sort == "do":
        return part.verb if all(low in _OF for low in behind) else ""
    if be is None:
        return _done(story, part, behind)
    if any(low not in _OF and one(low) not in known for low in behind[:be]):
        return ""
    return _phrase(behind[be + 1 :])


def _done(story: Story, part: Quantity, behind: Sequence[str]) -> str:
    """What a part did, or what it is where nothing more is told: 44 work; there are 13 girls."""
    if part.before_verb:
        at = next((i for i, low in enumerate(behind) if VERBS.get(low) == part.verb), None)
        return "" if at is None else " ".join((part.verb, *behind[at + 1 :]))
    there = part.verb_sort in ("be", "own") and not part.borrowed
    behind = [low for low in behind if low not in _OF]
    return " ".join(part.thing) if there and len(behind) == len(part.thing) else ""


_BEFORE = word_set("only just but and of the these them those in there are were has have today now")
_OF = _SMALL | word_set("of them it in on at")


def _adds(stretch: Sequence[object], part: Quantity, whole: Quantity | None) -> bool:
    """Whether a stretch says more than the part and the whole: in another class."""
    start, end = stretch[0].start, stretch[-1].end  # type: ignore[attr-defined]
    return not any(q is not None and start <= q.start < end for q in (part, whole))


def _words_of(whole: Quantity | None) -> frozenset[str]:
    return frozenset() if whole is None else whole.words


def _phrase(lows: Sequence[str]) -> str:
    """Words that say what something is, without small ones and without what it is full of."""
    words = [low for low in lows if low not in _SMALL | BE]
    if words[1:2] == ["of"] and words[0] in ("full", "out"):
        words = words[:1] if words[0] == "full" else words
    return " ".join(words)


def _asked(story: Story, part: Quantity, whole: Quantity | None, told: str) -> str:
    """What the question asks for, in the words that say which: free, above ground, boys."""
    query = story.query
    lows = [low for low in query.lows[2:] if not (whole and whole.asked and low.isdigit())]
    did = query.negative and VERBS.get(told.split()[0] if told else "") == query.verb
    at = max((i for i, low in enumerate(lows) if low in BE | HAVE), default=len(lows))
    if did and query.verb not in ("be", "have"):
        at = next((i for i, low in enumerate(lows) if VERBS.get(low) == query.verb), at) - 1
        lows[at + 1] = query.verb
    if query.verb in _ATTENDED and lows[-1:] and one(lows[-1]) in _words_of(whole):
        at = next((i for i, low in enumerate(lows) if VERBS.get(low) == query.verb), at)
    shared = _words_of(whole) | (set(part.thing) - {part.head} if whole else set(part.thing))
    shared |= (part.who | lexicon.PRONOUNS) if part.who and part.who <= query.words else set()
    shared |= {part.head} if part.borrowed or part.partitive else set()
    shared = (shared | (part.around & TIMES)) - {one(word) for word in told.split()}
    names = [low for low in lows[:at] if low not in _SMALL | _FORM and one(low) not in shared]
    behind = [low for low in lows[at + 1 :] if low not in _SMALL | _FORM]
    end = len(behind)
    while behind and (one(behind[-1]) in shared or (behind[-1] in _PLACED and len(behind) < end)):
        behind.pop()
    return " ".join((*names, *behind)) if not (names and behind) else ""


_ATTENDED = word_set("go attend come belong visit")
_PLACED = lexicon.PREPOSITIONS
_FORM = BE | HAVE | lexicon.MODALS | word_set("of them it not fraction part")


# -- opposites


def _other_part(story: Story, told: str, asked: str) -> bool:
    """Whether what is asked for is all but what is told."""
    said, wanted = _ones(told), _ones(asked)
    if story.query.negative:
        return said == wanted
    opposite = any({said, wanted} == {a, b} for row in _pairs(said) for a in row[0] for b in row[1])
    prefixed = _NOT.fullmatch(told) or _NOT.fullmatch(asked)
    unlike = prefixed and {told, asked} == {prefixed["state"], prefixed[0]}
    return said != wanted and bool(opposite or unlike or _named_two(story, told, asked))


def _ones(phrase: str) -> str:
    return " ".join(one(word) for word in phrase.split())


def _pairs(said: str) -> Iterator[Sequence[frozenset[str]]]:
    for row in OPPOSITES:
        made = [frozenset(_ones(phrase) for phrase in side) for side in row]
        if said in made[0] | made[1]:
            yield made


_NOT = re.compile(r"(?:un|in|not )-?(?P<state>\w+)")


@dataclass(frozen=True, slots=True)
class _Two:
    """Two parts named side by side at `start` to `end` of the text."""

    start: int
    end: int


def _two(story: Story, told: str, asked: str) -> _Two | None:
    """Where the story names the two parts and no third: only red and blue beads."""
    for a, b in ((told, asked), (asked, told)):
        sides = (rf"{re.escape(side)}(?:e?s)?" for side in (a, b))
        pattern = (
            r"(?P<before>[\w,]+ )\b{}(?: \w+)? (?:and|or) (?:some |the )?{}\b(?P<after>.{{0,6}})"
        )
        for found in re.finditer(pattern.format(*sides), story.text[: story.query.start]):
            listed = found["before"].strip().endswith(",")
            if not listed and not re.match(r",? ?(?:and|or)\b", found["after"]):
                return _Two(found.start(), found.end())
    return None


def _named_two(story: Story, told: str, asked: str) -> bool:
    return _two(story, told, asked) is not None


def _naming(story: Story, told: str, asked: str) -> frozenset[int]:
    """The clauses that name the two parts."""
    two = _two(story, told, asked)
    if two is None:
        return frozenset()
    return frozenset(
        n
        for n, clause in enumerate(story.clauses)
        if any(two.start <= t.start < two.end for t in clause.tokens)
    )
