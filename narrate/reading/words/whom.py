"""Who is spoken of: pronouns and subjects left out taken back to those named before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from narrate.reading.words import lexicon
from narrate.reading.words.clauses import Clause
from narrate.reading.words.lexicon import NO_THING, NOUNS_FIRST, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.token import Token


def resolve(found: Sequence[Clause], asking: Clause | None = None) -> None:
    """Give every clause its `who`: pronouns and left-out subjects are those spoken of before.

    What is told behind the question `asking` may take up who or what it asks about.
    """
    spoken = _Spoken()
    for clause in found:
        if asking is not None and clause.sentence > asking.sentence:
            spoken.remember(asking)
            asking = None
        clause.who = _named(clause) or spoken.meant_by(clause)
        spoken.remember(clause)
    for clause, after in pairwise(found):
        if _is_done_by(clause, after):
            clause.who = after.who  # after giving away 15, Jada has 28


def _is_done_by(clause: Clause, after: Clause) -> bool:
    """Whether a clause without a subject says what the next one's did: after giving away 15."""
    opens = clause.sentence == after.sentence and clause.link in ("after", "before", "by", "")
    words = clause.stretches[0]
    doing = clause.verb == 0 and bool(words) and words[0].low.endswith("ing")
    return opens and doing and not clause.subject and bool(after.subject and after.who)


def _named(clause: Clause) -> frozenset[str]:
    """The words of a subject that name someone or something."""
    return frozenset(
        w.lemma
        for w in _without_measure(clause.subject)
        if w.kind == "w"
        and (w.low not in NO_THING or w.low in lexicon.ORDINALS)
        and (w.low not in VERBS or w.low in NOUNS_FIRST or w.text[:1].isupper())
    )


def _without_measure(subject: Sequence[Token]) -> Sequence[Token]:
    """A subject without what is told of its size: a ribbon 6 feet long."""
    for at in range(1, len(subject) - 1):
        if subject[at].kind == "n" and subject[at + 1].lemma in lexicon.UNITS:
            return subject[:at]
    return subject


PEOPLE = word_set(
    "gardener farmer baker cook chef florist teacher coach grower beekeeper ranger librarian "
    "janitor carpenter painter tailor driver hiker runner swimmer shopkeeper grocer student pupil "
    "child boy girl man woman mother father mom dad sister brother aunt uncle cousin grandmother "
    "grandfather grandma grandpa friend neighbor principal person"
)
"""Who may be meant by "she" or "he" though nobody is named."""


@dataclass(slots=True)
class _Spoken:
    """Who was spoken of last: a person, several, a thing; `last` any of them.

    Of two people who do something in one sentence, `sentence`, none is the one that "she" means;
    nor is one of those of whom the one gave something to the other (`rival`), unless the giver was
    `called` so before.
    """

    person: frozenset[str] = frozenset()
    sentence: int = -1
    called: str = ""
    rival: bool = False
    group: frozenset[str] = frozenset()
    thing: frozenset[str] = frozenset()
    last: frozenset[str] = frozenset()
    previous: Clause | None = None

    def meant_by(self, clause: Clause) -> frozenset[str]:
        """Whom a pronoun or a left-out subject means."""
        lows = {w.low for w in clause.subject}
        if {"he", "she", "his", "her"} & lows:
            called = "he" if {"he", "his"} & lows else "she"
            if self.rival and self.called != called:
                return frozenset()
            self.called = called
            return self.person
        if {"they", "their", "we"} & lows:
            return self.group or (frozenset() if self.last == self.person else self.last)
        if {"it", "its"} & lows:
            return self.thing or (frozenset() if self.last == self.person else self.last)
        if {"i", "you"} & lows:
            return frozenset({clause.subject[0].low})
        if not lows and clause.link == "said" and self.previous and _compares(clause):
            return self.previous.who
        if not lows and clause.link in ("who", "which", "that", "said") and self.previous:
            return _last_thing(self.previous)
        return self.last if not lows and clause.base and "there" not in clause.lows else frozenset()

    def remember(self, clause: Clause) -> None:
        """Keep whom a clause spoke of."""
        self.previous = clause
        if not clause.who:
            return
        self.last = clause.who
        lows = [w.low for w in clause.subject]
        people = [w for w in clause.subject if w.text[:1].isupper() and w.low not in NO_THING]
        known = [w for w in clause.subject if w.lemma == w.low and w.low in PEOPLE]
        if known and not (people or self.person) and len(clause.who) <= 2:
            self.person = clause.who
        apart = any(b.start - a.end > len(". ") for a, b in pairwise(people))
        if people and "and" not in lows and not apart and len({w.lemma for w in people}) <= 2:
            beside = self.sentence == clause.sentence and not self.person <= clause.who
            if self.person != clause.who:
                self.called, self.rival = "", False
            self.person = frozenset() if beside else clause.who
            self.sentence = clause.sentence
        self.rival = self.rival or _hands_to_another(clause)
        if not people and lows and lows[0] not in ("he", "she"):
            self.thing = clause.who
        if len(people) > 1 or (lows and lows[-1].endswith("s")):
            self.group = clause.who


_HANDING = word_set("give lend send hand pay sell pass show")


def _hands_to_another(clause: Clause) -> bool:
    """Whether somebody gives something to another who is named."""
    own = {word.lemma for word in clause.subject}
    named = (t for t in clause.tokens if t.text[:1].isupper() and t.low not in NO_THING)
    others = {t.lemma for t in named} - own - lexicon.DATES - clause.who
    return clause.base in _HANDING and bool(clause.who) and bool(others)


def _compares(clause: Clause) -> bool:
    """Whether a clause holds an amount against another: that is 3 more than on Monday."""
    return clause.base == "be" and bool(clause.lows & {"than", "times", "twice"})


def _last_thing(clause: Clause) -> frozenset[str]:
    """What a clause names last: who or what "who" and "which" go back to."""
    found: list[str] = []
    for word in reversed(clause.tokens):
        named = word.kind == "w" and word.low not in NO_THING
        if named:
            found.append(word.lemma)
        elif found and word.low != "of":
            break
    return frozenset(found)
