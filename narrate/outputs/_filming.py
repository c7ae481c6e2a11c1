"""Takes and sound encoded: H.264 and AAC by FFmpeg's libraries, each into a file of its own.

Frames stand at their own times in milliseconds. Frames that look back only (no B-frames) and a
group of pictures that ends with its take let takes be joined without encoding anything anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path
from typing import TYPE_CHECKING, Any

import av
from av.video.frame import PictureType
from av.video.reformatter import ColorRange, Colorspace

from narrate.lesson.lesson import Span
from narrate.lesson.marks import PAGE_HEIGHT, PAGE_WIDTH
from narrate.lesson.narration import Narration
from narrate.outputs._canvas import Canvas
from narrate.outputs._encoding import VIDEO, encode
from narrate.outputs._takes import Take, burnt_in

if TYPE_CHECKING:
    from PIL.Image import Image

MS = Fraction(1, 1_000)

X264 = {
    "preset": "veryfast",
    "tune": "stillimage",
    "crf": "18",
    "forced-idr": "1",
    "x264-params": "keyint=infinite:scenecut=0:bframes=0:mbtree=0:rc-lookahead=0:threads=1"
    ":colorprim=bt709:transfer=bt709:colormatrix=bt709:range=tv",
}

_BT709 = 1
_CHUNK_MS = 10_000


def recipe() -> str:
    """What changes a file though take and sound are the same: our settings and the libraries."""
    libraries = [f"{name} {version(name)}" for name in ("av", "resvg_py", "pillow")]
    return repr((X264, VIDEO, libraries, sorted(av.library_versions.items())))


def film(take: Take, path: Path) -> None:
    """Encodes a take into a Matroska file. Raises OSError."""
    canvas = Canvas(take.page, take.palette, take.height)
    with av.open(str(path), "w", format="matroska", options={"fflags": "+bitexact"}) as out:
        stream = out.add_stream("libx264", rate=30, options=X264)
        stream.width, stream.height = take.height * PAGE_WIDTH // PAGE_HEIGHT, take.height
        stream.pix_fmt = "yuv420p"
        context = stream.codec_context
        context.time_base, context.thread_count = MS, 1
        shown = picture = None
        for frame in take.frames():
            if frame.state != shown:
                over = burnt_in(frame.state.caption)
                picture = _picture(canvas.show(frame.state.builds, over))
                shown = frame.state
            assert picture is not None
            picture.pts, picture.time_base = frame.start, MS
            picture.pict_type = PictureType.I if frame.key else PictureType.NONE
            out.mux(stream.encode(picture))
        out.mux(stream.encode())


def _picture(image: Image) -> Any:
    """An image as a frame in the colours of high-definition television (ITU-R BT.709)."""
    frame = av.VideoFrame.from_image(image).reformat(  # type: ignore[no-untyped-call]
        format="yuv420p", dst_colorspace=Colorspace.ITU709, dst_color_range=ColorRange.MPEG
    )
    frame.colorspace, frame.color_range = _BT709, ColorRange.MPEG
    frame.color_primaries = frame.color_trc = _BT709
    return frame


def sound_key(narration: Narration, length: int) -> str:
    """What the encoded sound hangs on."""
    digest = sha256(repr((narration.rate, length)).encode())
    for samples in _chunks(narration, length):
        digest.update(samples)
    return digest.hexdigest()


def record(narration: Narration, length: int, path: Path) -> None:
    """Encodes `length` ms of a narration into an MP4 file. Raises OSError."""
    encode(_chunks(narration, length), narration.rate, VIDEO, path)


def _chunks(narration: Narration, length: int) -> Iterator[bytes]:
    for start in range(0, length, _CHUNK_MS):
        if samples := narration.cut(Span(start, min(start + _CHUNK_MS, length))):
            yield samples
