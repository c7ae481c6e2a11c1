"""How our marks look on a teacher's template: her colours and font where they serve.

Contrast is that of WCAG 2.2: 4.5 to 1 for words, 3 to 1 for lines. A colour that is too faint on
her background goes as far towards the colour of her text as it must, and no farther; a fill under
words goes towards the background.
"""

from __future__ import annotations

import colorsys
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from lxml import etree
from pptx.opc.constants import RELATIONSHIP_TYPE as RT
from pptx.oxml import parse_xml

from narrate.lesson.block import Area
from narrate.lesson.checking import CAPTIONS
from narrate.lesson.marks import PAGE_WIDTH, Colour
from narrate.lesson.palette import Palette, contrast
from narrate.outputs._lettering import Face, face
from narrate.outputs._shapes import EMU, SCHEME
from narrate.outputs._slides import IN_ARIAL, NAMESPACES

WORDS, LINES, SEEN = 4.5, 3.0, 1.15
"""Least contrast of words and lines (WCAG 2.2, 1.4.3 and 1.4.11); of a fill (no source)."""

OF_ARIALS_WIDTHS = frozenset(("Arial", "Arimo", "Helvetica", "Liberation Sans"))
"""Fonts whose letters are as wide as those that pages are measured in.

Arimo and Liberation Sans were drawn to be so; Arial was drawn to the widths of Helvetica (from
memory).
"""

PAGE = Area(2_400, 1_000, PAGE_WIDTH - 2 * 2_400, CAPTIONS - 600)
"""Where our marks stand, and a sheet of paper where her background is no plain colour."""

_A = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
_P = "{http://schemas.openxmlformats.org/presentationml/2006/main}"
_PRESET = {"white": "FFFFFF", "black": "000000"}
_STEP = 20

Changes = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What changes in a slide's XML for a template, and in which font; and remarks on it.

    `palette` has the colours that are seen in the end.
    """

    changes: Changes
    in_its_font: bool
    font: Face | None
    titles_differ: bool
    remarks: tuple[str, ...]
    palette: Palette


def look(name: str, layout: Any) -> Look:
    """The look of a layout. Puts a sheet of paper on it where our marks would be hard to see."""
    colours = _Colours(layout)
    ground = colours.ground()
    bare = ground is not None and next(_in_the_way(layout), None) is None
    remarks = []
    if not bare:
        ground = colours.slot("bg1")
        _lay_paper(layout)
        remarks.append(
            f"{name}: a sheet of its background colour lies under the pages, "
            f"for what “{layout.name}” has there would run into them"
        )
    assert ground is not None
    hers = {role: colours.slot(slot) for role, slot in SCHEME.items()}
    palette = serving(hers, ground)
    told, painted = _painted(name, hers, palette)
    titles, words = (_typeface(colours.theme, which) for which in ("majorFont", "minorFont"))
    hers_too = bool(words) and words not in OF_ARIALS_WIDTHS
    return Look(
        changes=(*painted, *(() if words else _IN_ARIAL)),
        in_its_font=hers_too,
        font=face(words),
        titles_differ=titles not in OF_ARIALS_WIDTHS,
        remarks=(*remarks, *told, *_on_the_font(name, words)),
        palette=palette,
    )


# -- the template's colours


class _Colours:
    """The colours of a layout's theme, by the names that slides use."""

    def __init__(self, layout: Any) -> None:
        self.layout, self.master = layout.element, layout.slide_master.element
        self.theme = etree.fromstring(layout.slide_master.part.part_related_by(RT.THEME).blob)
        self.map: Mapping[str, str] = self.master.find(f"{_P}clrMap").attrib
        if self.theme.find(f".//{_A}clrScheme") is None:
            raise ValueError("a theme without colours")

    def slot(self, name: str) -> str:
        """The hex of `tx1`, `bg1`, `accent1` ...; white or black where the theme has none."""
        place = self.map.get(name, name)
        found = self.theme.find(f".//{_A}clrScheme/{_A}{place}")
        value = None if found is None or not len(found) else _plain(found[0])
        return value or ("FFFFFF" if place.startswith("lt") else "000000")

    def ground(self) -> str | None:
        """The background, None where it is no plain colour."""
        for page in (self.layout, self.master):
            found = page.find(f"{_P}cSld/{_P}bg")
            if found is not None:
                return self._filled(found)
        return self.slot("bg1")

    def _filled(self, ground: Any) -> str | None:
        """Of a p:bg: its plain fill, or the theme's own that it refers to."""
        own = ground.find(f"{_P}bgPr/{_A}solidFill")
        if own is not None and len(own):
            return self._value(own[0])
        reference = ground.find(f"{_P}bgRef")
        if reference is None or not len(reference):
            return None
        fills = self.theme.find(f".//{_A}bgFillStyleLst")
        place = int(reference.get("idx", "0")) - 1001
        if fills is None or not 0 <= place < len(fills) or fills[place].tag != f"{_A}solidFill":
            return None
        inner = fills[place][0]
        plain = inner.get("val") == "phClr" and not len(inner)
        return self._value(reference[0]) if plain else None

    def _value(self, colour: Any) -> str | None:
        if colour.tag != f"{_A}schemeClr":
            base = _plain(colour)
        else:
            base = self.slot(colour.get("val", ""))
        return None if base is None else _turned(base, colour)


