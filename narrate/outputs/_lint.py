"""Our own lint of a slide: faults that validators and readers let pass and a slide show does not.

Each check takes a slide and yields what is wrong; two tables hold them. The structure they hold a
slide to is that of ECMA-376 Part 1, 19.5 (Animation), as programs write it.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from typing import Any

from lxml import etree

from narrate.outputs._form import in_form
from narrate.outputs._lint_running import PLAYED_CHECKS, RUNNING_CHECKS
from narrate.outputs._played import P, Played, Slide, Step, Together
from narrate.outputs._timing import CLASSES, PRESETS

P14 = "{http://schemas.microsoft.com/office/powerpoint/2010/main}"
SECTIONS_URI = "{521415D9-36F7-43E2-AB2F-B90AF26B5E84}"

_KNOWN = {
    ("entr", str(preset), str(subtype)): filter_ for preset, subtype, filter_ in PRESETS.values()
} | {(class_, "1", "0"): "" for class_ in CLASSES.values()}
_SETS: dict[str | None, tuple[str, ...]] = {"exit": ("hidden",), "mediacall": ()}
"""What an effect of a class sets its shape to; an entrance sets it visible."""
_FILTERS = {filter_ for filter_ in _KNOWN.values() if filter_}
_NODES = {"clickEffect", "withEffect", "afterEffect"}
_ORDER = ("cSld", "clrMapOvr", "transition", "timing", "extLst")
_CHILD = re.compile("</p:(cSld|clrMapOvr|transition|timing)>")
_NO_LANGUAGE = re.compile("<a:r(?:Pr(?! lang=)[^>]*>|><a:t>)")


def lint(xml: str) -> list[str]:
    """What is wrong with a slide part; empty when nothing is."""
    slide = Slide(xml)
    checks = SHAPE_CHECKS
    if slide.timing and not in_form(slide.timing, slide.kinds):
        checks += TIMING_CHECKS
    return [fault for check in checks for fault in check(slide)]


def _children_in_order(slide: Slide) -> Iterator[str]:
    names = _CHILD.findall(slide.xml)
    if names != [name for name in _ORDER if name in names]:
        yield f"the children of p:sld stand as {names}, not in the order {list(_ORDER)}"


def _shapes_told_apart(slide: Slide) -> Iterator[str]:
    yield from _twice("shape id", [shape.id for shape in slide.shapes])
    yield from _twice("shape name", [shape.name for shape in slide.shapes])
    written = slide.xml.count("<p:cNvPr ")
    if written != len(slide.shapes):
        yield f"{written - len(slide.shapes)} shapes are written in a form that was not read"


def _twice(what: str, values: Iterable[str]) -> Iterator[str]:
    counted = Counter(values)
    yield from (f"{what} {value!r} stands twice" for value, n in counted.items() if n > 1)


def _shapes_described(slide: Slide) -> Iterator[str]:
    for shape in slide.shapes[1:]:
        if shape.depth == 0 and not shape.alt and not shape.placeholder:
            yield f"{shape.name!r} has no description for those who cannot see it"
    titles = sum('"title"' in shape.placeholder for shape in slide.shapes)
    if titles != 1:
        yield f"there are {titles} title placeholders, not one"


def _runs_have_language(slide: Slide) -> Iterator[str]:
    for found in _NO_LANGUAGE.finditer(slide.xml):
        yield f"a run has no language: {slide.xml[found.start() : found.end() + 80]}"


def _tree_is_where_programs_look(slide: Slide) -> Iterator[str]:
    if slide.tree is None:
        return
    kinds = [node.get("nodeType") for node in slide.nodes[:2]]
    if slide.main is None or kinds != ["tmRoot", "mainSeq"]:
        yield "the timing tree has no main sequence right under its root"
    if slide.main is not None and not slide.effects:
        yield "the main sequence has no effects"


def _goes_back_and_on(slide: Slide) -> Iterator[str]:
    if slide.main is None:
        return
    for name, event in (("prevCondLst", "onPrev"), ("nextCondLst", "onNext")):
        events = [c.get("evt") for lists in slide.main.iterchildren(P + name) for c in lists]
        if events != [event]:
            yield f"the main sequence has no p:{name} with {event}"


def _times_told_apart(slide: Slide) -> Iterator[str]:
    ids = [node.get("id") for node in slide.nodes]
    yield from _twice("cTn id", (own for own in ids if own))
    if None in ids:
        yield "a cTn has no id"
    for reference in () if slide.tree is None else slide.tree.iter(P + "tn"):
        if reference.get("val") not in ids:
            yield f"p:tn names the time node {reference.get('val')}, which is not there"


def _steps_wait(slide: Slide) -> Iterator[str]:
    for step in slide.steps:
        delays = [delay for delay, _ in step.conditions]
        if delays[:1] != ["indefinite"]:
            yield f"step {step.id} has the delay {delays[:1]}, not 'indefinite'"


def _groups_follow(slide: Slide) -> Iterator[str]:
    """Each group of a step starts when the one before has ended."""
    for step in slide.steps:
        end = 0
        for group in step.groups:
            if group.delay != end:
                yield f"group {group.id} starts at {group.delay} ms, not at {end} ms"
            end += max((effect.delay + effect.length for effect in group.effects), default=0)


def _triggers(slide: Slide) -> Iterator[str]:
    for step in slide.steps:
        for place, group in enumerate(step.groups):
            yield from _group_triggers(group, ["afterEffect"] if place else _openings(step))


def _openings(step: Step) -> list[str]:
    """What may open a step: a click, unless it begins by itself with the main sequence."""
    if any(event == "onBegin" for _, event in step.conditions):
        return ["afterEffect", "withEffect"]
    return ["clickEffect"]


def _group_triggers(group: Together, openings: list[str]) -> Iterator[str]:
    for place, effect in enumerate(group.effects):
        expected = ["withEffect"] if place else openings
        if effect.node not in _NODES:
            yield f"effect {effect.id} has the unknown node type {effect.node!r}"
        elif effect.node not in expected:
            yield f"effect {effect.id} is a {effect.node} where {' or '.join(expected)} belongs"


def _effects_known(slide: Slide) -> Iterator[str]:
    for effect in slide.effects:
        filter_ = _KNOWN.get(effect.preset)  # type: ignore[arg-type]  # None is in no key
        if filter_ is None:
            yield f"effect {effect.id} has the unknown preset {effect.preset}"
        elif effect.filters != ((filter_,) if filter_ else ()):
            yield f"effect {effect.id} is preset {effect.preset} but filters by {effect.filters}"
        for unknown in set(effect.filters) - _FILTERS:
            yield f"effect {effect.id} has the unknown filter {unknown!r}"


def _effects_show(slide: Slide) -> Iterator[str]:
    """Each entrance sets its shape visible, each exit hidden, with a value to set it to."""
    for effect in slide.effects:
        wanted = _SETS.get(effect.preset[0], ("visible",))
        if None in effect.values:
            yield f"effect {effect.id} has a p:set without its p:to"
        elif effect.values != wanted:
            yield f"effect {effect.id} does not set its shape {', '.join(wanted) or 'nothing'}"


def _targets_there(slide: Slide) -> Iterator[str]:
    for effect in slide.effects:
        if len(effect.targets) != 1:
            yield f"effect {effect.id} aims at {sorted(effect.targets)}, not at one shape"
    for target in () if slide.tree is None else slide.tree.iter(P + "spTgt"):
        shape = target.get("spid")
        if shape not in slide.kinds:
            yield f"an effect aims at shape {shape}, which is not there"
        elif len(target):
            yield from _paragraphs_there(target, slide.paragraphs(shape))


def _paragraphs_there(target: Any, count: int) -> Iterator[str]:
    """Paragraph ranges count from 0 and lie inside the shape's text."""
    for part in target.iter("{*}pRg"):
        start, end = int(part.get("st")), int(part.get("end"))
        if not 0 <= start <= end < count:
            yield f"an effect aims at paragraphs {start} to {end} of {count}"


