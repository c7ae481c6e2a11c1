"""So many for each: the forms in which a rate is told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from narrate.reading.words import lexicon
from narrate.reading.words.clauses import Clause
from narrate.reading.words.lexicon import NAMES_NOTHING, NO_THING, UNITS, one
from narrate.reading.words.one_thing import for_one, is_measure
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.things import (
    LONG,
    has_number,
    is_size,
    low_at,
    partitive,
    thing_after,
)
from narrate.reading.words.token import Token


def rate_of(
    made: Quantity, words: Sequence[Token], place: int, end: int, clause: Clause
) -> Quantity | None:
    """6 plums in each bag; $9 per hour; 3 shirts a minute; boxes of 12; each bag has 6 plums."""
    near = _Near(made=made, words=words, place=place, end=end, clause=clause)
    for form in FORMS:
        if (found := form(near)) is not None:
            return found
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Near:
    """A number with the words it stands in: `place` its own, `end` behind what it counts."""

    made: Quantity
    words: Sequence[Token]
    place: int
    end: int
    clause: Clause

    def low(self, at: int) -> str:
        """The word at a place, "" outside."""
        return low_at(self.words, at)

    def each(self, group: tuple[str, ...]) -> Quantity:
        """The number as a rate for each of a group."""
        return replace(self.made, sort="rate", per=group)


_EACH = ("each", "every")


def _number_of_groups(near: _Near) -> Quantity | None:
    """Every 8 stalks; each of 6 pupils."""
    before = near.low(near.place - 1)
    first = near.place == 1 and near.words[0].low == "each"
    if before in ("each", "every", "per") and not first:
        return near.each(())
    close = {near.low(near.place - i) for i in (1, 2, 3)}
    if "each" in close and "of" in {before, near.low(near.place - 2)}:
        return replace(near.made, equal=True)
    return None


def _behind(near: _Near) -> Quantity | None:
    """6 plums in each bag, $9 per hour, 3 shirts a minute."""
    words, verb = near.words, near.clause.verb
    for at in range(near.place + 1, len(words)):
        low = words[at].low
        if words[at].kind == "n":
            return None
        if low == "each" and words is near.clause.stretches[0] and near.place < verb == at + 1:
            return near.made  # 6 pupils each plant 4 trees
        if low == "each" and {"same", "equal"} & {w.low for w in words[near.end : at]}:
            return replace(near.made, equal=True)  # on 7 plates with the same number on each
        one_of = low == "one" and near.low(at - 1) in ("in", "on", "for")
        one_of = one_of and not near.clause.lows & {"another", "other"}
        unit = one(near.low(at + 1)) in UNITS | {"piece"}
        within = near.low(at - 1) == "in" and near.clause.sort == "be"
        if (
            low in ("per", *_EACH)
            or one_of
            or (low in ("a", "an") and (at == near.end or within) and _for_a(near, at, unit))
        ):
            group, _ = thing_after(words, at + 1)
            if near.low(at + 1) == "of":
                group = _group_of(words, at + 2)
            before = group or _held_by(near) or _group_before(near) or _relative(near)
            return near.each(() if _each_owner(near) else before)
    return None


def _for_a(near: _Near, at: int, unit: bool) -> bool:
    """Whether "a" names what a number is for: 3 shirts a minute, money: $3 a bag."""
    named = near.low(at + 1) not in NO_THING | {"", "while", "bit"}
    return (unit or (near.made.money and named)) and near.low(at + 2) not in ("ago", "later")


def _held_by(near: _Near) -> tuple[str, ...]:
    """What is named right before a measure of each: bottles of 0.9 liter each."""
    before = near.words[near.place - 1] if near.place else None
    named = before is not None and _is_plural(before) and is_measure(near.made)
    return (before.lemma,) if before is not None and named else ()


def _group_before(near: _Near) -> tuple[str, ...]:
    return _before(near.words, near.place, near.clause)


def _relative(near: _Near) -> tuple[str, ...]:
    """What a relative clause tells of: 3 hoes that cost $20 each."""
    return _owner(near.clause) if near.clause.link in ("that", "which", "said") else ()


def _each_owner(near: _Near) -> bool:
    """Whether several do so each: "Ana and Ben each eat 4 apples a day" is two rates in one."""
    clause = near.clause
    subject = clause.stretches[0][: clause.verb] if clause.verb > 0 else ()
    return any(w.low in _EACH for w in subject)


def _with_the_next(near: _Near) -> Quantity | None:
    """8 figures and 10 books on each shelf: both are for each."""
    stretches, start = near.clause.stretches, near.words[0].start
    later = next((s for s in stretches if s and s[0].start > start and s[0].kind == "n"), None)
    placed = any(w.low in lexicon.PREPOSITIONS - {"of"} for w in near.words[near.place :])
    if later is None or placed:
        return None
    at = next((i for i, w in enumerate(later) if w.low in ("per", *_EACH)), None)
    if at is None or sum(w.kind == "n" for w in later[:at]) != 1:
        return None
    return near.each(thing_after(later, at + 1)[0])


def _by_subject(near: _Near) -> Quantity | None:
    """Each bag has 6 plums; every day she reads 6 pages."""
    clause = near.clause
    subject = clause.stretches[0][: clause.verb] if clause.verb > 0 else ()
    at = next((i for i, word in enumerate(subject) if word.low in _EACH), None)
    if at is None:
        return None
    if one(low_at(subject, at + 1)) in _SPANS:
        return replace(near.made, periodic=one(low_at(subject, at + 1)))
    group, _ = thing_after(subject, at + 1)
    if at + 1 == len(subject):
        counted = (thing_after(subject, i + 1)[0] for i, w in enumerate(subject) if w.kind == "n")
        group = next(counted, _owner(clause))
    inner = partitive(subject, at + 2) if low_at(subject, at + 1) == "of" else None
    return near.each(group or tuple(inner[0] if inner else ()) or _owner(clause))


def _by_opening(near: _Near) -> Quantity | None:
    """In each bag, there are 6 plums."""
    for stretch in near.clause.stretches:
        before = stretch is not near.words and stretch[0].start < near.words[0].start
        at = next((i for i, w in enumerate(stretch) if w.low in _EACH), None)
        if not before or has_number(stretch) or at is None:
            continue
        if at == 0 and one(low_at(stretch, 1)) in _SPANS:
            return replace(near.made, periodic=one(low_at(stretch, 1)))
        return near.each(thing_after(stretch, at + 1)[0])
    return None


def _owner(clause: Clause) -> tuple[str, ...]:
    """The words of whom a clause speaks, as they stand in it where they do."""
    if (name := _name(clause.subject)) and set(name) <= clause.who:
        return name
    said = [w.lemma for w in clause.subject if w.lemma in clause.who]
    return tuple(dict.fromkeys([*said, *sorted(clause.who)]))


def _name(subject: Sequence[Token]) -> tuple[str, ...]:
    """What a subject names, its head last: sacks of oats are sacks, tickets for a show tickets."""
    open_words = [w for w in subject if w.low not in lexicon.DETERMINERS]
    return thing_after(open_words, 0)[0]


_NO_GROUP = NO_THING | word_set(
    "total size length box distance width height cost price value weight number sum amount area "
    "heights lengths widths weights masses ages prices costs scores temperatures"
)


def _of_a_group(near: _Near) -> Quantity | None:
    """Groups of size 2; boxes of 12."""
    words, place = near.words, near.place
    if [near.low(place - 2), near.low(place - 1)] == ["of", "size"] and place > 2:
        return near.each((words[place - 3].lemma,))
    if place < 2 or near.low(place - 1) != "of" or near.made.money:
        return None
    group = words[place - 2]
    single = near.low(place - 3) in ("a", "an", "one", "another")
    if single and set(near.made.thing[:1]) & UNITS:
        return None  # a piece of 3 feet
    if group.kind != "w" or group.low in _NO_GROUP:
        return None
    if single and near.low(place - 4) == "of":
        return near.made  # 2/5 of a bag of 35
    if single and group.low in _OF_PEOPLE:
        return replace(near.made, of_one=(group.lemma,))  # a class of 24 pupils
    thing = near.made.thing or _all_of(near.clause)
    return replace(near.each((group.lemma,)), thing=thing)


_OF_PEOPLE = word_set("class group team club choir band flock herd")


def _all_of(clause: Clause) -> tuple[str, ...]:
    """The things that a clause says are all in groups: eggs come in boxes of 12."""
    numbered = any(w.kind == "n" for w in clause.subject)
    grouped = (clause.base == "come" or clause.passive) and not numbered
    several = clause.subject and _is_plural(clause.subject[-1])
    return _name(clause.subject) if grouped and several else ()


def _measured(near: _Near) -> Quantity | None:
    """Each 6 inches long; pieces 6 inches long; pieces that are 6 inches long; 6-inch pieces."""
    made, words, place, clause = near.made, near.words, near.place, near.clause
    if near.low(0) in _EACH and place:
        return near.each(_before(words, place, clause))
    measure = is_measure(made)
    before = words[place - 1] if place else None
    if measure and before is not None and _is_plural(before) and near.low(near.end) in LONG:
        return near.each((before.lemma,))
    if measure and clause.link in ("that", "which") and clause.sort == "be":
        return near.each(_owner(clause))
    tied = is_size(words, place) and len(made.thing) > 1 and made.thing[0] in UNITS
    if tied and near.low(place - 1) not in ("a", "an", "the", "one"):
        return replace(made, sort="rate", thing=made.thing[:1], per=made.thing[1:])
    return None


def _is_plural(word: Token) -> bool:
    return word.kind == "w" and word.low != word.lemma and word.low not in NAMES_NOTHING


def _in_a_time(near: _Near) -> Quantity | None:
    """16 posters in a minute, where minutes are counted."""
    end = near.end
    opened = near.low(end) in ("in", "every") and near.low(end + 1) in ("a", "an", "one")
    timed = one(near.low(end + 2)) in _TIMES and near.low(end + 3) != "of"
    behind = (w for w in near.clause.tokens if w.start > near.made.start)
    timed = timed and not any(w.sort == "part" for w in behind)  # an hour and a half
    if not opened or not timed or near.clause.lows & {"another", "other", "first", "last"}:
        return None
    return replace(near.made, of_one=(one(near.low(end + 2)),))


_TIMES = word_set("second minute hour day week month year")


def _of_those_before(near: _Near) -> Quantity | None:
    """5 trays of rolls, 12 rolls on a tray: the groups are counted right before."""
    end, clause = near.end, near.clause
    placed = near.low(end) in ("on", "in", "to") and near.low(end + 1) in ("a", "an", "each")
    if near.place or not placed or near.words is clause.stretches[0] or near.low(end + 3):
        return None
    group = thing_after(near.words, end + 2)[0]
    numbers = [(s, at) for s in clause.stretches for at, w in enumerate(s) if w.kind == "n"]
    before = [thing_after(s, at + 1)[0] for s, at in numbers if s[at].start < near.made.start]
    return near.each(group) if len(before) == 1 and group and group[-1] in before[0] else None


_HANDED = word_set("give sell lend send")


def _to_each(near: _Near) -> Quantity | None:
    """Packed 6 to a bag."""
    handed = near.low(near.end + 1) == "a" and near.clause.base in _HANDED
    handed = handed or near.low(near.place + 1) == "of"  # moves 8 of them to a tank
    if not handed and near.low(near.end) == "to" and near.low(near.end + 1) in ("a", "each"):
        return near.each(thing_after(near.words, near.end + 2)[0])
    return None


def _for_one_thing(near: _Near) -> Quantity | None:
    """A box holds 12 eggs; it takes 3 lemons to make a pitcher."""
    made = for_one(near.made, near.words, near.place, near.end, near.clause)
    return made if made.of_one else None


def _priced(near: _Near) -> Quantity | None:
    """Adult tickets are $8: things named without number or article cost so much each."""
    clause = near.clause
    subject = [w for w in clause.subject if w.kind == "w"]
    general = bool(subject) and len(subject) == len(clause.subject) and _is_plural(subject[-1])
    general = general and not any(w.low in NO_THING for w in subject)
    alone = (
        near.made.money
        and not near.made.more
        and not any(w.kind == "n" for w in near.words[: near.place])
    )
    if not (general and alone and clause.base in ("be", "cost") and near.place > clause.verb):
        return None
    return replace(near.made, of_one=tuple(w.lemma for w in subject))


def _in_one(near: _Near) -> Quantity | None:
    """There are 12 pencils in a pack, where packs are counted."""
    end = near.end
    there = near.clause.sort == "be" and near.low(0) == "there"
    there = there or near.low(end + 2) in ("row", "column")  # planted 17 bulbs in a row
    if not there or near.low(end) != "in" or near.low(end + 1) not in ("a", "an"):
        return None
    return replace(near.made, of_one=thing_after(near.words, end + 2)[0])


FORMS = (
    _number_of_groups,
    _behind,
    _with_the_next,
    _by_subject,
    _by_opening,
    _of_a_group,
    _measured,
    _in_a_time,
    _in_one,
    _for_one_thing,
    _priced,
    _of_those_before,
    _to_each,
)
"""The forms in which a rate is told, in the order they are tried."""


_SPANS = word_set("day week month year hour minute night morning evening afternoon")


def _group_of(words: Sequence[Token], at: int) -> tuple[str, ...]:
    """The group of "each of his 11 friends"."""
    while at < len(words) and (words[at].low in lexicon.DETERMINERS or words[at].kind == "n"):
        at += 1
    return thing_after(words, at)[0]


def _before(words: Sequence[Token], place: int, clause: Clause) -> tuple[str, ...]:
    """What "each" points back at: the thing counted before in the clause, else its subject."""
    for stretch in reversed(
        [s for s in clause.stretches if s and s[0].start <= words[place].start]
    ):
        for at in range(len(stretch) - 1, -1, -1):
            if (
                stretch[at].kind == "n"
                and stretch[at].start < words[place].start
                and (thing := thing_after(stretch, at + 1)[0])
            ):
                return thing
    said = tuple(w.lemma for w in clause.subject if w.kind == "w" and w.low not in NO_THING)
    name = _name(clause.subject)
    return name if name and set(name) <= set(said) else said
