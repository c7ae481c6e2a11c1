"""A slide as a slide show sees it: its shapes, and the timing tree as steps, groups and effects.

Read back from the bytes that were written, for the lint. Shapes are found by pattern, many times
as fast as parsing them; a shape written in another form is counted and reported, never passed over.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import Any, NamedTuple

from lxml import etree

P = "{http://schemas.openxmlformats.org/presentationml/2006/main}"

_CTN, _PAR, _CHILDREN, _CONDITIONS = (
    P + name for name in ("cTn", "par", "childTnLst", "stCondLst")
)
_SPTGT, _SET, _ANIM, _VALUE, _CMD = (
    P + name for name in ("spTgt", "set", "animEffect", "strVal", "cmd")
)

# All begin with `p:`, so that a search leaps from one to the next over all that is drawn.
_SHAPE = re.compile(
    r'p:(?:nv(\w+)Pr><p:cNvPr id="(\d+)" name="([^"]*)"(?: descr="([^"]*)")?'
    r'(?:/>|><a:hlinkClick r:id="" action="ppaction://media"/></p:cNvPr>)'
    r'(?:<p:cNvSpPr><a:spLocks [^>]*/></p:cNvSpPr><p:nvPr>(<p:ph type="\w+"))?'
    r"|(?<=</p:)(grpSp)>|grpSp>)"
)
_TIMING, _TIMING_END = "<p:timing>", "</p:timing>"


class Shape(NamedTuple):
    """A shape: `kind` as in `p:nvSpPr`; `placeholder` its kind, if any; `depth` in groups."""

    kind: str
    id: str
    name: str
    alt: str
    placeholder: str
    depth: int


class Played(NamedTuple):
    """An effect. `values` are what its p:set elements set, None where one sets nothing; `commands`
    what it has its shape do."""

    id: str
    preset: tuple[str | None, str | None, str | None]
    node: str | None
    group: str | None
    delay: int
    length: int
    targets: frozenset[str]
    filters: tuple[str | None, ...]
    values: tuple[str | None, ...]
    commands: tuple[str | None, ...] = ()


class Together(NamedTuple):
    """Effects of one group, `delay` ms into their step."""

    id: str
    delay: int
    effects: tuple[Played, ...]


class Step(NamedTuple):
    """What one click plays. `conditions` are (delay, event) pairs."""

    id: str
    conditions: tuple[tuple[str | None, str | None], ...]
    groups: tuple[Together, ...]


class Slide:
    """A slide read once for all checks, each part when it is first asked for."""

    def __init__(self, xml: str) -> None:
        self.xml = xml

    @cached_property
    def timing(self) -> str:
        """The p:timing element as written, "" where there is none."""
        start = self.xml.find(_TIMING)
        end = self.xml.rfind(_TIMING_END) + len(_TIMING_END)
        return self.xml[start:end] if start >= 0 else ""

    @cached_property
    def tree(self) -> Any:
        """The p:timing element read, or None. Raises lxml's XMLSyntaxError when it is no XML."""
        wrapped = f'<p:x xmlns:p="{P[1:-1]}">{self.timing}</p:x>'
        return etree.fromstring(wrapped)[0] if self.timing else None

    @cached_property
    def shapes(self) -> list[Shape]:
        """Every shape in reading order, those inside groups too."""
        return list(_shapes(self.xml.partition(_TIMING)[0]))

    @cached_property
    def kinds(self) -> Mapping[str, str]:
        """Each shape's kind by its id."""
        return {shape.id: shape.kind for shape in self.shapes}

    @cached_property
    def nodes(self) -> list[Any]:
        """Every cTn of the timing tree."""
        return [] if self.tree is None else list(self.tree.iter(_CTN))

    @cached_property
    def main(self) -> Any:
        """The p:seq of the main sequence where programs look for it, or None."""
        path = "/".join(P + n for n in ("tnLst", "par", "cTn", "childTnLst", "seq"))
        return None if self.tree is None else self.tree.find(path)

    @cached_property
    def steps(self) -> list[Step]:
        """The steps of the main sequence."""
        return [] if self.main is None else [_step(node) for node in _inner(self.main[0])]

    @cached_property
    def effects(self) -> list[Played]:
        """Every effect in order."""
        return [e for step in self.steps for group in step.groups for e in group.effects]

    def paragraphs(self, shape: str) -> int:
        """How many paragraphs a shape's text has."""
        start = self.xml.find(f'<p:cNvPr id="{shape}"')
        return len(re.findall("<a:p[ >]", self.xml[start : self.xml.find("</p:sp>", start)]))


def _shapes(xml: str) -> Iterator[Shape]:
    depth = 0
    for kind, own, name, alt, placeholder, close in _SHAPE.findall(xml):
        if not kind:
            depth += -1 if close else 1
        else:
            yield Shape(kind, own, name, alt, placeholder, depth - (kind == "GrpSp"))


def _inner(node: Any) -> list[Any]:
    """The cTn of each p:par inside a cTn."""
    for part in node:
        if part.tag == _CHILDREN:
            return [par[0] for par in part if par.tag == _PAR]
    return []


def _step(node: Any) -> Step:
    return Step(
        id=node.get("id", ""),
        conditions=tuple(_conditions(node)),
        groups=tuple(_group(inner) for inner in _inner(node)),
    )


def _group(node: Any) -> Together:
    effects = tuple(_effect(inner) for inner in _inner(node))
    return Together(id=node.get("id", ""), delay=_delay(node), effects=effects)


def _effect(node: Any) -> Played:
    parts = list(node.iter(_SPTGT, _SET, _ANIM, _CTN, _CMD))
    lengths = [part.get("dur", "") for part in parts if part.tag == _CTN]
    return Played(
        id=node.get("id", ""),
        preset=(node.get("presetClass"), node.get("presetID"), node.get("presetSubtype")),
        node=node.get("nodeType"),
        group=node.get("grpId"),
        delay=_delay(node),
        length=max((int(length) for length in lengths if length.isdigit()), default=0),
        targets=frozenset(part.get("spid") for part in parts if part.tag == _SPTGT),
        filters=tuple(part.get("filter") for part in parts if part.tag == _ANIM),
        values=tuple(_value(part) for part in parts if part.tag == _SET),
        commands=tuple(part.get("cmd") for part in parts if part.tag == _CMD),
    )


def _value(setting: Any) -> str | None:
    for value in setting.iter(_VALUE):
        found: str | None = value.get("val")
        return found
    return None


def _conditions(node: Any) -> Iterator[tuple[str | None, str | None]]:
    for part in node:
        if part.tag == _CONDITIONS:
            yield from ((condition.get("delay"), condition.get("evt")) for condition in part)


def _delay(node: Any) -> int:
    """The first delay of a node in ms; -1 where it has none that is a number."""
    delay, _ = next(_conditions(node), (None, None))
    return int(delay) if delay and delay.isdigit() else -1
