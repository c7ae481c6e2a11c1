"""Whatever a file holds, loading it gives reviews and faults, each fault on one line."""

from __future__ import annotations

import re
from importlib.resources import files
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from narrate.items.loading import SUFFIXES, load

STARTER = files("narrate.items").joinpath("starter.yaml").read_text(encoding="utf-8")
LINE = re.compile(r".+:[1-9]\d*:[1-9]\d*: .+; .+")
SNIPPETS = st.sampled_from(
    [*"{}[]:,-#&*!|>'\"%@`?\t\n/0", "\n  ", ": ", "- ", "<<: ", "1/0", "\ufffe", "\x00", "é", "\\u"]
)
FILES = settings(
    max_examples=150,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)


def read(folder: Path, data: bytes, suffix: str) -> None:
    file = folder / f"garden{suffix}"
    file.write_bytes(data)
    loaded = load([file])
    assert loaded.reviews or loaded.faults
    for fault in loaded.faults:
        assert LINE.fullmatch(str(fault)), str(fault)
        assert str(fault).isprintable(), str(fault)


@pytest.mark.parametrize("suffix", SUFFIXES)
@FILES
@given(data=st.binary(max_size=200) | st.text(max_size=200).map(lambda text: text.encode()))
def test_any_bytes(tmp_path: Path, suffix: str, data: bytes) -> None:
    read(tmp_path, data, suffix)


@FILES
@given(
    edits=st.lists(
        st.tuples(st.integers(0, len(STARTER)), st.integers(0, 12), SNIPPETS),
        min_size=1,
        max_size=4,
    )
)
def test_a_good_file_with_slips(tmp_path: Path, edits: list[tuple[int, int, str]]) -> None:
    text = STARTER
    for at, cut, put in edits:
        text = text[:at] + put + text[at + cut :]
    read(tmp_path, text.encode(), ".yaml")


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(max_size=20),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(
            st.sampled_from(
                ["id", "stem", "choices", "boxes", "parts", "key", "A", "B", "ask", "x"]
            ),
            inner,
            max_size=5,
        )
    ),
    max_leaves=20,
)


@FILES
@given(value=JSON)
def test_any_json(tmp_path: Path, value: object) -> None:
    import json

    read(tmp_path, json.dumps({"items": [value]}).encode(), ".json")
    read(tmp_path, json.dumps(value).encode(), ".jsonl")
