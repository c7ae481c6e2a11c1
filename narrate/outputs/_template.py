"""What a deck starts from: the parts of a deck without slides, ours or a teacher's own.

python-pptx makes or reads the package; what is written on slides later asks only this value.
"""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from pptx import Presentation
from pptx.opc.constants import RELATIONSHIP_TYPE as RT
from pptx.oxml import parse_xml

from narrate.lesson.marks import PAGE_HEIGHT, PAGE_WIDTH
from narrate.lesson.palette import DARK, LIGHT, Palette
from narrate.outputs._lettering import Face, lettered
from narrate.outputs._shapes import EMU
from narrate.outputs._slides import OWN_PLACE
from narrate.outputs._theme import LAYOUT_PAGE, MASTER_PAGE, NOTES_PAGE, TEXT_STYLES, VIEW, theme

P = "http://schemas.openxmlformats.org/presentationml/2006/main"

_LAYOUT_TO_KEEP = "Title Only"


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """The parts of a deck without slides, by their names in the package.

    `layout` and `notes_master` are the parts that slides and notes rest on, `number` the idx of the
    layout's place for the slide number, None where it has none. `changes` are (old, new) pieces of
    a slide's XML where the template's own colours would not do, `below_title` where its font would
    not, outside the title, which comes first; `font` is the template's, where its widths are known.
    `titles_differ` where titles are in a font that may be wider than the one measured. `remarks`
    say so. `palette` has the colours that are seen, for what is drawn without an office program.
    """

    parts: Mapping[str, bytes]
    layout: str
    notes_master: str
    number: str | None = OWN_PLACE
    changes: tuple[tuple[str, str], ...] = ()
    below_title: tuple[tuple[str, str], ...] = ()
    font: Face | None = None
    titles_differ: bool = False
    remarks: tuple[str, ...] = ()
    palette: Palette = field(default_factory=lambda: LIGHT)

    def painted(self, slide: str) -> str:
        """A slide's XML as this template wants it."""
        for old, new in self.changes:
            slide = slide.replace(old, new)
        if not self.below_title and not self.font:
            return slide
        title, end, rest = slide.partition("</p:sp>")
        for old, new in self.below_title:
            rest = rest.replace(old, new)
        return f"{title}{end}{lettered(rest, self.font) if self.font else rest}"


@lru_cache(maxsize=2)
def own_template(*, dark: bool = False) -> Template:
    """An empty deck of our own look."""
    return _made(DARK if dark else LIGHT)


def _made(palette: Palette) -> Template:
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
    return Template(
        parts=parts, layout=name_of(layout), notes_master=name_of(notes), palette=palette
    )


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
