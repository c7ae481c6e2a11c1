"""What is kept between runs is only ever a help: broken or missing, it is made again."""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate.lesson import stored
from narrate.lesson.wording import Words
from narrate.outputs._template import own_template


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(stored, "_folder", lambda: tmp_path)
    own_template.cache_clear()
    return tmp_path


def test_what_was_kept_is_read_again(folder: Path) -> None:
    stored.keep("parts", {"a": b"1"})
    assert stored.read("parts") == {"a": b"1"}
    assert stored.read("others") is None
    assert [path.name.startswith("narrate-parts") for path in folder.iterdir()] == [True]


@pytest.mark.parametrize("broken", [b"", b"\x00\x01", b"no such thing"])
def test_a_broken_file_is_nothing(folder: Path, broken: bytes) -> None:
    stored.keep("parts", 1)
    (path,) = folder.iterdir()
    path.write_bytes(broken)
    assert stored.read("parts") is None


def test_without_a_folder_nothing_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(stored, "_folder", lambda: None)
    stored.keep("parts", 1)
    assert stored.read("parts") is None


def test_our_template_is_the_same_made_and_read(folder: Path) -> None:
    made = own_template()
    assert list(folder.iterdir())
    own_template.cache_clear()
    assert own_template() == made


def test_words_are_told_without_a_folder(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(stored, "_folder", lambda: None)
    assert Words("en").has("rewrite")
