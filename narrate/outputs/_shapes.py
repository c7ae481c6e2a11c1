"""Marks as native, editable DrawingML shapes, each written in one go as text.

Places of marks are hundredths of a point; those of shapes are EMU, 127 times as many. Colours are
those of the theme, so that a school's own colours can replace them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from typing import Literal
from xml.sax.saxutils import escape

from narrate.errors import OutputFailed
from narrate.lesson import measure
from narrate.lesson.marks import (
    Align,
    Box,
    Colour,
    Dot,
    Group,
    Path,
    Picture,
    Plain,
    Rule,
    Stack,
    Text,
)
from narrate.outputs._media import relationship
from narrate.outputs._stripes import Point, stripe_polygons

EMU = 127

_ALIGN: dict[Align, str] = {"left": "l", "centre": "ctr"}

SCHEME: dict[Colour, str] = {
    "ink": "tx1",
    "paper": "bg1",
    "quiet": "tx2",
    "panel": "bg2",
    "pen": "accent1",
    "first": "accent2",
    "second": "accent3",
    "third": "accent4",
    "taken": "accent5",
}
"""The place of each colour in the theme."""

CORNER = 600
"""Radius of a rounded box."""

Area = tuple[int, int, int, int]
"""Left, top, width, height."""

# What XML 1.0 (section 2.2, Char) has no place for.
_FORBIDDEN = "[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]"


@dataclass(frozen=True, slots=True)
class Shape:
    """A shape of a slide: its id, its XML and, for a p:sp, how it stands in a build list."""

    id: int
    xml: str
    build: Literal["text", "filled"] | None


_QUOTED = {'"': "&quot;", "\n": "&#10;", "\t": "&#9;", "\r": "&#13;"}
_PLAIN = re.compile("[ !#-%'-;=?-\ud7ff\ue000-\ufffd]*")


@lru_cache(maxsize=8192)
def text(words: str) -> str:
    """`words` as XML character data."""
    return words if _PLAIN.fullmatch(words) else escape(re.sub(_FORBIDDEN, "", words))


@lru_cache(maxsize=8192)
def attribute(words: str) -> str:
    """`words` as the value of an XML attribute in double quotes."""
    return words if _PLAIN.fullmatch(words) else escape(re.sub(_FORBIDDEN, "", words), _QUOTED)


def group(group: Group, ids: Iterator[int], language: str) -> Shape:
    """A group of marks: a p:grpSp, or its only mark by itself.

    Raises OutputFailed when there is nothing in it.
    """
    if not group.marks:
        raise OutputFailed(f"the group “{group.name}” has no marks; a group needs at least one")
    if len(group.marks) == 1:
        return _mark(group.marks[0], ids, language, group.name, group.alt)
    return _grouped(group.marks, ids, language, group.name, group.alt)


def _grouped(
    marks: tuple[Plain, ...], ids: Iterator[int], language: str, name: str, alt: str
) -> Shape:
    own = next(ids)
    children = "".join(
        _mark(mark, ids, language, f"{name} · {number}", "").xml
        for number, mark in enumerate(marks, start=1)
    )
    return _wrapped(own, name, alt, _frame(*_around(marks), child=True), children)


def _wrapped(own: int, name: str, alt: str, frame: str, children: str) -> Shape:
    xml = (
        f"<p:grpSp><p:nvGrpSpPr>{_named(own, name, alt)}<p:cNvGrpSpPr/><p:nvPr/></p:nvGrpSpPr>"
        f"<p:grpSpPr>{frame}</p:grpSpPr>{children}</p:grpSp>"
    )
    return Shape(own, xml, None)


def _mark(mark: Plain, ids: Iterator[int], language: str, name: str, alt: str) -> Shape:
    match mark:
        case Text():
            return _text(mark, next(ids), language, name, alt)
        case Box(hatched=True):
            return _hatched(mark, ids, language, name, alt)
        case Box():
            return _box(mark, next(ids), name, alt)
        case Stack():
            return _stack(mark, ids, language, name, alt)
        case Rule():
            return _rule(mark, next(ids), name, alt)
        case Path():
            return _path(mark, next(ids), name, alt)
        case Picture():
            return _picture(mark, next(ids), name, alt)
        case Dot():
            geometry = '<a:prstGeom prst="ellipse"><a:avLst/></a:prstGeom>'
            return _drawn(mark, geometry, _fill(mark.fill), next(ids), name, alt)


def _picture(mark: Picture, own: int, name: str, alt: str) -> Shape:
    xml = (
        f'<p:pic><p:nvPicPr>{_named(own, name, alt)}<p:cNvPicPr><a:picLocks noChangeAspect="1"/>'
        "</p:cNvPicPr><p:nvPr/></p:nvPicPr>"
        f'<p:blipFill><a:blip r:embed="{relationship(mark)}"/><a:stretch><a:fillRect/></a:stretch>'
        f"</p:blipFill><p:spPr>{_frame(*_area(mark))}"
        '<a:prstGeom prst="rect"><a:avLst/></a:prstGeom></p:spPr></p:pic>'
    )
    return Shape(own, xml, None)


def _text(mark: Text, own: int, language: str, name: str, alt: str) -> Shape:
    xml = (
        f'<p:sp><p:nvSpPr>{_named(own, name, alt)}<p:cNvSpPr txBox="1"/><p:nvPr/></p:nvSpPr>'
        f"<p:spPr>{text_frame(mark)}"
        '<a:prstGeom prst="rect"><a:avLst/></a:prstGeom><a:noFill/></p:spPr>'
        f"{text_body(mark, language)}</p:sp>"
    )
    return Shape(own, xml, "text")


def text_frame(mark: Text) -> str:
    """The a:xfrm of a text, so placed that its first base line lies an ascent below `mark.y`.

    With exact spacing the room of a line is added to or taken from above the letters (seen in
    LibreOffice 7.4), so the box of a text of more than one line starts that much higher; it still
    ends where the text ends.
    """
    rise = _spacing(mark) - _line_height(mark.size)
    return _frame(mark.x, mark.y - rise, mark.width, mark.height + rise)


def _spacing(mark: Text) -> int:
    """The exact line spacing of a text.

    Programs differ in what "single" spacing is (LibreOffice takes 1.2 em whatever the font); with
    exactly ascent and descent the base line is the same in all.
    """
    return mark.leading if len(mark.lines) > 1 else _line_height(mark.size)


@cache
def _line_height(size: int) -> int:
    return round((measure.ASCENT + measure.DESCENT) * size)


def text_body(mark: Text, language: str) -> str:
    """The p:txBody of a text: one paragraph, its lines kept, no room around it."""
    start, turn, end = _setting(
        language, mark.size, _spacing(mark), mark.bold, mark.colour, mark.align
    )
    return f"{start}{turn.join(map(text, mark.lines))}{end}"


@cache
def _setting(
    language: str, size: int, spacing: int, bold: bool, colour: Colour, align: Align
) -> tuple[str, str, str]:
    """What stands before, between and after the lines of a text."""
    heavy = ' b="1"' if bold else ""
    how = f'lang="{language}" sz="{size}"{heavy} dirty="0"'
    run, last = (f"<a:{tag} {how}>{_solid(colour)}</a:{tag}>" for tag in ("rPr", "endParaRPr"))
    start = (
        '<p:txBody><a:bodyPr wrap="none" lIns="0" tIns="0" rIns="0" bIns="0" rtlCol="0" anchor="t">'
        f'<a:noAutofit/></a:bodyPr><a:lstStyle/><a:p><a:pPr algn="{_ALIGN[align]}"><a:lnSpc>'
        f'<a:spcPts val="{spacing}"/></a:lnSpc></a:pPr><a:r>{run}<a:t>'
    )
    turn = f"</a:t></a:r><a:br>{run}</a:br><a:r>{run}<a:t>"
    return start, turn, f"</a:t></a:r>{last}</a:p></p:txBody>"


def _stack(mark: Stack, ids: Iterator[int], language: str, name: str, alt: str) -> Shape:
    """A stacked fraction: rule in the middle, the digits centred in their halves."""
    own = next(ids)
    middle, digit = mark.y + mark.height // 2, round(measure.DIGIT * mark.size)
    gap = max(0, (mark.height // 2 - digit) // 2)
    parts = (
        ("numerator", _digits(mark, mark.top, middle - gap)),
        ("rule", _bar(mark, middle)),
        ("denominator", _digits(mark, mark.bottom, middle + gap + digit)),
    )
    children = "".join(
        _mark(part, ids, language, f"{name} · {role}", "").xml for role, part in parts
    )
    return _wrapped(own, name, alt, _frame(*_area(mark), child=True), children)


def _digits(mark: Stack, digits: str, base_line: int) -> Text:
    return Text(
        x=mark.x,
        y=base_line - round(measure.ASCENT * mark.size),
        width=mark.width,
        height=_line_height(mark.size),
        lines=(digits,),
        size=mark.size,
        leading=mark.size,
        colour=mark.colour,
        align="centre",
    )


def _bar(mark: Stack, y: int) -> Rule:
    weight = max(100, mark.size // 18)
    return Rule(x1=mark.x, y1=y, x2=mark.x + mark.width, y2=y, weight=weight, colour=mark.colour)


def _rule(mark: Rule, own: int, name: str, alt: str) -> Shape:
    turned = ' flipH="1"' * (mark.x2 < mark.x1) + ' flipV="1"' * (mark.y2 < mark.y1)
    xml = (
        f"<p:cxnSp><p:nvCxnSpPr>{_named(own, name, alt)}<p:cNvCxnSpPr/><p:nvPr/></p:nvCxnSpPr>"
        f"<p:spPr>{_frame(*_area(mark), turned)}"
        '<a:prstGeom prst="line"><a:avLst/></a:prstGeom>'
        f"{_line(mark.colour, mark.weight, mark.dashed)}</p:spPr></p:cxnSp>"
    )
    return Shape(own, xml, None)


def _box(mark: Box, own: int, name: str, alt: str) -> Shape:
    return _drawn(mark, _box_geometry(mark), _fill(mark.fill), own, name, alt, mark.dashed)


def _box_geometry(mark: Box) -> str:
    if not mark.rounded:
        return '<a:prstGeom prst="rect"><a:avLst/></a:prstGeom>'
    share = min(50_000, CORNER * 100_000 // max(1, min(mark.width, mark.height)))
    return (
        '<a:prstGeom prst="roundRect"><a:avLst>'
        f'<a:gd name="adj" fmla="val {share}"/></a:avLst></a:prstGeom>'
    )


def _hatched(mark: Box, ids: Iterator[int], language: str, name: str, alt: str) -> Shape:
    """A box of paper with stripes inside its outline.

    Stripes are drawn: the patterns of the format are as wide as the pixels of whoever shows them.
    """
    striped = _striped(*_inside(mark))
    if not striped:
        return _mark(replace(mark, hatched=False), ids, language, name, alt)
    own = next(ids)
    box = _drawn(
        mark, _box_geometry(mark), _solid("paper"), next(ids), f"{name} · box", "", mark.dashed
    )
    stripes = (
        f"<p:sp><p:nvSpPr>{_named(next(ids), f'{name} · stripes', '')}<p:cNvSpPr/><p:nvPr/>"
        f"</p:nvSpPr><p:spPr>{striped}{_solid(mark.fill or mark.line or 'ink')}"
        "<a:ln><a:noFill/></a:ln></p:spPr></p:sp>"
    )
    return _wrapped(own, name, alt, _frame(*_area(mark), child=True), box.xml + stripes)


def _inside(mark: Box) -> tuple[int, int, int, int]:
    """Left, top, right and bottom of a box inside its outline."""
    inset = mark.weight // 2 if mark.line else 0
    left, top = mark.x + inset, mark.y + inset
    return left, top, mark.x + mark.width - inset, mark.y + mark.height - inset


@lru_cache(maxsize=4096)  # a page's figures stand in one place while they are worked on
def _striped(left: int, top: int, right: int, bottom: int) -> str:
    """Place and geometry of the stripes in a rectangle; "" where it has no room for any."""
    polygons = stripe_polygons(left, top, right, bottom)
    if not polygons:
        return ""
    xs = [x for polygon in polygons for x, _ in polygon]
    ys = [y for polygon in polygons for _, y in polygon]
    area = (min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))
    drawn = "".join(_line_through(polygon, area, closed=True) for polygon in polygons)
    return f"{_frame(*area)}{_geometry(drawn, area)}"


def _path(mark: Path, own: int, name: str, alt: str) -> Shape:
    area = _area(mark)
    drawn = _line_through(mark.points, area, closed=mark.closed)
    geometry = _geometry(drawn, area, "" if mark.fill else ' fill="none"')
    return _drawn(mark, geometry, _fill(mark.fill), own, name, alt)


def _line_through(points: Sequence[Point], area: Area, *, closed: bool) -> str:
    places = [f'<a:pt x="{(x - area[0]) * EMU}" y="{(y - area[1]) * EMU}"/>' for x, y in points]
    lines = "".join(f"<a:lnTo>{place}</a:lnTo>" for place in places[1:])
    return f"<a:moveTo>{places[0]}</a:moveTo>{lines}{'<a:close/>' if closed else ''}"


def _geometry(drawn: str, area: Area, hollow: str = "") -> str:
    return (
        "<a:custGeom><a:avLst/><a:gdLst/><a:ahLst/><a:cxnLst/>"
        '<a:rect l="0" t="0" r="r" b="b"/><a:pathLst>'
        f'<a:path w="{area[2] * EMU}" h="{area[3] * EMU}"{hollow}>{drawn}</a:path>'
        "</a:pathLst></a:custGeom>"
    )


def _drawn(
    mark: Box | Dot | Path,
    geometry: str,
    fill: str,
    own: int,
    name: str,
    alt: str,
    dashed: bool = False,
) -> Shape:
    outline = _line(mark.line, mark.weight, dashed) if mark.line else "<a:ln><a:noFill/></a:ln>"
    xml = (
        f"<p:sp><p:nvSpPr>{_named(own, name, alt)}<p:cNvSpPr/><p:nvPr/></p:nvSpPr><p:spPr>"
        f"{_frame(*_area(mark))}{geometry}{fill}{outline}</p:spPr></p:sp>"
    )
    return Shape(own, xml, "filled")


def _named(own: int, name: str, alt: str) -> str:
    described = f' descr="{attribute(alt)}"' if alt else ""
    return f'<p:cNvPr id="{own}" name="{attribute(name)}"{described}/>'


def _frame(
    x: int, y: int, width: int, height: int, turned: str = "", *, child: bool = False
) -> str:
    corner, size = f'x="{x * EMU}" y="{y * EMU}"', f'cx="{width * EMU}" cy="{height * EMU}"'
    inner = f"<a:chOff {corner}/><a:chExt {size}/>" if child else ""
    return f"<a:xfrm{turned}><a:off {corner}/><a:ext {size}/>{inner}</a:xfrm>"


def _around(marks: tuple[Plain, ...]) -> Area:
    """Left, top, width and height of the box around all marks."""
    areas = [_area(mark) for mark in marks]
    left, top = min(area[0] for area in areas), min(area[1] for area in areas)
    right = max(x + width for x, _, width, _ in areas)
    bottom = max(y + height for _, y, _, height in areas)
    return left, top, right - left, bottom - top


def _area(mark: Plain) -> Area:
    """Left, top, width and height of a mark."""
    match mark:
        case Rule():
            left, top = min(mark.x1, mark.x2), min(mark.y1, mark.y2)
            return left, top, abs(mark.x2 - mark.x1), abs(mark.y2 - mark.y1)
        case Path():
            xs, ys = [x for x, _ in mark.points], [y for _, y in mark.points]
            return min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)
        case _:
            return mark.x, mark.y, mark.width, mark.height


@cache
def _solid(colour: Colour) -> str:
    return f'<a:solidFill><a:schemeClr val="{SCHEME[colour]}"/></a:solidFill>'


def _fill(colour: Colour | None) -> str:
    return _solid(colour) if colour else "<a:noFill/>"


@cache
def _line(colour: Colour, weight: int, dashed: bool = False) -> str:
    dash = '<a:prstDash val="dash"/>' if dashed else ""
    return f'<a:ln w="{weight * EMU}">{_solid(colour)}{dash}<a:round/></a:ln>'
