"""The guide in each language: the same pages, keys, links and cautions, in the window's words."""

import re
from pathlib import Path

import pytest

from honeyledger.assets import resource
from honeyledger.desktop.language import ENGLISH, catalogue_of, languages
from honeyledger.desktop.stations.guide.pages import ORDER, Kind, read_pages

PAGES = [(language, key) for language in languages() if language != ENGLISH for key in ORDER]
_KEYS = re.compile(r"`([^`]+)`")
_BOLD = re.compile(r"\*\*([^*]+)\*\*")
_LINK = re.compile(r"(?<!!)\[[^\]]*\]\((.+?)\)")


def _said(key: str, language: str = "") -> str:
    folder: Path = resource("guide") / language
    return (folder / f"{key}.md").read_text("utf-8")


@pytest.mark.parametrize(("language", "key"), PAGES)
def test_a_page_has_the_blocks_keys_and_links_of_the_english_one(language: str, key: str) -> None:
    mine, theirs = _said(key, language), _said(key)
    assert sorted(_KEYS.findall(mine)) == sorted(_KEYS.findall(theirs))
    assert sorted(_LINK.findall(mine)) == sorted(_LINK.findall(theirs))
    at = ORDER.index(key)
    ours = read_pages(resource("guide") / language)[at]
    english = read_pages(resource("guide"))[at]
    assert [block.kind for block in ours.blocks] == [block.kind for block in english.blocks]


@pytest.mark.parametrize(("language", "key"), PAGES)
def test_bold_words_are_the_windows_own(language: str, key: str) -> None:
    said = catalogue_of(language)
    words = {*said.texts.values(), *said.placed.values()}
    named = set(_BOLD.findall(_said(key, language)))
    assert named <= words, named - words


@pytest.mark.parametrize("language", sorted({language for language, _ in PAGES}))
def test_pictures_are_there(language: str) -> None:
    folder = resource("guide") / language
    blocks = [block for page in read_pages(folder) for block in page.blocks]
    files = [block.file for block in blocks if block.kind is Kind.PICTURE]
    assert files
    assert all((folder / file).exists() for file in files)


def test_in_spanish_the_caution_about_infants_has_its_usual_words() -> None:
    assert "No apta para menores de un año" in _said("bottling", "es")
    assert "no es apta para menores de un año" in _said("cautions", "es")
