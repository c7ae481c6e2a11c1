"""Whatever a file holds, loading it gives what is good in it and faults, each on one line."""

from __future__ import annotations

import re
from collections.abc import Iterable
from importlib.resources import files
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from narrate.errors import Fault, FaultsFound
from narrate.items.absent import read_absences
from narrate.items.loading import SUFFIXES, load
from narrate.items.plan import read_plan

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
    are_told(loaded.faults)


def are_told(faults: Iterable[Fault]) -> None:
    for fault in faults:
        assert LINE.fullmatch(str(fault)), str(fault)
        assert str(fault).isprintable(), str(fault)


@pytest.mark.parametrize("suffix", SUFFIXES)
@FILES
@given(data=st.binary(max_size=200) | st.text(max_size=200).map(lambda text: text.encode()))
def test_any_bytes(tmp_path: Path, suffix: str, data: bytes) -> None:
    read(tmp_path, data, suffix)


def slips(text: str) -> st.SearchStrategy[bytes]:
    """A good file with up to four places changed."""

    def changed(edits: list[tuple[int, int, str]]) -> bytes:
        new = text
        for at, cut, put in edits:
            new = new[:at] + put + new[at + cut :]
        return new.encode()

    places = st.tuples(st.integers(0, len(text)), st.integers(0, 12), SNIPPETS)
    return st.lists(places, min_size=1, max_size=4).map(changed)


@FILES
@given(data=slips(STARTER))
def test_a_good_file_with_slips(tmp_path: Path, data: bytes) -> None:
    read(tmp_path, data, ".yaml")


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


# -- a plan, and a list of who was away


PLAN = """\
2026-05-04:
  starter.yaml: [rain-barrel, compost]
2026-05-06:
  starter.yaml: all
"""
ABSENT = "code,day\np03,2026-05-04\np07,2026-05-04 2026-05-06\n\np09,\n"


@FILES
@given(data=st.binary(max_size=200) | slips(PLAN))
def test_any_plan(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "starter.yaml").write_text(STARTER, "utf-8")
    file = tmp_path / "plan.yaml"
    file.write_bytes(data)
    planned: tuple[object, ...] = ()
    try:
        plan = read_plan(file)
        planned, faults = plan.planned, plan.faults
    except FaultsFound as found:
        faults = found.faults
    assert planned or faults
    are_told(faults)


@FILES
@given(data=st.binary(max_size=200) | slips(ABSENT))
def test_any_list_of_absences(tmp_path: Path, data: bytes) -> None:
    file = tmp_path / "absent.csv"
    file.write_bytes(data)
    try:
        absences = read_absences(file)
        faults = absences.faults
        assert all("\n" not in note for note in absences.notes)
    except FaultsFound as found:
        faults = found.faults
    are_told(faults)
