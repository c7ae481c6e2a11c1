"""What is pronounced, in one notation: by espeak-ng, and by the CMU Pronouncing Dictionary.

The dictionary is Debian's `festlex-cmu`, looked up by Festival; words that are not in it are none.
A pronunciation is consonants and stressed vowels; unstressed vowels, which people and dictionaries
weaken in many ways, are all `*`, and a tap is a `t`.
"""

from __future__ import annotations

import re
import subprocess
from collections.abc import Sequence

from narrate.voices import espeak_ng

_IPA = {
    "tʃ": "ch", "dʒ": "jh", "aɪɚ": "ay * r", "aɪə": "ay *", "iəɹ": "ih r", "aʊɚ": "aw * r",
    "ɚɹ": "er", "aɪ": "ay", "eɪ": "ey",
    "oʊ": "ow", "aʊ": "aw", "ɔɪ": "oy", "iə": "iy ah", "ɪɹ": "ih r", "ɛɹ": "eh r", "ʊɹ": "uh r",
    "ɔːɹ": "ao r", "oːɹ": "ao r", "ɑːɹ": "aa r", "ɜː": "er", "ɚ": "er", "əl": "* l", "ɑː": "aa",
    "ɔː": "ao", "iː": "iy", "uː": "uw", "θ": "th", "ð": "dh", "ʃ": "sh", "ʒ": "zh", "ŋ": "ng",
    "ɹ": "r", "ɡ": "g", "ɾ": "t", "æ": "ae", "ɛ": "eh", "ʊ": "uh", "ʌ": "ah", "ɔ": "ao", "j": "y",
    "ɪ": "ih", "ᵻ": "ih", "ə": "ah", "ɐ": "ah", "i": "iy", "h": "hh", "a": "aa", "o": "ow",
    "u": "uw", "ʔ": "t", "n̩": "* n",
}  # fmt: skip
_SIGN = re.compile("|".join(sorted(map(re.escape, _IPA), key=len, reverse=True)) + "|[a-z]")
_VOWELS = {
    *("aa", "ae", "ah", "ao", "aw", "ax", "ay", "eh", "er", "ey", "ih", "iy", "ow", "oy"),
    *("uh", "uw", "axr"),
}
_ALIKE = {"ax": "ah", "axr": "er", "d": "t", "ao": "aa"}
"""Told apart by few speakers, or not in this place: cot and caught, a tap."""


def by_espeak(texts: Sequence[str]) -> list[str]:
    """What espeak-ng says, a pronunciation for each text of one clause."""
    given = "\n\n".join(espeak_ng.respelt(text) for text in texts)
    command = ["espeak-ng", "-v", "en-us", "-b", "1", "-q", "--ipa", "--stdin"]
    done = subprocess.run(command, input=given.encode(), capture_output=True, check=True)
    lines = done.stdout.decode().split("\n")[: len(texts)]
    return [_of_ipa(line.strip()) for line in lines]


def said_by_espeak(text: str) -> list[str]:
    """What espeak-ng says of a text of several clauses."""
    return " ".join(by_espeak_clauses(text)).split()


def by_espeak_clauses(text: str) -> list[str]:
    """What espeak-ng says, clause by clause."""
    command = ["espeak-ng", "-v", "en-us", "-b", "1", "-q", "--ipa", "--stdin"]
    given = espeak_ng.respelt(text).encode()
    done = subprocess.run(command, input=given, capture_output=True, check=True)
    return [_of_ipa(line.strip()) for line in done.stdout.decode().splitlines()]


def _of_ipa(line: str) -> str:
    found: list[str] = []
    for stress, sign in re.findall(f"([ˈˌ]?)({_SIGN.pattern})", line):
        for phone in _IPA.get(sign, sign).split():
            found.append(_one(phone, stressed=bool(stress)))
    return " ".join(found)


def by_dictionary(words: Sequence[str]) -> list[list[str]]:
    """The dictionary's pronunciations of each word; none where it is not in it."""
    asked = "\n".join(f'(format t "%l\\n" (lex.lookup_all "{word}"))' for word in words)
    done = subprocess.run(
        ["festival", "--pipe"],
        input=f'(lex.select "cmu")\n{asked}\n'.encode(),
        capture_output=True,
        check=True,
    )
    return [_entries(line) for line in done.stdout.decode().splitlines()]


def _entries(line: str) -> list[str]:
    """From `(("half" n (((hh ae f) 1))) ...)`."""
    return [_entry(entry) for entry in re.findall(r'\("[^"]*" \S+ (\(\(\(.*?\) \d\)\))\)', line)]


def _entry(entry: str) -> str:
    found = []
    for phones, stress in re.findall(r"\(([a-z ]+)\) (\d)", entry):
        found += [_one(phone, stressed=stress != "0") for phone in phones.split()]
    return " ".join(found)


def _one(phone: str, *, stressed: bool) -> str:
    if phone in _VOWELS and not stressed:
        return "* r" if phone in ("er", "axr") else "*"
    return _ALIKE.get(phone, phone)


def by_festival(text: str) -> list[str]:
    """The phones that Festival says of a text."""
    quoted = text.replace("\\", " ").replace('"', " ")
    done = subprocess.run(
        ["festival", "--pipe"],
        input=(
            f'(voice_cmu_us_slt_arctic_hts)(set! u (Utterance Text "{quoted}"))(utt.synth u)'
            '(format t "%l\\n" (mapcar (lambda (s) (item.name s))'
            " (utt.relation.items u 'Segment)))"
        ).encode(),
        capture_output=True,
        check=True,
    )
    return [phone for phone in re.findall("[a-z]+", done.stdout.decode()) if phone != "pau"]


def same(one: str, other: str) -> bool:
    """Whether two pronunciations are one word's; a weak vowel may stand for any vowel."""
    pair = one.split(), other.split()
    return len(pair[0]) == len(pair[1]) and all(map(_alike, *pair))


def _alike(one: str, other: str) -> bool:
    weak = "*" in (one, other) and {one, other} - {"*", "y"} <= _VOWELS
    return one == other or weak
