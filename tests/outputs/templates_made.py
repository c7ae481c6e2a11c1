"""Teachers' templates made for tests, with python-pptx: other colours, fonts, sizes, drawings."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable, Mapping
from typing import Any

from lxml import etree
from pptx import Presentation
from pptx.oxml import parse_xml
from pptx.util import Inches

A = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
NAMESPACES = (
    'xmlns:p="http://schemas.openxmlformats.org/presentationml/2006/main"'
    ' xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"'
)

GARDEN = {
    "dk1": "3B1F2B",
    "lt1": "FFFFFF",
    "dk2": "6A4C93",
    "lt2": "FDE2E4",
    "accent1": "FF595E",
    "accent2": "FFCA3A",
    "accent3": "8AC926",
    "accent4": "1982C4",
    "accent5": "6A4C93",
}
"""Light, its first accent too faint for words (3.1 to 1 on white)."""

BOARD = {
    "dk1": "F5F0E1",
    "lt1": "1E2D24",
    "dk2": "C9D6C3",
    "lt2": "2F4538",
    "accent1": "2E5EAA",
    "accent2": "B5651D",
    "accent3": "1B6B93",
    "accent4": "2E8B57",
    "accent5": "7B2D8B",
}
"""Dark, its first accent too dark for words."""


def template(
    colours: Mapping[str, str] = GARDEN,
    fonts: tuple[str, str] = ("Georgia", "Verdana"),
    size: tuple[float, float] = (13.333, 7.5),
    change: Callable[[Any], None] = lambda deck: None,
) -> bytes:
    """A template file with a slide of its own, which must not stay."""
    deck: Any = Presentation()
    deck.slide_width, deck.slide_height = Inches(size[0]), Inches(size[1])
    _recolour(deck, colours, fonts)
    slide = deck.slides.add_slide(deck.slide_layouts[1])
    slide.shapes.title.text = "An old lesson"
    change(deck)
    memory = io.BytesIO()
    deck.save(memory)
    return memory.getvalue()


def _recolour(deck: Any, colours: Mapping[str, str], fonts: tuple[str, str]) -> None:
    (part,) = (
        rel.target_part
        for rel in deck.slide_master.part.rels.values()
        if rel.reltype.endswith("/theme")
    )
    root: Any = etree.fromstring(part.blob)
    for name, value in colours.items():
        place = root.find(f".//{A}clrScheme/{A}{name}")
        del place[:]
        etree.SubElement(place, f"{A}srgbClr", val=value)
    for kind, font in zip(("majorFont", "minorFont"), fonts, strict=True):
        root.find(f".//{A}{kind}/{A}latin").set("typeface", font)
    part._blob = etree.tostring(root)


def band(deck: Any) -> None:
    """A coloured band along the top of the master, where our headings stand."""
    width = deck.slide_width
    deck.slide_master.shapes._spTree.append(
        parse_xml(
            f'<p:sp {NAMESPACES}><p:nvSpPr><p:cNvPr id="77" name="band"/><p:cNvSpPr/>'
            f'<p:nvPr userDrawn="1"/></p:nvSpPr><p:spPr><a:xfrm><a:off x="0" y="0"/>'
            f'<a:ext cx="{width}" cy="{width // 13}"/></a:xfrm><a:prstGeom prst="rect"><a:avLst/>'
            '</a:prstGeom><a:solidFill><a:schemeClr val="accent1"/></a:solidFill></p:spPr></p:sp>'
        )
    )


def only_layouts(*names: str) -> Callable[[Any], None]:
    """Keeps no other layout."""

    def change(deck: Any) -> None:
        for slide in list(deck.slides._sldIdLst):
            deck.part.drop_rel(slide.rId)
            deck.slides._sldIdLst.remove(slide)
        for layout in list(deck.slide_layouts):
            if layout.name not in names:
                deck.slide_layouts.remove(layout)

    return change


def without_places(*kinds: str) -> Callable[[Any], None]:
    """Takes places of these kinds off every layout."""

    def change(deck: Any) -> None:
        for layout in deck.slide_layouts:
            for place in list(layout.placeholders):
                if place.element.find(".//{*}ph").get("type") in kinds:
                    place.element.getparent().remove(place.element)

    return change


def without_view(deck: Any) -> None:
    """A deck as some programs write it, without the part that says how it opens."""
    for own, rel in list(deck.part.rels.items()):
        if rel.reltype.endswith("/viewProps"):
            deck.part.rels.pop(own)


def repacked(data: bytes, change: Callable[[str, bytes], bytes | None]) -> bytes:
    """The package with each part changed; a part that becomes None is left out."""
    memory = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(memory, "w") as new:
        for name in old.namelist():
            part = change(name, old.read(name))
            if part is not None:
                new.writestr(name, part)
    return memory.getvalue()
