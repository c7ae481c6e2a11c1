"""`selfstudy.html`: one page on which a pupil goes through the review alone, without a network.

The drawing builds in time with the voice, or by a clock of its own where there is none; where the
lesson waits, the page asks the question itself. Nothing is fetched, sent or kept: a content policy
in the page allows its own script and style by their hashes, and sound made of what it holds.
"""

from __future__ import annotations

import json
import re
from base64 import b64encode
from collections.abc import Sequence
from hashlib import sha256
from typing import Any, BinaryIO

from markupsafe import Markup

from narrate.lesson.bar import bar
from narrate.lesson.lesson import Lesson, Span, Timeline
from narrate.lesson.palette import Palette
from narrate.lesson.templates import labels, page_environment
from narrate.lesson.timeline import chapter_beats, chapter_spans
from narrate.outputs._asked import asked
from narrate.outputs._cues import make_cues
from narrate.outputs._encoded import mp3
from narrate.outputs._options import Options
from narrate.outputs._states import pages_of, shown_at
from narrate.outputs._svg import drawing, heading, opening

FILE = "selfstudy.html"
DEFAULT = False
HEARD = True
ASKS = True

PACES = ("0.75", "0.9", "1", "1.25", "1.5")
"""How fast it may be told, against the lesson's own pace."""


_MARKUP = re.compile("<(?=[!/]|script)", re.IGNORECASE)
"""What would change how a script element is read (HTML standard, script data states)."""


def write(lesson: Lesson, timeline: Timeline, options: Options, sink: BinaryIO) -> None:
    """Write the page of a lesson as one HTML file in UTF-8 to `sink`. Raises OutputFailed."""
    pages = page_environment(options.templates)
    words = labels("selfstudy", lesson.language, options.templates)
    script, style = (
        Markup(pages.get_template(f"selfstudy.{kind}.j2").render()) for kind in ("js", "css")
    )
    spans = chapter_spans(lesson, timeline)
    sounds = _sounds(options, [span for _, span in spans])
    text = pages.get_template("selfstudy.html.j2").render(
        labels=words,
        language=lesson.language,
        title=lesson.title,
        chapters=[chapter.title for chapter, _ in spans],
        paces=PACES,
        dark=options.dark,
        script=script,
        style=style,
        policy=_policy(script, style),
        data=_embedded({"labels": words, **_data(lesson, timeline, options.palette)}),
        sounds=[b64encode(each).decode() for each in sounds],
    )
    sink.write(text.encode())


def _sounds(options: Options, spans: Sequence[Span]) -> list[bytes]:
    """What is heard in each stretch of the review, as mp3; nothing where it is silent."""
    heard = options.narration
    if heard is None:
        return []
    parts = bar(FILE, len(spans), over=spans)
    return [mp3(heard.cut(span), heard.rate, options.pieces) for span in parts]


def _policy(script: str, style: str) -> str:
    """What the page may do: run its own script, look as it does, and play what it holds."""
    allowed = {
        "default-src": "'none'",
        "script-src": _hash(script),
        "style-src-elem": _hash(style),
        "style-src-attr": "'unsafe-inline'",  # drawings say so how their letters are spaced
        "img-src": "data:",
        "media-src": "blob:",
        "base-uri": "'none'",
        "form-action": "'none'",
    }
    return "; ".join(f"{name} {value}" for name, value in allowed.items())


def _hash(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"


def _embedded(data: dict[str, Any]) -> Markup:
    """Data in a script element that no browser runs; nothing in it can end the element."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return Markup(_MARKUP.sub(r"\\u003c", text))


def _data(lesson: Lesson, timeline: Timeline, palette: Palette) -> dict[str, Any]:
    """What the page's program works on; times in milliseconds from the start of the review."""
    numbers = {beat.id: place for place, beat in enumerate(lesson.beats)}
    drawings, pages = _drawn(lesson, palette)
    return {
        "total": timeline.total_ms,
        "parts": [
            {"title": chapter.title, "first": numbers[beats[0].id], "start": span.start}
            for (chapter, beats), (_, span) in zip(
                ((chapter, beats) for chapter, beats in chapter_beats(lesson) if beats),
                chapter_spans(lesson, timeline),
                strict=True,
            )
        ],
        "beats": _beats(lesson, timeline),
        "cues": [[cue.start, cue.end, cue.text] for cue in make_cues(lesson, timeline)],
        "questions": asked(lesson, timeline),
        "opening": opening("", palette),
        "drawings": drawings,
        "pages": pages,
    }


def _drawn(lesson: Lesson, palette: Palette) -> tuple[list[str], list[dict[str, Any]]]:
    """Every drawing once, and the pages as places in that list: pages have most in common."""
    places: dict[str, int] = {}

    def place(drawn: str) -> int:
        return places.setdefault(drawn, len(places))

    pages = [
        {
            "title": page.title,
            "base": [
                place(heading(page, palette)),
                *(place(drawing(group, palette)) for group in page.base),
            ],
            "builds": [place(drawing(build.group, palette)) for build in page.builds],
        }
        for page in lesson.pages
    ]
    return list(places), pages


def _beats(lesson: Lesson, timeline: Timeline) -> list[dict[str, Any]]:
    places = pages_of(lesson)
    return [
        {
            "start": timeline.beats[beat.id].start,
            "page": places[beat.id],
            "shown": shown_at(beat, lesson.pages[places[beat.id]]),
            "say": beat.say,
        }
        for beat in lesson.beats
    ]
