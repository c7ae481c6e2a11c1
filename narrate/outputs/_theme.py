"""What every slide rests on: theme, slide master, layout and notes master, as XML.

The look lives here and in the palette, in the places where office programs expect it, so that
their own design tools work on the deck.
"""

from __future__ import annotations

from narrate.lesson.palette import Palette
from narrate.outputs._shapes import EMU, SCHEME
from narrate.outputs._slides import DECLARATION, NAMESPACES, OWN_PLACE, TREE_START

FONT = "Arial"
LAYOUT = "Page"

_PLACES = {"tx1": "dk1", "bg1": "lt1", "tx2": "dk2", "bg2": "lt2"}
"""The theme's own names for what a slide calls text and background."""


def theme(palette: Palette) -> bytes:
    """The theme part: colours of `palette`, one font family, plain fills and lines."""
    hexes = {SCHEME[colour]: value for colour, value in palette.items()}
    hexes |= {"accent6": palette["quiet"], "hlink": palette["pen"], "folHlink": palette["third"]}
    order = ("tx1", "bg1", "tx2", "bg2", *(f"accent{n}" for n in range(1, 7)), "hlink", "folHlink")
    colours = "".join(_theme_colour(_PLACES.get(name, name), hexes[name]) for name in order)
    latin = f'<a:latin typeface="{FONT}"/><a:ea typeface=""/><a:cs typeface=""/>'
    return (
        f'{DECLARATION}<a:theme xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"'
        f' name="Narrate"><a:themeElements><a:clrScheme name="Narrate">{colours}</a:clrScheme>'
        f'<a:fontScheme name="Narrate"><a:majorFont>{latin}</a:majorFont>'
        f"<a:minorFont>{latin}</a:minorFont></a:fontScheme>{_FORMATS}</a:themeElements>"
        "<a:objectDefaults/><a:extraClrSchemeLst/></a:theme>"
    ).encode()


def _theme_colour(name: str, value: str) -> str:
    return f'<a:{name}><a:srgbClr val="{value}"/></a:{name}>'


_PLAIN = '<a:solidFill><a:schemeClr val="phClr"/></a:solidFill>'
_FORMATS = (
    '<a:fmtScheme name="Narrate">'
    f"<a:fillStyleLst>{_PLAIN * 3}</a:fillStyleLst><a:lnStyleLst>"
    + "".join(f'<a:ln w="{w}">{_PLAIN}</a:ln>' for w in (9525, 19050, 28575))
    + "</a:lnStyleLst>"
    f"<a:effectStyleLst>{'<a:effectStyle><a:effectLst/></a:effectStyle>' * 3}</a:effectStyleLst>"
    f"<a:bgFillStyleLst>{_PLAIN * 3}</a:bgFillStyleLst></a:fmtScheme>"
)


def _xfrm(x: int, y: int, width: int, height: int) -> str:
    """A frame from hundredths of a point."""
    return (
        f'<a:xfrm><a:off x="{x * EMU}" y="{y * EMU}"/>'
        f'<a:ext cx="{width * EMU}" cy="{height * EMU}"/></a:xfrm>'
    )


def _placeholder(own: int, name: str, kind: str, frame: str, body: str, locks: str = "") -> str:
    geometry = '<a:prstGeom prst="rect"><a:avLst/></a:prstGeom>' if frame else ""
    return (
        f'<p:sp><p:nvSpPr><p:cNvPr id="{own}" name="{name}"/>'
        f'<p:cNvSpPr><a:spLocks noGrp="1"{locks}/></p:cNvSpPr>'
        f"<p:nvPr><p:ph {kind}/></p:nvPr></p:nvSpPr><p:spPr>{frame}{geometry}</p:spPr>{body}</p:sp>"
    )


def _prompt(words: str, body: str = "<a:bodyPr/>", style: str = "<a:lstStyle/>") -> str:
    return (
        f'<p:txBody>{body}{style}<a:p><a:r><a:rPr lang="en-US"/><a:t>{words}</a:t></a:r></a:p>'
        "</p:txBody>"
    )


