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
from itertools import accumulate, takewhile

from narrate.lesson import demand_moments, known_forms, number_moments, reasons, why_now
from narrate.lesson.appearing import in_words
from narrate.lesson.called import called_in, ending_of, takeaway_of
from narrate.lesson.foreseen import foreseen
from narrate.lesson.hers import plain_sentences
from narrate.lesson.left_out import PAIR, length_of, shortened, term_of
from narrate.lesson.lesson import Beat, Sentence
from narrate.lesson.listing import Moment
from narrate.lesson.moments import moments, slip_details
from narrate.lesson.readaloud import is_first, pause_here, read_aloud
from narrate.lesson.shown import shows_of, stem_marks
from narrate.lesson.shows import Line, Role, Show, StemMark, Strike, Takeaway
from narrate.lesson.silences import ending, going_on
from narrate.lesson.solved import SolvedPart
from narrate.lesson.unneeded import not_needed
from narrate.lesson.view import Told
from narrate.lesson.wording import CLOSE, EXPLAINING, FULL, TIGHT, Words
from narrate.solution.steps import RuleOut, Step

LONGEST_BARE, LONGEST_STORY = 100_000, 180_000
"""Milliseconds a part may take before its wording is shortened (target of the project's own)."""

EXPLAINED = ("regroup", "whole as pieces", "one size", "like size")
"""Moves that a question why is asked about, the first that a part has (3 s: Rowe 1974)."""

_TELLS_STRIP = frozenset({"read strip", "recut strip", "leave strip"})
"""Moves that say how a given strip is cut."""

_IN_ONE_GO = frozenset({"one size", "multiples", "product", "improper", "rewrite"})
"""Steps towards pieces of one size, with no longer silence between them where time is shortest."""

_SPARED = frozenset({"misleading"})
"""Remarks that pupils need not hear once more when they have heard each of their wordings."""

ASIDES = frozenset({"rule out", "slip", "doubt", "only left"})
"""Beats that belong to the step before them: what it says about a choice or a pupil's answer."""

MOST_SLIPS = 2
"""Slips named aloud in one part: where they teach, and no more."""

