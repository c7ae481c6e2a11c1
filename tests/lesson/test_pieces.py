"""What builds keep: found again when it is whole, thrown away in time (own contract)."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from narrate.lesson import pieces

KEY = "ab" * 20


class TestKept:
    def test_it_is_made_once(self, tmp_path: Path) -> None:
        made: list[bytes] = []

        def make() -> bytes:
            made.append(b"sound")
            return made[-1]

        assert pieces.kept(tmp_path, KEY, make) == pieces.kept(tmp_path, KEY, make) == b"sound"
        assert len(made) == 1
        assert pieces.kept(None, KEY, make) == b"sound"
        assert len(made) == 2

    @pytest.mark.parametrize("found", [b"", b"soun", b"other"])
    def test_what_was_changed_is_made_again(self, tmp_path: Path, found: bytes) -> None:
        pieces.kept(tmp_path, KEY, lambda: b"sound")
        (path,) = tmp_path.rglob("*.piece")
        path.write_bytes(found)
        assert pieces.kept(tmp_path, KEY, lambda: b"again") == b"again"
        assert [p.read_bytes() for p in tmp_path.rglob("*.piece")] == [b"again"]

    def test_where_nothing_can_be_kept_it_is_made_all_the_same(self, tmp_path: Path) -> None:
        (tmp_path / "file").write_text("no folder")
        assert pieces.kept(tmp_path / "file", KEY, lambda: b"sound") == b"sound"


class TestPruning:
    def test_old_and_abandoned_ones_go_and_used_ones_stay(self, tmp_path: Path) -> None:
        now = time.time()
        ages = {"used.piece": 1, "old.piece": 31, "new.part": 0, "left.part": 2, "other.txt": 99}
        for name, days in ages.items():
            (tmp_path / name).write_text(name)
            os.utime(tmp_path / name, (now - days * 86_400,) * 2)
        pieces.prune(tmp_path)
        assert {path.name for path in tmp_path.iterdir()} == {
            "used.piece",
            "new.part",
            "other.txt",
        }

    def test_the_oldest_go_where_it_is_too_much(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setattr(pieces, "KEPT_BYTES", 25)
        for number in range(4):
            path = tmp_path / f"{number}.piece"
            path.write_bytes(bytes(10))
            os.utime(path, (time.time() - number,) * 2)
        pieces.prune(tmp_path)
        assert {path.name for path in tmp_path.iterdir()} == {"0.piece", "1.piece"}
