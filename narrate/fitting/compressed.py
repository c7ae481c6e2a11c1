"""Recordings that are not WAV (mp3, m4a, a video), read by PyAV, an extra of the installation."""

from __future__ import annotations

from array import array
from pathlib import Path
from typing import Any

from narrate.errors import WrongUse
from narrate.fitting.sound import Pieces, Sound

_RATE = 16_000


def opened(path: Path) -> Sound:
    """A recording in any form that PyAV knows. Raises WrongUse where it is none or PyAV missing."""
    av = _library(path)
    with _container(av, path) as container:
        length = container.duration  # in microseconds, or None
    return Sound(
        length_ms=None if length is None or length <= 0 else length // 1000,
        rate=_RATE,
        full=32768.0,
        pieces=lambda: _pieces(av, path, _RATE),
    )


def pieces_at(path: Path, rate: int) -> Pieces:
    """The samples of any recording, WAV too, as one channel at a rate. Raises WrongUse."""
    try:
        import av
    except ImportError:
        raise WrongUse(
            f"to put {path} in what is heard, install the extra: pip install "
            '"narrate[audio]"; --spoken-by nobody leaves it silent'
        ) from None
    try:
        yield from _pieces(av, path, rate)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise WrongUse(f"{path} cannot be opened ({reason}); check its name") from None


def _library(path: Path) -> Any:
    try:
        import av
    except ImportError:
        raise WrongUse(
            f'{path} is no WAV file; to read mp3 and m4a install the extra: pip install "narrate'
            '[audio]"; or save the recording as WAV'
        ) from None
    return av


def _container(av: Any, path: Path) -> Any:
    try:
        container = av.open(str(path), metadata_errors="ignore")
    except (av.FFmpegError, ValueError):
        raise WrongUse(f"{path} is no recording that can be read; give a wav, mp3 or m4a") from None
    if not container.streams.audio:
        container.close()
        raise WrongUse(f"{path} holds no sound; give the recording of your voice")
    return container


def _pieces(av: Any, path: Path, rate: int) -> Pieces:
    resampler = av.AudioResampler(format="s16", layout="mono", rate=rate)
    with _container(av, path) as container:
        frames = container.decode(audio=0)
        while True:
            try:
                frame = next(frames, None)
            except av.FFmpegError:
                raise WrongUse(f"{path} is broken; save it again, or as WAV") from None
            for whole in resampler.resample(frame):  # None at the end gives what is left
                samples: array[int] = array("h")
                samples.frombytes(bytes(whole.planes[0])[: 2 * whole.samples])
                yield samples
            if frame is None:
                return