MOST_LINES = 3
"""So many lines of right choices are shown in one breath where time is shortest."""


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
    _begins: set[int] = field(default_factory=set)
    """Steps that a next breath of right choices begins with."""

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
        self._define([*sentences, *map(_written, shows)])
        beat = Beat(
            id=self._unique(name),
            item=self.solved.item.id,
            part=self.solved.part.number,
            move=move,
            sentences=tuple(sentences),
            appears=tuple(
                in_words(show, self.words.language, self._phrase(show)) for show in shows
            ),
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
        if set(terms_used) & set(PAIR):
            terms_used = tuple(dict.fromkeys((*terms_used, *PAIR)))
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
        self._not_needed()
        for place, step in enumerate(self.solved.solution.steps):
            if self._spared(place):
                continue
            self._why(step)
            if self.words.brief >= CLOSE and step.move == "equal choice":
                self._together(place)
            elif not (self.words.brief and self._is_asked(step)):
                for moment in moments(step, self.solved, self.words.brief):
                    self._moment(moment)
            self._strike(place)
        self._take_along()

    def _together(self, place: int) -> None:
        """Right choices that follow each other, in one breath as far as their lines go together."""
        steps = self.solved.solution.steps
        if place and steps[place - 1].move == "equal choice" and place not in self._begins:
            return
        run = [*takewhile(lambda step: step.move == "equal choice", steps[place:])]
        lines = [*accumulate(len([*shows_of(step, self.solved)]) for step in run)]
        some = run[: max(1, sum(count <= MOST_LINES for count in lines))]
        self._begins.add(place + len(some))
        if len(some) == 1:
            self._moment(moments(some[0], self.solved, self.words.brief)[0])
            return
        letters = tuple(step.details["letter"] for step in some)
        details = {"letters": letters, "result": some[0].details["result"]}
        shows = [show for step in some for show in shows_of(step, self.solved)]
        said = self._each_named(some) or self.words.tell("equal choice/together", details)
        self.add("equal choice", "equal choice", said, shows, goes_on=len(run) > len(some))

    def _each_named(self, some: Sequence[Step]) -> tuple[Sentence, ...]:
        """Right choices with what they say, where a sentence has room for it; else nothing."""
        if self.words.brief == TIGHT:
            return ()
        choices = [step.details.get("choice", "") for step in some]
        letters = tuple(step.details["letter"] for step in some)
        details = {
            "letters": letters,
            "choices": tuple(choices),
            "result": some[0].details["result"],
        }
        return self.words.tell("equal choice/each", details) if all(choices) else ()

    def _why(self, step: Step) -> None:
        """A question why, once in a part, before the step that answers it."""
        move = f"why/{step.move}"
        moves = {each.move for each in self.solved.solution.steps}
        asked = next((each for each in EXPLAINED if each in moves), None)
        if self.asks_why and step.move == asked and self.words.is_fresh(move):
            self.asks_why = False
            self.add("why", "why", self.words.tell(move, {}), goes_on=True)

    def _is_asked(self, step: Step) -> bool:
        """Whether a step only writes down the sum that the question has named."""
        copied = number_moments.set_up(self.solved) == "bare"
        return step.move == "set up" and copied and not step.layers

    def _spared(self, place: int) -> bool:
        """Whether a step is an estimate that a telling as brief as this one does without."""
        part, solution = self.solved.part, self.solved.solution
        if not self.words.brief or not solution.steps[place].move.startswith("estimate "):
            return False
        struck = any(rule_out.step == place for rule_out in solution.rule_outs)
        doubts = reasons.doubt(part, solution, place) is not None
        return not struck and (not doubts or self.words.brief == TIGHT)

    def _moment(self, moment: Moment) -> None:
        sentences: list[Sentence] = []
        for move, details in moment.said:
            if move not in _SPARED or self.words.is_fresh(move):
                sentences.extend(self.words.tell(move, details))
        goes_on = moment.goes_on or (self.words.brief >= CLOSE and moment.name in _IN_ONE_GO)
        self.add(moment.name, moment.name, sentences, moment.shows, goes_on=goes_on)

    def _read(self) -> None:
        item, part = self.solved.item, self.solved.part
        self.add("read", "read", read_aloud(self.words, item, part))
        strip = item.stimulus.diagram if item.stimulus else None
        told_later = any(s.move in _TELLS_STRIP for s in self.solved.solution.steps)
        spared = self.words.brief == TIGHT and told_later
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
        move = "asked/phrase" if goal.form == "expression" and not reading.story else move
        details = {
            "noun": reading.unknown.noun,
            "select_all": self.solved.part.select_all,
            "money": reading.money and why_now.is_price(self.solved),
            "claim": self.solved.part.claim,
            "expression": reading.expression,
            "ending": ending_of(reading.expression),
            "called": called_in(self.solved),
            "wrong": bool(re.search(r"\b(?:wrong|mistakes?|errors?)\b", self.solved.part.ask)),
        }
        details |= demand_moments.details(self.solved) | known_forms.details(self.solved)
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

    def _not_needed(self) -> None:
        """The amounts of the story that the question has no use for, told and struck thinly."""
        if details := not_needed(self.solved):
            said = self.words.tell("not needed", details)
            self.add("not needed", "not needed", said, [*stem_marks(self.solved, ("extra",))])

    def _strike(self, place: int) -> None:
        """The choices that the step just told rules out, with a slip named where it teaches."""
        part, solution = self.solved.part, self.solved.solution
        if doubt := reasons.doubt(part, solution, place):
            self.add("doubt", "doubt", self.words.tell(*doubt))
        for struck in reasons.both_sides(tuple(reasons.struck_at(part, solution, place))):
            details = reasons.details(part, solution, struck)
            said = self.words.tell(f"rule out/{reasons.move(struck, details)}", details)
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
        if not self.words.is_fresh(f"slip/{named[0].slip}"):
            return
        self.slips += 1
        choice = reasons.choice_of(self.solved.part, named[0].letter)
        details = {
            "tree": reasons.named(self.words, choice),
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

    def _take_along(self) -> None:
        """The sentence to take along, unless pupils have heard each of its wordings enough."""
        move = f"takeaway/{takeaway_of(self.solved)}"
        if not self.words.is_fresh(move):
            return
        said = self.words.tell(move, {})
        text = " ".join(sentence.caption for sentence in said)
        self.add("take along", "take along", said, [Takeaway(text)])


def _written(show: Show) -> Sentence:
    """What is written beside a strike, as words that may name a term; nothing of other shows."""
    pieces = show.reason if isinstance(show, Strike) else ()
    words = " ".join(piece for piece in pieces if isinstance(piece, str))
    return Sentence(say=words, caption=words)


def tell_part(
    words: Words, solved: SolvedPart, defined: set[str], brief: int = FULL
) -> tuple[Told, ...]:
    """The beats of a part, as brief as wished; where it grows too long, in shorter words.

    `defined` holds the terms explained so far and is added to.
    """
    words.next_part()
    state = words.state()
    story = solved.reading.story
    longest = LONGEST_STORY if story else LONGEST_BARE
    words.explaining = EXPLAINING | {"look back"} if story else EXPLAINING
    for words.brief in range(max(brief, foreseen(solved, longest)), TIGHT + 1):
        words.restore(state)
        known = set(defined)
        told = shortened(words, _tell_once(words, solved, known), solved, longest)
        if length_of(told, solved) <= longest:
            break
    words.brief = FULL
    defined |= known & {term_of(each) for each in told if each.beat.move == "define"}
    return told


def _tell_once(words: Words, solved: SolvedPart, defined: set[str]) -> tuple[Told, ...]:
    asks_why = words.brief == FULL
    telling = _PartTelling(words=words, solved=solved, defined=defined, asks_why=asks_why)
    telling.tell_all()
    return _paired_early(telling.told)


def _paired_early(told: Sequence[Told]) -> tuple[Told, ...]:
    """The beats with numerator and denominator explained after what is asked, not mid-work."""
    names = {f"define-{term}" for term in PAIR}
    pair = [each for each in told if each.beat.id.rpartition(".")[2] in names]
    asked = next(k for k, each in enumerate(told) if each.beat.move == "asked")
    late = [each for each in pair if each in told[asked:]]
    rest = [each for each in told if each not in late]
    return (*rest[: asked + 1], *late, *rest[asked + 1 :])
