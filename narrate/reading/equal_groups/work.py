"""The one way in which the amounts of a story of equal groups go together, by their units."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from narrate.exact.tree import Expr, value
from narrate.reading.equal_groups.amounts import Amount, Line, Name, clashes, goes_with, measure_of
from narrate.reading.equal_groups.asked import Asked
from narrate.reading.words.facts import joined
from narrate.reading.words.lexicon import UNITS, VERBS
from narrate.reading.words.plain import word_set


@dataclass(frozen=True, slots=True)
class Told:
    """A story of groups: its lines, what it asks, and all its amounts in order."""

    lines: Sequence[Line]
    asked: Asked
    amounts: Sequence[Amount]


@dataclass(frozen=True, slots=True)
class Worked:
    """What a story comes to, the amounts used in order, what is unknown, and the steps before."""

    tree: Expr
    used: tuple[Amount, ...]
    unknown: str
    situation: str = "equal groups"
    made: tuple[Amount, ...] = ()


def work(told: Told) -> Worked | None:
    """The one way in which the amounts go together, None where there is none or more than one."""
    amounts = _named(told)
    if amounts is None:
        return None
    found = [
        w for w in (_product(told, amounts), _number(told, amounts), _size(told, amounts)) if w
    ]
    return found[0] if len(found) == 1 and _is_sensible(told, found[0]) else None


def _named(told: Told) -> list[Amount] | None:
    """The amounts, those that name no group or no thing with the only one that it can be."""
    asked = told.asked
    made = [replace(a, per=None) if a.loose and not _counted(told, a) else a for a in told.amounts]
    for at, amount in enumerate(made):
        others = [a for a in made if a is not amount]
        if amount.per == ():
            groups = [a.thing for a in others if a.alone and a.thing and not a.money and not a.size]
            groups = [g for g in groups if not goes_with(g, amount.thing)]
            if not groups and asked.thing and not goes_with(asked.thing, amount.thing):
                groups = [asked.thing]
            if len(groups) != 1:
                return None
            made[at] = amount = replace(amount, per=groups[0])
        if not amount.thing:
            names = [a.thing for a in others if a.alone and a.thing and not a.size]
            names = [n for n in names if amount.per is None or not goes_with(n, amount.per)]
            if (
                not names
                and asked.thing
                and not (amount.per and goes_with(asked.thing, amount.per))
            ):
                names = [asked.thing]
            if len(names) != 1:
                return None
            made[at] = replace(amount, thing=names[0])
    return made


def _counted(told: Told, rate: Amount) -> bool:
    """Whether groups of a rate are counted or asked for."""
    names = [a.thing for a in told.amounts if a.alone and a is not rate]
    return any(goes_with(name, rate.per or ()) for name in (*names, told.asked.thing))


def is_asked(told: Told, amount: Amount) -> bool:
    """Whether an amount counts or measures what is asked for."""
    asked = told.asked
    if asked.money or amount.money:
        return asked.money and amount.money
    if asked.unit and asked.unit not in amount.thing:
        return False
    if not asked.thing and asked.measure and not asked.unit:
        return any(_MEASURES.get(word) == asked.measure for word in amount.thing)
    if not asked.thing:
        return bool(asked.unit)
    if not measure_of(asked.thing) and measure_of(amount.thing):
        rest = tuple(w for w in amount.thing if w not in measure_of(amount.thing))
        known = {w.lemma for line in told.lines for w in line.words}
        bare = not asked.counted and asked.thing[-1] in known
        return goes_with(asked.thing, rest) if rest else bare
    return goes_with(asked.thing, amount.thing)


_MEASURES = {
    **dict.fromkeys(word_set("inch foot yard mile meter kilometer centimeter"), "length"),
    **dict.fromkeys(word_set("gram kilogram pound ounce ton milligram"), "mass"),
    **dict.fromkeys(word_set("liter milliliter gallon quart pint cup"), "volume"),
}  # fmt: skip


_SHARING = word_set("share split divide distribute")


def _product(told: Told, amounts: Sequence[Amount]) -> Worked | None:
    """So many in each of so many, or of so many that each hold so many."""
    asked = told.asked
    rates = [a for a in amounts if not a.alone and is_asked(told, a)]
    whole = [a for a in amounts if a.alone and is_asked(told, a)]
    shared = any(VERBS.get(w.low) in _SHARING for line in told.lines for w in line.words)
    if len(rates) != 1 or whole or shared or asked.per is not None:
        return None
    chain = [rates[0]]
    while not chain[-1].alone:
        group = chain[-1].per or ()
        found = [a for a in amounts if a not in chain and goes_with(a.thing, group)]
        if len(found) != 1 or clashes(found[0].thing, chain[-1].thing):
            return None
        chain.append(found[0])
    if not _rest_is_extra(told, amounts, chain):
        return None
    used = tuple(reversed(chain))
    return Worked(joined("×", *(a.tree for a in used)), used, "product")


def _number(told: Told, amounts: Sequence[Amount]) -> Worked | None:
    """All there is, and how many are in each: how many groups."""
    asked = told.asked
    rates = [a for a in amounts if not a.alone and goes_with(a.per or (), asked.thing)]
    rates = [a for a in rates if not is_asked(told, a)]
    if asked.per is not None or asked.money or not asked.thing:
        return None
    found = [(r, a) for r in rates for a in amounts if a.alone and _is_all(a, r)]
    if len(found) != 1:
        return None
    rate, whole = found[0]
    if clashes(whole.thing, rate.thing) or not _rest_is_extra(told, amounts, [rate, whole]):
        return None
    return Worked(joined("÷", whole.tree, rate.tree), (whole, rate), "number of groups")


def _is_all(amount: Amount, rate: Amount) -> bool:
    if amount.money or rate.money:
        return amount.money and rate.money
    return goes_with(amount.thing, rate.thing)


def _size(told: Told, amounts: Sequence[Amount]) -> Worked | None:
    """All there is, and how many groups that are alike: how many are in each."""
    asked = told.asked
    alike = any(line.equal for line in (*told.lines, asked.line))
    if asked.per is None or not (alike or not asked.single) or any(not a.alone for a in amounts):
        return None
    if len(amounts) != len("ab") or any(a.asked for a in amounts):
        return None
    for whole, groups in (amounts, amounts[::-1]):
        counted = value(groups.tree).denominator == 1 and not measure_of(groups.thing)
        timed = len(groups.thing) == 1 and groups.thing[0] in UNITS
        named = goes_with(groups.thing, asked.per) or (alike and _is_one_share(asked.per))
        if is_asked(told, whole) and (counted or timed) and named and not is_asked(told, groups):
            return Worked(joined("÷", whole.tree, groups.tree), (whole, groups), "group size")
    return None


def _is_one_share(name: Name) -> bool:
    return name in ((), ("share",), ("person",), ("part",), ("piece",), ("portion",))


def _rest_is_extra(told: Told, amounts: Sequence[Amount], used: Sequence[Amount]) -> bool:
    """Whether amounts that are not used lead nowhere by their units."""
    names = [told.asked.thing, *(a.thing for a in used), *(a.per for a in used if a.per)]
    for extra in (a for a in amounts if a not in used):
        alike = any(goes_with(extra.thing, name) for name in names)
        dead = extra.size or extra.within or (extra.money and not told.asked.money)
        if alike or not dead or any(extra.money and a.money for a in used):
            return False
    return True


def _is_sensible(told: Told, worked: Worked) -> bool:
    """Whether things that are counted come out whole, and nothing is below or beside the point."""
    asked = told.asked
    measured = bool(asked.money or asked.unit or measure_of(asked.thing))
    if worked.unknown == "number of groups" and set(asked.thing) & _WHOLE:
        measured = False
    first = worked.used[-1] if worked.unknown == "product" else worked.used[0]
    measured = measured or bool(worked.unknown != "number of groups" and measure_of(first.thing))
    parts = worked.unknown == "product" and value(first.tree).denominator != 1
    return measured or parts or value(worked.tree).denominator == 1


_WHOLE = word_set("day week month year")
