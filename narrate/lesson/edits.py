"""The teacher's edits put into what is told, beat by beat; what does not fit is told as a fault.

An edit of `say` replaces the sentences of its beat, one of `wait` the silence after them. An edit
of `show` replaces what stands beside a strike, is noted beside a line of work, replaces the
sentence to take along, or comes by itself as a line of work or as words.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from narrate.errors import Fault
from narrate.exact import prose
from narrate.exact.claims import untrue
from narrate.items.edits import Edit
from narrate.items.messages import nearest
from narrate.items.nodes import Text
from narrate.items.texts import clean
from narrate.lesson.appearing import in_words
from narrate.lesson.hers import foreign, line_or_words, numbers_held, plain_sentences
from narrate.lesson.lesson import Beat, Lesson, Sentence
from narrate.lesson.shows import Line, Show, StemMark, Strike, Takeaway
from narrate.lesson.solved import SolvedPart
from narrate.lesson.view import Told

LONGEST_BESIDE = 60
"""So many characters fit beside a strike or a line of work."""

ON_THE_ITEM = frozenset({"read", "strip given", "picture given", "try"})
"""Moves told on the item's own page, which has room for nothing else."""

_HEAD = """\
# What is said in the review "{title}", beat by beat. To change a beat, take away the # at the
# start of its lines and write your words after say: (mathematics as in items: 3/4, 2 1/5). Add
# show: for a few words or a line beside it, and wait: for the seconds of silence after it. Keep
# was: as it is, so that you are told when the beat has changed. Leave the other beats as they are.
"""


class Edits:
    """The edits of one review. `faults` are those found so far in what has been told."""

    def __init__(self, edits: Sequence[Edit], spoken: str = "en") -> None:
        self._edits = {edit.beat: edit for edit in edits}
        self._spoken = spoken
        self.faults: list[Fault] = []
        self._known: list[str] = []
        self.used: set[str] = set()
        """The ids of the beats that are hers."""

    def on(self, told: Sequence[Told], solved: SolvedPart | None) -> tuple[Told, ...]:
        """The beats of one part with its edits; outside parts numbers are held against nothing."""
        self._known += (each.beat.id for each in told)
        if not any(each.beat.id in self._edits for each in told):
            return tuple(told)
        captions = [each.beat.caption for each in told]
        held = numbers_held(solved, captions) if solved else None
        return tuple(self._one(each, held) for each in told)

    def _one(self, told: Told, held: frozenset[Fraction] | None) -> Told:
        edit = self._edits.get(told.beat.id)
        if edit is None:
            return told
        if wrong := list(self._wrong(edit, told, held)):
            self.faults += wrong
            return told
        self.used.add(told.beat.id)
        return _edited(edit, told, self._spoken)

    def _wrong(self, edit: Edit, told: Told, held: frozenset[Fraction] | None) -> Iterator[Fault]:
        now = told.beat.caption
        if edit.was and edit.was != clean(now):
            change = f"it was “{edit.was}” and is “{now}”"
            wrong = f"{edit.beat} no longer says what this edit replaced: {change}"
            right = "to keep your words write what it is now in was:, else take the edit out"
            yield Fault(place=edit.place, wrong=wrong, right=right)
        for node in filter(None, (edit.say, edit.show)):
            for offset, wrong in untrue(node.text):
                yield Fault(place=node.at(offset), wrong=wrong, right="correct the line")
            for offset, number in foreign(node.text, held, self._spoken) if held else ():
                wrong = f"“{clean(node.text)}” says {number}, which this part does not hold"
                yield Fault(place=node.at(offset), wrong=wrong, right=f"the beat says “{now}”")
        yield from _show_faults(edit, told)

    def faults_of(self, left_out: Mapping[str, str]) -> tuple[Fault, ...]:
        """All that is wrong with the edits, once the lesson has been told, by place.

        `left_out` has the ids of items that are not in the lesson, with why.
        """
        found = [*self.faults, *self._unknown(left_out)]
        return tuple(sorted(found, key=lambda fault: fault.place))

    def _unknown(self, left_out: Mapping[str, str]) -> Iterator[Fault]:
        known = self._known
        for edit in self._edits.values():
            if edit.beat in known:
                continue
            item = edit.beat.partition(".")[0]
            if item in left_out:
                if left_out[item]:
                    wrong = f"the edit of {edit.beat} is not used: {left_out[item]}"
                    right = "it will be once the item is in the review"
                    yield Fault(place=edit.place, wrong=wrong, right=right)
                continue
            near = nearest(edit.beat, known)
            right = f"did you mean {near}?" if near else "narrate edits lists the beats there are"
            wrong = f"there is no beat {edit.beat}"
            if edit.say is not None:
                wrong += f" to say “{clean(edit.say.text)}” in place of “{edit.was}”"
            yield Fault(place=edit.place, wrong=wrong, right=right)


