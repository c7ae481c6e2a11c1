"""The keys a teacher may write: one set of classes that validates files and is the JSON Schema.

Rules that join several keys (boxes or choices, a key that is a choice) are in `rules`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Annotated, Any, ClassVar, Literal, get_args

from pydantic import (
    AfterValidator,
    BeforeValidator,
    ConfigDict,
    Field,
    TypeAdapter,
    WithJsonSchema,
)
from pydantic_core import PydanticCustomError

from narrate.items.days import DAY_IS, day
from narrate.items.item import Box, Way
from narrate.items.texts import (
    Flaw,
    clean,
    flaw,
    mathematics_flaw,
    name_flaw,
    shorten,
    unwanted,
)


def _checked(most: int, *more: Callable[[str], Flaw | None]) -> AfterValidator:
    """Refuses a text with its first flaw; otherwise the text, cleaned."""

    def check(text: str) -> str:
        for find in (lambda text: _measure(text, most), flaw, *more):
            if found := find(text):
                details = {"wrong": found.wrong, "right": found.right, "offset": found.offset}
                raise PydanticCustomError("flaw", "{wrong}", details)
        return clean(text)

    return AfterValidator(check)


def _measure(text: str, most: int) -> Flaw | None:
    if not text.strip():
        return Flaw("this is empty", "fill it in, or leave the key out")
    if len(text) > most:
        return Flaw(f"this has {len(text):,} characters", f"use at most {most:,}")
    return None


def _written(most: int, **more: Any) -> WithJsonSchema:
    # An editor's YAML reader sees numbers and truth values where we read the text as written.
    kinds = ["string", "number", "boolean"]
    return WithJsonSchema({"type": kinds, "minLength": 1, "maxLength": most, **more})


def split(given: Any) -> Any:
    """A list as it is; one text as a list of what its commas part."""
    if not isinstance(given, str):
        return given
    return [entry for entry in re.split(r"\s*,\s*", given.strip()) if entry]


def _lettered(given: Any) -> Any:
    if not isinstance(given, list):
        return given
    return {chr(ord("A") + index): entry for index, entry in enumerate(given[:26])}


def _one_or_more(entry: dict[str, Any]) -> WithJsonSchema:
    return WithJsonSchema({"anyOf": [entry, {"type": "array", "minItems": 1, "items": entry}]})


_CHOICE = {"type": ["string", "number", "boolean"], "minLength": 1, "maxLength": 300}
_LETTERED = {
    "type": "object",
    "minProperties": 2,
    "propertyNames": {"pattern": "^[A-Z]$"},
    "additionalProperties": _CHOICE,
}
_LISTED = {"type": "array", "minItems": 2, "maxItems": 26, "items": _CHOICE}
_BOX_NAMES = {"enum": list(get_args(Box))}
_WAY_NAMES = {"enum": list(get_args(Way))}

Long = Annotated[str, _checked(2000), _written(2000)]
Title = Annotated[str, _checked(120), _written(120)]
Short = Annotated[str, _checked(60), _written(60)]
Sentence = Annotated[str, _checked(500), _written(500)]
ChoiceText = Annotated[str, _checked(300), _written(300)]
Name = Annotated[
    str,
    _checked(2000, lambda text: name_flaw(text, "the id")),
    _written(64, pattern="^[A-Za-z0-9][A-Za-z0-9_-]*$"),
]


def _file_name(text: str) -> str:
    if found := _measure(text, 200) or next(iter(unwanted(text, 1)), None):
        details = {"wrong": found.wrong, "right": found.right, "offset": found.offset}
        raise PydanticCustomError("flaw", "{wrong}", details)
    return text.strip()


def _day(text: str) -> str:
    if day(text) is None:
        details = {"wrong": f'"{shorten(text)}" is no day', "right": DAY_IS, "offset": 0}
        raise PydanticCustomError("flaw", "{wrong}", details)
    return text.strip()


FileName = Annotated[str, AfterValidator(_file_name), _written(200)]
DayText = Annotated[str, AfterValidator(_day), WithJsonSchema({"type": "string", "format": "date"})]
Mathematics = Annotated[str, _checked(300, mathematics_flaw), _written(300)]
Choices = Annotated[
    dict[str, ChoiceText],
    BeforeValidator(_lettered),
    WithJsonSchema({"anyOf": [_LETTERED, _LISTED]}),
]
Letters = Annotated[list[str], BeforeValidator(split), _one_or_more({"type": "string"})]
Boxes = Annotated[
    list[Short],
    BeforeValidator(split),
    _one_or_more({"anyOf": [_BOX_NAMES, {"type": "string", "description": "A printed unit."}]}),
]
Ways = Annotated[
    list[Way],
    BeforeValidator(split),
    _one_or_more({"anyOf": [_WAY_NAMES, {"type": "string", "pattern": ","}]}),
]
Ignored = Annotated[Any, Field(description="Kept and ignored."), WithJsonSchema({})]


class _Strict:
    """What pydantic is told of all classes here: a key that they do not name is a fault."""

    __slots__ = ()
    __pydantic_config__: ClassVar = ConfigDict(extra="forbid")


@dataclass(frozen=True, slots=True, kw_only=True)
class StripSource(_Strict):
    """A fraction strip: wholes side by side, each cut in equal parts."""

    wholes: Annotated[int, Field(ge=1, le=12, description="How many wholes, 1 to 12.")]
    parts: Annotated[int, Field(ge=1, le=100, description="Equal parts of a whole, 1 to 100.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class DiagramSource(_Strict):
    """The diagram printed with an item."""

    strip: Annotated[StripSource, Field(description="A fraction strip.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class StimulusSource(_Strict):
    """What the parts of an item share: a text, a diagram, a picture, or some of them."""

    text: Annotated[Long, Field(description="The text that the parts share.")] = ""
    diagram: Annotated[
        DiagramSource | None, Field(description="The diagram that the parts share.")
    ] = None
    image: Annotated[
        FileName,
        Field(description="A PNG or JPEG picture in the folder of this file, or deeper."),
    ] = ""
    alt: Annotated[
        Sentence, Field(description="What the picture shows, in words, with its numbers.")
    ] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldSource(_Strict):
    """One moment of a question told by hand."""

    say: Annotated[Sentence, Field(description="What is said, mathematics as in items.")] = ""
    show: Annotated[
        ChoiceText,
        Field(description="A line of work, a few words, or the letter of the right choice."),
    ] = ""
    wait: Annotated[Short, Field(description="Seconds of silence after it, such as 3 or 1.5.")] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answering(_Strict):
    """The keys that say how a question is answered; an item without parts has them itself."""

    choices: Annotated[
        Choices,
        Field(description="Answer choices by letter, or a list that gets the letters A, B, C."),
    ] = field(default_factory=dict)
    boxes: Annotated[
        Boxes,
        Field(
            description="Answer boxes: [number], [numerator, denominator] or "
            "[whole, numerator, denominator]; a printed unit may follow."
        ),
    ] = field(default_factory=list)
    unit: Annotated[Short, Field(description="The unit printed after the boxes.")] = ""
    select: Annotated[
        Literal["all"] | None, Field(description='"all" where every right choice is to be marked.')
    ] = None
    simplest: Annotated[bool, Field(description="Whether the question asks for simplest form.")] = (
        False
    )
    key: Annotated[
        Letters,
        Field(description="The right choice, or several with select: all. Always checked."),
    ] = field(default_factory=list)
    model: Annotated[
        Mathematics,
        Field(description="What to work out, where the words are not to be read: 2 1/5 - 7/10."),
    ] = ""
    claim: Annotated[
        Mathematics, Field(description="A pupil's wrong answer, to find out what went wrong.")
    ] = ""
    way: Annotated[
        Ways,
        Field(
            description="The way the class solves: multiples, product or larger for the common "
            "denominator, improper or mixed for mixed numbers, reciprocal for dividing by "
            "fractions."
        ),
    ] = field(default_factory=list)
    told: Annotated[
        list[ToldSource],
        Field(description="The question told by hand, where narrate declines it: say, show, wait."),
    ] = field(default_factory=list)
    counts: Annotated[
        dict[str, Annotated[int, Field(ge=0, le=100_000)]],
        Field(description="How many pupils chose each choice: {A: 12, B: 3, C: 9, D: 1}."),
    ] = field(default_factory=dict)
    note: Ignored = None
    source: Ignored = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PartSource(Answering):
    """One question of an item."""

    ask: Annotated[Long, Field(description="The words of the question.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemSource(Answering):
    """One test item: a stem with choices or boxes, or a stimulus with parts."""

    id: Annotated[Name, Field(description="A name of its own: letters, digits, - and _.")]
    label: Annotated[Short, Field(description="What pupils see on their paper; spoken.")] = ""
    standard: Annotated[Short, Field(description="The standard's code, such as 5.NF.A.2.")] = ""
    grade: Annotated[
        int | None, Field(ge=3, le=8, description="The school grade, 3 to 8; else the review's.")
    ] = None
    stem: Annotated[
        Long, Field(description="The words of the question; with parts, the text they share.")
    ] = ""
    stimulus: Annotated[
        StimulusSource | None, Field(description="A text, a diagram or a picture for all parts.")
    ] = None
    skip: Annotated[bool, Field(description="Whether the video does without this item.")] = False
    hold_until: Annotated[
        DayText,
        Field(
            alias="hold-until",
            description="The day from which catch-up decks may hold it: until then it is a test.",
        ),
    ] = ""
    parts: Annotated[
        list[PartSource],
        Field(description="The questions, where there are several.", max_length=26),
    ] = field(default_factory=list)


@dataclass(frozen=True, slots=True, kw_only=True)
class HeaderSource(_Strict):
    """A review's own keys; its items are checked one by one."""

    items: list[Any]
    review: Annotated[Title, Field(description="The title of the review.")] = ""
    grade: Annotated[int, Field(ge=3, le=8, description="The school grade, 3 to 8.")] = 5
    language: Annotated[
        Literal["en"], Field(description="The language of the items and the lesson.")
    ] = "en"
    note: Ignored = None
    source: Ignored = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ReviewSource(HeaderSource):
    """A review: a set of test items made into one video."""

    items: Annotated[list[ItemSource], Field(description="The items, in the order of the video.")]


HEADER = TypeAdapter(HeaderSource)
ITEM = TypeAdapter(ItemSource)


def keys(source: type) -> tuple[str, ...]:
    """The names of the keys a class reads, those of the question first."""
    own: dict[str, Any] = source.__dataclass_fields__  # type: ignore[attr-defined]
    return tuple(name.replace("_", "-") for name in own)


def schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a review file."""
    described = _without_defaults(TypeAdapter(ReviewSource).json_schema())
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **described,
        "title": "A review of test items",
    }


def _without_defaults(node: Any) -> Any:
    """Without defaults and nulls: an editor would offer to write them, where leaving out is meant.

    Titles that only repeat the key go as well.
    """
    if isinstance(node, list):
        return [_without_defaults(entry) for entry in node if entry != {"type": "null"}]
    if not isinstance(node, dict):
        return node
    kept = {key: value for key, value in node.items() if key != "default"}
    if isinstance(kept.get("title"), str):
        del kept["title"]
    described = {key: _without_defaults(value) for key, value in kept.items()}
    match described:
        case {"anyOf": [dict(only)], **rest}:
            return {**only, **rest}
    return described
