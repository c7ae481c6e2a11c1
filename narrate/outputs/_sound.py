"""The sound of a slide: its file, and the shape that plays it, which nobody sees.

AAC in MP4 (ISO/IEC 14496-3 and -12) where PyAV is installed, which presentation programs play; else
WAV, twenty times as large.
"""

from __future__ import annotations

import io
import wave
from dataclasses import dataclass

from narrate.lesson.marks import Picture
from narrate.outputs._encoding import SLIDE, encode
from narrate.outputs._media import digest, relationship

_FRAME = 1_024
"""Samples of a frame of AAC; a file is made of whole ones."""

_UNSEEN = bytes.fromhex(
    "89504e470d0a1a0a0000000d49484452000000010000000108060000001f15c4890000000b494441"
    "54789c6360000200000500017a5eab3f0000000049454e44ae426082"
)
ICON = Picture(x=-5_400, y=0, width=3_600, height=3_600, data=_UNSEEN, kind="png")
"""A picture without any colour, beside the slide: the sound needs one to be a shape."""

_MEDIA = "{DAA4B4D4-6D71-4841-9C94-3DE7FCFB9230}"
_P14 = "http://schemas.microsoft.com/office/powerpoint/2010/main"
_EMU = 127


@dataclass(frozen=True, slots=True, kw_only=True)
class Sound:
    """What is heard on a slide from its start, `length` ms long: a file of the package."""

    file: str
    length: int


def made(samples: bytes, rate: int) -> tuple[Sound, bytes]:
    """A sound of samples of one channel of 16 bits, and its file.

    Silence at its end may be cut by up to two frames, so that it is not longer than what it is of.
    """
    length = -(-len(samples) * 500 // rate)
    try:
        data, heard = _encoded(samples, rate)
    except ImportError:
        return _named(_wave(samples, rate), "wav", length)
    spare = 2 * _FRAME * 2
    if heard > length and not any(samples[-spare:]):
        data, heard = _encoded(samples[:-spare], rate)
    return _named(data, "m4a", heard)


def _named(data: bytes, kind: str, length: int) -> tuple[Sound, bytes]:
    return Sound(file=f"sound-{digest(data)}.{kind}", length=length), data


def _encoded(samples: bytes, rate: int) -> tuple[bytes, int]:
    """A file of AAC, and its length in ms, rounded up. Raises ImportError without PyAV."""
    file = io.BytesIO()
    encode([samples], rate, SLIDE, file)
    import av

    with av.open(io.BytesIO(file.getvalue()), "r") as container:
        length = container.duration or 0  # in microseconds
    return file.getvalue(), -(-length // 1000)


def _wave(samples: bytes, rate: int) -> bytes:
    file = io.BytesIO()
    with wave.open(file, "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(2)
        sound.setframerate(rate)
        sound.writeframes(samples)
    return file.getvalue()


def sound_picture(sound: Sound, own: int, described: str) -> str:
    """The p:pic that a sound plays from."""
    key = sound.file.partition("-")[2].partition(".")[0]
    left, top, width, height = (n * _EMU for n in (ICON.x, ICON.y, ICON.width, ICON.height))
    return (
        f'<p:pic><p:nvPicPr><p:cNvPr id="{own}" name="narration" descr="{described}">'
        '<a:hlinkClick r:id="" action="ppaction://media"/></p:cNvPr>'
        '<p:cNvPicPr><a:picLocks noChangeAspect="1"/></p:cNvPicPr>'
        f'<p:nvPr><a:audioFile r:link="rIdSound{key}"/><p:extLst><p:ext uri="{_MEDIA}">'
        f'<p14:media xmlns:p14="{_P14}" r:embed="rIdMedia{key}"/></p:ext></p:extLst></p:nvPr>'
        f'</p:nvPicPr><p:blipFill><a:blip r:embed="{relationship(ICON)}"/><a:stretch>'
        f'<a:fillRect/></a:stretch></p:blipFill><p:spPr><a:xfrm><a:off x="{left}" y="{top}"/>'
        f'<a:ext cx="{width}" cy="{height}"/></a:xfrm><a:prstGeom prst="rect"><a:avLst/>'
        "</a:prstGeom></p:spPr></p:pic>"
    )