def _show_faults(edit: Edit, told: Told) -> Iterator[Fault]:
    if edit.show is None:
        return
    beside = any(isinstance(show, Strike | Line) for show in told.shows)
    if beside and len(edit.show.text) > LONGEST_BESIDE:
        wrong = f'"show" has {len(edit.show.text)} characters'
        right = f"use at most {LONGEST_BESIDE}: it stands beside the work"
        yield Fault(place=edit.show.place, wrong=wrong, right=right)
    if told.beat.item is None or told.beat.move in ON_THE_ITEM:
        wrong = f"nothing can be shown beside {edit.beat}"
        yield Fault(place=edit.show.place, wrong=wrong, right="show it with a later beat")


def _edited(edit: Edit, told: Told, spoken: str) -> Told:
    beat, shows = told.beat, list(told.shows)
    if edit.say is not None:
        pause = beat.sentences[-1].pause_ms
        sentences = tuple(plain_sentences(clean(edit.say.text), spoken))
        beat = replace(beat, sentences=_ending(sentences, pause))
        shows = [_taken_along(show, beat) for show in shows]
    if edit.wait_ms is not None:
        beat = replace(beat, sentences=_ending(beat.sentences, edit.wait_ms))
    appears = list(told.beat.appears)
    if edit.show is not None:
        shows = list(_shown(edit.show, shows))
    for at, show in enumerate(shows):  # a stem mark's words need the item: they stay as they are
        if at >= len(appears):
            appears.append(in_words(show, spoken))
        elif not isinstance(show, StemMark):
            appears[at] = in_words(show, spoken)
    beat = replace(beat, appears=tuple(appears), waits=bool(shows))
    return Told(beat=beat, shows=tuple(shows))


def _ending(sentences: tuple[Sentence, ...], pause_ms: int) -> tuple[Sentence, ...]:
    return (*sentences[:-1], replace(sentences[-1], pause_ms=pause_ms))


def _taken_along(show: Show, beat: Beat) -> Show:
    return Takeaway(beat.caption) if isinstance(show, Takeaway) else show


def _shown(text: Text, shows: Sequence[Show]) -> Iterator[Show]:
    """What a beat shows, with the teacher's words beside it."""
    words = clean(text.text)
    used = False
    for show in shows:
        match show:
            case Strike(letter=letter):
                yield Strike(letter=letter, reason=prose.pieces(words))
                used = True
            case Line() if not used:
                yield replace(show, note=words)
                used = True
            case Takeaway():
                yield Takeaway(words)
                used = True
            case _:
                yield show
    if not used:
        yield line_or_words(words)


def starting_text(lesson: Lesson) -> str:
    """A file of edits to start from: every beat's words as remarks."""
    lines = [_HEAD.format(title=lesson.title)]
    for beat in lesson.beats:
        said = json.dumps(beat.caption, ensure_ascii=False)
        lines += ["", f"#{beat.id}:", f"#  was: {said}", f"#  say: {said}"]
    return "\n".join(lines) + "\n"
