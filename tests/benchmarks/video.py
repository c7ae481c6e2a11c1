"""How fast a video is made, against its playing time and against the encoder alone.

Run from the project's folder: `python -m tests.benchmarks.video [--short]`. The demo review, 1080p,
spoken by espeak-ng, nothing kept from before; limits are those of the issue, all in one run:

- `narrate build --also video`, all of it (reading, solving, telling, speaking, the other files), at
  least 10 times as fast as the video plays;
- making the video of the spoken lesson at most 3 times as long as the encoder alone takes with the
  same settings for pictures that are ready: one after another in one process with as many threads
  as it likes, conversion of colours and the sound's encoding included, drawing not;
- memory of all processes together under 600 MB, for that review and for three hours of it (the
  pages again and again, each a little longer). With `--short` only the former.

What is missed exits with 1.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import time
import wave
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import av

from narrate.items.loading import load
from narrate.lesson.lesson import Lesson, Span, Timeline
from narrate.lesson.narration import Narration
from narrate.lesson.wording import Words
from narrate.outputs import Options, _crew, _filming, video
from narrate.outputs._canvas import Canvas
from narrate.outputs._takes import takes
from narrate.pipeline import make_lesson
from narrate.voices import find_voices
from narrate.voices.speaking import speak

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "problems" / "garden-week.yaml"
FASTER, SLOWER, MEGABYTES, HOURS = 10, 3, 600, 3


def processor_seconds() -> float:
    """Of this process and those that it has seen end."""
    both = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return sum(used.ru_utime + used.ru_stime for used in both)


def clocked(work: Any) -> tuple[float, float]:
    """How long something takes: by the clock, and of processors."""
    begun, used = time.perf_counter(), processor_seconds()
    work()
    return time.perf_counter() - begun, processor_seconds() - used


def spoken(room: Path) -> tuple[Lesson, Timeline, Narration]:
    """The demo review, told and spoken."""
    (review,) = load([DEMO]).reviews
    lesson, _, _ = make_lesson(review, Words("en"))
    assert lesson is not None
    voice = find_voices()["espeak-ng"]
    return lesson, *speak(lesson, "espeak-ng", voice, 140, room / "narration.wav", room)


def write(lesson: Lesson, timeline: Timeline, heard: Narration, room: Path) -> None:
    """The video, nothing kept from before."""
    with (room / "video.mp4").open("wb") as sink:
        video.write(lesson, timeline, Options(narration=heard, pieces=room / "pieces"), sink)


def encoder_alone(
    lesson: Lesson, timeline: Timeline, heard: Narration, room: Path
) -> tuple[float, float]:
    """How long the encoder takes for pictures and sound that are ready: clock and processors."""
    taken = list(takes(lesson, timeline, Options(narration=heard)))
    settings = dict(_filming.X264)
    settings["x264-params"] = settings["x264-params"].replace(":threads=1", "")
    sums = [0.0, 0.0]

    def add(work: Any) -> None:
        for place, took in enumerate(clocked(work)):
            sums[place] += took

    with av.open(str(room / "alone.mp4"), "w") as out:
        stream = out.add_stream("libx264", rate=30, options=settings)
        stream.width, stream.height, stream.pix_fmt = 1920, 1080, "yuv420p"
        stream.codec_context.time_base = Fraction(1, 1000)
        begin = 0
        for take in taken:
            canvas = Canvas(take.page, take.palette, take.height)
            ready = {state: canvas.show(state.builds).copy() for state in take.states}

            def encode(take: Any = take, ready: Any = ready, begin: int = begin) -> None:
                shown, picture = None, None
                for frame in take.frames():
                    if frame.state is not shown:
                        shown, picture = frame.state, _filming._picture(ready[frame.state])
                    assert picture is not None
                    picture.pts, picture.time_base = begin + frame.start, Fraction(1, 1000)
                    out.mux(stream.encode(picture))

            add(encode)
            begin += take.length
        add(lambda: out.mux(stream.encode()))
    add(lambda: _filming.record(heard, timeline.total_ms, room / "alone.m4a"))
    return sums[0], sums[1]


def long_one(lesson: Lesson, timeline: Timeline, hours: float) -> tuple[Lesson, Timeline]:
    """The pages again and again, the last beat of each a little longer every time."""
    beats, pages = [], []
    spans: dict[str, Span] = {}
    sentences: dict[str, tuple[Span, ...]] = {}
    now = turn = 0
    by_id = {beat.id: beat for beat in lesson.beats}
    while now < hours * 3_600_000:
        turn += 1
        for page in lesson.pages:
            for name in page.beats:
                own, old = f"{name}-{turn}", timeline.beats[name]
                end = now + old.length + (turn if name == page.beats[-1] else 0)
                moved = now - old.start
                sentences[own] = tuple(
                    Span(s.start + moved, s.end + moved) for s in timeline.sentences[name]
                )
                spans[own], now = Span(now, end), end
                beats.append(replace(by_id[name], id=own))
            pages.append(
                replace(
                    page,
                    beats=tuple(f"{name}-{turn}" for name in page.beats),
                    builds=tuple(replace(b, beat=f"{b.beat}-{turn}") for b in page.builds),
                )
            )
    chapters = tuple(replace(c, first_beat=f"{c.first_beat}-1") for c in lesson.chapters)
    made = replace(lesson, beats=tuple(beats), pages=tuple(pages), chapters=chapters)
    return made, Timeline(beats=spans, sentences=sentences)


def longer(heard: Narration, milliseconds: int, path: Path) -> Narration:
    """A sound again and again."""
    with wave.open(str(heard.path)) as source, wave.open(str(path), "wb") as sound:
        sound.setparams(source.getparams())
        samples = source.readframes(source.getnframes())
        for _ in range(-(-milliseconds * source.getframerate() // 1000 // source.getnframes())):
            sound.writeframesraw(samples)
    return Narration(path=path, voice=heard.voice)


def megabytes(hours: float) -> Iterator[str]:
    """The most memory that a process of this benchmark took to write a video of so many hours."""
    with TemporaryDirectory(prefix="narrate-") as name:
        room = Path(name)
        lesson, timeline, heard = spoken(room)
        if hours:
            lesson, timeline = long_one(lesson, timeline, hours)
            heard = longer(heard, timeline.total_ms, room / "long.wav")
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        write(lesson, timeline, heard, room)
        own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        theirs = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
        size = (room / "video.mp4").stat().st_size / 1e6
        yield str((own + _crew.WORKERS * theirs) // 1024)
        yield (
            f"{timeline.total_ms / 3_600_000:.2f} hours, {size:.0f} MB: {own // 1024} MB here (of "
            f"which {before // 1024} before), {theirs // 1024} MB in each of {_crew.WORKERS} others"
        )


def memory(hours: float) -> int:
    """That of a fresh process and its own, printed; in MB."""
    command = [sys.executable, "-m", "tests.benchmarks.video", "--memory", str(hours)]
    done = subprocess.run(command, capture_output=True, text=True, check=True, cwd=ROOT)
    total, told = done.stdout.splitlines()
    print(f"memory: {total} MB in all; {told}")
    return int(total)


def main(arguments: list[str]) -> int:
    """Measures, prints, and is 1 where a limit is missed."""
    if arguments[:1] == ["--memory"]:
        print("\n".join(megabytes(float(arguments[1]))))
        return 0
    # first of all: a process starts with the most memory that the one which started it ever had
    heaviest = max(memory(hours) for hours in ([0] if "--short" in arguments else [0, HOURS]))
    with TemporaryDirectory(prefix="narrate-") as name:
        room = Path(name)
        command = [sys.executable, "-m", "narrate", "build", str(DEMO), "--also", "video"]
        command += ["--spoken-by", "espeak-ng", "--to", str(room / "out")]
        whole, whole_used = clocked(
            lambda: subprocess.run(command, capture_output=True, check=True, cwd=ROOT)
        )
        lesson, timeline, heard = spoken(room)
        ours, ours_used = clocked(lambda: write(lesson, timeline, heard, room))
        alone, alone_used = encoder_alone(lesson, timeline, heard, room)
    plays = timeline.total_ms / 1000
    print(
        f"{os.cpu_count()} processors, load {os.getloadavg()[0]:.1f}; the video plays {plays:.0f} s"
    )
    print(f"all of the build: {plays / whole:.1f} times as fast as it plays (at least {FASTER});")
    print(f"  by processor time on {os.cpu_count()} of them up to {plays * 2 / whole_used:.1f}")
    print(f"the video: {ours / alone:.2f} times as long as the encoder alone (at most {SLOWER});")
    print(f"  by processor time {ours_used / alone_used:.2f} times")
    return int(plays / whole < FASTER or ours / alone > SLOWER or heaviest >= MEGABYTES)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
