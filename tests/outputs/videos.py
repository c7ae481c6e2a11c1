"""Small lessons filmed for tests, and ways to look into a video."""

from __future__ import annotations

import array
import json
import math
import subprocess
import wave
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from PIL import Image, ImageChops

from narrate.items.loading import load
from narrate.items.picking import pick
from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.narration import Narration
from narrate.lesson.palette import LIGHT, Palette
from narrate.lesson.timeline import predict
from narrate.lesson.wording import Words
from narrate.outputs import Options, video
from narrate.outputs._raster import rasters
from narrate.outputs._svg import svg
from narrate.pipeline import make_lesson

DEMO = Path(__file__).resolve().parents[2] / "problems" / "garden-week.yaml"

RATE = 22_050


@lru_cache(maxsize=1)
def told() -> tuple[Lesson, Timeline]:
    """A part with choices and a number line, told fast, with the times that are predicted."""
    (review,) = pick(load([DEMO]).reviews, "rain-barrel")
    lesson, _, _ = make_lesson(review, Words("en"))
    assert lesson is not None
    return lesson, predict(lesson, 250)


def hummed(timeline: Timeline, path: Path) -> Narration:
    """A sound that is loud where something is said and silent in the pauses."""
    tone = [round(6_000 * math.sin(2 * math.pi * 300 * n / RATE)) for n in range(RATE)]
    samples = array.array("h", bytes(2 * (timeline.total_ms * RATE // 1000)))
    for spans in timeline.sentences.values():
        for span in spans:
            for place in range(span.start * RATE // 1000, span.end * RATE // 1000):
                samples[place] = tone[place % RATE]
    with wave.open(str(path), "wb") as sound:
        sound.setparams((1, 2, RATE, 0, "NONE", ""))
        sound.writeframes(samples.tobytes())
    return Narration(path=path, voice="a hum")


def shoot(folder: Path, options: Options, *, voice: bool = True) -> Path:
    """The video of the small lesson, its pieces kept in `folder / "pieces"`."""
    lesson, timeline = told()
    heard = hummed(timeline, folder / "hum.wav") if voice else None
    own = replace(options, narration=heard, pieces=folder / "pieces")
    with (folder / "video.mp4").open("wb") as sink:
        video.write(lesson, timeline, own, sink)
    return folder / "video.mp4"


def probed(path: Path) -> Any:
    """What ffprobe says of it."""
    asked = ["-show_format", "-show_streams", "-show_chapters", "-of", "json"]
    done = subprocess.run(
        ["ffprobe", "-v", "error", *asked, str(path)], capture_output=True, check=True
    )
    return json.loads(done.stdout)


def pictures(path: Path) -> Iterator[tuple[int, bool, Image.Image]]:
    """Every frame: its time in ms, whether a player can start there, and the picture."""
    import av

    with av.open(str(path)) as container:
        frames: Iterator[Any] = container.decode(container.streams.video[0])
        for frame in frames:
            yield round(frame.time * 1000), frame.key_frame, frame.to_image()


def states(
    lesson: Lesson, timeline: Timeline, height: int, palette: Palette = LIGHT
) -> Iterator[tuple[int, int, int, Image.Image]]:
    """Number of the page, of its builds, when they are there, and the page's own picture."""
    import io

    asked = []
    for number, page in enumerate(lesson.pages):
        starts = {0: timeline.beats[page.beats[0]].start}
        for count, build in enumerate(page.builds, start=1):
            starts[count] = timeline.beats[build.beat].start
        last = {start: count for count, start in starts.items()}
        asked += [(number, count, start) for start, count in sorted(last.items())]
    drawn = rasters([(svg(lesson.pages[n], k, palette), height * 16 // 9) for n, k, _ in asked])
    for (number, count, start), png in zip(asked, drawn, strict=True):
        yield number, count, start, Image.open(io.BytesIO(png)).convert("RGB")


def unlike(one: Image.Image, other: Image.Image) -> int:
    """How far two pictures differ at the worst place, out of focus by 4 pixels (0 to 255)."""
    small = [each.reduce(4) for each in (one, other)]
    return most(ImageChops.difference(*small))


def most(difference: Image.Image) -> int:
    """The largest difference in any colour, anywhere."""
    extrema: Any = difference.getextrema()
    return max(int(high) for _, high in extrema)