def _builds_listed(slide: Slide) -> Iterator[str]:
    """A p:sp that comes on has a grpId and one line in the build list; nothing else has either."""
    animated = {(t, effect.group) for effect in slide.effects for t in effect.targets}
    for effect in slide.effects:
        for target in effect.targets & slide.kinds.keys():
            yield from _group_id_fits(effect, target, slide.kinds[target])
    yield from _list_agrees(slide, {one for one in animated if slide.kinds.get(one[0]) == "Sp"})


def _group_id_fits(effect: Played, target: str, kind: str) -> Iterator[str]:
    if kind == "Sp" and effect.group is None:
        yield f"effect {effect.id} on shape {target} has no grpId"
    elif kind != "Sp" and effect.group is not None:
        yield f"effect {effect.id} has a grpId, but shape {target} is no p:sp"


def _list_agrees(slide: Slide, animated: set[tuple[str, str | None]]) -> Iterator[str]:
    lines = [] if slide.tree is None else list(slide.tree.iter(P + "bldP"))
    listed = Counter((line.get("spid"), line.get("grpId")) for line in lines)
    for (spid, group), count in listed.items():
        if count > 1:
            yield f"shape {spid} stands twice in the build list"
        if spid not in slide.kinds:
            yield f"the build list names shape {spid}, which is not there"
        elif slide.kinds[spid] != "Sp":
            yield f"the build list names shape {spid}, which is no p:sp"
        elif (spid, group) not in animated:
            yield f"the build list names shape {spid} with grpId {group}, which no effect has"
    for spid, group in sorted(animated - listed.keys(), key=str):
        if group is not None:
            yield f"shape {spid} with grpId {group} is missing in the build list"


