"""What a step of the solution shows: marks on the item, lines, figures, the answer put in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from narrate.exact.caption import write
from narrate.exact.measures import several
from narrate.exact.tree import Expr, Mixed, Relation, Whole
from narrate.lesson.shows import Choose, Draw, FillBoxes, Line, Multiples, Role, Show, StemMark
from narrate.lesson.solved import SolvedPart
from narrate.reading.reading import Telling
from narrate.solution import moves
from narrate.solution.answer import digits
from narrate.solution.steps import Step

_TELLING = frozenset({
    "set up", "neighbors", "round already", "measure fact", "clock set up", "ratio of all",
    "ratio in order",
})  # fmt: skip
"""Moves that begin the work, and with which the amounts of the words are marked."""


def shows_of(step: Step, solved: SolvedPart) -> Iterator[Show]:
    """What a step shows, in order."""
    if step.move in _TELLING and _tells(step, solved):
        yield from stem_marks(solved, ("amount", "relationship"))
    pairs = step.details.get("pairs")
    if step.move == "judge" and isinstance(pairs, tuple):
        first, *others = (pair for pair in pairs if isinstance(pair, Relation))
        yield Line(tree=first, note="".join(map(write, others)))
    if step.move == "multiples of":
        yield _listed(step)
    if step.move == "measure fact" and step.line is not None:
        yield Line(tree=step.line, note=_fact_of(step))
        return
    line = step.shown or step.line
    if line is not None:
        yield Line(tree=line)
    if step.move == "test" and isinstance(pairs, tuple):
        yield from (Line(tree=pair) for pair in pairs[1:] if isinstance(pair, Relation))
    if step.move == "carried":
        pairs = step.details["pairs"]
        assert isinstance(pairs, tuple)
        yield from (Line(tree=pair) for pair in pairs[1:] if isinstance(pair, Relation))
    if step.move == "rewrite" and isinstance(sides(step)[0], Mixed):
        assert step.line is not None
        yield Line(tree=step.line)
    for layer in step.layers:
        yield Draw(layer)
    if step.move in ("choose", "choose all", "stop here", "told"):
        letters = step.details["letters"]
        for letter in letters if isinstance(letters, tuple) else ():
            yield Choose(str(letter))
    if step.move == "put right" and step.details["verdict"] != "right":
        yield _wrong_line(solved, str(step.details["slip"]))
    if step.move == "fit the boxes":
        yield FillBoxes(digits(solved.part, solved.solution.result))


def _listed(step: Step) -> Multiples:
    """The multiples of a number at the side."""
    of, values = step.details["of"], step.details["values"]
    assert isinstance(of, int)
    assert isinstance(values, tuple)
    return Multiples(of=of, values=tuple(n for n in values if isinstance(n, int)), ring=False)


def _fact_of(step: Step) -> str:
    """The fact that a conversion uses, as it stands beside the line: 1 foot = 12 inches."""
    told = step.details
    size, one = told["size"], told["one"]
    assert isinstance(size, Whole)
    assert isinstance(one, Whole)
    return f"{write(one)} {told['large']} = {write(size)} {several(str(told['small']))}"


def _tells(step: Step, solved: SolvedPart) -> bool:
    """Whether a step is the first of a story, so that the amounts of its words are marked."""
    return solved.reading.story and step is solved.solution.steps[0]


def _wrong_line(solved: SolvedPart, slip: str) -> Line:
    """A pupil's wrong line, marked as wrong."""
    claim = solved.part.claim
    assert claim is not None
    return Line(tree=moves.equal(solved.reading.expression, claim), struck=True, slip=slip)


def stem_marks(solved: SolvedPart, roles: tuple[Role, ...]) -> Iterator[StemMark]:
    """The telling phrases of some roles, marked on the item; no mark lies over a boxed amount."""
    shown = [telling for telling in solved.reading.tellings if telling.role in roles]
    for telling in shown:
        boxed = shown if telling.role == "relationship" else ()
        for start, end in _outside(telling, boxed):
            yield StemMark(source=telling.source, start=start, end=end, role=telling.role)


def _outside(phrase: Telling, shown: Sequence[Telling]) -> Iterator[tuple[int, int]]:
    """The stretches of a phrase that no amount covers: longer than, of 1/5 meter longer than."""
    start = phrase.start
    boxes = [t for t in shown if t.role == "amount" and t.source == phrase.source]
    for box in sorted(boxes, key=lambda told: told.start):
        if start < box.end and box.start < phrase.end:
            yield from _trimmed(phrase, start, box.start)
            start = box.end
    yield from _trimmed(phrase, start, phrase.end)


def _trimmed(phrase: Telling, start: int, end: int) -> Iterator[tuple[int, int]]:
    """A stretch without the space around it, none where nothing is left."""
    words = phrase.text[max(start - phrase.start, 0) : max(end - phrase.start, 0)]
    if words.strip():
        yield end - len(words.lstrip()), end - len(words) + len(words.rstrip())


def sides(step: Step) -> tuple[Expr, Expr]:
    """What a step's line starts from and what it comes to."""
    assert isinstance(step.line, Relation)
    return step.line.sides[0], step.line.sides[-1]
