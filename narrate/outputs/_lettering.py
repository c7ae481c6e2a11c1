"""Words set in the font of a teacher's template, each where pages have put it.

Pages are measured in Arial. Where the widths of her font are known, a piece of text is set in it, a
little larger where its letters are narrow, and its letters a hair apart or together until the piece
is as wide as it was. So words end where the fraction after them begins.

Where they are not known, each word begins where it would in Arial, at a tab stop, and its letters
stand as close as the widest known font would need, with a little to spare: then no word reaches the
next, and marks lie under the words they are for.

`_fonts.json` has the advances of a font's regular and bold face, thousandths of an em, 0 where not
known, and its size against Arial's, so that prose is as wide (thousandths, never smaller). Those of
Calibri, Cambria and Times New Roman are of the open fonts drawn to their widths (Carlito, Caladea,
Liberation Serif), those of Century Gothic, Book Antiqua, Bookman Old Style and Century Schoolbook
of the open faces of the printers' fonts behind them (URW Gothic, P052, URW Bookman, C059; that they
are as wide is from memory); `source` says where each is from.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from functools import cache, lru_cache
from html import unescape
from importlib.resources import files
from typing import Any

from narrate.lesson import measure
from narrate.outputs._shapes import EMU

THEME_FONT = '<a:latin typeface="+mn-lt"/>'
"""The theme's own font for text, by its place, so that a change of the theme still reaches it."""

_RUN = re.compile(
    r'(<a:rPr lang="[^"]*" sz=")(\d+)"( b="1")?( dirty="0">)(<a:solidFill>.*?</a:solidFill>)'
    r"(</a:rPr><a:t>)([^<]*)(?=</a:t>)"
)


SPARE = 103
"""Per cent of the widest known font that a word in an unknown one is given (our own judgement)."""

GAP = 12
"""Least room between two words in an unknown font, hundredths of an em; a space has 28 in Arial."""

_LEFT = re.compile(r'<a:p><a:pPr algn="l">(<a:lnSpc>.*?</a:lnSpc>)</a:pPr>(<a:r>.*?)</a:p>')
_TURN = re.compile(r"<a:br>.*?</a:br>")


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


@cache
def _faces() -> tuple[Face, ...]:
    return tuple(known for name in _fonts() if (known := face(name)))


@lru_cache(maxsize=20_000)
def widest(text: str, *, bold: bool) -> int:
    """How wide a text can be in a font of unknown widths, thousandths of an em, as far as we know.

    A character that a font does not have is taken to be as wide as in the others.
    """
    faces = [known.advances[bold] for known in _faces()]
    most = max(sum(known.get(c) or _widest(c, bold) for c in text) for known in faces)
    return most * SPARE // 100


@cache
def _widest(character: str, bold: bool) -> int:
    """The widest advance of a character; an em where no font has it."""
    return max(known.advances[bold].get(character, 0) for known in _faces()) or 1000


def lettered(xml: str, font: Face | None) -> str:
    """Runs of a slide's XML in the theme's font, as wide as they were in Arial.

    `font` is None where its widths are not known.
    """
    if font is None:
        return _RUN.sub(_closer, _LEFT.sub(_tabbed, xml))

    def run(found: re.Match[str]) -> str:
        size = int(found[2])
        own = size * font.size // 1000
        apart = font.spacing(unescape(found[7]), size, own, bold=bool(found[3]))
        return _run(found, own, apart)

    return _RUN.sub(run, xml)


def _run(found: re.Match[str], size: int, apart: int) -> str:
    start, _, bold, end, fill, close, text = found.groups()
    spaced = f' spc="{apart}"' if apart else ""
    return f'{start}{size}"{bold or ""}{spaced}{end}{fill}{THEME_FONT}{close}{text}'


def _tabbed(paragraph: re.Match[str]) -> str:
    """A paragraph for each line, its words at tab stops where Arial would have them."""
    leading, inside = paragraph.groups()
    return "".join(_line(leading, line) for line in _TURN.split(inside))


def _line(leading: str, line: str) -> str:
    run = _RUN.search(line)
    if run is None or " " not in run[7]:
        return f'<a:p><a:pPr algn="l">{leading}</a:pPr>{line}</a:p>'
    words, size, bold = run[7].split(" "), int(run[2]), bool(run[3])
    ahead = [unescape(" ".join(words[:count])) + " " for count in range(1, len(words))]
    stops = "".join(
        f'<a:tab pos="{measure.text_width(each, size, bold=bold) * EMU}" algn="l"/>'
        for each in ahead
    )
    before, after = line[: run.start(7)], line[run.end(7) :]
    opening = line[line.rindex("<a:r>", 0, run.start(7)) : run.start(7)]
    runs = f"</a:t></a:r>{opening}\t".join(words)
    return (
        f'<a:p><a:pPr algn="l">{leading}<a:spcBef><a:spcPts val="0"/></a:spcBef>'
        f"<a:tabLst>{stops}</a:tabLst></a:pPr>{before}{runs}{after}</a:p>"
    )


def _closer(found: re.Match[str]) -> str:
    """A run of one word, or of several in the middle of their box, as close as it must be."""
    text, size, bold = unescape(found[7]).lstrip("\t"), int(found[2]), bool(found[3])
    if not text:
        return _run(found, size, 0)
    room = measure.text_width(f"{text} ", size, bold=bold) - GAP * size // 100
    wide = widest(text, bold=bold) * size // 1000
    return _run(found, size, min(0, (room - wide) // len(text)))
