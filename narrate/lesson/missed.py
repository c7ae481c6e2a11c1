"""How a lesson begins and ends that is put together for those who were away: the days by name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from narrate.exact.caption import caption
from narrate.exact.spoken import cardinal, ordinal
from narrate.lesson.edits import Edits
from narrate.lesson.lesson import Beat, Chapter, Lesson
from narrate.lesson.pages import title_page
from narrate.lesson.review import last_chapter, last_page, outside
from narrate.lesson.templates import labels
from narrate.lesson.view import Told
from narrate.lesson.wording import Words

MOST_DAYS = 8
"""More days than this are told by their number, the first and the last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What a lesson is about: its name, the days or the topics, how many questions."""

    name: str
    grade: int
    count: int
    days: tuple[date, ...] = ()
    topics: tuple[str, ...] = ()


def start(words: Words, about: About, templates: Path | None = None) -> Lesson:
    """A lesson of a greeting and a closing, with the page of each; parts go between."""
    text = labels("catch_up", words.language, templates)
    shown = _days(about.days, text, spoken=None)
    said = _days(about.days, text, spoken=words.spoken)
    details = {"days": said, "count": about.count, "pupils": words.voice.pupils}
    opening = outside(words, "greeting", details, Edits(()), move="catch-up greeting")
    opening = replace(opening, beat=_captioned(opening.beat, said, shown))
    topics = _listed(about.topics, text)
    title = caption(words.short("page/catch-up", {"days": shown, "topics": topics}))
    about_it = {"grade": about.grade, "count": about.count}
    subtitle = caption(words.short("page/subtitle", about_it))
    last: Told = outside(words, "closing", {"video": words.voice.video}, Edits(()))
    return Lesson(
        review=about.name,
        title=title,
        grade=about.grade,
        language=words.language,
        beats=(opening.beat, last.beat),
        pages=(title_page(title, subtitle, [opening]), last_page(words, last)),
        chapters=(Chapter(title=title, first_beat=opening.beat.id), last_chapter(words, last)),
    )


def _captioned(beat: Beat, said: str, shown: str) -> Beat:
    """The days in figures where they are read, as fractions are."""
    if not said:
        return beat
    sentences = (
        replace(each, caption=each.caption.replace(said, shown)) for each in beat.sentences
    )
    return replace(beat, sentences=tuple(sentences))


def _days(days: Sequence[date], text: dict[str, str], spoken: str | None) -> str:
    """The days as they are read, or as they are said in a language's words."""

    def named(day: date) -> str:
        number = str(day.day) if spoken is None else ordinal(day.day, spoken)
        return text["day"].format(month=text["months"].split()[day.month - 1], day=number)

    if len(days) > MOST_DAYS:
        count = str(len(days)) if spoken is None else cardinal(len(days), spoken)
        ends = named(days[0]), named(days[-1])
        return text["many"].format(count=count, first=ends[0], last=ends[1])
    return _listed([named(day) for day in days], text)


def _listed(names: Sequence[str], text: dict[str, str]) -> str:
    if len(names) < 2:
        return "".join(names)
    return text["two"].format(first=", ".join(names[:-1]), last=names[-1])
