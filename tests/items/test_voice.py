"""`voice.yaml`: known keys only, and her pace saved without touching anything else."""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate.errors import FaultsFound, OutputFailed
from narrate.items.voice import Voice, voice_beside, with_pace


@pytest.mark.parametrize(
    ("content", "pace"),
    [(None, None), ("", None), ("# nothing yet\n", None), ("pace: 128\n", 128), ('pace: "90"', 90)],
)
def test_the_pace_is_read(content: str | None, pace: int | None, tmp_path: Path) -> None:
    if content is not None:
        (tmp_path / "voice.yaml").write_text(content, "utf-8")
    assert voice_beside(tmp_path / "week.yaml") == Voice(pace=pace)


@pytest.mark.parametrize(
    ("content", "told"),
    [
        ("pcae: 128\n", ':1:1: unknown key "pcae"; did you mean "pace"?'),
        ("\ncolour: red\n", ':2:1: unknown key "colour"; known here are pace'),
        ("pace: fast\n", ':1:7: "pace" is "fast"; write a whole number from 60 to 250'),
        ("pace: 20\n", ':1:7: "pace" is "20"; write a whole number from 60 to 250'),
        ("pace: 99.5\n", ':1:7: "pace" is "99.5"; write a whole number from 60 to 250'),
        ("pace: [1]\n", ':1:7: "pace" is no number; write a whole number from 60 to 250'),
        ("pace: 90\npace: 91\n", ':2:1: the key "pace" stands twice'),
        ("- pace\n", ":1:1: this is no set of keys; write pace: 140"),
    ],
)
def test_what_is_wrong_is_told_with_its_place(content: str, told: str, tmp_path: Path) -> None:
    (tmp_path / "voice.yaml").write_text(content, "utf-8")
    with pytest.raises(FaultsFound) as raised:
        voice_beside(tmp_path / "week.yaml")
    assert f"{tmp_path / 'voice.yaml'}{told}" in str(raised.value)


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (b"", b"pace: 131\n"),
        (b"# mine\r\npace:  90   # slow\r\n", b"# mine\r\npace:  131   # slow\r\n"),
        (b"# my pace: 90\n", b"# my pace: 90\npace: 131\n"),
        (b"# mine", b"# mine\npace: 131\n"),
        (b"# mine\r\n# end", b"# mine\r\n# end\r\npace: 131\r\n"),
    ],
)
def test_one_line_changes_and_nothing_else(before: bytes, after: bytes, tmp_path: Path) -> None:
    assert with_pace(before, 131, tmp_path / "voice.yaml") == after


def test_a_new_file_says_what_it_is(tmp_path: Path) -> None:
    path = tmp_path / "voice.yaml"
    path.write_bytes(with_pace(None, 131, path))
    assert path.read_text("utf-8").startswith("# What is yours")
    assert voice_beside(tmp_path / "week.yaml") == Voice(pace=131)


def test_a_file_that_cannot_take_the_line_is_kept(tmp_path: Path) -> None:
    """One written in braces: adding a line would break it."""
    path = tmp_path / "voice.yaml"
    with pytest.raises(OutputFailed, match="kept as it is; write the line pace: 131 into it"):
        with_pace(b"{pace: 90}\n", 131, path)
