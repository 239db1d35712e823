"""The foot of every paper of the office: the ledger's head, who printed it, when, which page."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Protocol

from honeyledger.documents.fonts import CODE, STRONG, TEXT, elided, width_mm
from honeyledger.documents.page import Page

_SIZE_PT = 7.0
_GAP = 3.0


Tell = Callable[[int, int], object]
"""Hears which page of how many is drawn."""


def _nobody(_page: int, _of: int) -> None:
    """Where nobody waits."""


_TOLD: ContextVar[Tell] = ContextVar("told", default=_nobody)


@contextmanager
def told_pages(tell: Tell) -> Iterator[None]:
    """Tell of each page as it is drawn: every paper of the office has this foot on each."""
    before = _TOLD.set(tell)
    try:
        yield
    finally:
        _TOLD.reset(before)


class Printed(Protocol):
    """A paper that knows when it was printed, and which print of it it is.

    Args:
        head: the ledger's head when it was made; "" where none is told.
        printed: when it was printed, and by whom, in words.
        again: which print of it this is, after the first.
    """

    @property
    def head(self) -> str: ...
    @property
    def printed(self) -> str: ...
    @property
    def again(self) -> int: ...


def draw_foot(
    page: Page, paper: Printed, at: tuple[float, float, float], pages: Sequence[int]
) -> None:
    """Draw it.

    Args:
        at: left, right and the line it stands on, mm.
        pages: the number of this page, and how many there are.
    """
    left, right, y = at
    head = f"Ledger {paper.head}" if paper.head else ""
    number, count = pages
    _TOLD.get()(number, count)
    page.text(left, y, head, CODE, _SIZE_PT)
    page.text(right, y, f"Page {number} of {count}", TEXT, 8, 1)
    if paper.printed:
        # In the middle of the page, unless the head reaches as far as there.
        middle = (left + right) / 2
        room = 2 * min(middle - left - width_mm(head, CODE, _SIZE_PT) - _GAP, right - middle - 22)
        words = page.typefaces.checked(paper.printed, TEXT)
        page.text(middle, y, elided(words, TEXT, _SIZE_PT, room), TEXT, _SIZE_PT, 0.5)


def draw_again(page: Page, paper: Printed, x: float, y: float) -> None:
    """Behind the title, which print of it this is; nothing on the first."""
    if paper.again:
        page.text(x, y, f"reprint {paper.again}", STRONG, 11)
