"""Amounts tied to each other: so much for each of those, more or less than which of the two.

What a number is by its own words (`offered_amounts`) is not all: 12 rolls are so many in each tray
where trays are asked for or counted, and 6 times as many leads back where the larger one is told.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from narrate.reading.words.lexicon import NO_THING, ORDINALS, TIMES, UNITS, VERBS, one
from narrate.reading.words.offered_amounts import Amount
from narrate.reading.words.offered_asked import Told
from narrate.reading.words.offered_days import leads_back_to_day
from narrate.reading.words.offered_kinds import in_proportion
from narrate.reading.words.offered_sides import sides
from narrate.reading.words.plain import word_set
from narrate.reading.words.whom import PEOPLE

_HOLDING = word_set("hold seat fit take carry contain serve have cost weigh need use last cover")
_TURNED = {"more": "fewer", "fewer": "more", "times": "into"}
"""What a relation is for the one that it starts from: 3 more than hers; hers is 3 fewer."""


def linked(told: Told) -> Told:
    """The story with the roles that its amounts play for each other, without what is not needed."""
    story = tied(told)
    return replace(story, amounts=_needed(story))


def tied(told: Told) -> Told:
    """The story with the roles that its amounts play for each other."""
    for link in (_with_each, _with_groups, _with_directions):
        told = replace(told, amounts=link(told))
    return told


def _with(amount: Amount, role: str, per: frozenset[str] = frozenset()) -> Amount:
    told = replace(amount.told, per=tuple(sorted(per))) if per else amount.told
    return Amount(role=role, told=told)


# -- so much for each


def _with_each(told: Told) -> list[Amount]:
    """Amounts of one thing that is counted or asked for: a box weighs 6 pounds; 9 boxes."""
    made = []
    for amount in told.amounts:
        if _is_every_several(told, amount):
            made.append(_with(amount, "amount"))
            continue
        if (doers := _each_of(told, amount)) is not None and amount.role == "amount":
            made.append(_with(amount, "each", doers))
            continue
        group = _one_thing(told, amount)
        asked = 0 <= amount.told.start - told.query.start < len(told.question)
        plain = amount.role == "amount" and bool(group) and not asked
        idle = amount.role == "each" and _is_idle(told, amount)
        made.append(_with(amount, "each", group) if plain else amount)
        if idle:
            made[-1] = _with(amount, "amount")
    return made


def _is_every_several(told: Told, amount: Amount) -> bool:
    """Whether an amount stands beside an "every" with a number: 90 miles every 2 hours."""
    before, behind = told.text[: amount.told.start], told.text[amount.told.start :]
    return amount.role == "each" and bool(
        re.search(r"\bevery $", before)
        or re.match(r"\$?[\d.,/ ]+(?: [a-z]+){0,3}? (?:every|per|each|for every) \d", behind)
    )


def _each_of(told: Told, amount: Amount) -> frozenset[str] | None:
    """Who each have or do so many: 12 pupils each sowed 40; each gets 12. None where nobody is."""
    if told.query.start <= amount.told.start:
        return None
    before, behind = told.text[: amount.told.start], told.text[amount.told.start :]
    found = re.search(r"(?:([a-z]+) (?:who )?)?\beach (?!of\b)[a-z]+ $", before) or re.match(
        r"\S+(?: \d\S*)?(?: [a-z]+){0,3}? (?:to|from|on|in|for) each of "
        r"(?:the |his |her )?\S+ ([a-z]+)",
        behind,
    )
    if found is None:
        return None
    return frozenset({one(found[1])} if found[1] and found[1] not in NO_THING else ())


def _is_idle(told: Told, amount: Amount) -> bool:
    """Whether nothing that a rate is for each of is counted or asked for: a book of 220 pages."""
    others = {w for a in told.amounts if a is not amount for w in (*a.names, *a.per)}
    asked = {told.head, told.query.head, *told.query.per}
    alone = re.search(
        r"\b(?:an?|one|the|another|his|her|this) (?:[a-z]+ )?[a-z]+ of $",
        told.text[: amount.told.start],
    )
    needs = told.asks("more") and bool(amount.told.periodic or amount.per & TIMES)
    told_twice = bool(told.query.per) and told.query.head in amount.names and not amount.told.asked
    counts = {w for a in told.amounts if a is not amount for w in a.names}
    twice = told_twice and bool(counts & {*told.query.per})
    return (
        twice
        or (alone is not None and not amount.per & (others | asked))
        or (needs and not amount.per & others)
    )


def _one_thing(told: Told, amount: Amount) -> frozenset[str]:
    """The one thing that an amount is told of, where such things are counted or asked for."""
    others = [a for a in told.amounts if a is not amount and a.role == "amount"]
    counted = {w for a in others for w in (a.head, a.unit)} | {
        told.head,
        told.query.head,
    } - amount.names
    if any(amount.head in a.per for a in told.of("each")):
        return frozenset()
    one_of = frozenset(amount.told.of_one) | _priced(told, amount) | _of_one_before(told, amount)
    holds = amount.told.verb in _HOLDING or (amount.measured and told.counts)
    counted -= {told.query.head} if told.head in UNITS else set()  # pounds of flour
    if not one_of and holds and not amount.told.before_verb:
        one_of = amount.told.who - {w for a in others for w in a.names if a.told.before_verb}
    return one_of & frozenset(counted) - amount.names


_ONE_BEFORE = re.compile(r"\b(?:one|each|every|single|1) ([a-z]+)\b(?P<between>[^.?!;\d]*)$")


def _of_one_before(told: Told, amount: Amount) -> frozenset[str]:
    """What the words before an amount name one of: one batch of salsa takes 3/4 cup, 1 gallon =."""
    if told.says("the other"):
        return frozenset()
    found = _ONE_BEFORE.search(told.text[: amount.told.start].rstrip("$"))
    return frozenset({one(found[1])}) if found else frozenset()


def _priced(told: Told, amount: Amount) -> frozenset[str]:
    """What a price is for: $5 for grown-ups."""
    others = [a for a in told.amounts if a is not amount]
    alone = bool(others) and not any(a.measured or a.role != "amount" for a in others)
    if amount.told.money and told.head == "dollar" and amount.told.of_one and alone:
        return frozenset(a.head for a in others)
    behind = re.match(
        r"\$?[\d.,]+ for (?:an? |each |every )?([a-z-]+)", told.text[amount.told.start :]
    )
    return frozenset({one(behind[1])}) if behind and amount.told.money else frozenset()


def _with_groups(told: Told) -> list[Amount]:
    """The amounts that count what others are for each of, or what is shared out among."""
    each = [a for a in told.amounts if a.role == "each"]
    by_area = any("square" in a.per for a in each)
    plain = [a for a in told.amounts if a.role == "amount"]
    asked = {w for w in told.query.per if sum(a.unit == w for a in plain) < 2}
    per = frozenset().union(*(a.per for a in each if "square" not in a.per), asked)
    named = [a for a in plain if a.head in per or (a.names & per and not a.measured)]
    named = [a for a in named if not any(a.unit == e.unit for e in each)] or named
    if not named and len(each) == 1 and len(plain) == 1 and not by_area:
        named = [a for a in plain if _are_groups(told, a, each[0])]
    return [_with(a, "groups") if a in named else a for a in told.amounts]


def _are_groups(told: Told, amount: Amount, each: Amount) -> bool:
    """Whether an amount that nothing ties to a rate counts what the rate is for each of."""
    alike = amount.unit == each.unit or (amount.names & each.names)
    spans = amount.unit in TIMES and each.per & TIMES  # so much a day, for two weeks
    return not (alike or spans) and told.head not in each.per and told.head != amount.unit


# -- more and fewer than, times as many as


def _with_directions(told: Told) -> list[Amount]:
    """Relations as they lead from what is told to what is asked for."""
    known = [a for a in told.amounts if a.role == "amount"]
    return [
        _with(a, _TURNED[a.role])
        if a.role in _TURNED and known and _leads_back(told, a, known)
        else a
        for a in told.amounts
    ]


def _leads_back(told: Told, relation: Amount, known: Sequence[Amount]) -> bool:
    """Whether the amount that is told is the one of whom the relation says "more than"."""
    q = relation.told
    people = told.names - TIMES
    whose = [a for a in known if a.told.who & q.who & people]
    if len(known) == 1 == len(whose) and q.other & people - q.who:
        return True
    base = min(known, key=lambda a: (not a.names & relation.names, abs(a.told.start - q.start)))
    if (by_day := leads_back_to_day(told, q, base)) is not None:
        return by_day
    its = _plain_words(
        base.told.who | base.told.to | base.told.around | base.names | base.told.near
    )
    asked = _plain_words(told.query.words - told.query.than)
    mine, others = _plain_words(q.who | q.around | relation.names - UNITS), _plain_words(q.other)
    shared = _plain_words((base.told.who & q.who) | (base.names & relation.names))
    mine, others = mine - others - (its & asked) - shared, others - mine - (its & asked)
    forward = 3 * len(its & others) + len(asked & mine)
    back = len(its & mine) + len(asked & others)
    if forward != back and q.other:
        return back > forward
    between = told.text[base.told.end : q.start]
    return (
        re.search(
            r"\b(?:which|that|this|it) (?:is|was|are|were|weighs?|costs?|measures?)\b|^, $", between
        )
        is not None
    )


def _plain_words(words: Iterable[str]) -> frozenset[str]:
    """Words that name someone or something, verbs by their plain form."""
    return frozenset(VERBS.get(w, one(w)) for w in words if w not in NO_THING)


# -- what is not needed


def _needed(told: Told) -> list[Amount]:
    """The amounts without those of other things, people and times than are asked about."""
    if in_proportion(told) is not None:
        return list(told.amounts)
    for narrower in _NARROWER:
        kept = narrower(told) if len(told.amounts) > 2 else told.amounts
        if len(kept) > 1:
            told = replace(told, amounts=kept)
    return list(told.amounts)


_MEASURING = (
    (r"weigh\w*|mass|heav\w+|light\w*", word_set("pound ounce gram kilogram ton milligram")),
    (r"long\w*|tall\w*|far|length|height|wide\w*|deep\w*|high\w*|distance|farther|short\w*",
     word_set("inch foot yard mile meter centimeter millimeter kilometer")),
)  # fmt: skip


def _of_things(told: Told) -> list[Amount]:
    """The amounts that lead to what is asked for: its own, and so much of it for each of those."""
    wanted = {told.head, *told.query.thing, *(a[-1] for a in told.query.also if a)}
    wanted |= {*told.query.per} | (told.query.than & {a.head for a in told.amounts})
    for asked, units in _MEASURING:
        if told.asks(asked) and not told.query.thing:
            wanted |= units & {a.unit for a in told.amounts}
    counted = {w for a in told.amounts for w in (*a.names, *a.per)}
    if len(told.of("part")) > 1 and told.asks("fraction|how much of|what part"):
        return told.of("part")
    if not (wanted - {""}) & counted or told.asks("fraction|percent|times as"):
        return list(told.amounts)
    wanted |= {w for a in told.amounts if a.per & wanted for w in _counted(a)}
    for _ in told.amounts:
        wanted |= {w for a in told.amounts if _counted(a) & wanted for w in a.per}
    wanted |= {w for a in told.of("each") if a.unit in wanted for w in a.names}
    free = (a.role in _RELATIONS and not a.names for a in told.amounts)
    return [
        a
        for a, f in zip(told.amounts, free, strict=True)
        if f or not _counted(a) or _counted(a) & wanted
    ]


_RELATIONS = ("times", "into", "percent", "part", "more", "fewer")


def _counted(amount: Amount) -> frozenset[str]:
    """The words of what an amount counts, of a measure only the measure: cups of flour."""
    return frozenset({amount.unit, *(amount.names - UNITS)} - {""})


def _asked_words(told: Told) -> frozenset[str]:
    also = (w for more in told.query.also for w in more)
    return told.query.words | told.query.than | {*told.query.thing, *also}


def _is_chain(each: Sequence[Amount]) -> bool:
    """Whether what is in one group is a group itself: nests on a branch, eggs in a nest."""
    return any(a.per & b.names for a in each for b in each if a is not b)


def _of_kinds(told: Told) -> list[Amount]:
    """The amounts of the kind that is asked for, where kinds are told: red pots, green pots."""
    kept = list(told.amounts)
    if told.asks("fraction|percent|times as"):
        return kept
    for role in ("amount", "each"):
        mine = told.of(role)
        if not mine or (role == "each" and _is_chain(mine)):
            continue
        kinds = frozenset(w for a in mine for w in (*a.names, *a.per)) - UNITS - {"dollar"}
        kinds -= frozenset.intersection(*(a.names | a.per for a in mine))
        if asked := _asked_words(told) & kinds:
            own = {id(a): kinds & (a.names | a.per) for a in mine}
            kept = [a for a in kept if not own.get(id(a)) or asked & own[id(a)]]
    return kept


def _of_owners(told: Told) -> list[Amount]:
    """The amounts of those who are asked about, where each has their own."""
    if told.query.total or told.asks("altogether|in all|total|both|together|combined|they"):
        return list(told.amounts)
    people = told.names | PEOPLE | ORDINALS
    names = frozenset(w for a in told.amounts for w in a.told.who) & people
    asked = (told.query.words | told.query.than) & names
    kept = [a for a in told.amounts if not (asked and a.told.who & names) or _is_owned(a, asked)]
    return kept if len(kept) > 1 else list(told.amounts)


def _is_owned(amount: Amount, asked: frozenset[str]) -> bool:
    q = amount.told
    comes_or_goes = q.verb_sort in ("lose", "take") or q.more or q.partitive
    own = not q.who or bool((q.who | q.to | q.source | q.other) & asked)
    return own or comes_or_goes or amount.role != "amount"


def _of_times(told: Told) -> list[Amount]:
    """The amounts of the days and places that are asked about."""
    when = frozenset(w for a in told.amounts for w in a.told.around & TIMES)
    asked = _asked_words(told) & when
    if not asked or told.query.total:
        return list(told.amounts)
    return [a for a in told.amounts if asked & a.told.around or a.role != "amount"]


def _of_verbs(told: Told) -> list[Amount]:
    """The amounts of what was done that is asked about: made, not sold."""
    verb = told.query.verb
    compares = told.query.than or told.query.total
    if told.query.verb_sort in ("", "be", "own") or not compares:
        return list(told.amounts)
    asked = {a.told.verb for a in told.amounts} & (_asked_words(told) | {verb})
    return [a for a in told.amounts if a.told.verb in asked or a.role != "amount"]


def _of_the_end(told: Told) -> list[Amount]:
    """The amounts of the end, where what there is then is compared."""
    if not (told.query.than and told.query.ended):
        return list(told.amounts)
    return [a for a in told.amounts if a.told.after or a.told.left or a.role != "amount"]


def _of_words(told: Told) -> list[Amount]:
    """The amounts that alone have words of the question: rowing, on the shelf, her friends."""
    roles = {"amount"} if told.query.total else {"groups"}
    mine = [a for a in told.amounts if a.role in roles]
    if len(mine) < 2 or told.query.than:
        return list(told.amounts)
    shared = frozenset.intersection(*(a.told.near | a.names for a in mine))
    asked = frozenset(re.findall(r"[a-z-]+", told.question)) | told.query.words
    named = [a for a in mine if ((a.told.near | a.names) - shared - NO_THING) & asked]
    if not named or len(named) == len(mine):
        return list(told.amounts)
    return [a for a in told.amounts if a in named or a.role not in roles]


def _of_relations(told: Told) -> list[Amount]:
    """One relation of several: that of whom is asked about to whose amount is told."""
    found = [a for a in told.amounts if a.role in _RELATIONS and a.told.other]
    plain = told.of("amount")
    if len(found) < 2 or not plain:
        return list(told.amounts)
    owners = frozenset(w for a in plain for w in a.told.who)
    asked = told.query.words - told.query.than
    direct = [a for a in found if (a.told.who & asked and a.told.other & owners)
        or (a.told.other & asked and a.told.who & owners)]  # fmt: skip
    keeps = direct if len(direct) == 1 else found
    return [a for a in told.amounts if a in keeps or a not in found]


def _of_sides(told: Told) -> list[Amount]:
    """The two amounts that a question holds against each other, told apart by their own words."""
    mine, others = sides(told)
    if len(mine) != 1 or len(others) != 1:
        return list(told.amounts)
    return [a for a in told.amounts if a in mine + others]


def _of_groups(told: Told) -> list[Amount]:
    """The amounts without groups of which nothing is told or asked any more."""
    per = frozenset().union(*(a.per for a in told.of("each")), told.query.per)
    doers = [a for a in told.of("amount") if a.told.before_verb and not a.measured]
    doers = [a for a in doers if a.unit != told.head]
    if told.of("groups") and len(doers) == 1 < len(told.of("amount")) and told.query.per:
        told = replace(told, amounts=[a for a in told.amounts if a not in doers])
    return [a for a in told.amounts if a.role != "groups" or not per or a.names & per]


_NARROWER = (
    _of_things, _of_kinds, _of_owners, _of_times, _of_verbs, _of_the_end, _of_words,
    _of_relations, _of_sides, _of_groups,
)  # fmt: skip
