"""Whether an amount comes to those asked about or goes from them."""

from __future__ import annotations

import re

from narrate.reading.words.comparing import MORE
from narrate.reading.words.lexicon import NO_THING, UNITS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity

_TAKEN = word_set("pick collect harvest gather")


_PLACED = word_set("plant put")


def _taken(q: Quantity, state: Quantity | None) -> int:
    """Whether what is picked or planted goes to what was there, or from it."""
    if state is None:
        return 1 if q.verb in _TAKEN else 0
    if q.partitive:
        return -1
    if state.verb_sort == "be":
        placed = q.verb in _PLACED
        return 1 if placed or q.more else -1
    same = bool(state.who & q.who) or state.verb_sort == "gain" or not q.who
    if not same:
        return 0
    return 1 if q.verb in _TAKEN or q.more else -1


def direction(q: Quantity, owners: set[str], state: Quantity | None) -> int:
    """+1 where an amount comes to who is asked about, −1 where it goes, 0 where none is told."""
    own = q.verb in GIVING and state is not None and bool(q.who & state.who)
    if (q.to & owners and not own) or _given_to(q, state):
        return 1
    if q.money and q.verb != "cost" and state is not None and _of_another(q, state):
        return 1 if q.verb in GIVING and _to_someone(q) and "of" not in q.near else 0
    if q.money:
        return MONEY.get(q.verb, 0)
    if q.verb in _BECOMING and (told := q.near & MORE.keys() - {"more"}):
        return MORE[min(told)]
    if q.verb == "share":
        return -1 if "with" in q.near else 0
    if q.verb in _TAKEN | _PLACED and not q.passive:
        return _taken(q, state)
    if q.verb == "come" and "out" in q.near and "of" not in q.near:
        return 0  # 8 more come out into the garden
    if q.verb in _MOVING and {"off", "away", "out", "down"} & q.near:
        return -1
    if q.verb in _MOVING and "in" in q.near and not q.around:
        inside = state is not None and "in" in state.near and state.verb_sort == "be"
        return 1 if inside else 0  # six more jumped in: into the pool, but not to the pond
    if _goes_elsewhere(q, state):
        return -1  # 9 hens of the yard went into the coop
    if q.verb in _TRAVELLING and ({"over", "join"} & q.near or q.more):
        return 1
    if q.verb in _EATEN and state is not None and not q.passive and not q.more:
        return -1
    rule = _BY_SORT.get(q.verb_sort)
    return rule(q, owners) if rule else -1 if q.verb == "read" and not q.more else 0


_BECOMING = word_set("get become grow")


def _goes_elsewhere(q: Quantity, state: Quantity | None) -> bool:
    """Whether some of what was in one place went to another."""
    goes = q.verb in _MOVING - {"come", "get", "take"} and bool(q.near & {"into", "to", "onto"})
    if state is None or state.verb_sort != "be" or not goes or q.more:
        return False
    return bool(state.around and q.around) and not q.around & state.around


_MOVING = word_set(
    "get take come pick pour throw cut fly swim walk run drive move hop climb crawl wander rush "
    "dash scurry gallop trot hurry go ride saw jump"
)
_TRAVELLING = word_set("fly swim walk run drive hop bring deliver")
GIVING = word_set("give send lend hand")
_EATEN = word_set("cook")


def _to_someone(q: Quantity) -> bool:
    """Whether an amount goes to him, her or them: to her, not to her cousin."""
    return bool(q.to) and q.to <= _SOMEONE


def _given_to(q: Quantity, state: Quantity | None) -> bool:
    """Whether someone else gives an amount to who had one: his aunt gave him some."""
    gives = q.verb in GIVING and _to_someone(q) and not q.known
    return gives and state is not None and _of_another(q, state)


def _of_another(q: Quantity, state: Quantity) -> bool:
    """Whether someone else does something with an amount than who has what there was."""
    return bool(state.who) and bool(q.who) and not q.who & state.who


_ARRIVING = word_set("come join arrive hatch grow land add hop move put rise")


_OUT_OR_IN = _TAKEN | word_set("catch find get")
"""Verbs whose passive does not say where things go: then 36 fish were caught."""


def _gained(q: Quantity, owners: set[str]) -> int:
    others = bool(owners) and not q.who & owners
    if q.source and (q.source & owners or others):
        return -1
    if others and q.who and q.partitive:
        return -1  # Ana was given 12 of them
    if q.passive and q.verb in ("make", "buy", "order"):
        return -1 if q.verb == "buy" else 1
    if q.passive and q.verb in _OUT_OR_IN and not q.more:
        return 0
    arrives = q.verb in _ARRIVING or (q.verb == "get" and "on" in q.near)
    return 0 if others and not arrives and not q.more else 1


_DOWN = word_set("off down out from tree branch")


def _lost(q: Quantity, owners: set[str]) -> int:
    if q.verb == "fall" and not _DOWN & q.near:
        return 1 if q.more and set(q.thing) & UNITS else 0  # another 2 centimeters of rain fell
    if owners and not q.who & owners and q.verb == "give" and not q.passive:
        given = _to_someone(q)
        return 1 if given else -1 if "away" in q.near else 0
    return -1


_SOMEONE = word_set("him her them me us you")


def _taken_by(q: Quantity, owners: set[str]) -> int:
    return -1 if q.source or not q.who & owners else 0


_BY_SORT = {"gain": _gained, "lose": _lost, "take": _taken_by}


MONEY = dict.fromkeys(
    word_set("buy purchase order pay spend cost give lend donate lose use"), -1
) | dict.fromkeys(word_set("earn receive get find save sell make win collect deposit add"), 1)
"""What happens to the money of who buys, earns and so on."""


def elsewhere(text: str, q: Quantity, state: Quantity) -> int:
    """Where an amount is put, beside what there was: −1 into another thing, +1 perhaps into it.

    0 where that is not told: she pours 2 cups into Roy's bucket, of the 3 cups in Nell's.
    """
    found = re.match(r"[^.,?]*?\binto\b((?: [a-z'-]+){1,4})", text[q.end :])
    if found is None or q.verb not in ("pour", "put", "move", "pump", "empty") or not state.who:
        return 0
    words = frozenset(one(word) for word in found[1].split() if word not in NO_THING)
    if words <= state.who:
        return 0
    return -1 if state.who - words else 1
