"""Fractions of a whole and of a set, and the sides and areas of rectangles."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrate.exact.tree import Expr, Frac, Group, Op, Whole, value, write_sum
from narrate.reading.words.facts import KINDS, Answer, Story, joined, tree_of
from narrate.reading.words.lexicon import SAID_ALIKE, UNITS, one
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.query import Query

_REST = frozenset({"rest", "remaining", "remainder", "left", "others"})


def parts_of_one(story: Story) -> Iterator[Answer]:
    """Fractions of one whole: put together, compared, or what is left of the whole."""
    query = story.query
    parts = [q for q in story.quantities if q.sort in ("part",) and q.known and not q.percent]
    of_whole = query.kind == "much" and bool(query.than) and "of" in query.lows
    of_whole = of_whole and all(story.agrees(q, query.thing) for q in parts)
    wholes = [set(q.thing) for q in parts if q.thing and not q.borrowed]
    if query.lows[1:2] == ("full",) or (wholes and not set.intersection(*wholes)):
        return  # read by what was done with each amount, or parts of different wholes
    if (
        not (query.kind == "fraction" or of_whole)
        or len(parts) < 1
        or len(parts) != len([q for q in story.quantities if q.known])
    ):
        return
    rest = [c for c in story.clauses if c.lows & _REST]
    asked = query.words
    if query.ended or (rest and any({t.lemma for t in c.tokens} & asked for c in rest)):
        if rest or query.ended:
            yield from _rest_of_one(story, parts)
        return
    if query.sign or query.than or "more" in query.lows:
        yield from _compared(story, parts)
        return
    gone = {q.verb_sort in ("lose", "take") for q in parts}
    if _asks_one(story, parts):
        return
    if len(parts) > 1 and len(gone) == 1 and "full" not in query.lows:
        yield Answer(
            tree=joined("+", *map(tree_of, parts)),
            used=tuple(parts),
            situation="put together",
            unknown="total",
        )


def _asks_one(story: Story, parts: list[Quantity]) -> bool:
    """Whether the question names what is told of one of the parts: of the pupils walk."""
    shared = {w for q in parts for w in q.thing} | {"", "be", "have"}
    told = [q.words | {q.verb} | {one(low) for low in q.near} for q in parts]
    both = frozenset.intersection(*told) if len(told) > 1 else frozenset()
    asked = (story.query.words | {story.query.verb}) - shared - both
    named = [bool(asked & words) for words in told]
    return any(named) and not all(named)


def _rest_of_one(story: Story, parts: list[Quantity]) -> Iterator[Answer]:
    tree: Expr
    gains = [q for q in parts if q.more or (q.verb_sort == "gain" and not _does(q))]
    if any({"out", "off", "away"} & q.near for q in gains):
        return
    if len(parts) > 1 and {q.verb for q in parts} == {story.query.verb} and gains:
        tree = joined("+", *map(tree_of, parts))
        yield Answer(tree=tree, used=tuple(parts), situation="put together", unknown="total")
        return
    states = [q for q in parts if q.verb_sort in ("be", "own")]
    if gains and len(states) == 1 and parts[0] is states[0]:
        tree = joined("+", *map(tree_of, parts))
        yield Answer(tree=tree, used=tuple(parts), situation="add to", unknown="result")
    elif (
        states
        and len(states) == 1
        and parts[0] is states[0]
        and all(q.verb_sort in ("lose", "take") for q in parts[1:])
        and len(parts) > 1
    ):
        tree = write_sum([(1, tree_of(states[0])), *((-1, tree_of(q)) for q in parts[1:])])
        yield Answer(tree=tree, used=tuple(parts), situation="take from", unknown="result")
    elif not gains:
        tree = write_sum([(1, Whole(1)), *((-1, tree_of(q)) for q in parts)])
        if value(tree) > 0:
            yield Answer(tree=tree, used=tuple(parts), situation="take apart", unknown="addend")


def _does(q: Quantity) -> bool:
    """Whether a part is who does something: 1/2 come by bus."""
    return q.before_verb and not q.passive


def _compared(story: Story, parts: list[Quantity]) -> Iterator[Answer]:
    if len(parts) == 2 and parts[0].value != parts[1].value:
        first, second = sorted(parts, key=lambda q: q.value, reverse=True)
        yield Answer(
            tree=joined("−", tree_of(first), tree_of(second)),
            used=(first, second),
            situation="difference",
            unknown="difference",
        )


def share_of(story: Story) -> Iterator[Answer]:
    """A fraction or percent of an amount that is told."""
    query = story.query
    other = query.sign or query.than or query.per or query.total or query.ended
    parts = [q for q in story.quantities if q.sort == "part" and q.known]
    known = [q for q in story.quantities if q.sort == "amount" and q.known]
    if other or query.kind == "fraction" or len(parts) != 1 or len(known) != 1 or parts[0].more:
        return
    part, whole = parts[0], known[0]
    counts = story.agrees(whole, query.thing) or (story.money_asked and whole.money)
    counts = counts or (_are_some_of(part, whole) and query.head in part.around)
    share = as_fraction(part)
    if counts and share is not None and _asks_for_part(story, part, whole):
        tree = joined("×", share, tree_of(whole))
        yield Answer(tree=tree, used=(part, whole), situation="part of", unknown="part")


def _are_some_of(part: Quantity, whole: Quantity) -> bool:
    """Whether a part says what some of those counted before are: 2/3 of them are girls."""
    after = whole.start < part.start and whole.clause != part.clause and not whole.borrowed
    return after and part.partitive and part.borrowed and part.verb == "be"


def as_fraction(part: Quantity) -> Expr | None:
    """A share as it is written, a whole percent as hundredths; None for other percents."""
    if not part.percent:
        return tree_of(part)
    return Frac(int(part.value), 100) if part.value.denominator == 1 else None


def _asks_for_part(story: Story, part: Quantity, whole: Quantity) -> bool:
    """Whether the question's words are those of the part, and none is of something else."""
    query = story.query
    one_clause = part.clause == whole.clause
    around = whole.around if one_clause else frozenset()
    told = query.words & (part.words - whole.words) or query.words & around
    of_it = bool(set(part.thing) & set(whole.thing)) or part.borrowed or one_clause
    strange = query.words - whole.words - set(query.thing) - part.words - around
    alike = SAID_ALIKE.get(query.verb, "").split()
    if part.verb in alike or (query.verb, part.verb) == ("cost", "spend"):
        strange -= {query.verb}
    return bool(told) and of_it and not strange