def _plain(colour: Any) -> str | None:
    kind = etree.QName(colour).localname
    if kind == "srgbClr":
        return str(colour.get("val")).upper()
    if kind == "sysClr":
        return str(colour.get("lastClr", "")).upper() or None
    return _PRESET.get(colour.get("val", "")) if kind == "prstClr" else None


def _turned(base: str, colour: Any) -> str | None:
    """The colour made lighter or darker as its children say; None where they say something else."""
    red, green, blue = (int(base[at : at + 2], 16) / 255 for at in (0, 2, 4))
    hue, light, full = colorsys.rgb_to_hls(red, green, blue)
    for change in colour:
        share = int(change.get("val", "0")) / 100_000
        match etree.QName(change).localname:
            case "lumMod":
                light *= share
            case "lumOff":
                light += share
            case _:
                return None
    parts = colorsys.hls_to_rgb(hue, min(1.0, max(0.0, light)), full)
    return "".join(f"{round(part * 255):02X}" for part in parts)


# -- what stands in the way


def _in_the_way(layout: Any) -> Iterator[Any]:
    """Drawings of the layout and its master where our marks will stand."""
    pages = [layout.element]
    if layout.element.get("showMasterSp", "1") not in ("0", "false"):
        pages.append(layout.slide_master.element)
    for page in pages:
        for shape in page.find(f"{_P}cSld/{_P}spTree"):
            if shape.find(f"*/{_P}nvPr/{_P}ph") is None and _stands(shape):
                yield shape


