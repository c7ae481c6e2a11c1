"""The slides of a deck, one for each page, its builds as entrances in beat order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import groupby
from typing import BinaryIO

from narrate.errors import OutputFailed
from narrate.lesson.lesson import Beat, Lesson, Timeline
from narrate.lesson.marks import Page
from narrate.lesson.templates import labels
from narrate.outputs import _package
from narrate.outputs._lint import lint, lint_sections
from narrate.outputs._media import media
from narrate.outputs._options import Options
from narrate.outputs._sheets import sheets
from narrate.outputs._slides import Clock, notes, slide
from narrate.outputs._template import Template, own_template

LANGUAGES = {"en": "en-US"}
"""The language tag of runs for a lesson's language; any other stands for itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Running:
    """A deck that runs by itself: a clock for each slide, and the files of its sounds."""

    clocks: Sequence[Clock]
    files: Mapping[str, bytes]
    loops: bool


def write(
    lesson: Lesson,
    timeline: Timeline,
    options: Options,
    sink: BinaryIO,
    running: Running | None = None,
) -> None:
    """What `deck.write` says; where it is `running`, by its clocks and with its sounds."""
    contents, new = _contents(lesson, timeline, options, running)
    listed = _package.deck_part(contents)
    _check(contents, listed, new)
    _package.save(contents, listed, sink)


def _contents(
    lesson: Lesson, timeline: Timeline, options: Options, running: Running | None = None
) -> tuple[_package.Contents, list[bool]]:
    """All that is in the deck; and of each slide whether it was made for it."""
    language = LANGUAGES.get(lesson.language, lesson.language)
    pages = sheets(lesson, options)
    template = options.theme or own_template(dark=options.dark)
    told = _told(lesson, pages)
    clocks: Sequence[Clock | None] = [None] * len(pages)
    if running:
        clocks = running.clocks
    elif options.builds == "timed":
        clocks = [clock_of(page, timeline) for page in pages]
    made = list(_slides(pages, clocks, options, template, language))
    contents = _package.Contents(
        slides=[xml for xml, _ in made],
        notes=[notes(beats, timeline, language) for beats in told],
        sections=_sections(told, labels("deck", lesson.language, options.templates)),
        title=lesson.title,
        language=language,
        template=template,
        media={**media(lesson.pages), **(running.files if running else {})},
        show=_package.Show(loops=running.loops) if running else None,
    )
    return contents, [is_new for _, is_new in made]


def _slides(
    pages: Sequence[Page],
    clocks: Sequence[Clock | None],
    options: Options,
    template: Template,
    language: str,
) -> Iterator[tuple[str, bool]]:
    """The XML of each slide, and whether it was made just now."""
    kept = options.kept if options.builds == "by-hand" else None

    def made(page: Page, number: int) -> str:
        xml = slide(
            page,
            number,
            language,
            clock=clocks[number - 1] if number <= len(clocks) else None,
            place=template.number,
            titles_differ=template.titles_differ,
        )
        return template.painted(xml)

    for number, page in enumerate(pages, start=1):
        if kept:
            yield kept.slide(page, number, partial(made, page))
        else:
            yield made(page, number), True


def clock_of(page: Page, timeline: Timeline) -> Clock:
    """A page's beats from the moment its slide comes."""
    start = timeline.beats[page.beats[0]].start
    return Clock(
        starts={beat: timeline.beats[beat].start - start for beat in page.beats},
        end=timeline.beats[page.beats[-1]].end - start,
    )


def _told(lesson: Lesson, pages: Sequence[Page]) -> list[list[Beat]]:
    """The beats told on each page."""
    beats = {beat.id: beat for beat in lesson.beats}
    return [[beats[name] for name in page.beats] for page in pages]


def _sections(told: Sequence[Sequence[Beat]], words: Mapping[str, str]) -> list[_package.Section]:
    """One section for each run of pages of one item."""
    runs = groupby(_section_names(told, words))
    return [_package.Section(name=name, slides=len(list(pages))) for name, pages in runs]


def _section_names(told: Sequence[Sequence[Beat]], words: Mapping[str, str]) -> Iterator[str]:
    """For each page the item it is about; what comes before is the start, after it the close."""
    name = outside = words["start"]
    for beats in told:
        if beats and beats[0].item:
            name, outside = beats[0].item, words["close"]
        elif beats:
            name = outside
        yield name


def _check(contents: _package.Contents, listed: bytes, new: Sequence[bool]) -> None:
    """Our own lint, of the slides that are `new`: the others have been through it."""
    found = [
        f"slide {number}: {fault}"
        for number, xml in enumerate(contents.slides, start=1)
        if new[number - 1]
        for fault in lint(xml)
    ]
    found += lint_sections(listed)
    if found:
        raise OutputFailed("the deck has faults of ours: " + "; ".join(found))
