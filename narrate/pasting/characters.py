"""The lines of a pasted text in plain characters: spaces, hyphens and letters as they are typed.

Ligatures by the Unicode Standard, block Alphabetic Presentation Forms (U+FB00 to U+FB06); circled
letters by its block Enclosed Alphanumerics (U+24B6 to U+24E9); fractions of one sign by their
compatibility decompositions (U+00BC to U+00BE, U+2150 to U+215E).
"""

from __future__ import annotations

import re
import unicodedata

_LIGATURES = {0xFB00: "ff", 0xFB01: "fi", 0xFB02: "fl", 0xFB03: "ffi", 0xFB04: "ffl", 0xFB05: "st",
              0xFB06: "st"}  # fmt: skip
_SPACES = dict.fromkeys((0xA0, *range(0x2000, 0x200B), 0x202F, 0x205F, 0x3000), " ")
_UNSEEN: dict[int, str] = dict.fromkeys((0xAD, 0x200B, 0x200C, 0x200D, 0x2060, 0xFEFF), "")
_HYPHENS = {0x2010: "-", 0x2011: "-"}
_BULLETS = dict.fromkeys((0xF0B7, 0xF0A7, 0xF06F, 0x2023, 0x25AA, 0x25CF, 0x25E6), "•")
_CIRCLED = {
    **{0x24B6 + at: f"({chr(65 + at)})" for at in range(26)},
    **{0x24D0 + at: f"({chr(97 + at)})" for at in range(26)},
}
_PLAIN = {**_LIGATURES, **_SPACES, **_UNSEEN, **_HYPHENS, **_BULLETS, **_CIRCLED}
_FRACTION = re.compile(r"(\d)?([¼-¾⅐-⅞])")
_BREAK = re.compile(r"\r\n|[\n\r\x0b\x0c\x1c-\x1e\x85\u2028\u2029]")

_KEEPS_HYPHEN = re.compile(
    r"one|two|three|four|five|six|seven|eight|nine|ten|(?:twen|thir|for|fif|six|seven|eigh|nine)ty|"
    r"half|quarter|third|fourth|fifth|sixth|eighth|non|self|well|full",
    re.IGNORECASE,
)
_CUT = re.compile(r"(?<![\w-])([A-Za-z]{2,})-$")
_GOES_ON = re.compile(r"^([a-z]{2,})(?![\w'’-])[ ,.;:?!]*")


_MARKUP = (
    (re.compile(r"(?<![\w*])\*\*(?=\S)([^*]+)(?<=\S)\*\*(?![\w*])"), r"\1"),
    (re.compile(r"^\s*#{1,6} (?=[A-Za-z])"), ""),
    (re.compile(r"^\s*[-*•–]\s+(?=\(?[A-Ka-k][.)]\s)"), ""),
    (re.compile(r"^\s*_{2,}\s*(?=\(?\d{1,3}\s?[.)])"), ""),
)
"""Bold, headings and bullets of typed text; the blank for a letter before a number."""


def _plain(line: str) -> str:
    line = re.sub(r"[ ]{9,}", " " * 8, line.translate(_PLAIN).rstrip())
    for pattern, right in _MARKUP:
        line = pattern.sub(right, line)
    return _FRACTION.sub(_in_figures, line)


def _in_figures(found: re.Match[str]) -> str:
    """A fraction of one sign in figures, apart from a whole number before it: 2¾ is 2 3/4."""
    fraction = unicodedata.normalize("NFKC", found[2]).replace("\u2044", "/")
    return f"{found[1]} {fraction}" if found[1] else fraction


def plain_lines(text: str) -> tuple[list[str], list[str]]:
    """The lines of a text in plain characters, and the words made whole that its ends cut."""
    joined = set(re.findall(r"(?<![a-z])[a-z]{1,30}-[a-z]{1,30}", text.lower()))
    lines = [_plain(line) for line in _BREAK.split(text)]
    made: list[str] = []
    whole: list[str] = []
    for line in lines:
        line = line.strip() if not line.strip() else line
        cut = _CUT.search(made[-1]) if made else None
        goes_on = _GOES_ON.match(line.lstrip()) if cut else None
        if cut is None or goes_on is None:
            made.append(line)
            continue
        hyphen = (
            "-"
            if _KEEPS_HYPHEN.fullmatch(cut[1]) or f"{cut[1]}-{goes_on[1]}".lower() in joined
            else ""
        )
        taken = goes_on[0].rstrip()
        whole.append(f"{cut[1]}{hyphen}{goes_on[1]}")
        made[-1] = f"{made[-1][:-1]}{hyphen}{taken}"
        made.append(line.lstrip()[len(goes_on[0]) :])
    return made, whole