def _stands(shape: Any) -> bool:
    frame = shape.find(f"{_P}xfrm")
    frame = frame if frame is not None else shape.find(f"*/{_A}xfrm")
    if frame is None:
        return False
    off, ext = frame.find(f"{_A}off"), frame.find(f"{_A}ext")
    if off is None or ext is None:
        return False
    measures = (off.get("x"), off.get("y"), ext.get("cx"), ext.get("cy"))
    return Area(*(int(measure) // EMU for measure in measures)).meets(PAGE)


def _lay_paper(layout: Any) -> None:
    """A rectangle of the background colour, over what the layout has and under what slides have."""
    frame = (
        f'<a:off x="{PAGE.x * EMU}" y="{PAGE.y * EMU}"/>'
        f'<a:ext cx="{PAGE.width * EMU}" cy="{PAGE.height * EMU}"/>'
    )
    tree = layout.element.find(f"{_P}cSld/{_P}spTree")
    used = [int(own.get("id")) for own in tree.iter(f"{_P}cNvPr")]
    paper = (
        f'<p:sp {NAMESPACES}><p:nvSpPr><p:cNvPr id="{max(used, default=1) + 1}" name="Paper"/>'
        '<p:cNvSpPr/><p:nvPr userDrawn="1"/></p:nvSpPr><p:spPr>'
        f'<a:xfrm>{frame}</a:xfrm><a:prstGeom prst="rect"><a:avLst/></a:prstGeom>'
        '<a:solidFill><a:schemeClr val="bg1"/></a:solidFill><a:ln><a:noFill/></a:ln></p:spPr>'
        "</p:sp>"
    )
    last = tree.find(f"{_P}extLst")
    tree.insert(len(tree) if last is None else tree.index(last), parse_xml(paper))


# -- the colours of marks


@dataclass(frozen=True, slots=True)
class _Need:
    """What a colour is for: it goes towards `towards` until it serves."""

    towards: str
    serves: Callable[[str], bool]


def _painted(name: str, hers: Palette, ours: Palette) -> tuple[list[str], Changes]:
    changed = [role for role in SCHEME if ours[role] != hers[role]]
    told = [SCHEME[role] for role in changed if role != "paper"]
    remark = (
        f"{name}: on its background {ours['paper']} some colours of its theme are too faint, or "
        f"too strong under lines and words ({', '.join(told)}); the nearest that serve stand in"
    )
    pairs = tuple(
        (f'<a:schemeClr val="{SCHEME[role]}"/>', f'<a:srgbClr val="{ours[role]}"/>')
        for role in changed
    )
    return ([remark] if told else []), pairs


def serving(hers: Mapping[Colour, str], paper: str) -> dict[Colour, str]:
    """Her colours by what we use them for, each changed only as far as `paper` asks."""
    ink = _until(hers["ink"], _Need(_farthest(paper), lambda c: contrast(c, paper) >= WORDS))
    done: dict[Colour, str] = {"ink": ink, "paper": paper}
    panel = _until(hers["panel"], _Need(paper, lambda c: contrast(ink, c) >= WORDS))
    done["panel"] = panel
    for words in ("pen", "quiet"):
        need = _Need(ink, lambda c: min(contrast(c, paper), contrast(c, panel)) >= WORDS)
        done[words] = _until(hers[words], need)
    on_fills: dict[Colour, tuple[str, ...]] = {"first": (ink,), "taken": (ink, done["pen"])}
    for fill, lines in on_fills.items():
        seen = _until(hers[fill], _Need(ink, lambda c: contrast(c, paper) >= SEEN))
        stand_out = partial(_all_stand_out, lines)
        done[fill] = _until(seen, _Need(paper, stand_out))
    for line in ("second", "third"):
        done[line] = _until(hers[line], _Need(ink, lambda c: contrast(c, paper) >= LINES))
    return done


def _all_stand_out(lines: Sequence[str], fill: str) -> bool:
    return all(contrast(line, fill) >= LINES for line in lines)


def _farthest(paper: str) -> str:
    return max(("000000", "FFFFFF"), key=lambda colour: contrast(colour, paper))


def _until(colour: str, need: _Need) -> str:
    """The first mixture on the way that serves; the end of the way where none does."""
    ways = (_mixed(colour, need.towards, step) for step in range(_STEP + 1))
    return next((mixed for mixed in ways if need.serves(mixed)), need.towards)


def _mixed(colour: str, towards: str, step: int) -> str:
    pairs = ((int(c[at : at + 2], 16) for c in (colour, towards)) for at in (0, 2, 4))
    return "".join(f"{(a * (_STEP - step) + b * step) // _STEP:02X}" for a, b in pairs)


# -- the font


_IN_ARIAL: Changes = tuple(
    (f"</a:solidFill></a:{tag}>", f"</a:solidFill>{IN_ARIAL}</a:{tag}>")
    for tag in ("rPr", "endParaRPr")
)


def _on_the_font(name: str, words: str) -> Iterator[str]:
    if not words:
        yield f"{name}: its theme names no font for text; words are in Arial"
    elif words not in OF_ARIALS_WIDTHS and not face(words):
        yield (
            f"{name}: the widths of {words} are not known; each word has room for the widest of "
            "the fonts that are, so letters may stand close; look the slides through"
        )


def _typeface(theme: Any, which: str) -> str:
    found = theme.find(f".//{_A}{which}/{_A}latin")
    return found.get("typeface", "") if found is not None else ""
