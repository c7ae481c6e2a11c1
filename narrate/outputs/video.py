"""`video.mp4`: the review as a video that plays by itself, drawn from the pages' own pictures.

H.264 and AAC, captions that can be switched on, chapters and a poster. Where nobody speaks, it has
no sound, and the captions stand in the picture, in the fifth that pages leave clear. Each page is a
piece that is kept: a build that broke off goes on where it was, and pages that stayed the same are
not made anew.
"""

from __future__ import annotations

import io
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import partial
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, BinaryIO

from narrate.errors import OutputFailed
from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.timeline import chapter_spans
from narrate.outputs._cues import make_cues
from narrate.outputs._options import Options
from narrate.outputs._words import caption_words

if TYPE_CHECKING:
    from narrate.outputs._takes import Take

FILE = "video.mp4"
DEFAULT = False
HEARD = True
WITH = ("video_vtt",)

_LANGUAGES = {"en": ("eng", "English")}
_POSTER_HEIGHT = 720


def missing() -> str:
    """What would have to be installed."""
    try:
        import av
    except ImportError:
        return 'install what it needs: pip install "narrate[audio]"'
    there = {"libx264", "aac", "mov_text"} <= av.codecs_available
    return "" if there else "your build of av has no encoder for H.264 or AAC: pip install -U av"


def write(lesson: Lesson, timeline: Timeline, options: Options, sink: BinaryIO) -> None:
    """Write the video to `sink`. Raises OSError where there is no room for it or its pieces."""
    from narrate.lesson import pieces
    from narrate.outputs import _joining
    from narrate.outputs._takes import takes

    taken = list(takes(lesson, timeline, options))
    if not taken:
        raise OutputFailed(f"{FILE}: nothing is told, so there is nothing to show")
    language, name = _LANGUAGES.get(lesson.language, ("und", lesson.language))
    with _folder(options.pieces) as folder:
        films, sound = _pieces_of(taken, timeline.total_ms, options, folder)
        cut = _joining.Cut(
            title=lesson.title,
            language=language,
            takes=[(film, take.length) for film, take in zip(films, taken, strict=True)],
            sound=sound,
            tracks=[_joining.Track(language, name, make_cues(lesson, timeline))] if sound else [],
            chapters=[
                (" ".join(caption_words(chapter.title)), span)
                for chapter, span in chapter_spans(lesson, timeline)
                if span.length
            ],
            poster=_poster(taken[0]),
        )
        with TemporaryDirectory(dir=folder, prefix="joined-", suffix=".part") as room:
            joined = Path(room) / FILE
            _joining.join(cut, joined)
            with joined.open("rb") as video:
                shutil.copyfileobj(video, sink, 1 << 20)
        pieces.prune(folder)


@contextmanager
def _folder(pieces: Path | None) -> Iterator[Path]:
    """Where pieces of videos are kept; a folder for this one alone where none can be."""
    if pieces is not None:
        own = pieces / "video"
        with suppress(OSError):
            own.mkdir(parents=True, exist_ok=True)
        if os.access(own, os.W_OK | os.X_OK):
            yield own
            return
    with TemporaryDirectory(prefix="narrate-") as room:
        yield Path(room)


def _pieces_of(
    taken: list[Take], length: int, options: Options, folder: Path
) -> tuple[list[Path], Path | None]:
    """The film of each take, and the sound if there is any; made where they are not there yet."""
    from narrate.outputs import _filming
    from narrate.outputs._crew import Job, make_all

    def key(made_of: str) -> str:
        return sha256(f"{_filming.recipe()} {made_of}".encode()).hexdigest()[:40]

    jobs = [Job(key(take.key), partial(_filming.film, take), take.length) for take in taken]
    heard = options.narration
    if heard is None:
        return make_all(jobs, folder, FILE), None
    record = partial(_filming.record, heard, length)
    sound, *films = make_all(
        [Job(key(_filming.sound_key(heard, length)), record, 0), *jobs], folder, FILE
    )
    return films, sound


def _poster(first: Take) -> bytes:
    """What a take shows at last, as JPEG."""
    from narrate.outputs._canvas import Canvas

    picture = io.BytesIO()
    canvas = Canvas(first.page, first.palette, _POSTER_HEIGHT)
    canvas.show(first.states[-1].builds).save(picture, "JPEG", quality=90)
    return picture.getvalue()
