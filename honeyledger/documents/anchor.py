"""The ledger's head on a paper that is kept: in words, and as a code that the audit takes.

Whoever keeps the paper can tell later whether entries were taken off the ledger's end since.
"""

from honeyledger.documents.fonts import HEAVY, TEXT, wrapped
from honeyledger.documents.page import Page
from honeyledger.documents.symbols import dots_a_module, make_symbol

ANCHOR_MM = 34.0
WORDS = (
    "Keep this paper: it holds the ledger fast. The code is the ledger's head; an audit that is "
    "given it finds any entry that was changed or taken away before it."
)
_SIDE = 26.0
_MODULE = 0.8
_DPI = 300
_MASK = 2
_LINE = 4.6


def draw_anchor(page: Page, head: str, at: tuple[float, float, float]) -> None:
    """Draw it.

    Args:
        head: the entry's number and the first digits of its digest.
        at: left, top and width, mm.
    """
    left, top, width = at
    entry, _, digest = head.partition(" ")
    symbol = make_symbol(f"{digest}:{entry}", _MASK)
    page.symbol(left, top + 4, symbol, dots_a_module(symbol, _SIDE, _DPI, _MODULE), _DPI)
    x, y = left + _SIDE + 4, top + 10
    page.text(x, y, f"Head of the ledger: entry {entry}, {_in_fours(digest)}", HEAVY, 11)
    for line in wrapped(WORDS, TEXT, 9, width - _SIDE - 4):
        y += _LINE
        page.text(x, y + 1, line, TEXT, 9)


def _in_fours(digest: str) -> str:
    """Digits as people read them to each other."""
    return " ".join(digest[at : at + 4] for at in range(0, len(digest), 4))
