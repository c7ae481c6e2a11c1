"""Our own lint of slides that run by themselves: their sounds, and captions that come and go.

What it holds them to is ECMA-376 Part 1, 19.5.4 (audio), 19.5.17 (cmd), 19.3.1.50 (transition) and
[MS-PPTX] 2.2.4.2 (media), as programs write them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrate.outputs._played import P, Played, Slide
from narrate.outputs._timing import PLAY

_PICTURE = re.compile(r'<p:pic><p:nvPicPr><p:cNvPr id="(\d+)".*?</p:pic>', re.DOTALL)
_LINKED = re.compile(r'<a:audioFile r:link="rIdSound(\w+)"/>')
_HELD = re.compile(r'<p14:media [^>]*r:embed="rIdMedia(\w+)"/>')
_TURN = re.compile(r'<p:transition (?=[^>]*advClick="0")[^>]*advTm="(\d+)"')


def _no_click(slide: Slide) -> Iterator[str]:
    """Nothing waits for a click on a slide that no click turns."""
    if 'advClick="0"' in slide.xml and '"clickEffect"' in slide.xml:
        yield "an effect waits for a click on a slide that runs by itself"


def _sounds_whole(slide: Slide) -> Iterator[str]:
    """A sound is linked and held by one file, on a slide that runs by itself."""
    for found in _sounding(slide):
        linked, held = _LINKED.findall(found[0]), _HELD.findall(found[0])
        if len(linked) != 1 or linked != held:
            yield f"shape {found[1]} links the sound {linked} but holds {held}"
        if not _TURN.search(slide.xml):
            yield f"shape {found[1]} sounds on a slide that does not turn by itself"
        if '<p:audio isNarration="1"><p:cMediaNode vol="80000" showWhenStopped="0">' not in (
            slide.timing
        ):
            yield f"shape {found[1]} has a sound without its time node"


def _sounding(slide: Slide) -> list[re.Match[str]]:
    """The pictures that are sounds."""
    if "audioFile" not in slide.xml:
        return []
    return [found for found in _PICTURE.finditer(slide.xml) if "audioFile" in found[0]]


def _sounds_play(slide: Slide) -> Iterator[str]:
    """Each sound begins with its slide, has one time node, and ends before the slide goes."""
    calls = [(at, e) for at, e in _placed(slide) if e.preset[0] == "mediacall"]
    sounds = sorted(found[1] for found in _sounding(slide))
    nodes = [] if slide.tree is None else list(slide.tree.iter(P + "audio"))
    aims = sorted(t.get("spid", "") for node in nodes for t in node.iter(P + "spTgt"))
    if not sorted(t for _, e in calls for t in e.targets) == sounds == aims:
        yield f"the sounds {sounds} are not played once each, with a time node of their own"
    turn = _TURN.search(slide.xml)
    for at, call in calls:
        if call.commands != (PLAY,):
            yield f"effect {call.id} tells its sound {call.commands}, not {PLAY}"
        if at:
            yield f"effect {call.id} begins its sound at {at} ms, not with the slide"
        if turn and at + call.length > int(turn[1]):
            yield f"the sound of {call.length} ms is longer than its slide of {turn[1]} ms"


def _leave_after_coming(slide: Slide) -> Iterator[str]:
    """What leaves has come before, once for each time; and nothing that comes on is told twice."""
    came: dict[str, int] = {}
    for at, effect in sorted(_placed(slide), key=lambda each: each[0]):
        for target in effect.targets:
            if effect.preset[0] == "entr":
                if target in came:
                    yield f"shape {target} comes on twice"
                came[target] = at
            elif effect.preset[0] == "exit" and came.pop(target, at) >= at:
                yield f"shape {target} leaves at {at} ms, before it has come"


def _placed(slide: Slide) -> Iterator[tuple[int, Played]]:
    """Each effect with its time in ms, from the start of its step."""
    for step in slide.steps:
        for group in step.groups:
            yield from ((group.delay + effect.delay, effect) for effect in group.effects)


RUNNING_CHECKS = (_no_click, _sounds_whole)
PLAYED_CHECKS = (_sounds_play, _leave_after_coming)
