"""The lesson told: the beats of each part in their arc, with their words and what they show.

The arc: label and item read; pause and try; what is really asked; how the amounts are related and
from that the operation; estimate; the work; rule-outs where they become possible; fit the boxes or
choose; look back; one sentence to take along. As many beats as the item needs and no more.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from narrate.exact.caption import caption
from narrate.exact.tree import Expr, Op, Sayable, terms, walk
from narrate.items.item import Choice
from narrate.lesson import number_moments, reasons
from narrate.lesson.appearing import in_words
from narrate.lesson.hers import plain_sentences
from narrate.lesson.lesson import Beat, Sentence
from narrate.lesson.moments import Moment, moments, slip_details
from narrate.lesson.readaloud import is_first, pause_here, read_aloud
from narrate.lesson.shown import stem_marks
from narrate.lesson.shows import Line, Role, Show, StemMark, Strike, Takeaway
from narrate.lesson.silences import ending, going_on
from narrate.lesson.solved import SolvedPart
from narrate.lesson.timeline import beat_ms, pace
from narrate.lesson.view import Told
from narrate.lesson.wording import Words
from narrate.solution.steps import RuleOut, Step

LONGEST_BARE, LONGEST_STORY = 100_000, 180_000
"""Milliseconds a part may take before its wording is shortened (target of the project's own)."""

BRIEFER = (1, 2, 3, 4)
"""How a part that is too long is told again: with fewer words around the work, then with fewest,
then with fewest in the work too.

The last also does without an estimate that only doubts a pupil's answer, which the work puts right,
and without the description of a strip that the work describes.
"""

LEFT_OUT_FIRST = ("slip", "take along", "define")
"""What a part that is still too long does without, in this order: never a reason or a line.

A term that is not explained here is explained in the next part that uses it. A slip that pupils
are known to have made stays.
"""

EXPLAINED = ("regroup", "whole as pieces", "one size", "like size")
"""Moves that a question why is asked about, the first that a part has (3 s: Rowe 1974)."""

_TELLS_STRIP = frozenset({"read strip", "recut strip", "leave strip"})
"""Moves that say how a given strip is cut."""

_PAIR = ("numerator", "denominator")
"""Terms that are explained together, right after what is asked."""

ASIDES = frozenset({"rule out", "slip", "doubt", "only left"})
"""Beats that belong to the step before them: what it says about a choice or a pupil's answer."""

MOST_SLIPS = 2
"""Slips named aloud in one part: where they teach, and no more."""


@dataclass(slots=True)
class _PartTelling:
    """One part as it is told: beats so far and what they show."""

    words: Words
    solved: SolvedPart
    defined: set[str]
    told: list[Told] = field(default_factory=list)
    names: Counter[str] = field(default_factory=Counter)
    slips: int = 0
    asks_why: bool = False

    @property
    def prefix(self) -> str:
        return f"{self.solved.item.id}.{self.solved.part.number}"

    def add(
        self,
        name: str,
        move: str,
        sentences: Sequence[Sentence],
        shows: Sequence[Show] = (),
        *,
        goes_on: bool = False,
    ) -> None:
        """A beat, and before it the definition of any term it is the first to use.

        `goes_on` says that the next beat is no new step; nor is one of `ASIDES`.
        """
        if move in ASIDES and self.told:
            self.told[-1] = going_on(self.told[-1])
        self._define(sentences)
        beat = Beat(
            id=self._unique(name),
            item=self.solved.item.id,
            part=self.solved.part.number,
            move=move,
            sentences=tuple(sentences),
            appears=tuple(in_words(show, self._phrase(show)) for show in shows),
            waits=bool(shows),
        )
        told = Told(beat=beat, shows=tuple(shows))
        self.told.append(told if goes_on else ending(told))

    def _phrase(self, show: Show) -> str:
        """The words of the item that a stem mark marks."""
        if not isinstance(show, StemMark):
            return ""
        return self.solved.words_of(show.source)[show.start : show.end]

    def _unique(self, name: str) -> str:
        """The name within its part, numbered from its second use on."""
        stem = f"{self.prefix}.{name.replace(' ', '-')}"
        self.names[stem] += 1
        return stem if self.names[stem] == 1 else f"{stem}-{self.names[stem]}"

    def _define(self, sentences: Sequence[Sentence]) -> None:
        terms_used = self.words.terms_in(sentences)
        if set(terms_used) & set(_PAIR):
            terms_used = tuple(dict.fromkeys((*terms_used, *_PAIR)))
        for term in terms_used:
            if term not in self.defined:
                self.defined.add(term)
                sentences = self.words.tell(f"define/{term}", {})
                self.add(f"define {term}", "define", sentences)
                self.told[-1] = replace(
                    self.told[-1], beat=replace(self.told[-1].beat, optional=True)
                )

    def tell_all(self) -> None:
        """The whole arc of the part.

        A brief telling is without estimates that strike nothing, and writes a bare sum down while
        it says what is asked.
        """
        self.words.explained = self.defined
        self._read()
        self._asked()
        for place, step in enumerate(self.solved.solution.steps):
            if self._spared(place):
                continue
            self._why(step)
            if not (self.words.brief and self._is_asked(step)):
                for moment in moments(step, self.solved, brief=self.words.brief > 0):
                    self._moment(moment)
            self._strike(place)
        self._take_along()

    def _why(self, step: Step) -> None:
        """A question why, once in a part, before the step that answers it."""
        move = f"why/{step.move}"
        moves = {each.move for each in self.solved.solution.steps}
        asked = next((each for each in EXPLAINED if each in moves), None)
        if self.asks_why and step.move == asked:
            self.asks_why = False
            self.add("why", "why", self.words.tell(move, {}), goes_on=True)

    def _is_asked(self, step: Step) -> bool:
        """Whether a step only writes down the sum that the question has named."""
        return step.move == "set up" and not self.solved.reading.story and not step.layers

    def _spared(self, place: int) -> bool:
        """Whether a step is an estimate that a telling as brief as this one does without."""
        part, solution = self.solved.part, self.solved.solution
        if not self.words.brief or not solution.steps[place].move.startswith("estimate "):
            return False
        struck = any(rule_out.step == place for rule_out in solution.rule_outs)
        doubts = reasons.doubt(part, solution, place) is not None
        return not struck and (not doubts or self.words.brief == BRIEFER[-1])

    def _moment(self, moment: Moment) -> None:
        sentences: list[Sentence] = []
        for move, details in moment.said:
            sentences.extend(self.words.tell(move, details))
        self.add(moment.name, moment.name, sentences, moment.shows, goes_on=moment.goes_on)

    def _read(self) -> None:
        item, part = self.solved.item, self.solved.part
        self.add("read", "read", read_aloud(self.words, item, part))
        strip = item.stimulus.diagram if item.stimulus else None
        told_later = any(s.move in _TELLS_STRIP for s in self.solved.solution.steps)
        spared = self.words.brief == BRIEFER[-1] and told_later
        if strip and is_first(item, part) and not spared:
            details = {"wholes": strip.wholes, "parts": strip.parts}
            self.add("strip given", "strip given", self.words.tell("strip given", details))
        picture = item.stimulus.picture if item.stimulus else None
        if picture and is_first(item, part):
            shown = [*self.words.tell("picture given", {})]
            shown.extend(plain_sentences(picture.alt, self.words.spoken, stem=True))
            self.add("picture given", "picture given", shown)
        self.add("try", "try", self.words.tell("try", {}), [pause_here(self.words)])

    def _asked(self) -> None:
        reading, goal = self.solved.reading, self.solved.reading.goal
        situation = number_moments.asked(self.solved)
        move = f"asked/{situation if goal.form == 'value' else goal.form}"
        move = "asked/start-told" if goal.start else move
        details = {
            "noun": reading.unknown.noun,
            "select_all": self.solved.part.select_all,
            "money": reading.money,
            "claim": self.solved.part.claim,
            "expression": reading.expression,
            "ending": _ending_of(reading.expression),
            "wrong": bool(re.search(r"\b(?:wrong|mistakes?|errors?)\b", self.solved.part.ask)),
        }
        framed = self.solved.reading.story or (not self.words.brief and goal.form != "value")
        frame = self.words.tell("asked question", {}) if framed else ()
        said = [*frame, *self.words.tell(move, details)]
        condition: list[Sentence] = []
        if goal.simplest and goal.form in ("value", "missing"):
            condition.extend(self.words.tell("condition/simplest", {}))
        if goal.shape != "any":
            condition.extend(self.words.tell(f"condition/{goal.shape}", {}))
        marks: tuple[Role, ...] = ("unknown",) if condition else ("unknown", "condition")
        shows: list[Show] = [*stem_marks(self.solved, marks)]
        first = self.solved.solution.steps[0]
        if self.words.brief and self._is_asked(first) and first.line is not None:
            shows.append(Line(tree=first.line))
        self.add("asked", "asked", said, shows, goes_on=bool(condition))
        if condition:
            self.add(
                "condition", "condition", condition, [*stem_marks(self.solved, ("condition",))]
            )

    def _strike(self, place: int) -> None:
        """The choices that the step just told rules out, with a slip named where it teaches."""
        part, solution = self.solved.part, self.solved.solution
        if doubt := reasons.doubt(part, solution, place):
            self.add("doubt", "doubt", self.words.tell(*doubt))
        for struck in reasons.both_sides(tuple(reasons.struck_at(part, solution, place))):
            details = reasons.details(part, solution, struck)
            move = reasons.together(struck.fact) if len(struck.rule_outs) > 1 else struck.fact
            said = [*self.words.tell(f"rule out/{move}", details)]
            shows = [
                Strike(letter=r.letter, reason=reasons.reason(self.words, part, solution, r))
                for r in struck.rule_outs
            ]
            self.add("rule out", "rule out", said, shows)
            self._name_slip(struck)
        if left := reasons.only_left(part, solution, place):
            self.add("only left", "only left", self.words.tell("only left", {"letter": left}))

    def _name_slip(self, struck: reasons.Struck) -> None:
        """How a choice just struck came about, if a slip makes it."""
        named = [r for r in struck.rule_outs if self._is_named(r)]
        counts = self.solved.part.counts
        named.sort(key=lambda r: -counts.get(r.letter, 0))
        most = 1 if self.words.brief else MOST_SLIPS
        if not named or self.slips >= most or struck.fact == "operation":
            return
        self.slips += 1
        choice = reasons.choice_of(self.solved.part, named[0].letter)
        details = {
            "tree": self._named(choice),
            "fact": struck.fact,
            **slip_details(self.solved, choice.tree),
        }
        self.add("slip", "slip", self.words.tell(f"slip/{named[0].slip}", details))

    def _is_named(self, rule_out: RuleOut) -> bool:
        """Whether the slip behind a choice may be named: where it is known what pupils chose, only
        slips that were really made, those made most."""
        counts = self.solved.part.counts
        if not rule_out.slip or not self.words.has(f"slip/{rule_out.slip}"):
            return False
        if not any(counts.values()):
            return True
        others = [r for r in self.solved.solution.rule_outs if r.slip]
        made = [
            r.letter for r in others if counts.get(r.letter) and self.words.has(f"slip/{r.slip}")
        ]
        made.sort(key=lambda letter: (-counts[letter], letter))
        return rule_out.letter in made[: 1 if self.words.brief else MOST_SLIPS]

    def _named(self, choice: Choice) -> str | Sayable:
        """A choice in a sentence: its number, or its letter where it is a longer expression."""
        if choice.tree is None or reasons.is_work(choice.tree):
            return caption(self.words.short("page/choice", {"letter": choice.letter}))
        return reasons.as_choice(choice)

    def _take_along(self) -> None:
        said = self.words.tell(f"takeaway/{_takeaway(self.solved)}", {})
        text = " ".join(sentence.caption for sentence in said)
        self.add("take along", "take along", said, [Takeaway(text)])


_CALLED = {"×": "product", "÷": "quotient"}


def _ending_of(expression: Expr) -> str:
    """What a plain calculation comes to is called: the sum, the difference."""
    if isinstance(expression, Op) and expression.sign in _CALLED:
        plain = number_moments.operations_of(expression) == 1
        return _CALLED[expression.sign] if plain else "answer"
    if any(isinstance(node, Op) and node.sign in _CALLED for node in walk(expression)):
        return "answer"
    signs = [sign for sign, _ in terms(expression)]
    if len(signs) < 2 or signs[0] < 0:
        return "answer"
    return "sum" if min(signs) > 0 else "difference" if len(signs) == 2 else "answer"


def _takeaway(solved: SolvedPart) -> str:
    """Which sentence to take along: the first row whose mark the part bears."""
    moves = {step.move for step in solved.solution.steps}
    goal = solved.reading.goal
    rows = (
        ("first-line", goal.form == "first line"),
        ("equivalent", goal.form == "equivalent"),
        ("missing", goal.form == "missing"),
        ("claim", goal.form == "claim"),
        ("simplest", "simplify" in moves),
        ("strip", "shade strip" in moves),
        ("regroup", "regroup" in moves),
        ("whole", "whole as pieces" in moves),
        ("one-size", "one size" in moves),
    )
    found = next((name for name, is_so in rows if is_so), None)
    return found or number_moments.takeaway(solved) or "like-size"


def tell_part(words: Words, solved: SolvedPart, defined: set[str]) -> tuple[Told, ...]:
    """The beats of a part; where it grows too long it is told again in shorter words.

    `defined` holds the terms explained so far and is added to.
    """
    words.next_part()
    state, known = words.state(), set(defined)
    told = _tell_once(words, solved, known, asks_why=True)
    longest = LONGEST_STORY if solved.reading.story else LONGEST_BARE
    for words.brief in (0, *BRIEFER):
        if _length(told, solved) <= longest:
            break
        words.restore(state)
        known = set(defined)
        told = _tell_once(words, solved, known)
    words.brief = 0
    for move in LEFT_OUT_FIRST:
        if move != "slip" or not any(solved.part.counts.values()):
            told = _without(told, move, solved, longest)
    if any(each.beat.move == "define" for each in told):
        defined |= known
    return told


def _tell_once(
    words: Words, solved: SolvedPart, defined: set[str], *, asks_why: bool = False
) -> tuple[Told, ...]:
    telling = _PartTelling(words=words, solved=solved, defined=defined, asks_why=asks_why)
    telling.tell_all()
    return _paired_early(telling.told)


def _paired_early(told: Sequence[Told]) -> tuple[Told, ...]:
    """The beats with numerator and denominator explained after what is asked, not mid-work."""
    names = {f"define-{term}" for term in _PAIR}
    pair = [each for each in told if each.beat.id.rpartition(".")[2] in names]
    asked = next(k for k, each in enumerate(told) if each.beat.move == "asked")
    late = [each for each in pair if each in told[asked:]]
    rest = [each for each in told if each not in late]
    return (*rest[: asked + 1], *late, *rest[asked + 1 :])


def _length(told: Sequence[Told], solved: SolvedPart) -> int:
    return sum(beat_ms(each.beat, pace(solved.item.grade)) for each in told)


def _without(
    told: tuple[Told, ...], move: str, solved: SolvedPart, longest: int
) -> tuple[Told, ...]:
    """The beats without those of a move, if the part is too long with them."""
    if _length(told, solved) <= longest:
        return told
    return tuple(each for each in told if each.beat.move != move)
