"""From a step of the solution to moments of the lesson: which words, and what appears.

A row of the table names the templates for a move and how its details are filled out; a move without
a row is said by the template of its own name.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise, takewhile
from typing import Any

from narrate.exact.spoken import pieces_name
from narrate.exact.tree import Expr, Frac, Mixed, Relation, Whole, terms, write_sum
from narrate.lesson.shows import (
    Choose,
    Draw,
    FillBoxes,
    Line,
    Multiples,
    Role,
    Show,
    StemMark,
)
from narrate.lesson.solved import SolvedPart
from narrate.solution import moves
from narrate.solution.answer import digits
from narrate.solution.steps import MultiplesList, Step

Said = tuple[str, dict[str, Any]]

LONGEST_LIST, LONGEST_BRIEF_LIST = 7, 5
"""So many multiples are said one by one, and so many where time is short."""

FIRST_MULTIPLES = 3
"""So many multiples of a longer list are said before "and so on"; the page shows them all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """One moment of a step: the templates to say it by, with their details, and what it shows.

    `goes_on` says that the next moment belongs to the same step: no new step begins after it.
    """

    name: str
    said: tuple[Said, ...]
    shows: tuple[Show, ...] = field(default=())
    goes_on: bool = False


def moments(step: Step, solved: SolvedPart, *, brief: bool = False) -> tuple[Moment, ...]:
    """The moments a step is told in; a `brief` telling asks no question before an estimate."""
    if step.lists:
        return tuple(_multiples(step, solved, brief))
    said = list(_SAID.get(step.move, _by_name)(step, solved))
    if brief:
        said = [each for each in said if each[0] != "estimate question"]
    shows, goes_on = tuple(_shows(step, solved)), _goes_on(step, solved)
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
    details = _details(step, solved)
    if solved.reading.misleading:
        yield "misleading", {"word": solved.reading.misleading}
    yield f"set up/{step.details['situation']}", details


def _undo(step: Step, solved: SolvedPart) -> Iterator[Said]:
    yield "undo/sum" if solved.reading.target else "undo", _details(step, solved)


def _estimate(step: Step, solved: SolvedPart) -> Iterator[Said]:
    estimates = [s for s in solved.solution.steps if s.move.startswith("estimate ")]
    if step is estimates[0]:
        yield "estimate question", {}
    yield step.move, _details(step, solved) | {"half": Frac(1, 2)}


def _join(step: Step, solved: SolvedPart) -> Iterator[Said]:
    details = _details(step, solved)
    wholes = details["wholes"]
    if wholes:
        signed = zip(details["whole_signs"], map(Whole, wholes), strict=True)
        details["wholes_counted"] = moves.equal(
            write_sum(list(signed)), moves.integer(details["whole"])
        )
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
    """A fraction in smaller pieces; a mixed number's whole number goes along."""
    numeral, rewritten = _sides(step)
    details = _details(step, solved)
    before = takewhile(lambda earlier: earlier is not step, solved.solution.steps)
    known = any(s.move == "rewrite" and s.details["old"] == step.details["old"] for s in before)
    if known and isinstance(numeral, Frac):
        yield "rewrite/again", details
        return
    if isinstance(numeral, Mixed):
        yield (
            "rewrite/mixed",
            details
            | {
                "mixed": numeral,
                "mixed_equal": rewritten,
                "mixed_whole": numeral.whole,
            },
        )
    else:
        yield "rewrite", details


def _sides(step: Step) -> tuple[Expr, Expr]:
    """What a step's line starts from and what it comes to."""
    assert isinstance(step.line, Relation)
    return step.line.sides[0], step.line.sides[-1]


