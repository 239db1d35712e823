"""The guide says what is there: a page for each station, keys and words as the window has them."""

import ast
import re
from functools import cache
from pathlib import Path

import pytest

import honeyledger.desktop
from honeyledger.assets import resource
from honeyledger.desktop.actions import ACTIONS
from honeyledger.desktop.app import STATIONS
from honeyledger.desktop.main_window import ENTRIES
from honeyledger.desktop.stations.guide.pages import (
    ORDER,
    Block,
    GuidePage,
    Kind,
    found_in,
    page_of,
    read_pages,
)
from honeyledger.desktop.stations.keys.view import own_keys

PAGES = read_pages(resource("guide"))
BY_KEY = {page.key: page for page in PAGES}
# Keys of the keyboard that a field, a table or Qt itself understands, not only the window.
PLAIN_KEYS = {"Enter", "Tab", "Esc", "Space", "Up", "Down", "+"}
MOST_WORDS = 330
MOST_BYTES = 300_000


def _said(key: str) -> str:
    return (resource("guide") / f"{key}.md").read_text(encoding="utf-8")


@cache
def _words_of_the_window() -> frozenset[str]:
    """Every word that is given to Qt to be translated: nothing else is ever shown."""
    found: set[str] = set()
    for file in Path(honeyledger.desktop.__path__[0]).rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            called = getattr(node.func, "attr", getattr(node.func, "id", ""))
            if called in ("tr", "_tr", "translate", "translated", "N"):
                texts = [one.value for one in node.args if isinstance(one, ast.Constant)]
                found.update(text for text in texts if isinstance(text, str))
    return frozenset(found)


def test_every_station_has_its_page_and_every_page_is_in_the_list() -> None:
    stations = {*STATIONS, ENTRIES} - {"guide"}
    assert stations <= set(ORDER)
    assert {"first-day", "when-something-goes-wrong", "cautions"} <= set(ORDER)
    files = {file.stem for file in resource("guide").glob("*.md")}
    assert files == set(ORDER)


@pytest.mark.parametrize("key", ORDER)
def test_a_page_has_a_title_and_says_what_it_is_about(key: str) -> None:
    page = BY_KEY[key]
    assert [block.kind for block in page.blocks].count(Kind.TITLE) == 1
    assert page.blocks[0].kind is Kind.TITLE
    assert page.blocks[1].kind is Kind.TEXT
    assert page.summary.endswith(".")
    assert len(_said(key).split()) <= MOST_WORDS


@pytest.mark.parametrize("key", ORDER)
def test_its_keys_are_keys_of_the_window(key: str) -> None:
    known = {spec.keys for spec in (*ACTIONS, *own_keys())} | PLAIN_KEYS
    named = set(re.findall(r"`([^`]+)`", _said(key)))
    assert named <= known, named - known


@pytest.mark.parametrize("key", ORDER)
def test_its_bold_words_stand_in_the_window(key: str) -> None:
    named = set(re.findall(r"\*\*([^*]+)\*\*", _said(key)))
    words = _words_of_the_window()
    assert named <= words, named - words


@pytest.mark.parametrize("key", ORDER)
def test_its_links_lead_to_pages(key: str) -> None:
    linked = set(re.findall(r"(?<!!)\[[^\]]*\]\((.+?)\)", _said(key)))
    assert linked <= {f"{one}.md" for one in ORDER}


def test_its_pictures_are_there_and_small() -> None:
    files = [block.file for page in PAGES for block in page.blocks if block.kind is Kind.PICTURE]
    assert files
    for file in files:
        assert (resource("guide") / file).stat().st_size < MOST_BYTES


def test_cautions_stand_where_honey_or_the_work_can_hurt() -> None:
    for key in ("yards", "dock", "hot_room", "extraction", "drums", "bottling", "trace"):
        assert any(block.kind is Kind.CAUTION for block in BY_KEY[key].blocks), key
    said = " ".join(_said("cautions").casefold().split())
    for word in ("infants under one year", "label", "heat", "heavy", "local code"):
        assert word in said


def test_a_page_is_read_block_by_block() -> None:
    parts = (
        "# Dock",
        "In it\ncomes.",
        "## More",
        "- **One**\n  goes on\n- two",
        "1. `F2`",
        "> Hot.",
        "![It](a.png)",
    )
    page = page_of("dock", "\n\n".join(parts))
    assert page.blocks == (
        Block(Kind.TITLE, "Dock"),
        Block(Kind.TEXT, "In it comes."),
        Block(Kind.HEADING, "More"),
        Block(Kind.ITEM, "**One** goes on"),
        Block(Kind.ITEM, "two"),
        Block(Kind.STEP, "`F2`"),
        Block(Kind.CAUTION, "Hot."),
        Block(Kind.PICTURE, "It", "a.png"),
    )
    assert [block.plain for block in page.blocks[3:6]] == ["One goes on", "two", "F2"]
    assert Block(Kind.TEXT, "See [Dock](dock.md).").plain == "See Dock."


def test_words_are_found_wherever_they_stand_and_titles_come_first() -> None:
    assert found_in(PAGES, "  ") == PAGES
    hits = found_in(PAGES, "Drums")
    assert hits[0].key == "drums"
    assert "drums" in hits[0].summary.casefold()
    assert {page.key for page in found_in(PAGES, "infants year")} == {"bottling", "cautions"}
    assert found_in(PAGES, "zeppelin") == ()


def test_the_stretch_round_a_word_is_shown() -> None:
    text = f"{'word ' * 30}needle {'word ' * 30}"
    page = GuidePage("x", (Block(Kind.TITLE, "X"), Block(Kind.TEXT, text)))
    (hit,) = found_in([page], "needle")
    assert hit.summary.startswith("… word")
    assert "needle" in hit.summary