Check = Callable[[Slide], Iterator[str]]

SHAPE_CHECKS: tuple[Check, ...] = (
    _children_in_order,
    _shapes_told_apart,
    _shapes_described,
    _runs_have_language,
    *RUNNING_CHECKS,
)

TIMING_CHECKS: tuple[Check, ...] = (
    _tree_is_where_programs_look,
    _goes_back_and_on,
    _times_told_apart,
    _steps_wait,
    _groups_follow,
    _triggers,
    _effects_known,
    _effects_show,
    _targets_there,
    _builds_listed,
    *PLAYED_CHECKS,
)


def lint_sections(xml: bytes) -> list[str]:
    """What is wrong with the lists of a presentation part; empty when nothing is."""
    root = etree.fromstring(xml)
    slides = [s.get("id", "") for s in root.iterfind(f"{P}sldIdLst/{P}sldId")]
    sections = root.find(f"{P}extLst/{P}ext/{P14}sectionLst")
    faults = [f"slide id {i} is no number from 256 on" for i in slides if not _slide_id_fits(i)]
    faults += _twice("slide id", slides)
    if root.find(f"{P}notesMasterIdLst") is None:
        faults.append("the notes master is not listed")
    if sections is not None:
        faults += _sections_agree(slides, sections)
    elif slides:
        faults.append("there is no list of sections")
    return faults


def _slide_id_fits(own: str) -> bool:
    """ST_SlideId: at least 256, below 2,147,483,648."""
    return own.isdigit() and 256 <= int(own) < 2_147_483_648


def _sections_agree(slides: list[str], sections: Any) -> Iterator[str]:
    """Every slide stands in one section, in order, in an extension that programs know."""
    uri = sections.getparent().get("uri")
    if uri != SECTIONS_URI:
        yield f"the sections stand under {uri}, not {SECTIONS_URI}"
    listed = [slide.get("id") for slide in sections.iter(f"{P14}sldId")]
    if listed != slides:
        yield f"the sections list the slides {listed}, the deck has {slides}"
    yield from _twice("section id", (s.get("id") for s in sections.iter(f"{P14}section")))
