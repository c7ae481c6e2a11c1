"""Takes, sound, captions, chapters and a poster joined into one MP4 file, nothing encoded anew."""

from __future__ import annotations

import heapq
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

import av
from av.stream import Disposition

from narrate.lesson.lesson import Span
from narrate.outputs._cues import Cue

MS = Fraction(1, 1_000)

MP4 = {"movflags": "+faststart", "fflags": "+bitexact"}
"""The index stands first, so that a video plays before all of it has come; no date is in it."""

# What the tx3g sample description is made of: text at the foot, centred, white on a dim ground.
_STYLE = (
    b"[Script Info]\r\nScriptType: v4.00+\r\n\r\n[V4+ Styles]\r\n"
    b"Format: Name, Fontname, Fontsize, PrimaryColour, SecondaryColour, OutlineColour, BackColour, "
    b"Bold, Italic, Underline, StrikeOut, ScaleX, ScaleY, Spacing, Angle, BorderStyle, Outline, "
    b"Shadow, Alignment, MarginL, MarginR, MarginV, Encoding\r\n"
    b"Style: Default,Arial,18,&Hffffff,&Hffffff,&H0,&H0,0,0,0,0,100,100,0,0,1,1,0,2,10,10,10,0\r\n"
    b"\r\n[Events]\r\nFormat: Layer, Start, End, Style, Name, MarginL, MarginR, MarginV, Effect, "
    b"Text\r\n"
)


@dataclass(frozen=True, slots=True)
class Track:
    """Captions in one language (its ISO 639-2 code)."""

    language: str
    title: str
    cues: tuple[Cue, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """All that a video is joined of. `takes` are files with their lengths in ms, in order.

    `poster` is a JPEG; `sound` a file, None where the video is silent. Times are in ms.
    """

    title: str
    language: str
    takes: Sequence[tuple[Path, int]]
    sound: Path | None
    tracks: Sequence[Track]
    chapters: Sequence[tuple[str, Span]]
    poster: bytes


def join(cut: Cut, path: Path) -> None:
    """Writes the video to `path`. Raises OSError."""
    with av.open(str(path), "w", format="mp4", options=MP4) as out:
        out.metadata.update({"title": cut.title, "language": cut.language})
        flows = [_video(out, cut)]
        if cut.sound:
            flows.append(_sound(out, cut.sound, cut.language))
        flows += [_captions(out, track) for track in cut.tracks]
        _chapters(out, cut.chapters)
        poster = _poster(out, cut.poster)
        started = [next(flow) for flow in flows]  # every stream is there before the first packet
        assert not any(started)
        out.mux(poster)
        for packet in heapq.merge(*flows, key=_when):
            out.mux(packet)


def _when(packet: Any) -> Fraction:
    return Fraction(packet.dts * packet.time_base)


def _tag(stream: Any, language: str, title: str) -> None:
    stream.metadata.update({"language": language, "title": title, "handler_name": title})


def _video(out: Any, cut: Cut) -> Iterator[Any]:
    """First None, when the stream is there; then its packets, at their places in the video."""
    with av.open(str(cut.takes[0][0])) as first:
        stream = out.add_stream_from_template(first.streams.video[0])
    stream.time_base = MS
    _tag(stream, cut.language, cut.title)
    yield None
    begin = 0
    for path, length in cut.takes:
        with av.open(str(path)) as take:
            packets: list[Any] = [packet for packet in take.demux(video=0) if packet.size]
        ends = [*(packet.pts for packet in packets[1:]), length]
        for packet, end in zip(packets, ends, strict=True):
            packet.duration = end - packet.pts
            packet.pts = packet.dts = begin + packet.pts
            packet.time_base, packet.stream = MS, stream
            yield packet
        begin += length


def _sound(out: Any, path: Path, language: str) -> Iterator[Any]:
    with av.open(str(path)) as source:
        stream = out.add_stream_from_template(source.streams.audio[0])
        _tag(stream, language, "Voice")
        yield None
        for packet in source.demux(audio=0):
            if packet.size:
                packet.stream = stream
                yield packet


def _captions(out: Any, track: Track) -> Iterator[Any]:
    """3GPP timed text: two bytes of length and the words; without words where there are none."""
    stream = out.add_stream("mov_text")
    stream.codec_context.subtitle_header = _STYLE
    stream.codec_context.time_base = stream.time_base = MS
    _tag(stream, track.language, track.title)
    yield None
    now = 0
    for cue in track.cues:
        if cue.start > now:
            yield _text(stream, now, cue.start, "")
        yield _text(stream, cue.start, cue.end, "\n".join(cue.lines))
        now = cue.end


def _text(stream: Any, start: int, end: int, words: str) -> Any:
    data = words.encode()
    packet = av.Packet(len(data).to_bytes(2, "big") + data)
    packet.pts = packet.dts = start
    packet.duration = end - start
    packet.time_base, packet.stream = MS, stream
    return packet


def _chapters(out: Any, chapters: Sequence[tuple[str, Span]]) -> None:
    out.set_chapters(
        [
            {
                "id": number,
                "start": span.start,
                "end": span.end,
                "time_base": MS,
                "metadata": {"title": title},
            }
            for number, (title, span) in enumerate(chapters)
        ]
    )


def _poster(out: Any, jpeg: bytes) -> Any:
    """The picture that lists of videos show."""
    with av.open(io.BytesIO(jpeg), "r", format="jpeg_pipe") as source:
        stream = out.add_stream_from_template(source.streams.video[0])
        (packet,) = (packet for packet in source.demux(video=0) if packet.size)
    stream.disposition = Disposition.attached_pic
    packet.pts = packet.dts = 0
    packet.stream = stream
    return packet
