"""Whether a timing tree is word for word of the form that is known to play: the quick way to know.

One pattern says the whole form, so a sound tree is told in a twentieth of the time that parsing it
takes; a tree that is not of the form goes to the checks of the lint, which say why.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from narrate.outputs._timing import PRESETS

_TARGET = r'<p:tgtEl><p:spTgt spid="(?P<shape>\d+)"/></p:tgtEl>'
_SAME_TARGET = r'<p:tgtEl><p:spTgt spid="(?P=shape)"/></p:tgtEl>'


def _par(attributes: str, condition: str, children: str) -> str:
    return (
        rf'<p:par><p:cTn id="\d+"{attributes}><p:stCondLst>{condition}</p:stCondLst>'
        rf"<p:childTnLst>{children}</p:childTnLst></p:cTn></p:par>"
    )


_SET = (
    r'<p:set><p:cBhvr><p:cTn id="\d+" dur="1" fill="hold"><p:stCondLst><p:cond delay="0"/>'
    rf"</p:stCondLst></p:cTn>{_TARGET}<p:attrNameLst><p:attrName>style\.visibility</p:attrName>"
    r'</p:attrNameLst></p:cBhvr><p:to><p:strVal val="visible"/></p:to></p:set>'
)
_FILTERS = "|".join(
    rf'(?<=presetID="{preset}" presetClass="entr" presetSubtype="{subtype}"){re.escape(filter_)}'
    for preset, subtype, filter_ in PRESETS.values()
)
_PRESET = "|".join(
    rf'presetID="{preset}" presetClass="entr" presetSubtype="{subtype}"'
    for preset, subtype, _ in PRESETS.values()
)
