"""A whole review told: the greeting, every part, the closing; with its pages and chapters."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
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
from narrate.lesson.readaloud import part_label
from narrate.lesson.solved import HandTold, SolvedPart, Tellable
from narrate.lesson.telling import tell_part
from narrate.lesson.view import ChoiceShown, PartView, Told
from narrate.lesson.wording import Words


def tell(
    review: Review,
    parts: Sequence[Tellable],
    words: Words,
    edits: Edits | None = None,
    brevity: Brevity | None = None,
) -> Lesson:
    """The lesson of a review: greeting, every part, closing.

    With the teacher's `edits`; as much of it as `brevity` says, all of it without.
    """
    edits = edits or Edits(())
    defined = set(words.known)
    about = {"title": review.title, "count": _count(parts), "pupils": words.voice.pupils}
    opening = _outside(words, "greeting", about, edits)
    all_told = [edits.on(*_tell_any(words, part, defined)) for part in parts]
    last = _outside(words, "closing", {"video": words.voice.video}, edits)
    if brevity is not None:
        all_told = brevity.on(all_told, (opening, last), edits.used)
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
    pages.append(_last_page(words, last))
    chapters.append(_last_chapter(words, last))
    return Lesson(
        review=review.id,
        title=review.title,
        grade=review.grade,
        language=review.language,
        beats=(*beats, last.beat),
        pages=tuple(pages),
        chapters=tuple(chapters),
    )


def _last_chapter(words: Words, last: Told) -> Chapter:
    return Chapter(title=caption(words.short("page/closing", {})), first_beat=last.beat.id)


def _tell_any(
    words: Words, part: Tellable, defined: set[str]
) -> tuple[tuple[Told, ...], SolvedPart | None]:
    """The beats of a part, and how it was solved."""
    if isinstance(part, HandTold):
        return tell_by_hand(words, part), None
    return tell_part(words, replace(part, language=words.spoken), defined), part


def _count(parts: Sequence[Tellable]) -> int:
    return len({part.item.id for part in parts})


def _title(review: Review, parts: Sequence[Tellable], words: Words, opening: Told) -> Page:
    subtitle = words.short("page/subtitle", {"grade": review.grade, "count": _count(parts)})
    return title_page(review.title, caption(subtitle), [opening])


def _last_page(words: Words, last: Told) -> Page:
    title, again = (caption(words.short(f"page/{name}", {})) for name in ("closing", "again"))
    return closing_page(title, [again], [last])


def _outside(words: Words, name: str, details: Mapping[str, Any], edits: Edits) -> Told:
    """A beat that belongs to no item."""
    sentences = words.tell(name, details)
    beat = Beat(id=name, item=None, part=None, move=name, sentences=sentences)
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
