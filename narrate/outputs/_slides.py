"""Slides and their notes, each part's XML written in one go.

Calls into an object model for every shape cost 20 to 40 times as much and grow faster than the
deck; a page is a list of marks already placed, so its XML is simply said.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count

from narrate.lesson.lesson import Beat, Timeline
from narrate.lesson.marks import PAGE_WIDTH, Build, Group, Page, Text
from narrate.outputs._shapes import Shape, attribute, group, text, text_body, text_frame
from narrate.outputs._sound import Sound, sound_picture
from narrate.outputs._timing import Entrance, timing

NAMESPACES = (
    'xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"'
    ' xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"'
    ' xmlns:p="http://schemas.openxmlformats.org/presentationml/2006/main"'
)
DECLARATION = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'

TREE_START = (
    '<p:spTree><p:nvGrpSpPr><p:cNvPr id="1" name=""/><p:cNvGrpSpPr/><p:nvPr/></p:nvGrpSpPr>'
    '<p:grpSpPr><a:xfrm><a:off x="0" y="0"/><a:ext cx="0" cy="0"/><a:chOff x="0" y="0"/>'
    '<a:chExt cx="0" cy="0"/></a:xfrm></p:grpSpPr>'
)
_KEEP_MAP = "<p:clrMapOvr><a:masterClrMapping/></p:clrMapOvr>"

OWN_PLACE = "12"
"""The idx of the slide number in our own layout."""

IN_ARIAL = '<a:latin typeface="Arial"/>'
WIDER, TITLE_EDGE = 140, 1_800
"""How wide a title may be in another font, per cent of Arial; a longer one stays in Arial. And the
edge of the page that it keeps clear."""

PAUSE_MS = 200
"""Between the builds of one beat, so that the eye takes them one by one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Passing:
    """What is seen for a while only, from `start` to `end`: a caption."""

    group: Group
    start: int
    end: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Clock:
    """When things come on a slide that runs by itself, in ms from its start.

    `starts` has the start of each beat; the slide goes at `end`, and not before its `sound` ends.
    """

    starts: Mapping[str, int]
    end: int
    passing: tuple[Passing, ...] = ()
    sound: Sound | None = None


def slide(
    page: Page,
    number: int,
    language: str,
    *,
    clock: Clock | None = None,
    place: str | None = OWN_PLACE,
    titles_differ: bool = False,
) -> str:
    """The slide part of `page`, the `number`th of its deck; `language` as in `en-US`.

    With a `clock` the slide runs by itself. `place` is the idx of the layout's place for the slide
    number, None where it has none. `titles_differ` where titles are in a font that may be wider.
    """
    ids = count(2)
    title = _title(page.title, page.heading, next(ids), language, roomy=titles_differ)
    numbered = _number(number, next(ids), language, place)
    base = "".join(group(g, ids, language).xml for g in page.base)
    built = [group(build.group, ids, language) for build in page.builds]
    passing = [group(p.group, ids, language) for p in clock.passing] if clock else []
    heard = _heard(clock.sound, next(ids)) if clock and clock.sound else None
    # The order of the tree is the order in which a screen reader goes, so the number comes last.
    shown = "".join(s.xml for s in (*built, *passing, *([heard] if heard else ())))
    tree = f"{TREE_START}{title}{base}{shown}{numbered}</p:spTree>"
    if clock:
        played = played_with(clock, by_clock(page.builds, built, clock), passing, heard)
        moves = f"{_turn(clock)}{timing(played)}"
    else:
        moves = timing(by_hand(page.builds, built))
    return f"{DECLARATION}<p:sld {NAMESPACES}><p:cSld>{tree}</p:cSld>{_KEEP_MAP}{moves}</p:sld>"


def by_hand(builds: Sequence[Build], shapes: Sequence[Shape]) -> list[Entrance]:
    """Entrances for a teacher who clicks: one click a beat, its later builds follow.

    A list that is said number by number grows as slowly.
    """
    entrances, beat = [], None
    for build, shape in zip(builds, shapes, strict=True):
        first = build.beat != beat
        beat = build.beat
        entrances.append(
            Entrance(
                shape=shape.id,
                effect=build.effect,
                trigger="click" if first else "after",
                delay=0 if first else PAUSE_MS,
                build=shape.build,
                times=build.steps,
            )
        )
    return entrances


def by_clock(builds: Sequence[Build], shapes: Sequence[Shape], clock: Clock) -> list[Entrance]:
    """Entrances that run by themselves: all in one group, each when its beat starts."""
    return [
        Entrance(
            shape=shape.id,
            effect=build.effect,
            trigger="with" if place else "after",
            delay=clock.starts[build.beat],
            build=shape.build,
        )
        for place, (build, shape) in enumerate(zip(builds, shapes, strict=True))
    ]


