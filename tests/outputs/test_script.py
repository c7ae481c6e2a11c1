"""`script.html`: read back with Python's own HTML parser, and what it says adds up."""

from __future__ import annotations

import io
import re
from html.parser import HTMLParser

from narrate.lesson.timeline import predict
from narrate.outputs import USUAL, script
from tests.outputs.samples_text import BEATS, LESSON

TIMES = predict(LESSON)
VOID = frozenset({"meta", "col", "br"})


class Page(HTMLParser):
    """Every element with its text; fails where tags do not nest."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.elements: list[tuple[str, dict[str, str | None], list[str]]] = []
        self.inside: list[int] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs), []))
        if tag not in VOID:
            self.open.append(tag)
            self.inside.append(len(self.elements) - 1)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag
        self.inside.pop()

    def handle_data(self, data: str) -> None:
        for place in self.inside:
            self.elements[place][2].append(data)

    def texts(self, tag: str, style: str | None = None) -> list[str]:
        """The text of each such element, optionally of one class."""
        return [
            " ".join("".join(text).split())
            for name, attributes, text in self.elements
            if name == tag and (style is None or style in (attributes.get("class") or "").split())
        ]


def html() -> str:
    sink = io.BytesIO()
    script.write(LESSON, TIMES, USUAL, sink)
    return sink.getvalue().decode()


def page() -> Page:
    read = Page()
    read.feed(html())
    read.close()
    assert read.open == []
    return read


def test_every_sentence_stands_as_spoken() -> None:
    """The same words as the other outputs, in order (invariant 6); long pauses are printed."""
    said = page().texts("td", "say")
    plain = [" ".join(re.sub(r"\(pause [\d.]+ s\)", "", text).split()) for text in said]
    assert plain == [beat.say for beat in BEATS]
    assert re.findall(r"\(pause [\d.]+ s\)", " ".join(said)) == [
        "(pause 5 s)",
        "(pause 3 s)",
        "(pause 5 s)",
    ]


def test_everything_put_in_is_escaped() -> None:
    assert page().texts("h1") == ["Garden week <& kitchen>"]
    assert "Question 2 &lt;A&gt; &amp; more" in html()


def test_columns_add_up_to_their_totals() -> None:
    """Seconds, words and pauses of the rows are those of the parts, to the last tenth printed."""
    for unit in ("seconds", "words", "pause"):
        parts = html().split("<section")[1:]
        assert len(parts) == len(LESSON.chapters)
        for part in parts:
            *rows, total = column(unit, part)
            assert round(sum(rows), 1) == total
    seconds = [column("seconds", part)[-1] for part in html().split("<section")[1:]]
    assert round(sum(seconds), 1) == round(TIMES.total_ms / 1_000, 1)


def column(unit: str, part: str) -> list[float]:
    return [float(cell) for cell in re.findall(rf'data-name="{unit}"[^>]*>([\d.]+)<', part)]


def test_cues_times_and_slides() -> None:
    heads = page().texts("th", "cue")
    assert len(heads) == len(BEATS)
    assert heads[0] == "10:00slide 1"
    start = TIMES.beats[BEATS[5].id].start // 1_000
    assert heads[5] == f"6{start // 60}:{start % 60:02}slide 3"
    assert page().texts("p", "slide")[2] == "Slide 3: Question 1: the work"


def test_what_appears_stands_on_the_left() -> None:
    """Left what is seen, right what is heard: two-column scripts (teaching handouts, 2006)."""
    heads = [head for head in page().texts("th") if head.startswith("What")]
    assert heads[:2] == ["What appears", "What is said"]
    assert "A and D struck: less than 3/4" in page().texts("li")


def test_the_page_stands_alone_and_says_its_language() -> None:
    read = page()
    assert [attributes["lang"] for tag, attributes, _ in read.elements if tag == "html"] == ["en"]
    assert not [tag for tag, _, _ in read.elements if tag in ("script", "link", "img", "iframe")]
    assert "http" not in html()
    ids = [attributes["id"] for _, attributes, _ in read.elements if "id" in attributes]
    assert len(ids) == len(set(ids))


def test_tables_have_names_and_headers() -> None:
    """WCAG 2.2, 1.3.1: relationships that are seen can be told by a program."""
    read = page()
    ids = {attributes["id"] for tag, attributes, _ in read.elements if "id" in attributes}
    tables = [attributes for tag, attributes, _ in read.elements if tag == "table"]
    named = [table for table in tables if table.get("aria-labelledby") in ids]
    assert len(named) == len(LESSON.chapters)
    assert len(tables) == len(named) + len(read.texts("caption"))
    assert all(attributes.get("scope") for tag, attributes, _ in read.elements if tag == "th")


def test_text_contrast() -> None:
    """WCAG 2.2, 1.4.3: at least 4.5 to 1 for every text colour on the paper and on its band."""
    colours = dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", html()))
    for name in ("ink", "soft", "blue"):
        for ground in ("paper", "band"):
            assert contrast(colours[name], colours[ground]) >= 4.5


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def luminance(colour: str) -> float:
    """Relative luminance, as WCAG 2.2 defines it."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
