"""What a telling that is too long does without, and how long it is."""

from __future__ import annotations

from collections.abc import Sequence

from narrate.lesson.solved import SolvedPart
from narrate.lesson.timeline import beat_ms, pace
from narrate.lesson.view import Told
from narrate.lesson.wording import SHORT, Words

LEFT_OUT_FIRST = ("slip", "take along", "define")
"""What a part that is too long in short words does without, in this order: never a reason or a
line.

A term that is not explained here is explained in the next part that uses it. A slip that pupils
are known to have made stays.
"""

PAIR = ("numerator", "denominator")
"""Terms that are explained together, right after what is asked."""


def length_of(told: Sequence[Told], solved: SolvedPart) -> int:
    """How long beats take at the pace of the part's grade, in milliseconds."""
    return sum(beat_ms(each.beat, pace(solved.item.grade)) for each in told)


def shortened(
    words: Words, told: tuple[Told, ...], solved: SolvedPart, longest: int
) -> tuple[Told, ...]:
    """The beats of a telling in short words without what comes first, if it is too long with it."""
    for move in LEFT_OUT_FIRST if words.brief > SHORT else ():
        if length_of(told, solved) > longest and not (move == "slip" and _is_counted(solved)):
            words.unsay(s for each in told if each.beat.move == move for s in each.beat.sentences)
            told = tuple(each for each in told if each.beat.move != move)
            told = tuple(each for each in told if not _explains_nothing(words, each, told))
    return told


def _explains_nothing(words: Words, each: Told, told: Sequence[Told]) -> bool:
    """Whether a term is explained that nothing says any more that is told."""
    if each.beat.move != "define" or term_of(each) in PAIR:
        return False
    said = [s for other in told if other.beat.move != "define" for s in other.beat.sentences]
    return term_of(each) not in words.terms_in(said)


def term_of(defined: Told) -> str:
    """The term that a beat explains."""
    return defined.beat.id.rpartition(".define-")[2].replace("-", " ")


def _is_counted(solved: SolvedPart) -> bool:
    """Whether it is known what pupils chose."""
    return any(solved.part.counts.values())
