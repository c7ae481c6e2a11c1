"""Where templates are found, and that nothing in them can do harm."""

from __future__ import annotations

from pathlib import Path

import pytest
from jinja2 import TemplateNotFound, UndefinedError
from jinja2.exceptions import SecurityError

from narrate.errors import WrongUse
from narrate.lesson import templates
from narrate.lesson.templates import (
    builtin_folder,
    languages,
    page_environment,
    speech_environment,
)


def save(folder: Path, name: str, text: str) -> None:
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


@pytest.fixture
def ours(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder that stands for our own templates."""
    folder = tmp_path / "ours"
    save(folder, "en/hello.j2", "Hello, {{ name }}.")
    save(folder, "pages/list.html.j2", "<p>{{ name }}</p>")
    monkeypatch.setattr(templates, "builtin_folder", lambda: folder)
    return folder


def test_our_templates_are_where_they_are_looked_for() -> None:
    assert (builtin_folder() / "pages" / "script.html.j2").is_file()
    assert "en" in languages()
    assert "pages" not in languages()


def test_a_wheel_serves_them_from_inside_the_package(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Inside the package where they are, else beside it."""
    module = tmp_path / "narrate" / "lesson" / "templates.py"
    monkeypatch.setattr(templates, "__file__", str(module))
    assert builtin_folder() == tmp_path.resolve() / "templates"
    (tmp_path / "narrate" / "templates").mkdir(parents=True)
    assert builtin_folder() == tmp_path.resolve() / "narrate" / "templates"


def test_speech_is_not_escaped_and_pages_are(ours: Path) -> None:
    name = "Ana & <Bo>"
    assert speech_environment("en").get_template("hello.j2").render(name=name) == (
        "Hello, Ana & <Bo>."
    )
    assert page_environment().get_template("list.html.j2").render(name=name) == (
        "<p>Ana &amp; &lt;Bo&gt;</p>"
    )


def test_the_teachers_own_come_first_and_can_include_ours(ours: Path, tmp_path: Path) -> None:
    own = tmp_path / "own"
    save(own, "en/hello.j2", "{% include 'builtin/hello.j2' %} Ready?")
    save(own, "pages/other.html.j2", "x")
    told = speech_environment("en", own).get_template("hello.j2").render(name="Ana")
    assert told == "Hello, Ana. Ready?"
    assert page_environment(own).get_template("list.html.j2").render(name="Ana") == "<p>Ana</p>"


def test_a_language_of_the_teachers_own(ours: Path, tmp_path: Path) -> None:
    own = tmp_path / "own"
    save(own, "es/hello.j2", "Hola, {{ name }}.")
    assert languages(own) == ("en", "es")
    assert speech_environment("es", own).get_template("hello.j2").render(name="Ana") == "Hola, Ana."


@pytest.mark.parametrize("language", ["xx", "../ours/en", "pages", ""])
def test_an_unknown_language_is_wrong_use(ours: Path, language: str) -> None:
    with pytest.raises(WrongUse) as raised:
        speech_environment(language)
    assert str(raised.value) == f"no sentences in language {language!r}; there are: en"


def test_a_missing_folder_is_wrong_use(ours: Path, tmp_path: Path) -> None:
    missing = tmp_path / "missing"
    with pytest.raises(WrongUse) as raised:
        page_environment(missing)
    assert str(raised.value) == f"no folder of templates at {missing}; name one, or leave it out"


def test_a_name_that_is_not_given_is_an_error(ours: Path) -> None:
    with pytest.raises(UndefinedError):
        speech_environment("en").get_template("hello.j2").render()


def test_templates_are_sandboxed(ours: Path) -> None:
    """A template reaches neither Python nor files outside its folders, and changes no value."""
    for text in ("{{ ''.__class__.__mro__ }}", "{{ names.append(1) }}"):
        save(ours, "en/bad.j2", text)
        with pytest.raises(SecurityError):
            speech_environment("en").get_template("bad.j2").render(names=[])
    with pytest.raises(TemplateNotFound):
        speech_environment("en").get_template("../pages/list.html.j2")


def test_labels_of_the_teachers_own_replace_those_they_name(tmp_path: Path) -> None:
    ours = templates.labels("script", "en")
    folder = tmp_path / "en"
    folder.mkdir()
    (folder / "labels.yaml").write_text("script:\n  said: Aloud\n", encoding="utf-8")
    assert templates.labels("script", "en", tmp_path) == ours | {"said": "Aloud"}


@pytest.mark.parametrize("text", ["- said", "script: said", "script: [a", "script: {said: [a]}"])
def test_labels_that_are_no_table_are_wrong_use(tmp_path: Path, text: str) -> None:
    (tmp_path / "en").mkdir()
    (tmp_path / "en" / "labels.yaml").write_text(text, encoding="utf-8")
    with pytest.raises(WrongUse, match=r"labels\.yaml: "):
        templates.labels("script", "en", tmp_path)
