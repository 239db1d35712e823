"""A catalogue is read as it is written; every text of the program is in each."""

from pathlib import Path
from string import Formatter

import pytest

from honeyledger.desktop.catalogue import FACTS, Catalogue, read_catalogue
from honeyledger.domain.refusals import Refusal
from tests.support.texts import around, texts
from tests.support.translating import FOLDER, catalogue_text, with_texts

LANGUAGES = sorted(path.stem for path in FOLDER.glob("*.po"))


def _places(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name is not None}


def _catalogue(language: str) -> Catalogue:
    return read_catalogue(FOLDER / f"{language}.po")


def test_there_is_a_full_second_language() -> None:
    assert LANGUAGES == ["es"]
    assert len(_catalogue("es").texts) > 2_000


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_text_is_said_in_each_language(language: str) -> None:
    said = _catalogue(language)
    missing = [one for one in texts() if not said.said(one.text, one.context)]
    assert missing == [], "python -m tests.support.translating writes them in"


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_place_of_a_text_is_kept(language: str) -> None:
    said = _catalogue(language)
    pairs = [*said.texts.items(), *((text, words) for (_, text), words in said.placed.items())]
    assert [text for text, words in pairs if _places(text) != _places(words)] == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_nothing_in_a_catalogue_is_stale_or_out_of_its_order(language: str) -> None:
    written = (FOLDER / f"{language}.po").read_text("utf-8")
    assert written == catalogue_text(language, _catalogue(language), texts())


def test_a_label_for_infants_has_its_usual_warning() -> None:
    warning = "Every jar label has the caution about infants."
    assert "No apta para menores de un año" in _catalogue("es").texts[warning]


def test_no_text_goes_around_translation() -> None:
    # The program's name is the same in all languages.
    assert [one for one in around() if not one.endswith(": Honeyledger")] == []


def test_an_entry_with_a_context_holds_there_alone(tmp_path: Path) -> None:
    file = tmp_path / "xx.po"
    file.write_text(
        '# a note\nmsgid ""\nmsgstr "Language: xx\\n"\n\n'
        'msgid "Note"\nmsgstr "Nota"\n\n'
        'msgctxt "dispatch"\nmsgid "Note"\nmsgstr "Gu"\n"ía"\n\n'
        'msgid "waits"\nmsgstr ""\n\nmsgctxt "facts"\nmsgid "Dock"\nmsgstr "Muelle"\n',
        "utf-8",
    )
    said = read_catalogue(file)
    assert said.said("Note", "hot_room") == "Nota"
    assert said.said("Note", "dispatch") == "Guía"
    assert said.said("waits") is None
    # What fills a sentence may have been typed by a person, so only what is meant for it counts.
    assert said.said("Note", FACTS) is None
    assert said.said("Dock", FACTS) == "Muelle"


@pytest.mark.parametrize("line", ["rubbish", 'msgid "no end', '"of nothing"', "msgstr 3"])
def test_a_line_that_cannot_be_read_is_named(line: str, tmp_path: Path) -> None:
    file = tmp_path / "xx.po"
    file.write_text(f'msgid "a"\nmsgstr "b"\n{line}\n' if line[0] != '"' else f"{line}\n", "utf-8")
    number = 1 if line[0] == '"' else 3
    with pytest.raises(Refusal) as refused:
        read_catalogue(file)
    assert refused.value.text == (
        f"Line {number} of the translation xx.po cannot be read; install Honeyledger again."
    )


def test_new_texts_wait_for_their_translator() -> None:
    found = [one for one in texts() if one.text == "Reverse"]
    assert 'msgid "Reverse"\nmsgstr ""\n' in catalogue_text("xx", Catalogue({}, {}), found)
    more = with_texts(Catalogue({}, {}), {"Reverse": "Anular"})
    assert 'msgstr "Anular"' in catalogue_text("xx", more, found)
