"""Choices tested one by one: equations and comparisons, lists, products of primes, properties.

CCSSM (2010) 1.OA.D.7, 4.NBT.A.2, 4.OA.B.4, 6.EE.B.5, 8.EE.A.4; properties: glossary, Table 3.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise

from narrate.exact.tree import (
    Blank,
    Decimal,
    Expr,
    Group,
    Neg,
    Op,
    Relation,
    Whole,
    Writing,
    leaves,
    value,
    walk,
)
from narrate.kinds._places import PLACES
from narrate.reading.demands import Offer, Tested, least_factor
from narrate.solution.comparing import compare
from narrate.solution.facts import Fact
from narrate.solution.operations import number
from narrate.solution.put_back import put_in
from narrate.solution.slips import Slip
from narrate.solution.steps import Detail, Step, Work
from narrate.solution.task import Task, as_expr

SUMMARY = "choices tested one by one: which equation is true, which list is in order"
STANDARDS = ("1.OA.D.7", "4.NBT.A.2", "4.OA.B.4", "6.EE.B.5", "8.EE.A.4")
TAKES = Tested
SLIPS: tuple[Slip, ...] = ()

Told = tuple[Relation | None, dict[str, Detail]]
"""A true line about a choice, and what its words may say; `how` names them."""


def recognise(task: Task) -> bool:
    """Choices that the question tests."""
    return isinstance(task.demand, Tested)


def solve(task: Task) -> Work:
    """Each choice tested, until the right one is known."""
    demand = task.demand
    assert isinstance(demand, Tested)
    right = task.expression
    steps = tuple(_one_sign(demand) if demand.name == "sign" else _steps(demand))
    return Work(steps=steps, amounts=((1, right),), total=right, result=right, size=1, opened=True)


def _steps(demand: Tested) -> Iterator[Step]:
    named = _named_by(demand)
    if named is not None:
        yield named
    for offer in demand.offers:
        line, told = _TESTS[demand.name](demand, offer)
        stands = offer.holds != demand.negated
        details: dict[str, Detail] = {"letter": offer.letter, "about": offer.letter}
        details |= {"stands": "yes" if stands else "", "negated": "yes" if demand.negated else ""}
        facts = () if offer.holds else (Fact(name="tested", args=(offer.letter,)),)
        move = "judge" if told.pop("judged", "") else "test"
        yield Step(move=move, line=line, details=details | told, facts=facts)


def _named_by(demand: Tested) -> Step | None:
    """What the question itself shows, where its choices are held against that."""
    if demand.name in ("makes", "between") and (line := _equal(_tree(demand.about[0]))) is not None:
        details: dict[str, Detail] = {"how": "target", "line": line}
        return Step(move="test", line=line, details=details | _SIGN_TOLD)
    if demand.name != "property" or not isinstance(demand.about[0], Relation):
        return None
    relation, name, operation = demand.about
    assert isinstance(name, str)
    assert isinstance(operation, str)
    details = {"how": f"shows {name}", "line": relation, "operation": operation}
    return Step(move="test", line=None, details=details | _SIGN_TOLD)


_SIGN_TOLD: dict[str, Detail] = {"letter": "", "about": "", "stands": "yes", "negated": ""}


def _one_sign(demand: Tested) -> Iterator[Step]:
    """Two numbers compared once: that strikes all signs but one."""
    left, right = map(_tree, demand.about)
    wrong = tuple(Fact(name="tested", args=(o.letter,)) for o in demand.offers if not o.holds)
    line, told = _compared(left, right)
    told.pop("judged", "")
    move = "judge" if told["how"] != "sides" else "test"
    yield Step(move=move, line=line, details={**_SIGN_TOLD, **told}, facts=wrong)


# -- what is shown of a choice


def _tree(said: Writing | str) -> Expr:
    """A number or an expression that is said."""
    assert not isinstance(said, str | Relation)
    return said


def _worked(tree: Expr) -> Expr:
    """What an expression comes to, as it is written where it is a number already."""
    if _is_number(tree):
        return tree
    decimals = any(isinstance(node, Decimal) for node in walk(tree))
    amount = value(tree)
    found = number(abs(amount), decimals=decimals)
    if found is None:
        return as_expr(amount)
    return Neg(found) if amount < 0 else found


def _is_number(tree: Expr) -> bool:
    match tree:
        case Neg(inner) | Group(inner):
            return _is_number(inner)
        case Op():
            return False
        case _:
            return not any(isinstance(node, Op) for node in walk(tree))


def _equal(tree: Expr) -> Relation | None:
    """An expression with what it comes to, None where it is a number already."""
    return None if _is_number(tree) else Relation("=", (tree, _worked(tree)))


def _compared(left: Expr, right: Expr) -> Told:
    """Two numbers or expressions compared: numbers by what tells most, others worked out."""
    numbers = _is_number(left) and _is_number(right)
    if numbers and min(value(left), value(right)) >= 0:
        _, line, found = compare(left, right)
        shown = line if found["how"] not in ("same", "equal") else None
        return shown, found | {"judged": "yes", "tree": left}
    pairs = tuple(pair for pair in (_equal(left), _equal(right)) if pair is not None)
    one, other = _worked(left), _worked(right)
    a, b = value(left), value(right)
    side = "less" if a < b else "more" if a > b else "equal"
    told: dict[str, Detail] = {"how": "sides", "pairs": pairs, "left": one, "right": other}
    return (pairs[0] if pairs else None), told | {"side": side}


def _true(demand: Tested, offer: Offer) -> Told:
    relation = offer.said[0]
    assert isinstance(relation, Relation)
    return _compared(*_telling_pair(relation))


def _telling_pair(relation: Relation) -> tuple[Expr, Expr]:
    """The first two sides that are not as the sign says, else the first two."""
    apart = (
        (a, b) for a, b in pairwise(relation.sides) if relation.sign == "=" and value(a) != value(b)
    )
    return next(apart, (relation.sides[0], relation.sides[1]))


def _makes(demand: Tested, offer: Offer) -> Told:
    said, target = _tree(offer.said[0]), _tree(demand.about[0])
    made = _worked(said)
    told: dict[str, Detail] = {"tree": said, "made": made, "target": _worked(target)}
    return _equal(said), told | {"how": "says" if _is_number(said) else "makes"}


def _solves(demand: Tested, offer: Offer) -> Told:
    """A number put in the place of the letter; or, of choices with a letter, the number given."""
    said, about = offer.said[0], demand.about[0]
    relation, chosen = (about, said) if isinstance(about, Relation) else (said, about)
    assert isinstance(relation, Relation)
    chosen = _tree(chosen)
    left, right = (put_in(side, chosen) for side in relation.sides[:2])
    line, told = _compared(left, right)
    if told.pop("judged", ""):
        told |= {"how": "sides", "pairs": ()}
    names = tuple(n for n in walk(relation) if isinstance(n, Blank))
    filled = Relation(relation.sign, (left, right))
    how = "put in"
    return line, told | {"how": how, "number": chosen, "name": names[0], "filled": filled}


def _ordered(demand: Tested, offer: Offer) -> Told:
    """The first two neighbors that stand the wrong way round; else the whole list."""
    numbers = tuple(n for n in offer.said if not isinstance(n, str | Relation))
    rising = demand.about[0] == "rising"
    for one, other in pairwise(numbers):
        if (value(one) < value(other)) != rising or value(one) == value(other):
            if min(value(one), value(other)) < 0:
                sign = "less" if value(one) < value(other) else "more"
                return None, {"how": "below zero", "left": one, "right": other, "side": sign}
            return _compared(one, other)
    line = Relation("<" if rising else ">", numbers)
    return line, {"how": "ordered", "rising": "yes" if rising else ""}


def _all_factors(demand: Tested, offer: Offer) -> Told:
    """A number that is none, or one that is missing, or the factors two by two."""
    of = demand.about[0]
    assert isinstance(of, Whole)
    listed = [n.number for n in offer.said if isinstance(n, Whole)]
    other = next((n for n in listed if of.number % n), 0)
    if other:
        return None, {"how": "no factor in it", "number": other, "of": of}
    missing = next((n for n in range(1, of.number + 1) if not of.number % n and n not in listed), 0)
    shown = missing or 1
    factors = [n for n in range(1, of.number + 1) if n * n <= of.number and not of.number % n]
    if missing:
        line = Relation("=", (_times(shown, of.number // shown), of))
        return line, {"how": "factor missing", "number": missing, "product": line, "of": of}
    products = tuple(_times(n, of.number // n) for n in factors)
    return Relation("=", (of, *products)), {"how": "all factors", "of": of, "products": products}


def _times(one: int, other: int) -> Op:
    return Op("×", Whole(one), Whole(other))


def _multiples(demand: Tested, offer: Offer) -> Told:
    of = demand.about[0]
    assert isinstance(of, Whole)
    listed = [n.number for n in offer.said if isinstance(n, Whole)]
    other = next((n for n in listed if n % of.number), 0)
    told: dict[str, Detail] = {"of": of, "number": other, "values": tuple(listed)}
    return None, told | {"how": "no multiple in it" if other else "all multiples"}


def _prime_factors(demand: Tested, offer: Offer) -> Told:
    """The product worked out, or a factor that is not prime."""
    said = _tree(offer.said[0])
    target = demand.about[0] if demand.about else None
    if isinstance(target, Whole) and value(said) != target.number:
        return _equal(said), {"how": "makes", "tree": said, "made": _worked(said), "target": target}
    odd = next((n for n in leaves(said) if not _prime(n)), None)
    if odd is None:
        return _equal(said), {"how": "all prime", "tree": said, "made": _worked(said)}
    amount = value(odd)
    least = least_factor(amount) if amount.denominator == 1 and amount > 1 else 0
    if not least:
        return None, {"how": "not prime", "number": odd}
    line = Relation("=", (odd, _times(least, int(amount) // least)))
    return line, {"how": "splits", "number": odd, "line": line}


def _prime(tree: Expr) -> bool:
    amount = value(tree)
    return amount.denominator == 1 and amount > 1 and not least_factor(amount)


def _scientific(demand: Tested, offer: Offer) -> Told:
    said, target = _tree(offer.said[0]), _tree(demand.about[0])
    first = said.left if isinstance(said, Op) else said
    if not 1 <= value(first) < 10:
        side = "less" if value(first) < 1 else "more"
        return None, {"how": "first number", "number": first, "side": side, "one": 1, "ten": 10}
    return _equal(said), {"how": "makes", "tree": said, "made": _worked(said), "target": target}


def _property(demand: Tested, offer: Offer) -> Told:
    """The property that a choice shows; or, of names, whether it is the one that was shown."""
    if isinstance(offer.said[0], Relation):
        relation, name, operation = offer.said
        assert isinstance(relation, Relation)
        how = f"shows {name}" if name else "shows none"
        return None, {"how": how, "line": relation, "operation": operation}
    return None, {"how": "named so" if offer.holds else "named otherwise"}


def _digit(demand: Tested, offer: Offer) -> Told:
    """The digit that a number has in the place that is named."""
    said, digit = offer.said[0], demand.about[0]
    assert isinstance(said, Whole | Decimal)
    size = demand.about[1]
    worth = value(size) if isinstance(size, Whole) else Fraction(str(size))
    found = int(value(said) // worth) % 10
    place = PLACES[worth]
    return None, {
        "how": "digit there",
        "tree": said,
        "digit": found,
        "wanted": digit,
        "place": place,
    }


def _rule(demand: Tested, offer: Offer) -> Told:
    """The rule tried on the first number that it does not lead on from; else on the first."""
    sign, by = offer.said
    by = _tree(by)
    numbers = tuple(map(_tree, demand.about))
    made = [(a, Op(sign, a, by), b) for a, b in pairwise(numbers)]  # type: ignore[arg-type]
    failed = [each for each in made if value(each[1]) != value(each[2])]
    start, work, after = (failed or made)[0]
    line = Relation("=", (work, _worked(work)))
    told: dict[str, Detail] = {"line": line, "start": start, "after": after}
    return line, told | {"how": "rule fails" if failed else "rule holds"}


def _equivalent(demand: Tested, offer: Offer) -> Told:
    """A number in place of the letter: where the two differ, they are not the same."""
    said, about = _tree(offer.said[0]), _tree(demand.about[0])
    stands = offer.holds != demand.negated
    tried = next(n for n in range(2, 14) if stands or _put(said, n) != _put(about, n))
    name = next(node for node in walk(about) if isinstance(node, Blank))
    given, made = (put_in(tree, Whole(tried)) for tree in (about, said))
    pairs = tuple(Relation("=", (tree, _worked(tree))) for tree in (given, made))
    told: dict[str, Detail] = {"number": tried, "name": name, "given": pairs[0], "made": pairs[1]}
    return pairs[0], told | {
        "pairs": pairs,
        "how": "same for letter" if stands else "not for letter",
    }


def _put(tree: Expr, number: int) -> Fraction:
    return value(tree, Fraction(number))


def _between(demand: Tested, offer: Offer) -> Told:
    low, high = map(_tree, offer.said)
    exact = _tree(demand.about[0])
    made = _worked(exact)
    side = "inside" if offer.holds else "less" if value(exact) <= value(low) else "more"
    end = high if side == "more" else low
    return None, {
        "how": "between",
        "low": low,
        "high": high,
        "made": made,
        "side": side,
        "end": end,
    }


def _roots(demand: Tested, offer: Offer) -> Told:
    """The squares of both ends, and where the number lies."""
    low, high = map(_tree, offer.said)
    of = _tree(demand.about[0])
    squares = tuple(Op("×", end, end) for end in (low, high))
    lines = tuple(Relation("=", (square, _worked(square))) for square in squares)
    side = "inside" if offer.holds else "less" if value(of) <= value(squares[0]) else "more"
    told: dict[str, Detail] = {"lines": lines, "left": of, "low": low, "high": high, "side": side}
    return None, told | {"how": "squares", "right": _worked(squares[side == "more"])}


def _step(demand: Tested, offer: Offer) -> Told:
    """Both sides after the step: the letter is alone, or it is not."""
    left, right = map(_tree, offer.said)
    relation = demand.about[0]
    assert isinstance(relation, Relation)
    name = next(node for node in walk(relation) if isinstance(node, Blank))
    line = Relation("=", (name if offer.holds else left, _worked(right)))
    return line, {"how": "step", "line": line, "name": name}


def _angle(demand: Tested, offer: Offer) -> Told:
    """The degrees of an angle held against those of a kind of angle."""
    size, (name, low, high) = _tree(demand.about[0]), offer.said
    assert isinstance(name, str)
    return None, {
        "how": "angle", "size": size, "kind": name, "low": low, "high": high,
        "exact": "yes" if low == high else "",
    }  # fmt: skip


def _extreme(demand: Tested, offer: Offer) -> Told:
    said, best = _tree(offer.said[0]), _tree(demand.about[0])
    side = "less" if value(said) < value(best) else "more"
    how = "farthest" if offer.holds else "below zero"
    return None, {"how": how, "left": said, "right": best, "side": side}


_TESTS: dict[str, Callable[[Tested, Offer], Told]] = {
    "true": _true,
    "makes": _makes,
    "solves": _solves,
    "ordered": _ordered,
    "all factors": _all_factors,
    "multiples": _multiples,
    "prime factors": _prime_factors,
    "scientific": _scientific,
    "property": _property,
    "digit": _digit,
    "rule": _rule,
    "between": _between,
    "roots": _roots,
    "equivalent": _equivalent,
    "step": _step,
    "angle": _angle,
    "extreme": _extreme,
}
