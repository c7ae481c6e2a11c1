"""From a step of the solution to moments of the lesson: which words, and what appears.

A row of the table names the templates for a move and how its details are filled out; a move without
a row is said by the template of its own name.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise, takewhile
from typing import Any

from narrate.exact._languages import words_of
from narrate.exact.spoken import pieces_name
from narrate.exact.tree import (
    Blank,
    Expr,
    Frac,
    Mixed,
    Money,
    Op,
    Relation,
    Whole,
    Writing,
    terms,
    value,
    write_sum,
)
from narrate.lesson import known_forms, number_moments, product_moments, why_now
from narrate.lesson.listing import Moment, Said, listed
from narrate.lesson.shown import shows_of, sides
from narrate.lesson.solved import SolvedPart
from narrate.lesson.wording import FULL, TIGHT
from narrate.solution import moves
from narrate.solution.steps import Detail, Step
from narrate.solution.task import mixed

_TIGHT = frozenset(
    {
        *(f"join/{how}" for how in ("adds", "takes", "compares", "mixed", "one mixed")),
        *(f"look back/{how}" for how in ("put back", "take out", "undo")),
    }
)
"""Moves that are told without most of their numbers where time is shortest: the line shows them."""

_LONG_ONLY = ("estimate question", "improper/why")
"""What a brief telling does without: a question before an estimate, a reason the page shows."""


def moments(step: Step, solved: SolvedPart, brief: int = FULL) -> tuple[Moment, ...]:
    """The moments a step is told in; a `brief` telling asks no question before an estimate."""
    if step.lists:
        return tuple(listed(step, solved, brief))
    said = list(_SAID.get(step.move, _by_name)(step, solved))
    if brief:
        said = [each for each in said if each[0] not in _LONG_ONLY]
    if brief == TIGHT:
        said = [(f"{move}/tight" if move in _TIGHT else move, details) for move, details in said]
    shows, goes_on = tuple(shows_of(step, solved)), _goes_on(step, solved)
    return (Moment(name=step.move, said=tuple(said), shows=shows, goes_on=goes_on),)


def _goes_on(step: Step, solved: SolvedPart) -> bool:
    """Whether a choice is tested and the next one comes after it."""
    steps = solved.solution.steps
    after = next((b for a, b in pairwise(steps) if a is step), step)
    return step.move == after.move == "equal choice" and after is not step


def _details(step: Step, solved: SolvedPart) -> dict[str, Any]:
    found: dict[str, Any] = dict(step.details)
    for name in ("sizes", "others"):
        if isinstance(found.get(name), tuple) and all(isinstance(n, int) for n in found[name]):
            count = 1 if name == "others" else 2
            found[f"{name}_named"] = tuple(
                pieces_name(n, count, solved.language) for n in found[name]
            )
    return found


def _by_name(step: Step, solved: SolvedPart) -> Iterator[Said]:
    yield step.move, _details(step, solved)


def _set_up(step: Step, solved: SolvedPart) -> Iterator[Said]:
    amounts = [tree for _, tree in terms(solved.reading.expression)]
    whole = amounts[0] == Whole(1)
    details = _details(step, solved) | {"many": len(amounts), "whole": whole}
    if solved.reading.misleading:
        yield "misleading", {"word": solved.reading.misleading}
    name = number_moments.set_up(solved)
    details["money"] = solved.reading.money and why_now.is_price(solved)
    details["by_times"] = why_now.is_by_times(solved)
    details |= number_moments.share_size(solved) | known_forms.details(solved)
    yield f"set up/{name}", details


def _undo(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """Why the way back adds or subtracts, where the box stands in a sum of two."""
    details, equation = _details(step, solved), solved.reading.equation
    both = equation.sides if equation is not None else ()
    for one, other in (both, both[::-1]) if len(both) == 2 else ():
        if found := _box_and(one, other):
            name, part, whole = found
            yield f"undo/{name}", details | {"part": part, "all": whole}
            return
    yield "undo/sum" if solved.reading.target else "undo", details


def _box_and(sum_of_two: Expr, other: Expr) -> tuple[str, Expr, Expr] | None:
    """How the box, a part and the amount of both belong together: 3/5 + □ = 9/10."""
    if isinstance(other, Op):
        return None
    match sum_of_two:
        case Op("+", Blank(), Frac() | Mixed() | Whole() as part):
            return "part", part, other
        case Op("+", Frac() | Mixed() | Whole() as part, Blank()):
            return "part", part, other
        case Op("−", Frac() | Mixed() | Whole() as whole, Blank()):
            return "part", other, whole
        case Op("−", Blank(), Frac() | Mixed() | Whole() as part):
            return "taken", part, other
    return None


def _estimate(step: Step, solved: SolvedPart) -> Iterator[Said]:
    estimates = [s for s in solved.solution.steps if s.move.startswith("estimate ")]
    if step is estimates[0]:
        yield "estimate question", {}
    gap = step.move == "estimate takes" and solved.reading.situation == "difference"
    name = "estimate takes/gap" if gap else step.move
    yield name, _details(step, solved) | {"half": Frac(1, 2)}


def _join(step: Step, solved: SolvedPart) -> Iterator[Said]:
    details = _details(step, solved)
    wholes = details["wholes"]
    if wholes:
        signed = zip(details["whole_signs"], map(Whole, wholes), strict=True)
        details["wholes_counted"] = moves.equal(
            write_sum(list(signed)), moves.integer(details["whole"])
        )
    details |= number_moments.below_zero(solved.reading.expression)
    how = _how_joined(details)
    compares = how == "takes" and solved.reading.situation == "difference"
    yield f"join/{'compares' if compares else how}", details


def _how_joined(details: dict[str, Any]) -> str:
    if details["size"] == 1:
        return "wholes"
    if details["below_zero"]:
        return "below zero"
    if details["wholes"]:
        return "mixed" if len(details["wholes"]) > 1 else "one mixed"
    if details["top"] == 0:
        return "nothing"
    return "adds" if all(sign > 0 for sign in details["signs"]) else "takes"


def _rewrite(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """A fraction in smaller pieces; a mixed number's whole number goes along.

    How it is done is said in full for the first of a part; the others go the same way.
    """
    numeral, rewritten = sides(step)
    details = _details(step, solved)
    before = [*takewhile(lambda earlier: earlier is not step, solved.solution.steps)]
    others = [earlier for earlier in before if earlier.move == "rewrite"]
    known = any(earlier.details["old"] == step.details["old"] for earlier in others)
    details |= {"numeral": numeral, "rewritten": rewritten}
    if known and isinstance(numeral, Frac):
        yield "rewrite/again", details
    elif others:
        yield "rewrite/next" if len(others) == 1 else "rewrite/and next", details
    elif isinstance(numeral, Mixed):
        yield "rewrite/mixed", details | {"mixed_whole": numeral.whole}
    else:
        yield "rewrite", details


def _shade(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """Amounts shaded as the work has them: 2 2/10 while the wholes stand apart, or 22/10."""
    joined = next(s for s in solved.solution.steps if s.move == "join")
    amounts = tuple(tree for _, tree in terms(sides(joined)[0]))
    apart = any(isinstance(tree, Mixed) for tree in amounts)
    yield "shade strip", _details(step, solved) | {"amounts": amounts if apart else ()}


def _like_size(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """Pieces of one size; where they are taken from a whole, that has to be cut first."""
    amounts = [tree for _, tree in terms(solved.reading.expression)]
    moves_made = {each.move for each in solved.solution.steps}
    cut = any(isinstance(tree, Whole) for tree in amounts) and moves_made & _CUTS
    yield "like size/whole" if cut else "like size", _details(step, solved)


_CUTS = {"regroup", "whole as pieces"}
"""Moves that cut a whole into pieces."""


def _read_strip(step: Step, solved: SolvedPart) -> Iterator[Said]:
    again = solved.part.number > solved.item.parts[0].number
    yield "read strip/again" if again else "read strip", _details(step, solved)


def _improper(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """Wholes counted in pieces; the first time, that the boxes have no place for wholes."""
    first = next(each for each in solved.solution.steps if each.move == "improper")
    boxes = solved.part.boxes
    if step is first and boxes and "whole" not in boxes and "number" not in boxes:
        yield "improper/why", _details(step, solved)
    yield "improper", _details(step, solved)


def _regroup(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """`take` is the number of pieces to be taken away, 0 where several amounts are.

    A question for a first line may stop before anything is taken away.
    """
    take: Detail = 0
    for each in solved.solution.steps:
        tops, signs = each.details.get("tops"), each.details.get("signs")
        if each.move == "join" and isinstance(tops, tuple) and signs == (1, -1):
            take = tops[1] if tops[0] == step.details["new_count"] else 0
    yield "regroup", _details(step, solved) | {"take": take}


def _same_amount(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """How the pieces are about to change, where a box names the new ones."""
    if step.details.get("form"):
        yield "same amount/form", _details(step, solved)
        return
    found = [each.details for each in solved.solution.steps if each.move == "rename"]
    change = {"how": found[0]["how"], "factor": found[0]["factor"]} if found else {"how": ""}
    yield "same amount", _details(step, solved) | change


def _rename(step: Step, solved: SolvedPart) -> Iterator[Said]:
    total, filled = step.details["total"], step.details["filled"]
    old, new = (tree.denominator if isinstance(tree, Frac) else 1 for tree in (total, filled))
    yield "rename", _details(step, solved) | {"old": old, "new": new}


def _fit(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """Why the answer goes in as it does; `result` is the end of the work where it is another."""
    answer = step.details["answer"]
    assert not isinstance(answer, str | int | tuple | Relation | Money)
    details = _details(step, solved) | {
        "result": "" if step.line is None else sides(step)[0],
        "known": step.line is None,
        "over": abs(value(answer)) > 1,
    }
    yield f"fit the boxes/{step.details['reason']}", details


def _look_back(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """The way back begins at the answer as it was written; `between` is the start in its pieces."""
    if "total" not in step.details or step.details["how"] == "remainder":
        back: dict[str, Any] = dict(step.details) | {
            "shared": number_moments.is_shared_out(solved),
            "several": why_now.operations_of(solved.reading.expression) > 1,
        }
        yield f"look back/{step.details['how']}", back
        return
    compares = solved.reading.situation == "difference" and step.details["how"] == "put back"
    how = "compare" if compares else step.details["how"]
    details = _details(step, solved)
    if details["result"] != details["total"]:
        yield "look back/from", details
    between = _between(details["first"], details["start"])
    yield f"look back/{how}", details | {"between": between, **_pieces_back(step, solved)}


def _pieces_back(step: Step, solved: SolvedPart) -> dict[str, Any]:
    """The look back in pieces whose size has no name: how many come or go, how many are left.

    Whole numbers stay out of it where they do not change: 5 107/120 and 108/120 are 5 215/120.
    """
    others, first, total = (step.details[name] for name in ("others", "first", "total"))
    assert isinstance(others, tuple)
    moved = [tree for tree in others if isinstance(tree, Frac)]
    none = {"pieces_moved": (), "pieces_left": "", "pieces_counted": ""}
    if not isinstance(first, Frac | Mixed) or not isinstance(total, Frac | Mixed):
        return none
    sizes = {tree.denominator for tree in (*moved, first, total)}
    wholes = {tree.whole if isinstance(tree, Mixed) else 0 for tree in (first, total)}
    alike = len(moved) == len(others) and len(sizes) == len(wholes) == 1
    if not alike or words_of(solved.language).reads_as_pieces(first.denominator):
        return none
    tops = tuple(tree.numerator for tree in moved)
    if 1 in (*tops, first.numerator):
        return none
    signs = [-sign for sign, _ in terms(solved.reading.expression)][1:]
    undoing = sorted(zip(signs, tops, strict=True), reverse=True)
    counted = write_sum([(1, Whole(total.numerator)), *((s, Whole(top)) for s, top in undoing)])
    left = first.numerator
    return {
        "pieces_moved": tops,
        "pieces_left": left,
        "pieces_counted": moves.equal(counted, Whole(left)),
    }


def _between(first: Expr, start: Expr) -> Expr | str:
    """5 3/12 between 4 15/12 and 5 1/4; "" where there is nothing between."""
    if not isinstance(first, Mixed) or first.numerator < first.denominator:
        return ""
    found = mixed(value(first), first.denominator)
    return "" if found == start else found


def _equal_choice(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """How a choice is shown to be equal; `makes` where it comes to the result by itself."""
    details = _details(step, solved)
    how = details["how"]
    if how == "makes" and details["through"] != details["result"]:
        how = "through"
    yield f"equal choice/{how}", details


def _told(step: Step, solved: SolvedPart) -> Iterator[Said]:
    yield "told/start" if step.details["start"] else "told", _details(step, solved)


def _put_right(step: Step, solved: SolvedPart) -> Iterator[Said]:
    details = _details(step, solved)
    yield "put right", details
    if slip := step.details["slip"]:
        yield (
            f"slip/{slip}",
            {
                "tree": details["claim"],
                "fact": "",
                **slip_details(solved, solved.part.claim),
            },
        )


def slip_details(solved: SolvedPart, wrong: Writing | None) -> dict[str, Any]:
    """What sentences about a slip may say besides the wrong number: the size, the operation."""
    steps = solved.solution.steps
    sizes = [step.details["size"] for step in steps if "size" in step.details]
    amounts = [tree for _, tree in terms(solved.reading.expression)]
    told = {step.details["fraction"] for step in steps if step.move == "rewrite"}
    parts = [moves.fraction_of(t) for t in amounts if isinstance(t, Frac | Mixed)]
    fractions = [part for part in parts if part in told]
    two = len(amounts) == len(fractions) == 2
    signs = [sign for step in steps if step.move == "join" for sign in _signs(step)]
    return {
        "size": sizes[-1] if sizes else 1,
        "ten": Whole(10),
        **number_moments.other_operation(solved.solution, wrong),
        "shared": number_moments.is_shared_out(solved),
        "adds": all(s > 0 for s in signs),
        "first": fractions[0] if two else "",
        "second": fractions[1] if two else "",
    }


def _signs(step: Step) -> Sequence[int]:
    signs = step.details["signs"]
    return [s for s in signs if isinstance(s, int)] if isinstance(signs, tuple) else []


_SAID: dict[str, Callable[[Step, SolvedPart], Iterator[Said]]] = {
    "set up": _set_up,
    "undo": _undo,
    "join": _join,
    "rewrite": _rewrite,
    "shade strip": _shade,
    "like size": _like_size,
    "read strip": _read_strip,
    "improper": _improper,
    "regroup": _regroup,
    "rename": _rename,
    "same amount": _same_amount,
    "fit the boxes": _fit,
    "look back": _look_back,
    "equal choice": _equal_choice,
    "put right": _put_right,
    "told": _told,
    **number_moments.SAID,
    **product_moments.SAID,
    **{
        f"estimate {name}": _estimate
        for name in (
            "room", "halves", "wholes", "part of a whole", "wholes apart", "joins", "takes",
            "rounded", "quotient", "factor", "divisor", "how many fit",
        )
    },
}  # fmt: skip