def fraction_of_set(story: Story) -> Iterator[Answer]:
    """So many of so many: which fraction that is."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    if query.kind != "fraction" or len(known) != 2 or any(q.sort != "amount" for q in known):
        return
    if _side_by_side(story, *known):
        return
    whole = [q for q in known if story.agrees(q, query.thing) and q.thing and not q.borrowed]
    if len(whole) == 2:
        whole = [q for q in whole if not (set(q.thing) - set(query.thing)) & query.words]
    if len(whole) != 1:
        whole = [max(known, key=lambda q: q.value)] if "of" in query.lows else []
    if not whole:
        return
    part = next(q for q in known if q is not whole[0])
    if (query.ended and part.verb_sort != "lose") or not (query.ended or _says(query, part)):
        return
    if part.value < whole[0].value and part.value.denominator == whole[0].value.denominator == 1:
        share = Frac(int(part.value), int(whole[0].value))
        tree = write_sum([(1, Whole(1)), (-1, share)]) if query.ended else share
        used = (part, whole[0])
        yield Answer(tree=tree, used=used, situation="part of", unknown="fraction")


def _says(query: Query, part: Quantity) -> bool:
    """Whether what the question says of the part is told of it: absent, or here."""
    be = [at for at, low in enumerate(query.lows) if low in ("is", "are", "was", "were")]
    said = {one(low) for low in query.lows[be[-1] + 1 :]} if be else set()
    return not said or bool(said & ({one(low) for low in part.near} | set(part.thing)))


def _side_by_side(story: Story, first: Quantity, second: Quantity) -> bool:
    """Whether two amounts are parts of a set told by no number: 4 red and 6 blue beads."""
    kinds = set(first.thing) - set(second.thing), set(second.thing) - set(first.thing)
    between = story.text[first.end : second.start].strip(" ,")
    alike = first.head == second.head or any(
        {first.head, second.head} <= group for group in KINDS.values()
    )
    return all(kinds) and (between in ("", "and") or alike)


def rectangle(story: Story) -> Iterator[Answer]:
    """Length, width, area or perimeter of a rectangle."""
    known = [q for q in story.quantities if q.known]
    areas = [q for q in known if "square" in q.thing or "acre" in q.thing]
    sides = [q for q in known if q not in areas and any(w in UNITS for w in q.thing)]
    if any("perimeter" in q.near and not q.asked for q in known):
        return
    told = len(areas) + len(sides) == len(known) and all(
        q.sort in ("amount", "part") for q in known
    )
    if not told or not _is_rectangle(story) or len({u for q in sides for u in _units(q)}) > 1:
        return
    asked = (story.query.kind, len(sides), len(areas))
    tree, unknown = _rectangle(asked, [tree_of(q) for q in sides], [tree_of(q) for q in areas])
    if tree is not None:
        yield Answer(tree=tree, used=tuple(known), situation="area", unknown=unknown)


_EQUAL_SIDED = re.compile(
    r"\b(?P<square>square)\b(?! (?:inch|f[eo]|yard|mile|meter|centimeter|kilometer|unit))"
    r"|\brhombus\b|\b(?P<three>equilateral) triangle\b|\bregular (?P<more>penta|hexa|octa)gon\b"
)
_MORE_SIDES = {"penta": 5, "hexa": 6, "octa": 8}


def equal_sided(story: Story) -> Iterator[Answer]:
    """Perimeter of a shape all of whose sides are alike, one of them told; area of a square."""
    told = [q for q in story.quantities if q.known]
    known = [q for q in told if "perimeter" not in q.near] or told
    shapes = [*_EQUAL_SIDED.finditer(story.text)]
    names = {found[0] for found in shapes}
    others = re.search(
        r"\b(?:triangle|rectangle|circle|path)s?\b", _EQUAL_SIDED.sub("", story.text)
    )
    if len(known) != 1 or len(names) != 1 or not _units(known[0]) or "square" in known[0].thing:
        return
    if others and not shapes[0]["three"]:
        return
    side = tree_of(known[0])
    count = 3 if shapes[0]["three"] else _MORE_SIDES.get(shapes[0]["more"] or "", 4)
    if "perimeter" in known[0].near:
        yield from _one_side(story, known[0], count)
        return
    if not {"side", "sides"} & known[0].near:
        return
    if story.query.kind == "perimeter":
        tree, unknown = Op("×", Whole(count), side), "equal sides"
    elif story.query.kind == "area" and shapes[0]["square"]:
        tree, unknown = Op("×", side, side), "product"
    else:
        return
    yield Answer(tree=tree, used=(known[0],), situation="area", unknown=unknown)


def _one_side(story: Story, around: Quantity, count: int) -> Iterator[Answer]:
    """One side of a shape all of whose sides are alike, by its perimeter."""
    query = story.query
    asked = query.kind == "long" and "side" in (*query.per, *query.words)
    each = not (query.sign or query.than or "per" in query.lows)
    if asked and each and "square" not in around.thing:
        tree, used = joined("÷", tree_of(around), Whole(count)), (around,)
        said = frozenset({"side"})
        yield Answer(
            tree=tree, used=used, situation="equal groups", unknown="group size", said=said
        )


def sides_told(story: Story) -> Iterator[Answer]:
    """Perimeter of a shape all of whose sides are told: triangular, sides of 3, 4 and 5 feet."""
    known = [q for q in story.quantities if q.known]
    one = len({(q.clause, frozenset(_units(q))) for q in known}) == 1 and bool(_units(known[0]))
    named = len(known) > 2 and one and {"side", "sides"} & known[0].near
    plain = all(
        q.sort in ("amount", "part") and not q.asked and "square" not in q.thing for q in known
    )
    three = re.search(r"\btriang(?:le|ular)\b", story.text)
    if story.query.kind == "perimeter" and named and plain and len(known) == (3 if three else 4):
        tree = joined("+", *map(tree_of, known))
        used = tuple(known)
        yield Answer(tree=tree, used=used, situation="put together", unknown="total")


def _units(q: Quantity) -> set[str]:
    return set(q.thing) & UNITS


def _is_rectangle(story: Story) -> bool:
    words = set(re.findall(r"[a-z]+", story.text))
    named = {"rectangle", "rectangular", "by", "wide", "width", "length"} & words
    return bool(named) or {"area", "side"} <= words


def _rectangle(
    asked: tuple[str, int, int], sides: list[Expr], areas: list[Expr]
) -> tuple[Expr | None, str]:
    """What to work out, by what is asked and how many sides and areas are told."""
    match asked:
        case ("area", 2, 0):
            return joined("×", *sides), "product"
        case ("perimeter", 2, 0):
            return Op("×", Whole(2), Group(joined("+", *sides))), "perimeter"
        case ("long", 1, 1) if value(sides[0]) != 0:
            return joined("÷", areas[0], sides[0]), "side"
        case _:
            return None, ""
