"""The foot of a paper: whose head, who printed it, which page; behind its title, which print."""

from dataclasses import dataclass

import pytest

from honeyledger.documents.foot import draw_again, draw_foot, told_pages
from honeyledger.documents.page import Page
from tests.support import printing
from tests.support.stress import overlapping


@dataclass(frozen=True, slots=True)
class _Paper:
    head: str = "1317 84EDABD03458"
    printed: str = "Printed 24 Jul 2026 08:40 by Ann Reed"
    again: int = 0


def _drawn(paper: _Paper) -> bytes:
    page = Page("Foot", (210, 297), printing.typefaces())
    page.begin_page()
    draw_again(page, paper, 60, 30)
    draw_foot(page, paper, (18, 192, 283), (2, 3))
    return page.finish()


def test_a_foot_says_head_who_when_and_which_page() -> None:
    said = printing.text_of(_drawn(_Paper()))
    assert "Ledger 1317 84EDABD03458" in said
    assert "Printed 24 Jul 2026 08:40 by Ann Reed" in said
    assert "Page 2 of 3" in said
    assert "reprint" not in said
    assert "reprint 12" in printing.text_of(_drawn(_Paper(again=12)))
    assert printing.text_of(_drawn(_Paper("", ""))).split() == ["Page", "2", "of", "3"]


@pytest.mark.parametrize("head", ["1 00", "123456789012345678 84EDABD03458"])
def test_a_long_name_has_its_middle_left_out_between_head_and_page(head: str) -> None:
    boxes = printing.text_boxes(_drawn(_Paper(head, f"Printed today by {'Wilhelmina ' * 20}")))
    assert len(boxes) >= 3
    assert overlapping(boxes) == []


def test_whoever_waits_hears_of_each_page() -> None:
    told: list[tuple[int, int]] = []
    with told_pages(lambda page, of: told.append((page, of))):
        _drawn(_Paper())
    _drawn(_Paper())
    assert told == [(2, 3)]
