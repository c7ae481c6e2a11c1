"""`times.csv`: when each line was said, as a table that a person or a spreadsheet can correct.

    beat,line,start_ms,end_ms,sure,at,say
    rain-barrel.1.read,1,1200,3040,97,0:01.2,Question one.
    (end),,2101657,,,35:01.7,

Times are milliseconds, whole, so that no spreadsheet takes them for a date. `sure` is from 0 to
100; `at` and `say` are for the reader. A line without times was not said. A row without a line says
where a beat begins that begins before its words (a part recorded again).
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

from narrate.errors import Fault, FaultsFound, Place, WrongUse
from narrate.fitting.fitted import Fitted, from_lines
from narrate.lesson.lesson import Lesson, Span

FILE = "times.csv"
_COLUMNS = ("beat", "line", "start_ms", "end_ms", "sure", "at", "say")
_NEEDED = _COLUMNS[:4]
_END = "(end)"
_MOST_BYTES = 5_000_000
UNSURE = 80


def write(lesson: Lesson, fitted: Fitted, sink: BinaryIO) -> None:
    """Write the table in UTF-8 (marked, for spreadsheets) to `sink`."""
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(_COLUMNS)
    rows.writerows(_rows(lesson, fitted))
    sink.write(text.getvalue().encode("utf-8-sig"))


def _rows(lesson: Lesson, fitted: Fitted) -> Iterator[tuple[object, ...]]:
    timeline = fitted.timeline
    for beat in lesson.beats:
        sure = fitted.sure.get(beat.id, ())
        begins = timeline.beats[beat.id].start
        if 0 < begins < min((s.start for s in timeline.sentences[beat.id]), default=0):
            yield beat.id, "", begins, "", "", at(begins), ""
        for place, sentence in enumerate(beat.sentences):
            span = timeline.sentences[beat.id][place]
            said = (span.start, span.end) if span.length else ("", "")
            how = sure[place] if place < len(sure) and sure[place] is not None else ""
            yield beat.id, place + 1, *said, how, at(span.start), sentence.say
    yield _END, "", timeline.total_ms, "", "", at(timeline.total_ms), ""


def lines(lesson: Lesson, fitted: Fitted) -> Iterator[str]:
    """The table as it is printed: a `?` before each line that may be wrong."""
    for beat, line, start, end, sure, clock, say in _rows(lesson, fitted):
        if beat == _END or not line:
            continue
        length = f"{(int(str(end)) - int(str(start))) / 1000:.1f} s" if start != "" else "not said"
        mark = "?" if sure != "" and int(str(sure)) < UNSURE else " "
        yield f"{mark} {clock:>8}  {length:>8}  {sure!s:>3}  {beat} {line}  {say}"


def at(ms: int) -> str:
    """A time to the tenth of a second: `2:03.4`."""
    minutes, tenths = divmod((ms + 50) // 100, 600)
    return f"{minutes}:{tenths // 10:02}.{tenths % 10}"


# -- reading it back


def read(path: Path, lesson: Lesson) -> Fitted:
    """A table as it was written or corrected. Raises FaultsFound with the place of each fault."""
    reader = _Reader(path)
    found = reader.found
    heard: dict[str, list[Span | None]] = {}
    sure: dict[str, tuple[int | None, ...]] = {}
    for beat in lesson.beats:
        rows = [found.pop((beat.id, str(n + 1)), None) for n in range(len(beat.sentences))]
        if None in rows:
            reader.fault(1, f"{beat.id} has not all its lines", "fit anew where the review changed")
            continue
        heard[beat.id] = [row[0] for row in rows if row]
        sure[beat.id] = tuple(row[1] for row in rows if row)
    for beat_id, _ in found:
        reader.fault(1, f"the review has no line {beat_id}", "fit anew where the review changed")
    reader.raise_faults()
    last = max((s.end for spans in heard.values() for s in spans if s), default=0)
    timeline = from_lines(lesson, heard, max(reader.end or last, last), reader.begins)
    return Fitted(timeline=timeline, sure=sure)


class _Reader:
    """Reads rows by beat and line, and gathers faults."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.faults: list[Fault] = []
        self.found: dict[tuple[str, str], tuple[Span | None, int | None]] = {}
        self.begins: dict[str, int] = {}
        self.end: int | None = None
        self._last = 0
        text = read_text(path)
        semicolons = text.split("\n", 1)[0].count(";") > 2  # as spreadsheets of some countries save
        rows = csv.DictReader(io.StringIO(text), delimiter=";" if semicolons else ",")
        missing = [name for name in _NEEDED if name not in (rows.fieldnames or ())]
        if missing:
            self.fault(1, f"there is no column {missing[0]}", f"begin with {','.join(_COLUMNS)}")
            self.raise_faults()
        for row in rows:
            self._row({name: (value or "") for name, value in row.items() if name}, rows.line_num)

    def fault(self, line: int, wrong: str, right: str) -> None:
        self.faults.append(
            Fault(place=Place(file=str(self.path), line=line), wrong=wrong, right=right)
        )

    def raise_faults(self) -> None:
        if self.faults:
            raise FaultsFound(tuple(self.faults[:20]))

    def _row(self, row: dict[str, str], line: int) -> None:
        if row["beat"] == _END:
            self.end = self._number(row["start_ms"], line)
            return
        start, end = (self._number(row[name], line) for name in ("start_ms", "end_ms"))
        if not row["line"].strip() and start is not None:
            self.begins[row["beat"].strip()] = max(start, self._last)
            return
        key = row["beat"].strip(), row["line"].strip()
        if key in self.found:
            self.fault(line, f"line {key[1]} of {key[0]} stands twice", "keep one of them")
        span = None if start is None or end is None else Span(start, end)
        if span and not self._last <= start < end:  # type: ignore[operator]
            wrong = f"{start} to {end} does not follow {self._last}, where the line before ends"
            self.fault(line, wrong, "let each line start where or after the one before ends")
        elif span:
            self._last = span.end
        sure = row.get("sure", "").strip()
        self.found[key] = span, int(sure) if sure.isdigit() else None

    def _number(self, text: str, line: int) -> int | None:
        if not text.strip():
            return None
        if not (text.strip().isascii() and text.strip().isdigit() and len(text) < 12):
            self.fault(line, f'"{text[:40]}" is no time', "write whole milliseconds, such as 83400")
            return None
        return int(text)


def read_text(path: Path) -> str:
    """The text of a small file. Raises WrongUse where it cannot be had, FaultsFound if no UTF-8."""
    try:
        with path.open("rb") as file:
            data = file.read(_MOST_BYTES + 1)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise WrongUse(f"{path} cannot be opened ({reason}); check its name") from None
    if len(data) > _MOST_BYTES or not data.strip():
        wrong = "this file is larger than 5 MB" if data.strip() else "this file is empty"
        right = "give the times that were saved"
        raise FaultsFound((Fault(place=Place(file=str(path)), wrong=wrong, right=right),))
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        fault = Fault(
            place=Place(file=str(path)), wrong="this file is not UTF-8", right="save it as UTF-8"
        )
        raise FaultsFound((fault,)) from None
