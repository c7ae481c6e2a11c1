"""`runthrough.html`: one page to rehearse and record by; it works from disk, without a network.

The page of the lesson builds as the teacher goes on, her words stand in large type, and clocks tell
how long this beat and the review have taken against plan. What it notes goes to a small file,
`times.json`: `{"review", "beats": [{"id", "start_ms", "end_ms"}]}`, milliseconds from the start.
"""

from __future__ import annotations

import re
from typing import Any, BinaryIO

from narrate.lesson.lesson import Beat, Lesson, Sentence, Span, Timeline
from narrate.lesson.marks import Page
from narrate.lesson.palette import LIGHT, LOOKS, Palette
from narrate.lesson.templates import labels, page_environment
from narrate.lesson.timeline import chapter_beats, letters
from narrate.outputs._options import Options
from narrate.outputs._prompt import prompt_lines
from narrate.outputs._states import pages_of, shown_at
from narrate.outputs._svg import layers
from narrate.outputs.script import SHOWN_PAUSE_MS

FILE = "runthrough.html"
DEFAULT = True

_MARKED: Palette = {role: f"\ue000{role}" for role in LIGHT}
_COLOUR = re.compile("#\ue000([a-z]+)")
"""Each role in the place of its colour, marked by a character that no text has."""


def write(lesson: Lesson, timeline: Timeline, options: Options, sink: BinaryIO) -> None:
    """Write the page of a lesson as one HTML file in UTF-8 to `sink`."""
    page = page_environment(options.templates).get_template("runthrough.html.j2")
    words = labels("runthrough", lesson.language, options.templates)
    text = page.render(
        labels=words,
        language=lesson.language,
        title=lesson.title,
        lesson=_data(lesson, timeline),
        looks=LOOKS,
        dark=options.dark,
    )
    sink.write(text.encode())


def _data(lesson: Lesson, timeline: Timeline) -> dict[str, Any]:
    """What the page's program works on: chapters, pages as pictures in layers, beats with lines."""
    numbers = {beat.id: place for place, beat in enumerate(lesson.beats)}
    return {
        "review": lesson.review,
        "total": timeline.total_ms,
        "chapters": [
            {"title": chapter.title, "first": numbers[beats[0].id]}
            for chapter, beats in chapter_beats(lesson)
            if beats
        ],
        "pages": [_page(page) for page in lesson.pages],
        "beats": _beats(lesson, timeline),
    }


def _page(page: Page) -> dict[str, Any]:
    """The picture in layers, its colours left to the style sheet: they follow the page's look."""
    base, builds, end = layers(page, _MARKED)
    return {
        "title": page.title,
        "base": _by_look(base),
        "builds": [_by_look(build) for build in builds],
        "end": end,
    }


def _by_look(drawn: str) -> str:
    return _COLOUR.sub(r"var(--slide-\1)", drawn)


def _beats(lesson: Lesson, timeline: Timeline) -> list[dict[str, Any]]:
    places = pages_of(lesson)
    return [
        {
            "id": beat.id,
            "page": places[beat.id],
            "shown": shown_at(beat, lesson.pages[places[beat.id]]),
            "start": timeline.beats[beat.id].start,
            "end": timeline.beats[beat.id].end,
            "appears": list(beat.appears),
            "lines": _lines(beat, timeline, lesson.language),
        }
        for beat in lesson.beats
    ]


def _lines(beat: Beat, timeline: Timeline, language: str) -> list[dict[str, Any]]:
    """The beat's words in lines, each with when it is begun."""
    ends = timeline.beats[beat.id].end
    spans = timeline.sentences[beat.id]
    lines: list[dict[str, Any]] = []
    for place, (sentence, span) in enumerate(zip(beat.sentences, spans, strict=True)):
        after = spans[place + 1].start if place + 1 < len(spans) else ends
        lines.extend(_sentence(sentence, span, after - span.end, language))
    return lines


def _sentence(sentence: Sentence, span: Span, silence: int, language: str) -> list[dict[str, Any]]:
    texts = prompt_lines(sentence.say, language)
    total = sum(map(letters, texts)) or 1
    done, lines = 0, []
    for text in texts:
        at = span.start + span.length * done // total
        lines.append({"text": text, "at": at, "stem": sentence.stem, "pause": 0})
        done += letters(text)
    if lines and silence >= SHOWN_PAUSE_MS:
        lines[-1]["pause"] = round(silence / 1000)
    return lines
