"""Whether a timing tree is of the very form that is known to play: the quick way to know.

Patterns say the whole form, and a sound tree is told in a tenth of the time that reading it as a
tree takes. What is not of the form goes to the checks of the lint, which say why.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from narrate.outputs._timing import PRESETS

_BEGIN = '<p:cond evt="onBegin" delay="0"><p:tn val="2"/></p:cond>'
_HOLD = (
    r'<p:par><p:cTn id="\d+" fill="hold"><p:stCondLst><p:cond delay="(indefinite|\d+)"/>'
    rf"({_BEGIN})?</p:stCondLst><p:childTnLst>"
)
_END = "</p:childTnLst></p:cTn></p:par>"
_TARGET = r'<p:tgtEl><p:spTgt spid="(\d+)"/></p:tgtEl>'
_EFFECT = (
    r'<p:par><p:cTn id="\d+" presetID="(\d+)" presetClass="entr" presetSubtype="(\d+)" fill="hold"'
    r'(?: grpId="(\d+)")? nodeType="(click|after|with)Effect"><p:stCondLst><p:cond delay="(\d+)"/>'
    r"</p:stCondLst><p:childTnLst>"
    r'<p:set><p:cBhvr><p:cTn id="\d+" dur="1" fill="hold"><p:stCondLst><p:cond delay="0"/>'
    rf"</p:stCondLst></p:cTn>{_TARGET}<p:attrNameLst><p:attrName>style\.visibility</p:attrName>"
    r'</p:attrNameLst></p:cBhvr><p:to><p:strVal val="visible"/></p:to></p:set>'
    r'(?:<p:animEffect transition="in" filter="([^"]+)"><p:cBhvr><p:cTn id="\d+" dur="(\d+)"/>'
    rf"{_TARGET}</p:cBhvr></p:animEffect>)?{_END}"
)
_BACK_AND_ON = (
    '<p:prevCondLst><p:cond evt="onPrev" delay="0"><p:tgtEl><p:sldTgt/></p:tgtEl></p:cond>'
    '</p:prevCondLst><p:nextCondLst><p:cond evt="onNext" delay="0"><p:tgtEl><p:sldTgt/></p:tgtEl>'
    "</p:cond></p:nextCondLst>"
)
_LINE = r'<p:bldP spid="(\d+)" grpId="(\d+)"(?: animBg="1")?/>'


_OPENING = (
    '<p:timing><p:tnLst><p:par><p:cTn id="1" dur="indefinite" restart="never" nodeType="tmRoot">'
    '<p:childTnLst><p:seq concurrent="1" nextAc="seek"><p:cTn id="2" dur="indefinite"'
    ' nodeType="mainSeq"><p:childTnLst>'
)
_CLOSING = f"</p:childTnLst></p:cTn>{_BACK_AND_ON}</p:seq></p:childTnLst></p:cTn></p:par></p:tnLst>"
_STEPS = re.compile(r"(?:h(?:he+\.)+\.)+")
"""Steps of groups of effects: `h` a time node that holds others, `e` an effect, `.` an end."""
_LISTED = re.compile("(?:<p:bldLst>l+</p:bldLst>)?</p:timing>")
_PARTS = re.compile(f"{_HOLD}|{_EFFECT}")
_LINES = re.compile(_LINE)
_IDS = re.compile(r'<p:cTn id="(\d+)"')
_FILTERS = {(str(preset), str(sub)): filter_ for preset, sub, filter_ in PRESETS.values()}


def in_form(timing: str, kinds: Mapping[str, str]) -> bool:
    """Whether `timing` is of the form and aims at shapes that are there.

    `kinds` says for each shape id whether it is a `Sp`, `GrpSp`, `CxnSp` and so on.
    """
    parts: list[tuple[str, ...]] = []

    def shortened(part: re.Match[str]) -> str:
        parts.append(part.groups(""))
        return "e" if part[3] else "h"

    steps, closing, listed = _PARTS.sub(shortened, timing).partition(_CLOSING)
    steps = steps.replace(_END, ".")
    whole = steps.startswith(_OPENING) and _STEPS.fullmatch(steps, len(_OPENING))
    if not (whole and closing and _LISTED.fullmatch(_LINES.sub("l", listed))):
        return False
    ids = _IDS.findall(timing)
    return len(set(ids)) == len(ids) and _well_aimed(timing, parts, kinds) and _in_step(parts)


def _well_aimed(timing: str, parts: list[tuple[str, ...]], kinds: Mapping[str, str]) -> bool:
    """Every effect is one we know, on one shape that is there, listed just where it must be."""
    due = []
    for _, _, preset, subtype, group, _, _, shape, filter_, _, again in parts:
        if not preset:
            continue
        known = _FILTERS.get((preset, subtype)) == filter_ and again in ("", shape)
        if not known or (kinds.get(shape) == "Sp") != bool(group) or shape not in kinds:
            return False
        if group:
            due.append((shape, group))
    return sorted(_LINES.findall(timing)) == sorted(set(due))


def _in_step(parts: list[tuple[str, ...]]) -> bool:
    """Steps wait, groups start when the one before has ended, and each effect has its trigger."""
    start = end = -1
    fits: tuple[str, ...] = ()
    opening: tuple[str, ...] = ()
    for delay, begin, _, _, _, trigger, own, _, _, length, _ in parts:
        if delay == "indefinite":
            start, end, opening = -1, 0, ("after", "with") if begin else ("click",)
        elif delay:
            fits = ("after",) if start >= 0 else opening
            if begin or end != int(delay):
                return False
            start = end
        else:
            if trigger not in fits or start < 0:
                return False
            fits, end = ("with",), max(end, start + int(own) + int(length or 1))
    return True
