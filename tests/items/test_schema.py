"""The JSON Schema (draft 2020-12, json-schema.org) and the validation are one source."""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
import yaml

from narrate.items.loading import load
from narrate.items.schema import schema

SCHEMA = schema()
KEYS = [
    (name, key)
    for name, described in {"ReviewSource": SCHEMA, **SCHEMA["$defs"]}.items()
    for key in described["properties"]
]
BEFORE = {
    "ToldSource": "items:\n  - id: a\n    told:\n      - {key}: 1\n",
    "ReviewSource": "{key}: x\n",
    "ItemSource": "items:\n  - {key}: x\n",
    "PartSource": "items:\n  - parts:\n    - {key}: x\n",
    "StimulusSource": "items:\n  - stimulus:\n      {key}: x\n",
    "DiagramSource": "items:\n  - stimulus:\n      diagram: {{ {key}: x}}\n",
    "StripSource": "items:\n  - stimulus:\n      diagram: {{strip: {{ {key}: x}}}}\n",
}


def resolve(node: dict[str, Any]) -> dict[str, Any]:
    if "$ref" in node:
        found: dict[str, Any] = SCHEMA["$defs"][node["$ref"].rpartition("/")[2]]
        return found
    return node


def unnamed(value: Any, node: dict[str, Any], path: str = "") -> list[str]:
    """The keys of a value that the schema does not name."""
    node = resolve(node)
    if isinstance(value, list) and "items" in node:
        return [name for entry in value for name in unnamed(entry, node["items"], path)]
    if not isinstance(value, dict) or "properties" not in node:
        return []
    known = node["properties"]
    return [
        name
        for key, inner in value.items()
        for name in (unnamed(inner, known[key], key) if key in known else [f"{path}.{key}"])
    ]


def told(folder: Path, text: str) -> list[str]:
    file = folder / "a.yaml"
    file.write_text(text, encoding="utf-8")
    return [fault.wrong for fault in load([file]).faults]


def test_it_says_what_it_is() -> None:
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert SCHEMA["title"]


def test_the_starter_uses_keys_of_the_schema_only() -> None:
    text = files("narrate.items").joinpath("starter.yaml").read_text(encoding="utf-8")
    assert unnamed(yaml.safe_load(text), SCHEMA) == []
    assert unnamed({"items": [{"parts": [{"axe": 1}]}]}, SCHEMA) == ["parts.axe"]


@pytest.mark.parametrize(("name", "key"), KEYS)
def test_every_key_of_the_schema_is_described_and_known(
    tmp_path: Path, name: str, key: str
) -> None:
    described = {"ReviewSource": SCHEMA, **SCHEMA["$defs"]}[name]["properties"][key]
    assert described["description"]
    text = BEFORE[name].format(key=key)
    assert not any(wrong.startswith("unknown key") for wrong in told(tmp_path, text))
    misspelt = BEFORE[name].format(key=f"{key}q")
    assert f'unknown key "{key}q"' in told(tmp_path, misspelt)


def test_keys_that_are_not_in_the_schema_are_not_read() -> None:
    for described in (SCHEMA, *SCHEMA["$defs"].values()):
        assert described["additionalProperties"] is False


def test_the_schema_that_editors_load_is_the_one_printed() -> None:
    """The demo's first line names this file: it must be what `narrate schema` prints."""
    kept = Path(__file__).parents[2] / "templates" / "review.schema.json"
    assert json.loads(kept.read_text(encoding="utf-8")) == schema()
