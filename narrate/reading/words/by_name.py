"""Whole questions for a number that is found in steps of its own: coins, surfaces, letters.

Each reader gives the name of what is asked, its value and the numbers that it is of, None where
the question is another. CCSSM (2010) 2.MD.C.8 (coins), 6.G.A.4 (surface area), 8.EE.C.7 (a letter
on both sides).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from math import lcm

from narrate.exact.tree import (
    Blank,
    Decimal,
    Expr,
    Frac,
    Mixed,
    Neg,
    Op,
    Relation,
    Whole,
    terms,
    value,
    walk,
)
from narrate.reading.tested.said import expression, written
from narrate.reading.words.figures import right_triangle
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.masking import Masked, masked
from narrate.reading.words.more_number_facts import SIDES
from narrate.reading.words.plain import SHORT, plain, word_set

ByName = tuple[str, Fraction | Expr, tuple[Expr, ...]]
"""What is asked, its value (or how that is written), and the numbers that it is of."""


def _lower(text: str) -> str:
    """A question in small letters with alike signs made one, without the mark at its end."""
    return " ".join(plain(text).split()).lower().rstrip(" ?.")


# -- coins and bills

_CENTS = {"quarter": 25, "dime": 10, "nickel": 5, "penny": 1}
_COIN = r"(?:#\d+|an?) (?:quarters?|dimes?|nickels?|penny|pennies)"
_BILL = r"#\d+ #\d+ dollar bills?|#\d+ (?:dollar bills?|dollars?)"
_COINS = rf"(?P<coins>(?:{_COIN}|{_BILL})(?: (?:and )?(?:{_COIN}|{_BILL}))*)"
_VALUE_OF = (
    rf"(?:what is the (?:total )?value of|how much (?:money )?(?:is|are)) {_COINS}"
    r"(?: in all| altogether| worth)?"
)
_PURSE = (
    r"(?P<who>[a-z'-]+(?: [a-z'-]+){0,2}) (?:has|had|have|found|finds|saved|counted|counts|got) "
    rf"{_COINS}"
    r"(?: (?:in|on) (?:his|her|their|a|the) [a-z]+)?\. "
    r"(?:how much (?:money )?(?:does|did|do) [a-z'-]+(?: [a-z'-]+)? (?:have|find|save|count)"
    r"|what is the (?:total )?value of (?:the|his|her|their|these|all the|all) (?:coins|money)"
    r"|how much (?:money )?is (?:that|this))(?: in all| altogether| in total)?"
)


def coins(text: str) -> ByName | None:
    """How much some coins and bills are together, in dollars."""
    told = masked(text)
    asked = told.text.rstrip(" ?.")
    found = re.fullmatch(_PURSE, asked) or re.fullmatch(_VALUE_OF, asked)
    if found is None:
        return None
    pairs = [_worth(each, told) for each in re.findall(rf"{_BILL}|{_COIN}", found["coins"])]
    names = re.findall(r"[a-z]+", found["coins"])
    known = [pair for pair in pairs if pair is not None]
    if len(known) != len(pairs) or len(pairs) < 2 or len(set(names)) < len(pairs):
        return None
    worth = sum((value(count) * value(size) for count, size in known), Fraction(0))
    return "amount of money", worth, tuple(tree for pair in known for tree in pair)


def _worth(said: str, told: Masked) -> tuple[Expr, Expr] | None:
    """How many of one coin or bill, and what one is worth in dollars."""
    named = [told.numbers[int(at)].tree for at in re.findall(r"#(\d+)", said)]
    count, *rest = named or [Whole(1)]
    if "dollar" in said:
        size = rest[0] if rest else Whole(1)
        return None if count is None or size is None else (count, size)
    cents = _CENTS[one(said.split()[-1])]
    return None if count is None else (count, Decimal("0", f"{cents:02d}"))


# -- the surface of a solid

_SOLID = word_set(
    "a an that is are with the its length width height depth side sides edge edges of and by long "
    "wide high tall deep whose dimensions dimension has have measure measures measuring in on each "
    "what find total surface area rectangular it this how many square"
)
_ASKED = (
    r"(?:what is|find) the (?:total )?surface area (?:of (?P<told>[^.?]+))?|what is (?:its|the) "
    r"(?:total )?surface area(?: of (?:the|this) [a-z ]+)?"
)


def surface(text: str) -> ByName | None:
    """The surface of a box told by three edges in one unit, or of a cube told by one."""
    told = masked(text)
    if "surface area" not in told.text or len(text) > SHORT:
        return None
    words = re.findall(r"[a-z]+", told.text)
    solid = set(words) & {"box", "prism", "cube", "cuboid"}
    units = {one(word) for word in words if one(word) in UNITS - {"in"}}
    other = {w for w in words if one(w) not in UNITS} - _SOLID - solid
    edges = tuple(n.tree for n in told.numbers if isinstance(n.tree, Whole | Decimal))
    if len(units) > 1 or other or len(solid) != 1 or len(edges) != len(told.numbers):
        return None
    if len(edges) != (1 if solid == {"cube"} else 3) or not all(map(value, edges)):
        return None
    sizes = [value(edge) for edge in edges] * (3 if solid == {"cube"} else 1)
    a, b, c = sizes
    return "surface area", 2 * (a * b + a * c + b * c), edges


# -- a letter on both sides of an equation


_SIDES = r"(?P<equation>[\da-z +*×-]+=[\da-z +*×-]+?)"
_THE = r"(?:(?:in |if |when )?(?:the )?equation:? |(?:in|if|when):? )?"
_EQUATIONS = (
    rf"(?:what|which) (?:value|number)(?: (?:of|for) (?P<x>[a-z]))? (?:makes|will make) {_THE}"
    rf"{_SIDES} (?:true|a true (?:statement|equation))",
    rf"solve (?:for (?P<x>[a-z]):? )?{_THE}{_SIDES}(?: for (?P<x2>[a-z]))?",
    rf"(?:what is|find) the (?:solution (?:of|to)|value of (?P<x>[a-z])) {_THE}{_SIDES}",
    rf"if {_SIDES}, (?:then )?what is (?:the value of )?(?P<x>[a-z])",
)


def both_sides(text: str) -> ByName | None:
    """The whole number for the letter of an equation that has it on both sides."""
    asked = _lower(text)
    found = next(filter(None, (re.fullmatch(row, asked) for row in _EQUATIONS)), None)
    tree = None if found is None else written(found["equation"])
    if found is None or not isinstance(tree, Relation) or len(tree.sides) != 2:
        return None
    names = {node.name for node in walk(tree) if isinstance(node, Blank)}
    names |= {word for name, word in found.groupdict().items() if name[0] == "x" and word}
    blanks = [any(isinstance(node, Blank) for node in walk(side)) for side in tree.sides]
    short = all(len(terms(side)) <= 2 and _plain(side) for side in tree.sides)
    if len(names) != 1 or not all(blanks) or not short:
        return None
    left, right = tree.sides
    (a, b), (c, d) = linear(left), linear(right)
    if a == c:
        return None
    root = (d - b) / (a - c)
    return ("number for the letter", root, (left, right)) if root.denominator == 1 else None


def _plain(side: Expr) -> bool:
    """Whether a side is made of a number and of so many times the letter."""
    for _, term in terms(side):
        match term:
            case Whole() | Blank() | Op("×", Whole(), Blank()):
                continue
            case _:
                return False
    return True


def linear(side: Expr) -> tuple[Fraction, Fraction]:
    """How many times the letter stands in a side, and the number beside it."""
    at_none = value(side, Fraction(0))
    return value(side, Fraction(1)) - at_none, at_none


# -- fractions: of a decimal, of two numbers, turned over, brought to one denominator

_SIMPLY = r"(?:,? (?:written |expressed )?in (?:its )?(?:simplest|lowest) (?:form|terms),?)?"
_EQUALS = r"(?:equals|is (?:equal|equivalent) to|is the same as|names|represents)"
_AS_FRACTION = (
    r"(?:(?:write|express|rewrite|give|convert|change|what is) )?(?:the decimal )?"
    r"(?P<n>\d*\.\d{1,3}) (?:(?:written|expressed) )?(?:as|to|into) a "
    rf"(?P<form>fraction|mixed number){_SIMPLY}",
    rf"(?:what|which) (?P<form>fraction|mixed number){_SIMPLY} {_EQUALS} (?P<n>\d*\.\d{{1,3}})"
    rf"{_SIMPLY}",
)


def as_fraction(text: str) -> ByName | None:
    """A decimal as a fraction, or as a mixed number where it is more than 1."""
    asked = _lower(text)
    found = next(filter(None, (re.fullmatch(row, asked) for row in _AS_FRACTION)), None)
    if found is None:
        return None
    whole, _, places = found["n"].partition(".")
    top, size = int(places), 10 ** len(places)
    if not top or (int(whole or "0") > 0) != (found["form"] == "mixed number"):
        return None
    simple = Fraction(top, size)
    written_so = (simple.numerator, simple.denominator)
    mixed = found["form"] == "mixed number"
    result = Mixed(int(whole), *written_so) if mixed else Frac(*written_so)
    return found["form"], result, (Decimal(whole or "0", places),)


_WHAT_FRACTION = (
    r"what (?:fraction|part) of (?P<all>\d+) is (?P<part>\d+)",
    r"(?P<part>\d+) is what (?:fraction|part) of (?P<all>\d+)",
)


def what_fraction(text: str) -> ByName | None:
    """What fraction one whole number is of a greater one."""
    asked = re.sub(_SIMPLY, "", _lower(text))
    found = next(filter(None, (re.fullmatch(row, asked) for row in _WHAT_FRACTION)), None)
    if found is None or not 0 < (part := int(found["part"])) < (of := int(found["all"])):
        return None
    simple = Fraction(part, of)
    return (
        "part as a fraction",
        Frac(simple.numerator, simple.denominator),
        (Whole(part), Whole(of)),
    )


def reciprocal(text: str) -> ByName | None:
    """What makes 1 when it is multiplied by a fraction or a whole number."""
    found = re.fullmatch(
        r"(?:what is|find|give|which number is) the (?:reciprocal|multiplicative inverse) of "
        r"(?P<top>\d+)(?:/(?P<bottom>\d+))?",
        _lower(text),
    )
    if found is None or not int(found["top"]) or found["bottom"] == "0":
        return None
    top, bottom = int(found["top"]), int(found["bottom"] or 1)
    of = Frac(top, bottom) if found["bottom"] else Whole(top)
    return "reciprocal", Whole(bottom) if top == 1 else Frac(bottom, top), (of,)


def common_denominator(text: str) -> ByName | None:
    """The least number that can be the denominator of all fractions that are named."""
    found = re.fullmatch(
        r"(?:what is|find) the (?:least|lowest) common denominator (?:of|for)(?: the fractions)?:? "
        r"(?P<list>\d+/\d+(?:(?:, and |, | and )\d+/\d+)+)",
        _lower(text),
    )
    sizes = [int(n) for n in re.findall(r"/(\d+)", found["list"])] if found else []
    if not sizes or not all(sizes):
        return None
    return "least common denominator", Fraction(lcm(*sizes)), tuple(map(Whole, sizes))


# -- numbers on the other side of zero, parts of solids and figures that are known


def opposite(text: str) -> ByName | None:
    """The number as far from zero, on the other side."""
    found = re.fullmatch(
        r"(?:what is|find|which (?:number|integer) is) the (?:opposite|additive inverse) of "
        r"(?:the (?:number|integer) )?(?P<n>-?\d+(?:\.\d+)?)",
        _lower(text),
    )
    tree = expression(found["n"]) if found else None
    if tree is None or not value(tree):
        return None
    return "opposite", tree.inner if isinstance(tree, Neg) else Neg(tree), (tree,)


_POWER = (
    r"(?:what is|evaluate|find|which is equal to|what is equal to)(?: the value of)? "
    r"(?P<base>\d+) ?\^ ?\(?(?P<to>-[1-4]|0)\)?"
)


def small_power(text: str) -> ByName | None:
    """A whole number to the power 0 or to a power below zero."""
    found = re.fullmatch(_POWER, _lower(text))
    if found is None or not int(found["base"]):
        return None
    base, to = int(found["base"]), int(found["to"])
    if not to:
        return "power of zero", Fraction(1), (Whole(base),)
    return "power below zero", Frac(1, base**-to), (Whole(base), Whole(-to))


_PARTS = {
    "cube": (6, 12, 8), "rectangular prism": (6, 12, 8), "triangular prism": (5, 9, 6),
    "square pyramid": (5, 8, 5), "rectangular pyramid": (5, 8, 5), "triangular pyramid": (4, 6, 4),
}  # fmt: skip
"""Faces, edges and corners of solids."""
_SOLIDS = "|".join(_PARTS)


def parts_of_figure(text: str) -> ByName | None:
    """How many sides or corners a figure has, or faces, edges and corners a solid."""
    found = re.fullmatch(
        r"how many (?P<what>faces|edges|vertices|corners|sides|angles) (?:does|are (?:there "
        r")?(?:in|on)) "
        rf"(?:an?|every|any) (?P<of>{_SOLIDS}|[a-z]+)(?: have)?",
        _lower(text),
    )
    found = found or re.fullmatch(
        rf"(?:an?|every|any) (?P<of>{_SOLIDS}|[a-z]+) has how many "
        r"(?P<what>faces|edges|vertices|corners|sides|angles)",
        _lower(text),
    )
    if found is None:
        return None
    what, of = found["what"], found["of"]
    if of in _PARTS:
        at = {"faces": 0, "edges": 1, "vertices": 2, "corners": 2}.get(what)
        count = None if at is None else _PARTS[of][at]
    else:
        count = SIDES.get(of) if what in ("sides", "angles", "vertices", "corners") else None
    return None if count is None else (f"number of {what}", Fraction(count), ())


# -- absolute values

_VALUE = (
    r"(?:(?:what is|find|evaluate|simplify|compute|calculate)(?: the value of)?(?: the expression)?"
    r":? )?(?P<work>[^a-z]*\|[^a-z]*)"
)


def absolute(text: str) -> ByName | None:
    """The value of work with absolute values: |3 + 5| − |−4|."""
    asked = re.sub(r"the absolute value of ([−-]?\d+(?:\.\d+)?)$", r"|\1|", _lower(text))
    found = re.fullmatch(_VALUE, asked)
    bars = found["work"].split("|") if found else []
    if len(bars) < len("|n|") or len(bars) % 2 == 0:
        return None
    inner = [expression(each) for each in bars[1::2]]
    sizes = [abs(value(tree)) for tree in inner if tree is not None]
    if len(sizes) != len(inner) or any(size.denominator != 1 for size in sizes):
        return None
    outer = "".join(each if at % 2 == 0 else str(sizes[at // 2]) for at, each in enumerate(bars))
    work = expression(outer)
    if work is None or value(work) < 0:
        return None
    return "value", value(work), (*(tree for tree in inner if tree is not None), work)


READERS: tuple[Callable[[str], ByName | None], ...] = (
    right_triangle, coins, surface, both_sides, as_fraction, what_fraction, reciprocal,
    common_denominator, absolute, opposite, parts_of_figure, small_power,
)  # fmt: skip
