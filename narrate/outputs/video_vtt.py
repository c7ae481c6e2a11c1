"""`video.vtt`: the captions once more, under the video's name, where players look for them."""

from __future__ import annotations

from narrate.outputs.captions_vtt import write

__all__ = ["DEFAULT", "FILE", "write"]

FILE = "video.vtt"
DEFAULT = False
