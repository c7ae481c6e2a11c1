"""Properties of operations, by name: which equation shows one, or which one an equation shows.

CCSSM (2010), glossary Table 3 names the properties; 3.OA.B.5, 6.EE.A.3.
"""

from __future__ import annotations

import re

from narrate.exact.tree import Blank, Expr, Group, Op, Relation, Whole, Writing, value, walk
from narrate.items.item import Choice
from narrate.reading.demands import Tested
from narrate.reading.tested.said import Asked, all_tested, written

Named = tuple[str, str]
"""A property and the operation that it is one of, "" where it joins two."""

_OPERATION = {"+": "addition", "×": "multiplication"}


def property_of(relation: Relation) -> Named | None:
    """The one property that an equation shows, None where it shows none for certain."""
    if relation.sign != "=" or len(relation.sides) != 2:
        return None
    left, right = relation.sides
    for one, other in ((left, right), (right, left)):
        if (found := _neutral(one, other) or _distributes(one, other)) is not None:
            return found
    return _moved(left, right)


def _neutral(one: Expr, other: Expr) -> Named | None:
    """6 + 0 = 6 and 6 × 1 = 6 (identity), 6 × 0 = 0 (zero)."""
    match _open(one):
        case Op("+", a, b) if _open(other) in _beside(a, b, 0):
            return "identity", "addition"
        case Op("×", a, b) if _open(other) in _beside(a, b, 1):
            return "identity", "multiplication"
        case Op("×", a, b) if _open(other) == Whole(0) and Whole(0) in (_open(a), _open(b)):
            return "zero", "multiplication"
        case _:
            return None


def _beside(one: Expr, other: Expr, neutral: int) -> list[Expr]:
    """What stands beside a number that changes nothing."""
    both = (_open(one), _open(other))
    return [a for a, b in (both, both[::-1]) if b == Whole(neutral)]


def _distributes(product: Expr, joined: Expr) -> Named | None:
    """3 × (2 + 1) = 3 × 2 + 3 × 1."""
    match _open(product), _open(joined):
        case Op("×", a, b), Op("+" | "−" as sign, c, d):
            for factor, inner in ((_open(a), _open(b)), (_open(b), _open(a))):
                if isinstance(inner, Op) and inner.sign == sign:
                    parts = zip((inner.left, inner.right), (c, d), strict=True)
                    if all(_is_product(made, factor, part) for part, made in parts):
                        return "distributive", ""
    return None


def _is_product(made: Expr, factor: Expr, part: Expr) -> bool:
    match _open(made):
        case Op("×", a, b):
            return sorted((_key(a), _key(b))) == sorted((_key(factor), _key(part)))
        case _:
            return False


def _moved(left: Expr, right: Expr) -> Named | None:
    """The same amounts by one operation in another order, or in other brackets."""
    for sign, operation in _OPERATION.items():
        one, other = _joined(left, sign), _joined(right, sign)
        if one is None or other is None or sorted(one) != sorted(other) or len(one) < 2:
            continue
        if one == other:
            grouped = _shape(left) != _shape(right) and len(one) > 2
            return ("associative", operation) if grouped else None
        same = _shape(left) == _shape(right) or _turned(left, right)
        return ("commutative", operation) if same else None
    return None


def _turned(left: Expr, right: Expr) -> bool:
    """Whether only the two sides of the last operation change places."""
    match _open(left), _open(right):
        case Op(sign, a, b), Op(other, c, d):
            return sign == other and _key(a) == _key(d) and _key(b) == _key(c)
        case _:
            return False


def _joined(tree: Expr, sign: str) -> list[str] | None:
    """The amounts that one operation alone joins, in their order."""
    match _open(tree):
        case Op(own, a, b) if own == sign:
            both = _joined(a, sign), _joined(b, sign)
            return None if None in both else [n for side in both for n in side or ()]
        case Op():
            return None
        case alone:
            return [_key(alone)]


def _shape(tree: Expr) -> str:
    """How amounts are put in brackets, without the amounts."""
    match _open(tree):
        case Op(_, a, b):
            return f"({_shape(a)}{_shape(b)})"
        case _:
            return "."


def _key(tree: Expr) -> str:
    """A tree by what it says, brackets opened."""
    match _open(tree):
        case Op(sign, a, b):
            return f"({_key(a)}{sign}{_key(b)})"
        case Blank(name):
            return name
        case alone:
            blank = any(isinstance(node, Blank) for node in walk(alone))
            return repr(alone) if blank else str(value(alone))


def _open(tree: Expr) -> Expr:
    while isinstance(tree, Group):
        tree = tree.inner
    return tree


_NAME = re.compile(
    r"(?:the )?(?P<name>associative|commutative|distributive|identity|zero)(?: property)?"
    r"(?: (?:of|for) (?P<of>addition|multiplication|zero))?\.?"
)


def _same(wanted: Named, found: Named) -> bool:
    """Whether a property has a name; the operation need not be named."""
    return wanted[0] == found[0] and wanted[1] in ("", found[1])


def shows(asked: Asked) -> Tested | None:
    """Which equation shows the associative property of addition?"""
    wanted = asked["property"], asked["of"]

    def holds(choice: Choice) -> tuple[bool, tuple[Writing | str, ...]] | None:
        if not isinstance(choice.tree, Relation):
            return None
        found = property_of(choice.tree)
        return _same(wanted, found) if found else False, (choice.tree, *(found or ("", "")))

    return all_tested(asked, "property", holds, (*wanted,))


def shown(asked: Asked) -> Tested | None:
    """Which property is shown by 8 × 5 = 5 × 8?"""
    relation = written(asked["rel"])
    found = property_of(relation) if isinstance(relation, Relation) else None
    if found is None or not isinstance(relation, Relation):
        return None

    def holds(choice: Choice) -> tuple[bool, tuple[Writing | str, ...]] | None:
        named = _NAME.fullmatch(choice.text.lower())
        if named is None:
            return None
        return _same((named["name"], named["of"] or ""), found), (named["name"], named["of"] or "")

    return all_tested(asked, "property", holds, (relation, *found))