def played_with(
    clock: Clock, entrances: Sequence[Entrance], passing: Sequence[Shape], heard: Shape | None
) -> list[Entrance]:
    """The entrances, with the sound before them and captions that come and go among them."""
    captions: list[Entrance] = []
    for one, shape in zip(clock.passing, passing, strict=True):
        comes = Entrance(shape=shape.id, effect="appear", trigger="with", delay=one.start)
        captions += [comes, replace(comes, effect="leave", delay=one.end)]
    found = sorted((*entrances, *captions), key=lambda e: e.delay)
    if heard and clock.sound:
        playing = Entrance(shape=heard.id, effect="play", trigger="with", times=clock.sound.length)
        found.insert(0, playing)
    return [replace(e, trigger="with" if place else "after") for place, e in enumerate(found)]


def _heard(sound: Sound, own: int) -> Shape:
    return Shape(own, sound_picture(sound, own, "The sound of this slide"), None)


def _turn(clock: Clock) -> str:
    """The slide changes by itself so many ms after it has come, and at no click.

    LibreOffice 7.4 passes over the time where no kind of change is named, so a plain cut is.
    """
    end = max(clock.end, clock.sound.length if clock.sound else 0)
    return f'<p:transition spd="med" advClick="0" advTm="{end}"><p:cut/></p:transition>'


def notes(beats: Sequence[Beat], timeline: Timeline, language: str) -> bytes:
    """The notes part of a slide: each beat's start time, then what is said, word for word."""
    lines: list[str] = []
    for beat in beats:
        lines += [minutes(timeline.beats[beat.id].start), *([beat.say] if beat.say else [])]
    run = f'<a:rPr lang="{language}" dirty="0"/>'
    said = "".join(f"<a:p><a:r>{run}<a:t>{text(line)}</a:t></a:r></a:p>" for line in lines)
    return (
        f"{DECLARATION}<p:notes {NAMESPACES}><p:cSld>{TREE_START}"
        '<p:sp><p:nvSpPr><p:cNvPr id="2" name="Slide picture"/>'
        '<p:cNvSpPr><a:spLocks noGrp="1" noRot="1" noChangeAspect="1"/></p:cNvSpPr>'
        '<p:nvPr><p:ph type="sldImg"/></p:nvPr></p:nvSpPr><p:spPr/></p:sp>'
        '<p:sp><p:nvSpPr><p:cNvPr id="3" name="Notes"/>'
        '<p:cNvSpPr><a:spLocks noGrp="1"/></p:cNvSpPr>'
        '<p:nvPr><p:ph type="body" idx="1"/></p:nvPr></p:nvSpPr><p:spPr/>'
        f"<p:txBody><a:bodyPr/><a:lstStyle/>{said or '<a:p/>'}</p:txBody></p:sp>"
        f"</p:spTree></p:cSld>{_KEEP_MAP}</p:notes>"
    ).encode()


def minutes(time: int) -> str:
    """A time in ms as m:ss, the second that has begun."""
    whole, seconds = divmod(time // 1000, 60)
    return f"{whole}:{seconds:02}"


def _title(title: str, heading: Text, own: int, language: str, *, roomy: bool) -> str:
    drawn = " ".join(heading.lines)
    described = f' descr="{attribute(title)}"' if title != drawn else ""
    body = text_body(heading, language)
    if roomy:
        room = PAGE_WIDTH - TITLE_EDGE - heading.x
        if heading.width * WIDER // 100 > room:
            body = body.replace("</a:solidFill>", f"</a:solidFill>{IN_ARIAL}")
        heading = replace(heading, width=min(room, heading.width * WIDER // 100))
    return (
        f'<p:sp><p:nvSpPr><p:cNvPr id="{own}" name="Title"{described}/>'
        '<p:cNvSpPr><a:spLocks noGrp="1"/></p:cNvSpPr>'
        f'<p:nvPr><p:ph type="title"/></p:nvPr></p:nvSpPr><p:spPr>{text_frame(heading)}</p:spPr>'
        f"{body}</p:sp>"
    )


def _number(number: int, own: int, language: str, place: str | None) -> str:
    """The slide's number: in the layout's place for it, or else, small, at the lower right."""
    if place is None:
        mark = Text(
            x=86_400, y=50_000, width=7_200, height=2_200, lines=("",), size=1_800, leading=2_200
        )
        box = '<a:prstGeom prst="rect"><a:avLst/></a:prstGeom><a:noFill/>'
        where = f"<p:nvPr/></p:nvSpPr><p:spPr>{text_frame(mark)}{box}</p:spPr>"
        named, locks = f' descr="slide {number}"', '<p:cNvSpPr txBox="1"/>'
    else:
        where = (
            f'<p:nvPr><p:ph type="sldNum" sz="quarter" idx="{place}"/></p:nvPr></p:nvSpPr><p:spPr/>'
        )
        named, locks = "", '<p:cNvSpPr><a:spLocks noGrp="1"/></p:cNvSpPr>'
    return (
        f'<p:sp><p:nvSpPr><p:cNvPr id="{own}" name="Slide number"{named}/>{locks}{where}'
        "<p:txBody><a:bodyPr/><a:lstStyle/>"
        '<a:p><a:fld id="{6E1C0A4B-5D0F-4C63-9B1A-2F4F0C9D7A11}" type="slidenum">'
        f'<a:rPr lang="{language}" dirty="0"/><a:t>{number}</a:t></a:fld></a:p></p:txBody></p:sp>'
    )