def _shade(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """Amounts shaded as the work has them: 2 2/10 while the wholes stand apart, or 22/10."""
    joined = next(s for s in solved.solution.steps if s.move == "join")
    amounts = tuple(tree for _, tree in terms(_sides(joined)[0]))
    apart = any(isinstance(tree, Mixed) for tree in amounts)
    yield "shade strip", _details(step, solved) | {"amounts": amounts if apart else ()}


def _fit(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """Why the answer goes in as it does; `known` says that the step before has just said it."""
    details = _details(step, solved) | {"known": step.line is None}
    yield f"fit the boxes/{step.details['reason']}", details


def _look_back(step: Step, solved: SolvedPart) -> Iterator[Said]:
    compares = solved.reading.situation == "difference" and step.details["how"] == "put back"
    how = "compare" if compares else step.details["how"]
    yield f"look back/{how}", _details(step, solved) | {"counted": _counted_back(step) or ""}


def _counted_back(step: Step) -> Relation | None:
    """The look back in pieces alone, where only fractions of one size come and go."""
    undone, first = _sides(step)
    total, *others = terms(undone)
    ends = [tree for tree in (total[1], first) if isinstance(tree, Frac | Mixed)]
    moved = [tree for _, tree in others if isinstance(tree, Frac)]
    sizes = {tree.denominator for tree in (*ends, *moved)}
    wholes = {tree.whole if isinstance(tree, Mixed) else 0 for tree in ends}
    if len(ends) < 2 or len(moved) < len(others) or len(sizes) > 1 or len(wholes) > 1:
        return None
    signs = (1, *(sign for sign, _ in others))
    tops = [Whole(tree.numerator) for tree in (ends[0], *moved)]
    return moves.equal(write_sum(list(zip(signs, tops, strict=True))), Whole(ends[1].numerator))


def _put_right(step: Step, solved: SolvedPart) -> Iterator[Said]:
    details = _details(step, solved)
    yield "put right", details
    if slip := step.details["slip"]:
        yield f"slip/{slip}", {"tree": details["claim"], **slip_details(solved)}


def slip_details(solved: SolvedPart) -> dict[str, Any]:
    """What sentences about a slip may say besides the wrong number: the size, the operation."""
    steps = solved.solution.steps
    sizes = [step.details["size"] for step in steps if "size" in step.details]
    signs = [sign for step in steps if step.move == "join" for sign in _signs(step)]
    return {"size": sizes[-1] if sizes else 1, "ten": Whole(10), "adds": all(s > 0 for s in signs)}


def _signs(step: Step) -> Sequence[int]:
    signs = step.details["signs"]
    return [s for s in signs if isinstance(s, int)] if isinstance(signs, tuple) else []


_SAID: dict[str, Callable[[Step, SolvedPart], Iterator[Said]]] = {
    "set up": _set_up,
    "undo": _undo,
    "join": _join,
    "rewrite": _rewrite,
    "shade strip": _shade,
    "fit the boxes": _fit,
    "look back": _look_back,
    "put right": _put_right,
    **{
        f"estimate {name}": _estimate
        for name in (
            "room",
            "halves",
            "wholes",
            "part of a whole",
            "wholes apart",
            "joins",
            "takes",
        )
    },
}


def _multiples(step: Step, solved: SolvedPart, brief: bool) -> Iterator[Moment]:
    """Each list by itself, number by number; then the number they share.

    In a brief telling a list after the first is only said to come to the same number.
    """
    for place, listed in enumerate(step.lists):
        last = place == len(step.lists) - 1
        said = [_counted(listed, brief)]
        if last:
            said.append((step.move, _details(step, solved)))
        if brief and place and len(listed.values) > FIRST_MULTIPLES:
            name = "multiples of/meet" if last else "multiples of/too"
            said = [(name, {"of": listed.of, "last": listed.values[-1]})]
        show = Multiples(of=listed.of, values=listed.values)
        yield Moment(name="multiples", said=tuple(said), shows=(show,), goes_on=not last)


def _counted(listed: MultiplesList, brief: bool) -> Said:
    """A list of multiples, or how a long one begins and where it ends."""
    values = listed.values
    if len(values) <= (LONGEST_BRIEF_LIST if brief else LONGEST_LIST):
        return "multiples of", {"of": listed.of, "values": values}
    said = values[:FIRST_MULTIPLES]
    return "multiples of/on", {"of": listed.of, "values": said, "last": values[-1]}


def _shows(step: Step, solved: SolvedPart) -> Iterator[Show]:
    if step.move == "set up" and solved.reading.story:
        yield from stem_marks(solved, ("amount", "relationship"))
    line = step.shown or step.line
    if line is not None:
        yield Line(tree=line)
    if step.move == "carried":
        pairs = step.details["pairs"]
        assert isinstance(pairs, tuple)
        yield from (Line(tree=pair) for pair in pairs[1:] if isinstance(pair, Relation))
    if step.move == "rewrite" and isinstance(_sides(step)[0], Mixed):
        assert step.line is not None
        yield Line(tree=step.line)
    for layer in step.layers:
        yield Draw(layer)
    if step.move in ("choose", "choose all", "stop here", "told"):
        letters = step.details["letters"]
        for letter in letters if isinstance(letters, tuple) else ():
            yield Choose(str(letter))
    if step.move == "put right" and step.details["verdict"] != "right":
        yield _wrong_line(solved)
    if step.move == "fit the boxes":
        yield FillBoxes(digits(solved.part, solved.solution.result))


def _wrong_line(solved: SolvedPart) -> Line:
    """A pupil's wrong line, marked as wrong."""
    claim = solved.part.claim
    assert claim is not None
    return Line(tree=moves.equal(solved.reading.expression, claim), struck=True)


def stem_marks(solved: SolvedPart, roles: tuple[Role, ...]) -> Iterator[StemMark]:
    """The telling phrases of some roles, marked on the item."""
    for telling in solved.reading.tellings:
        if telling.role in roles:
            yield StemMark(
                source=telling.source, start=telling.start, end=telling.end, role=telling.role
            )
