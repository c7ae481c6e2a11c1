"""One loudness for all that is heard: -16 LUFS in the whole, no peak above -1 dBTP.

Measured and set by PyAV's filters (EBU R 128 and ITU-R BS.1770, as ffmpeg has them), piece by
piece, so that an hour needs no more memory than a minute.
"""

from __future__ import annotations

import wave
from collections.abc import Callable, Iterator
from fractions import Fraction
from math import isfinite
from pathlib import Path
from typing import Any

TARGET_LUFS = -16.0
_WITHIN, _TRIES = 0.2, 8
_WITHIN_AGAIN = 0.5
_CEILING_DB = -4.0
"""Of samples: peaks between them, and the 2 dB that a compressed copy may add, stay below -1."""
_PIECE = 1 << 15
_QUIETEST = -69.0
"""Where nothing is louder there is no voice to level; the measure ends at -70."""


def can_level() -> bool:
    """Whether PyAV, an extra of the installation, is there."""
    try:
        import av  # noqa: F401
    except ImportError:
        return False
    return True


def level(path: Path) -> None:
    """Brings a WAV file of one channel of 16 bits to the loudness of the house.

    A quiet one is made louder, and its peaks held below the ceiling. Silence stays as it is.
    """
    whole = measure(path)
    if whole < _QUIETEST:
        return
    gain = TARGET_LUFS - whole
    beside = path.with_name(f"{path.name}.levelled")
    try:
        last = 0.0, whole
        for _ in range(_TRIES):  # what the limiter takes from the peaks is given back
            _write(path, beside, gain)
            now = gain, measure(beside)
            missing = TARGET_LUFS - now[1]
            if abs(missing) <= _WITHIN:
                break
            steepness = (now[1] - last[1]) / (now[0] - last[0]) if now[0] != last[0] else 1.0
            gain, last = gain + missing / min(max(steepness, 0.5), 1.0), now
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)


def level_again(path: Path) -> None:
    """Levels what was put together of sounds that were levelled, if it is half a LU off or more."""
    if abs(measure(path) - TARGET_LUFS) > _WITHIN_AGAIN:
        level(path)


def measure(path: Path) -> float:
    """The loudness in the whole, in LUFS, of a WAV file of one channel of 16 bits."""
    whole = _QUIETEST - 1

    def note(frame: Any) -> None:
        nonlocal whole
        told = float(frame.metadata.get("lavfi.r128.I", whole))
        whole = told if isfinite(told) else whole

    _through(path, (("ebur128", "metadata=1"),), note)
    return whole


def _write(path: Path, to: Path, gain: float) -> None:
    """A copy, louder by `gain` dB, with its peaks held."""
    with wave.open(str(path)) as sound:
        rate = sound.getframerate()
    with wave.open(str(to), "wb") as copy:
        copy.setnchannels(1)
        copy.setsampwidth(2)
        copy.setframerate(rate)
        ceiling = 10 ** (_CEILING_DB / 20)
        filters = (
            ("volume", f"{gain:.3f}dB:precision=float"),
            ("alimiter", f"limit={ceiling:.4f}:attack=5:release=50:level=false:latency=true"),
            ("aformat", "sample_fmts=s16:channel_layouts=mono"),
        )
        _through(
            path,
            filters,
            lambda frame: copy.writeframesraw(bytes(frame.planes[0])[: 2 * frame.samples]),
        )


def _through(path: Path, filters: tuple[tuple[str, str], ...], take: Callable[[Any], None]) -> None:
    """Sends a WAV file through filters; `take` gets each frame that comes out."""
    import av

    with wave.open(str(path)) as sound:
        rate = sound.getframerate()
        graph = av.filter.Graph()
        nodes = [
            graph.add_abuffer(
                format="s16", sample_rate=rate, layout="mono", time_base=Fraction(1, rate)
            )
        ]
        nodes += [graph.add(name, arguments) for name, arguments in filters]
        nodes.append(graph.add("abuffersink"))
        graph.link_nodes(*nodes).configure()
        for frame in _frames(av, sound, rate):
            graph.push(frame)
            _pull(av, graph, take)
        graph.push(None)
        _pull(av, graph, take)


def _frames(av: Any, sound: wave.Wave_read, rate: int) -> Iterator[Any]:
    at = 0
    while data := sound.readframes(_PIECE):
        frame = av.AudioFrame(format="s16", layout="mono", samples=len(data) // 2)
        frame.planes[0].update(data.ljust(frame.planes[0].buffer_size, b"\0"))
        frame.rate, frame.pts = rate, at
        at += len(data) // 2
        yield frame


def _pull(av: Any, graph: Any, take: Callable[[Any], None]) -> None:
    while True:
        try:
            take(graph.pull())
        except (av.error.BlockingIOError, av.error.EOFError):
            return
