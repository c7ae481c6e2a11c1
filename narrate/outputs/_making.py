"""Our own template made by python-pptx, and what that has in common with reading a teacher's."""

from __future__ import annotations

import io
import zipfile
from typing import Any

from pptx import Presentation
from pptx.opc.constants import RELATIONSHIP_TYPE as RT
from pptx.oxml import parse_xml

from narrate.lesson.marks import PAGE_HEIGHT, PAGE_WIDTH
from narrate.lesson.palette import Palette
from narrate.outputs._shapes import EMU
from narrate.outputs._theme import LAYOUT_PAGE, MASTER_PAGE, NOTES_PAGE, TEXT_STYLES, VIEW, theme

P = "http://schemas.openxmlformats.org/presentationml/2006/main"

_LAYOUT_TO_KEEP = "Title Only"


def own_parts(palette: Palette) -> tuple[dict[str, bytes], str, str]:
    """The parts of an empty deck of our look; the names of its layout and its notes master."""
    deck: Any = Presentation()
    deck.slide_width, deck.slide_height = PAGE_WIDTH * EMU, PAGE_HEIGHT * EMU
    deck.element.find(f"{{{P}}}sldSz").attrib.pop("type", None)
    layout = _only_layout(deck)
    drop_slides(deck)
    master, notes = deck.slide_master, deck.notes_master
    _put(master.element, MASTER_PAGE, TEXT_STYLES)
    _put(layout.element, LAYOUT_PAGE)
    layout.element.set("preserve", "1")
    _put(notes.element, NOTES_PAGE)
    drop(deck.part, RT.PRINTER_SETTINGS)
    drop(deck.part.package, RT.THUMBNAIL)
    themes = [m.part.part_related_by(RT.THEME).partname.membername for m in (master, notes)]
    parts = saved(deck) | dict.fromkeys(themes, theme(palette)) | {"ppt/viewProps.xml": VIEW}
    return parts, name_of(layout), name_of(notes)


def _only_layout(deck: Any) -> Any:
    for layout in list(deck.slide_layouts):
        if layout.name != _LAYOUT_TO_KEEP:
            deck.slide_layouts.remove(layout)
    (kept,) = deck.slide_layouts
    kept.part.partname = type(kept.part.partname)("/ppt/slideLayouts/slideLayout1.xml")
    return kept


def _put(element: Any, *pieces: str) -> None:
    """Put each piece in the place of the child of the same name."""
    for piece in pieces:
        new = parse_xml(piece)
        element.replace(element.find(new.tag), new)


def name_of(page: Any) -> str:
    """The name in the package of a layout's or master's part."""
    return str(page.part.partname.membername)


def drop_slides(deck: Any) -> None:
    """Leave no slide, nor any list of slides."""
    drop(deck.part, RT.SLIDE)
    for name in ("sldIdLst", "custShowLst", "notesMasterIdLst", "modifyVerifier"):
        for found in deck.element.findall(f"{{{P}}}{name}"):
            deck.element.remove(found)


def drop(source: Any, *kinds: str) -> None:
    """Drop what the default template brings along and no deck needs."""
    rels = source.rels if hasattr(source, "rels") else source._rels
    for rid in [rid for rid, rel in rels.items() if rel.reltype in kinds]:
        rels.pop(rid)


def saved(deck: Any) -> dict[str, bytes]:
    """The parts of a deck by their names."""
    memory = io.BytesIO()
    deck.save(memory)
    with zipfile.ZipFile(memory) as package:
        return {name: package.read(name) for name in package.namelist()}
