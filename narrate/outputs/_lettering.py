"""Words set in the font of a teacher's template, each as wide as pages have measured it.

Pages are measured in Arial. Where the widths of her font are known, a piece of text is set in it, a
little larger where its letters are narrow, and its letters a hair apart or together until the piece
is as wide as it was. So words end where the fraction after them begins.

`_fonts.json` has the advances of a font's regular and bold face, thousandths of an em, 0 where not
known, and its size against Arial's, so that prose is as wide (thousandths, never smaller). Those of
Calibri, Cambria and Times New Roman are of the open fonts drawn to their widths (Carlito, Caladea,
Liberation Serif); `source` says where each is from.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from functools import cache
from html import unescape
from importlib.resources import files
from typing import Any

from narrate.lesson import measure

THEME_FONT = '<a:latin typeface="+mn-lt"/>'
"""The theme's own font for text, by its place, so that a change of the theme still reaches it."""

_RUN = re.compile(
    r'(<a:rPr lang="[^"]*" sz=")(\d+)"( b="1")?( dirty="0">)(<a:solidFill>.*?</a:solidFill>)'
    r"(</a:rPr><a:t>)([^<]*)(?=</a:t>)"
)


@dataclass(frozen=True, slots=True)
class Face:
    """A font: its size against Arial's (thousandths), and its advances by bold or not."""

    size: int
    advances: dict[bool, dict[str, int]]

    def spacing(self, text: str, size: int, own: int, *, bold: bool) -> int:
        """What to add after each character of `text`, in hundredths of a point.

        `own` is the size it is set in; Arial's `size` says how wide it is to be.
        """
        known = self.advances[bold]
        counted = [character for character in text if known.get(character)]
        if not counted:
            return 0
        is_wide = sum(known[character] for character in counted) * own // 1000
        to_be = measure.text_width("".join(counted), size, bold=bold)
        return (to_be - is_wide) // len(text)


@cache
def face(name: str) -> Face | None:
    """The font of that name, None where its widths are not known."""
    found = _fonts().get(name)
    if found is None or name == "characters":
        return None
    letters = _fonts()["characters"]
    advances = {
        bold: dict(zip(letters, found[kind], strict=True))
        for bold, kind in ((False, "regular"), (True, "bold"))
    }
    return Face(found["size"], advances)


@cache
def _fonts() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(
        (files("narrate.outputs") / "_fonts.json").read_text("utf-8")
    )
    return found


def lettered(xml: str, font: Face) -> str:
    """Runs of a slide's XML in the theme's font, as wide as they were in Arial."""

    def run(found: re.Match[str]) -> str:
        start, asked, bold, end, fill, close, text = found.groups()
        size = int(asked)
        own = size * font.size // 1000
        apart = font.spacing(unescape(text), size, own, bold=bool(bold))
        spaced = f' spc="{apart}"' if apart else ""
        return f'{start}{own}"{bold or ""}{spaced}{end}{fill}{THEME_FONT}{close}{text}'

    return _RUN.sub(run, xml)
