"""The timing tree of a slide: when each shape comes on (ECMA-376 Part 1, 19.5: Animation).

A click starts a step; within a step, groups follow one another and the effects of one group start
together. Only the three entrances that other programs also play are written: appear, fade, wipe. On
slides that run by themselves captions leave again, and the sound begins to play.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count
from typing import Literal

from narrate.lesson.marks import Effect

Trigger = Literal["click", "after", "with"]
Act = Effect | Literal["leave", "play"]
"""What a shape does: it comes on, or leaves, or its sound plays."""

LENGTH_MS: dict[Act, int] = {"appear": 1, "fade": 400, "wipe": 400, "leave": 1, "play": 1}
"""How long each effect takes; an appearance still needs 1 ms to be an animation."""

PRESETS: dict[Effect, tuple[int, int, str]] = {
    "appear": (1, 0, ""),
    "fade": (10, 0, "fade"),
    "wipe": (22, 8, "wipe(left)"),
}
"""presetID, presetSubtype and filter of each entrance."""

CLASSES: dict[Act, str] = {"leave": "exit", "play": "mediacall"}
"""presetClass of what is no entrance; presetID and presetSubtype are those of an appearance."""

PLAY = "playFrom(0.0)"
"""The command that a sound begins with (ECMA-376 Part 1, 19.5.17: cmd)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entrance:
    """One shape coming on, or leaving, or playing its sound. `delay` in ms, after its trigger.

    `build` says how the shape stands in the build list: `text` and `filled` for p:sp; None for
    groups, connectors and pictures, which have no place there. It takes `times` the usual length: a
    sound plays for as many ms.
    """

    shape: int
    effect: Act
    trigger: Trigger
    delay: int = 0
    build: Literal["text", "filled"] | None = None
    times: int = 1

    @property
    def length(self) -> int:
        """How long it takes, in ms."""
        return LENGTH_MS[self.effect] * self.times

    @property
    def end(self) -> int:
        """When it is over, in ms from the start of its group."""
        return self.delay + self.length


Together = list[Entrance]
Step = list[Together]


def timing(entrances: Sequence[Entrance]) -> str:
    """The p:timing element for shapes coming on in this order; "" when none does.

    A sound that plays stands beside the main sequence, too, as the narration of its slide.
    """
    if not entrances:
        return ""
    ids = count(1)
    root, main = next(ids), next(ids)
    steps = "".join(_step(step, ids, main) for step in _steps(entrances))
    sounds = "".join(_narration(e.shape, next(ids)) for e in entrances if e.effect == "play")
    return (
        f'<p:timing><p:tnLst><p:par><p:cTn id="{root}" dur="indefinite" restart="never"'
        ' nodeType="tmRoot"><p:childTnLst><p:seq concurrent="1" nextAc="seek">'
        f'<p:cTn id="{main}" dur="indefinite" nodeType="mainSeq"><p:childTnLst>{steps}'
        "</p:childTnLst></p:cTn>"
        '<p:prevCondLst><p:cond evt="onPrev" delay="0"><p:tgtEl><p:sldTgt/></p:tgtEl></p:cond>'
        '</p:prevCondLst><p:nextCondLst><p:cond evt="onNext" delay="0"><p:tgtEl><p:sldTgt/>'
        "</p:tgtEl></p:cond></p:nextCondLst></p:seq>"
        f"{sounds}</p:childTnLst></p:cTn></p:par></p:tnLst>"
        f"{_build_list(entrances)}</p:timing>"
    )


def _steps(entrances: Sequence[Entrance]) -> list[Step]:
    steps: list[Step] = []
    for entrance in entrances:
        if entrance.trigger == "click" or not steps:
            steps.append([[entrance]])
        elif entrance.trigger == "after":
            steps[-1].append([entrance])
        else:
            steps[-1][-1].append(entrance)
    return steps