_TIGHT = (
    '<a:bodyPr vert="horz" lIns="0" tIns="0" rIns="0" bIns="0" rtlCol="0" anchor="{}">'
    "<a:noAutofit/></a:bodyPr>"
)
_NUMBER_STYLE = (
    '<a:lstStyle><a:lvl1pPr algn="r"><a:defRPr sz="1800"><a:solidFill><a:schemeClr val="tx2"/>'
    "</a:solidFill></a:defRPr></a:lvl1pPr></a:lstStyle>"
)
_NUMBER = (
    '<p:txBody>{}{}<a:p><a:fld id="{{6E1C0A4B-5D0F-4C63-9B1A-2F4F0C9D7A11}}" type="slidenum">'
    '<a:rPr lang="en-US"/><a:t>‹#›</a:t></a:fld></a:p></p:txBody>'
)


def _background(colour: str) -> str:
    return f"<p:bg><p:bgPr><a:solidFill>{colour}</a:solidFill><a:effectLst/></p:bgPr></p:bg>"


def _whole(tag: str, inside: str) -> str:
    return f"<p:{tag} {NAMESPACES}>{inside}</p:{tag}>"


_PROMPT = "Click to edit the title"
_BODY_PROMPT = "Click to edit the text"

# The number stands in the corner of the fifth that pages leave clear for captions.
MASTER_PAGE = _whole(
    "cSld",
    _background('<a:schemeClr val="bg1"/>')
    + TREE_START
    + _placeholder(
        2,
        "Title",
        'type="title"',
        _xfrm(3600, 2400, 88800, 4400),
        _prompt(_PROMPT, _TIGHT.format("t")),
    )
    + _placeholder(
        3,
        "Text",
        'type="body" idx="1"',
        _xfrm(3600, 8400, 88800, 34000),
        _prompt(_BODY_PROMPT, _TIGHT.format("t")),
    )
    + _placeholder(
        4,
        "Slide number",
        'type="sldNum" sz="quarter" idx="4"',
        _xfrm(86400, 50000, 7200, 2400),
        _NUMBER.format(_TIGHT.format("ctr"), _NUMBER_STYLE),
    )
    + "</p:spTree>",
)

LAYOUT_PAGE = _whole(
    "cSld",
    TREE_START
    + _placeholder(2, "Title", 'type="title"', "", _prompt(_PROMPT))
    + _placeholder(
        3,
        "Slide number",
        f'type="sldNum" sz="quarter" idx="{OWN_PLACE}"',
        "",
        _NUMBER.format("<a:bodyPr/>", "<a:lstStyle/>"),
    )
    + "</p:spTree>",
).replace("<p:cSld ", f'<p:cSld name="{LAYOUT}" ', 1)


def _level(number: int, size: int, font: str) -> str:
    return (
        f'<a:lvl{number}pPr marL="0" indent="0" algn="l" defTabSz="914400" rtl="0" eaLnBrk="1"'
        ' latinLnBrk="0" hangingPunct="1"><a:spcBef><a:spcPts val="0"/></a:spcBef><a:buNone/>'
        f'<a:defRPr sz="{size}" kern="0"><a:solidFill><a:schemeClr val="tx1"/></a:solidFill>'
        f'<a:latin typeface="+{font}-lt"/><a:ea typeface="+{font}-ea"/>'
        f'<a:cs typeface="+{font}-cs"/></a:defRPr></a:lvl{number}pPr>'
    )


TEXT_STYLES = _whole(
    "txStyles",
    f"<p:titleStyle>{_level(1, 3200, 'mj')}</p:titleStyle>"
    f"<p:bodyStyle>{''.join(_level(n, 2800, 'mn') for n in range(1, 10))}</p:bodyStyle>"
    f"<p:otherStyle>{''.join(_level(n, 1800, 'mn') for n in range(1, 10))}</p:otherStyle>",
)

VIEW = (
    f'{DECLARATION}<p:viewPr {NAMESPACES}><p:normalViewPr><p:restoredLeft sz="15620"/>'
    '<p:restoredTop sz="75000"/></p:normalViewPr><p:gridSpacing cx="76200" cy="76200"/></p:viewPr>'
).encode()
"""How the deck opens: slides above, room for the notes below them."""

NOTES_PAGE = _whole(
    "cSld",
    _background('<a:srgbClr val="FFFFFF"/>')
    + TREE_START
    + _placeholder(
        2,
        "Slide picture",
        'type="sldImg" idx="2"',
        _xfrm(5400, 5400, 43200, 24300),
        "",
        ' noRot="1" noChangeAspect="1"',
    )
    + _placeholder(
        3,
        "Notes",
        'type="body" sz="quarter" idx="3"',
        _xfrm(5400, 32400, 43200, 34200),
        _prompt(_BODY_PROMPT),
    )
    + "</p:spTree>",
)
