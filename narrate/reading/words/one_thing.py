"""What one of a thing holds, costs or needs: a box holds 12 eggs, a lap is 400 meters."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from narrate.reading.words.clauses import Clause
from narrate.reading.words.lexicon import NO_THING, UNITS, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.things import thing_after
from narrate.reading.words.token import Token

_HOLDING = word_set("hold have contain cost weigh seat need use carry take make cover serve feed")


def for_one(
    made: Quantity, words: Sequence[Token], place: int, end: int, clause: Clause
) -> Quantity:
    """The amount with the one thing it is for: a box holds 12 eggs, 3 lemons for a pitcher."""
    subject = [w for w in clause.subject if w.kind == "w"]
    if (
        subject
        and subject[0].low in ("a", "an", "one")
        and all(w.kind == "w" for w in clause.subject)
        and (clause.base in _HOLDING or _is_lap(subject, made, clause))
        and (place > clause.verb or _goes_on(words, place, clause))
    ):
        of = next((i for i, w in enumerate(subject) if w.low == "of"), 0)
        name = [*subject[of:], *subject[1:of]] if of else subject[1:]  # a bag of soil is a soil bag
        return replace(
            made,
            of_one=tuple(
                w.lemma
                for w in name
                if w.low not in NO_THING and (w.low not in VERBS or w.low in _LAPS | {"can"})
            ),
        )
    after = [w.low for w in words[end : end + 3]]
    if (
        clause.base in ("take", "need", "use")
        and after[:2] == ["to", "make"]
        and after[2:]
        and after[2] in ("a", "an", "one")
    ):
        return replace(made, of_one=thing_after(words, end + 3)[0])
    return made


def _goes_on(words: Sequence[Token], place: int, clause: Clause) -> bool:
    """Whether a number goes on from one that is told behind the verb: 9 red bows and 4 white."""
    main = clause.stretches[0]
    numbered = any(w.kind == "n" for w in main[clause.verb + 1 :])
    counted = place == 0 and not words[place].sort  # not: and half that much
    return counted and words is not main and numbered and words[0].start > main[-1].start


def _is_lap(subject: Sequence[Token], made: Quantity, clause: Clause) -> bool:
    """Whether a clause says how much one lap or serving is: a lap is 400 meters."""
    named = clause.base == "be" and subject[1:2] != [] and subject[1].low in _LAPS
    return named and bool(made.thing) and made.thing[0] in UNITS


_LAPS = word_set("lap loop circuit trip length serving portion helping scoop dose")


def is_measure(made: Quantity) -> bool:
    """Whether a number counts a measure and nothing else."""
    return len(made.thing) == 1 and made.thing[0] in UNITS
