"""For each of what an amount is told, whatever the order of the words.

"24 packets apiece", "each pan calls for 2/3 cup", "12 onions to a net", "0.4 liter every minute",
"in rows of 16", "it takes 7/8 yard to make one apron", "loaves are sold for $2.85 each".
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from narrate.reading.equal_groups.amounts import Line, Name
from narrate.reading.words import lexicon
from narrate.reading.words.lexicon import UNITS, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.things import thing_after
from narrate.reading.words.verbs import verb_at


@dataclass(frozen=True, slots=True)
class Told:
    """The group that an amount is told for, () where it is not named, and the words that say so.

    `loose`: the group is a single one of which nobody says that there are more. `within`: the
    amount is told with its name, a pan of 12.
    """

    group: Name
    said: frozenset[int]
    loose: bool = False
    within: bool = False


def with_rates(line: Line) -> None:
    """Make rates of the amounts of a line that are told for each of something."""
    for at, amount in line.amounts.items():
        if not amount.alone:
            continue
        for form in (_behind, _of_groups, _sized, _by_subject):
            if (told := form(line, at)) is not None:
                line.amounts[at] = replace(
                    amount, per=told.group, loose=told.loose, within=told.within
                )
                line.read |= told.said
                break


_EACH = word_set("each every per")
_ONE = word_set("a an one")
_INTO = word_set("in on to into onto per for at from inside with")
_BASES = frozenset(VERBS.values())
_BETWEEN = word_set("are is was were be been will can must go goes went fit fits there of out up")


def _behind(line: Line, at: int) -> Told | None:
    """12 onions to a net, 0.4 liter every minute, $4.50 a bowl, 24 packets apiece."""
    after = at + 1
    if line.amounts[at].size:
        after += 2 if line.low(after) == "in" else line.low(after) in _LONG
    here = after
    while here < after + _FAR and _passes(line, here):
        here += 1
    low = line.low(here)
    if low == "apiece" or (low == "each" and _ends(line, here + 1)):
        behind = 2 if line.low(here + 1) == "of" else 0
        return Told(_owner(line, at), frozenset(range(here, here + 1 + behind)))
    placed = low in _INTO and low != "per"
    first = here + placed
    if low == "to" and line.low(here + 1) in _BASES:
        first = here + 2
    det = line.low(first)
    if det == "each" and first == here and _does(line, first + 1):
        return None  # 15 classes each sent 15
    close = here == after
    single = det in _ONE and (first > here or _is_each_time(line, at, first))
    single = single and not (low in ("to", "for") and _handed(line, at))
    if det in _EACH or (single and (close or low in ("for", "to"))):
        told = _group(line, here, first + 1, at)
        return told if told is None or told.group or det in _EACH or det == "one" else None
    if det == "the" and low == "to" and close and not line.amounts[at].thing:
        return _group(line, here, first + 1, at)
    return None


_FAR = 4
_LONG = word_set("long wide tall high deep old thick")


def _handed(line: Line, at: int) -> bool:
    """Whether an amount is handed to one, once: she gave 3 rolls to a pupil."""
    bases = {VERBS.get(line.low(i), "") for i in range(max(0, at - 3), at)}
    return bool(bases & _GIVING)


_GIVING = word_set("give sell hand lend send bring throw buy feed show")


def _passes(line: Line, at: int) -> bool:
    """Whether a word only leads on to the group: are needed for each, went into every one."""
    low = line.low(at)
    if low in ("", "#", ",") or low in _EACH | _INTO | lexicon.PRONOUNS:
        return False
    return low in _BETWEEN or (low in VERBS and verb_at(line.words, at))


def _does(line: Line, at: int) -> bool:
    """Whether a word at a place is what each of several does: each sent 15."""
    return line.low(at) in lexicon.PAST | lexicon.MODALS or (
        line.low(at) in VERBS and line.low(at + 1) == "#"
    )


def _ends(line: Line, at: int) -> bool:
    """Whether nothing is named at a place."""
    low = line.low(at)
    if low == "of":
        return line.low(at + 1) in ("them", "these", "those")
    return not low.isalpha() or low in lexicon.NO_THING


def _is_each_time(line: Line, at: int, first: int) -> bool:
    """Whether "a" right behind an amount says for each of what: $3 a bag, 2 liters a second."""
    named = thing_after(line.words, first + 1)[0]
    timed = bool(named) and named[-1] in UNITS
    return first == at + 1 and bool(named) and (timed or line.amounts[at].money)


def _group(line: Line, start: int, at: int, number: int) -> Told | None:
    """The group that is named at a place; () for "each one of them"."""
    if line.low(at) == "single":
        at += 1
    if line.low(at) == "of" and (told := _of_counted(line, at - 1)) is not None:
        return told
    if line.low(at) in ("one", "of") or line.low(at) in lexicon.NO_THING:
        pointed = {"one", "of", "them", "these", "those"}
        end = at
        while line.low(end) in pointed:
            end += 1
        if line.low(end).isalpha() and line.low(end - 1) == "of":
            return None
        return Told(_owner(line, number) if end == at else (), frozenset(range(start, end)))
    name, end = thing_after(line.words, at)
    return Told(name, frozenset(range(start, end))) if name else None


def _owner(line: Line, at: int) -> Name:
    """The things that an amount is told for each of: cartons that hold 24 packets apiece."""
    back = at - 1
    while back >= 0 and (line.low(back) in _LEADS or _is_verb(line, back)):
        back -= 1
    if line.low(back) == "#":
        return line.amounts[back].thing
    first = back
    while first > 0 and _names(line, first - 1):
        first -= 1
    name = (
        thing_after(line.words, first)[0]
        if back >= 0 and (back < at - 1 or line.amounts[at].size)
        else ()
    )
    several = bool(name) and line.words[back].low != line.words[back].lemma
    return name if several or "of" in {w.low for w in line.words[first:back]} else ()


_LEADS = word_set("that which with for at of only can will must to by about be") - {"about"}


def _is_verb(line: Line, at: int) -> bool:
    low = line.low(at)
    taken_up = line.low(at - 1) in ("that", "which") and line.low(at + 1) == "#"
    return low in _BETWEEN or (low in VERBS and (taken_up or verb_at(line.words, at)))


def _names(line: Line, at: int) -> bool:
    """Whether a word belongs to the name that ends behind it."""
    word = line.words[at]
    if word.kind != "w" or _is_verb(line, at):
        return False
    return word.low == "of" or word.low not in lexicon.NO_THING


_NO_GROUP = word_set(
    "total size length width height depth cost price value weight mass area number sum amount rate "
    "distance volume charge capacity out instead most all half part rest"
)


def _of_groups(line: Line, at: int) -> Told | None:
    """Bags of 8; 9 packs of 12; a tray of 4 seedlings."""
    if line.low(at - 1) != "of" or line.amounts[at].money:
        return None
    if line.low(at - 2) == "#":
        group = line.amounts[at - 2].thing
        return Told(group, frozenset({at - 1})) if group else None
    word = line.words[at - 2] if at > 1 else None
    if word is None or word.kind != "w" or word.low in _NO_GROUP | lexicon.NO_THING:
        return None
    first = at - 2
    while first > 0 and _names(line, first - 1) and line.low(first - 1) != "of":
        first -= 1
    name = thing_after(line.words, first)[0]
    single = line.low(first - 1) in ("a", "an", "the", "one", "this", "that")
    return Told(name, frozenset({at - 1}), loose=single, within=True) if name else None


def _sized(line: Line, at: int) -> Told | None:
    """Stakes 3/4 foot long; pieces that are 3 feet in length."""
    name = _owner(line, at) if line.amounts[at].size else ()
    return Told(name, frozenset()) if name else None


def _by_subject(line: Line, at: int) -> Told | None:
    """Each pan calls for 2/3 cup; on every one there are 6; a jug holds 2 liters."""
    for first in range(at - 1, -1, -1):
        low = line.low(first)
        if low == "#" and not _goes_on(line, first):
            return None
        if low in ("each", "every"):
            behind = line.low(first - 1) == "#" and first in line.read
            return None if behind else _each(line, first, at)
        if low in _ONE and _opens(line, first) and (told := _single(line, first, at)):
            return told
        if low in (";", ":"):
            return None
    return None


def _goes_on(line: Line, at: int) -> bool:
    """Whether an amount leads on to the next: each pan of 12 takes 3 cups, 3 eggs and 2 pears."""
    return line.low(at - 1) == "of" or line.low(at + 1) == "and"


def _each(line: Line, first: int, at: int) -> Told | None:
    """What "each" at a place tells an amount behind it for."""
    behind = line.low(first + 1)
    if line.low(first - 1) == "#" and _does(line, first + 1):
        return Told(line.amounts[first - 1].thing, frozenset({first}))
    if behind == "of" and line.low(at - 1) != "each" and at in (first + 2, first + 3):
        return None  # each of 4 cooks
    if behind == "of" and (told := _of_counted(line, first)) is not None:
        return told
    if behind in ("of", "one"):
        return Told((), frozenset(range(first, first + 2)))
    name, end = thing_after(line.words, first + 1)
    if not name and (behind in VERBS or behind in lexicon.MODALS):
        return Told((), frozenset({first}))
    between = {line.low(i) for i in range(end, at)}
    if not name or between & {"if", "when", "but", "than", "as", "and"} - _also(line, end, at):
        return None
    return Told(name, frozenset(range(first, end)))


def _also(line: Line, end: int, at: int) -> frozenset[str]:
    """The word "and" where it joins two amounts: 3 cups of oats and 2 cups of milk."""
    ands = [i for i in range(end, at) if line.low(i) == "and"]
    return frozenset({"and"} if all(line.low(i - 1) == "#" and i + 1 == at for i in ands) else ())


def _of_counted(line: Line, first: int) -> Told | None:
    """Each of 4 cooks, each of the 4 cooks."""
    for place in (first + 2, first + 3):
        if line.low(place) == "#":
            return Told(line.amounts[place].thing, frozenset(range(first, place)))
    return None


_OPENING = word_set("if when and but because that , since while though")
_HOLDING = word_set(
    "hold have contain need take use require weigh cost measure make yield serve feed fit give seat"
    " call carry produce fill sell cover last pour"
)


def _opens(line: Line, first: int) -> bool:
    """Whether "a" at a place begins a subject: at the start, or right behind another thing."""
    before = line.words[first - 1] if first else None
    named = before is not None and before.kind == "w" and before.low not in lexicon.NO_THING
    return before is None or before.low in _OPENING or named


def _single(line: Line, first: int, at: int) -> Told | None:
    """A jug holds 2 liters; one meter of edging costs $2.40."""
    here = first + 1 + (line.low(first + 1) == "single")
    name, end = thing_after(line.words, here)
    between = [line.low(i) for i in range(end, at)]
    if line.low(end) == "of" and line.low(end + 1) == "#":
        between = between[2:]
    bases = [VERBS[low] for low in between if low in VERBS]
    if not name or len(between) > _FAR or not set(bases) & _HOLDING or "," in between:
        return None
    loose = line.low(first) != "one" and here == first + 1
    return Told(name, frozenset(range(first, end)), loose=loose)