def _step(step: Step, ids: Iterator[int], main: int) -> str:
    own, start, groups = next(ids), 0, []
    for together in step:
        groups.append(_group(together, start, ids))
        start += max(entrance.end for entrance in together)
    # A slide that starts without a click needs its first step to begin with the main sequence.
    runs_itself = step[0][0].trigger != "click"
    begin = f'<p:cond evt="onBegin" delay="0"><p:tn val="{main}"/></p:cond>' if runs_itself else ""
    return _par(f'id="{own}" fill="hold"', "indefinite", "".join(groups), begin)


def _group(together: Together, start: int, ids: Iterator[int]) -> str:
    own = next(ids)
    return _par(f'id="{own}" fill="hold"', str(start), "".join(_effect(e, ids) for e in together))


def _narration(shape: int, own: int) -> str:
    """The sound's own time node: no icon while it is silent; it ends with whatever stops sounds."""
    return (
        '<p:audio isNarration="1"><p:cMediaNode vol="80000" showWhenStopped="0">'
        f'<p:cTn id="{own}" fill="hold" display="0"><p:stCondLst><p:cond delay="indefinite"/>'
        '</p:stCondLst><p:endCondLst><p:cond evt="onStopAudio" delay="0"><p:tgtEl><p:sldTgt/>'
        "</p:tgtEl></p:cond></p:endCondLst></p:cTn>"
        f'<p:tgtEl><p:spTgt spid="{shape}"/></p:tgtEl></p:cMediaNode></p:audio>'
    )


def _effect(entrance: Entrance, ids: Iterator[int]) -> str:
    class_ = CLASSES.get(entrance.effect, "entr")
    preset, subtype, filter_ = PRESETS["appear" if class_ != "entr" else entrance.effect]  # type: ignore[index]
    group = ' grpId="0"' if entrance.build else ""
    attributes = (
        f'id="{next(ids)}" presetID="{preset}" presetClass="{class_}" presetSubtype="{subtype}"'
        f' fill="hold"{group} nodeType="{entrance.trigger}Effect"'
    )
    target = f'<p:tgtEl><p:spTgt spid="{entrance.shape}"/></p:tgtEl>'
    if entrance.effect == "play":
        plays = f'<p:cTn id="{next(ids)}" dur="{entrance.length}" fill="hold"/>{target}'
        command = f'<p:cmd type="call" cmd="{PLAY}"><p:cBhvr>{plays}</p:cBhvr></p:cmd>'
        return _par(attributes, str(entrance.delay), command)
    becomes = "hidden" if entrance.effect == "leave" else "visible"
    behaviours = (
        f'<p:set><p:cBhvr><p:cTn id="{next(ids)}" dur="1" fill="hold"><p:stCondLst>'
        f'<p:cond delay="0"/></p:stCondLst></p:cTn>{target}<p:attrNameLst>'
        "<p:attrName>style.visibility</p:attrName></p:attrNameLst></p:cBhvr>"
        f'<p:to><p:strVal val="{becomes}"/></p:to></p:set>'
    )
    if filter_:
        behaviours += (
            f'<p:animEffect transition="in" filter="{filter_}"><p:cBhvr>'
            f'<p:cTn id="{next(ids)}" dur="{entrance.length}"/>{target}'
            "</p:cBhvr></p:animEffect>"
        )
    return _par(attributes, str(entrance.delay), behaviours)


def _par(attributes: str, delay: str, children: str, begin: str = "") -> str:
    return (
        f'<p:par><p:cTn {attributes}><p:stCondLst><p:cond delay="{delay}"/>{begin}'
        f"</p:stCondLst><p:childTnLst>{children}</p:childTnLst></p:cTn></p:par>"
    )


def _build_list(entrances: Sequence[Entrance]) -> str:
    """The bldLst: every p:sp that comes on, once."""
    background = {"text": "", "filled": ' animBg="1"'}
    lines = {
        e.shape: f'<p:bldP spid="{e.shape}" grpId="0"{background[e.build]}/>'
        for e in entrances
        if e.build
    }
    return f"<p:bldLst>{''.join(lines.values())}</p:bldLst>" if lines else ""
