"""A whole review told: the greeting, every part, the closing; with its pages and chapters."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from typing import Any

from narrate.exact.caption import caption
from narrate.items.item import Review
from narrate.lesson.brevity import Brevity
from narrate.lesson.byhand import tell_by_hand
from narrate.lesson.edits import Edits
from narrate.lesson.lesson import Beat, Chapter, Lesson
from narrate.lesson.marks import Page
from narrate.lesson.pages import closing_page, part_pages, title_page
from narrate.lesson.question import Question
from narrate.lesson.readaloud import part_label
from narrate.lesson.solved import HandTold, SolvedPart, Tellable
from narrate.lesson.telling import tell_part
from narrate.lesson.view import ChoiceShown, PartView, Told
from narrate.lesson.wording import FULL, Words


def tell(
    review: Review,
    parts: Sequence[Tellable],
    words: Words,
    edits: Edits | None = None,
    brevity: Brevity | None = None,
    *,
    asks: bool = False,
) -> Lesson:
    """The lesson of a review: greeting, every part, closing.

    With the teacher's `edits`; as much of it as `brevity` says, all of it without; with what
    pupils are asked where it `asks`.
    """
    edits = edits or Edits(())
    opening, all_told, last = _told(review, parts, words, edits, brevity)
    pages: list[Page] = [_title(review, parts, words, opening)]
    beats: list[Beat] = [opening.beat]
    chapters = [Chapter(title=review.title, first_beat=opening.beat.id)]
    for part, told in zip(parts, all_told, strict=True):
        view = _view(words, part)
        pages.extend(part_pages(view, told))
        beats.extend(each.beat for each in told)
        chapters.append(
            Chapter(title=view.label, first_beat=told[0].beat.id, standard=part.item.standard)
        )
    pages.append(last_page(words, last))
    chapters.append(last_chapter(words, last))
    questions = _questions(words, parts, all_told) if asks else ()
    return Lesson(
        review=review.id,
        title=review.title,
        grade=review.grade,
        language=review.language,
        beats=(*beats, last.beat),
        pages=tuple(pages),
        chapters=tuple(chapters),
        questions=questions,
    )


def _questions(
    words: Words, parts: Sequence[Tellable], all_told: Sequence[tuple[Told, ...]]
) -> tuple[Question, ...]:
    """What is asked of each part, worded last, so that the telling is the same without it."""
    from narrate.lesson.asking import ask

    found = (
        ask(
            words,
            part if isinstance(part, HandTold) else _in_spoken(words, part),
            [each.beat for each in told],
        )
        for part, told in zip(parts, all_told, strict=True)
    )
    return tuple(filter(None, found))


def _told(
    review: Review,
    parts: Sequence[Tellable],
    words: Words,
    edits: Edits,
    brevity: Brevity | None,
) -> tuple[Told, list[tuple[Told, ...]], Told]:
    """The greeting, the beats of each part, the closing."""
    defined = set(words.known)
    about = {"title": review.title, "count": _count(parts), "pupils": words.voice.pupils}
    opening = outside(words, "greeting", about, edits)
    start = words.state()
    all_told = [edits.on(*_tell_any(words, part, defined)) for part in parts]
    last = outside(words, "closing", {"video": words.voice.video}, edits)

    def retold(brief: int) -> list[tuple[Told, ...]]:
        words.restore(start)
        return _retold(words, parts, all_told, edits.used, brief)

    if brevity is None:
        return opening, all_told, last
    return opening, brevity.on(all_told, (opening, last), edits.used, retold), last


def last_chapter(words: Words, last: Told) -> Chapter:
    """The chapter of the closing."""
    return Chapter(title=caption(words.short("page/closing", {})), first_beat=last.beat.id)


def _retold(
    words: Words,
    parts: Sequence[Tellable],
    all_told: Sequence[tuple[Told, ...]],
    hers: Collection[str],
    brief: int,
) -> list[tuple[Told, ...]]:
    """The parts told again in short words, but those that she has worded something in."""
    defined = set(words.known)
    found = []
    for part, told in zip(parts, all_told, strict=True):
        is_hers = any(each.beat.id in hers for each in told)
        again, _ = _tell_any(words, part, defined, FULL if is_hers else brief)
        found.append(told if is_hers else again)
    return found


def _tell_any(
    words: Words, part: Tellable, defined: set[str], brief: int = FULL
) -> tuple[tuple[Told, ...], SolvedPart | None]:
    """The beats of a part, and how it was solved."""
    if isinstance(part, HandTold):
        return tell_by_hand(words, part), None
    return tell_part(words, _in_spoken(words, part), defined, brief), part


def _in_spoken(words: Words, part: SolvedPart) -> SolvedPart:
    """A part in the language that mathematics is spoken in."""
    return replace(part, language=words.spoken)


def _count(parts: Sequence[Tellable]) -> int:
    return len({part.item.id for part in parts})


def _title(review: Review, parts: Sequence[Tellable], words: Words, opening: Told) -> Page:
    subtitle = words.short("page/subtitle", {"grade": review.grade, "count": _count(parts)})
    return title_page(review.title, caption(subtitle), [opening])


def last_page(words: Words, last: Told) -> Page:
    """The page of the closing."""
    title, again = (caption(words.short(f"page/{name}", {})) for name in ("closing", "again"))
    return closing_page(title, [again], [last])


def outside(
    words: Words, name: str, details: Mapping[str, Any], edits: Edits, move: str = ""
) -> Told:
    """A beat that belongs to no item; `move` names its words where they are others."""
    sentences = words.tell(move or name, details)
    beat = Beat(id=name, item=None, part=None, move=move or name, sentences=sentences)
    return edits.on((Told(beat=beat),), None)[0]


def _view(words: Words, told: Tellable) -> PartView:
    item, part = told.item, told.part
    return PartView(
        label=part_label(words, item, part),
        stimulus=item.stimulus.text if item.stimulus else "",
        ask=part.ask,
        choices=tuple(ChoiceShown(letter=c.letter, text=c.text) for c in part.choices),
        boxes=part.boxes,
        unit=part.unit,
        strip=item.stimulus.diagram if item.stimulus else None,
        picture=item.stimulus.picture if item.stimulus else None,
        language=words.language,
    )
