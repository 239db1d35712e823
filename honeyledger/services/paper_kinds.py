"""Which papers there are besides labels, what each is about, and what it says now.

Window and terminal print the same: a kind's report, who printed it and when, and which print of it
it is where it was printed before.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from honeyledger.domain.codes import LOT_LETTERS
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.verbs.printing import Printed, prints_of
from honeyledger.services.drum_list import IN_DRUMS
from honeyledger.services.field_papers import pull_sheet
from honeyledger.services.house_papers import (
    balance_of_house,
    checks_log,
    dock_receipt,
    hot_room_log,
    season_book,
    stock_list,
)
from honeyledger.services.lot_papers import (
    balance_of_lot,
    certificate_cover,
    lot_history,
    trace_report,
    weigh_ticket,
)
from honeyledger.services.printed import printed_words
from honeyledger.services.report_tables import Report
from honeyledger.services.store import View

NO_SUCH_PAPER = Sentence(
    "unknown-paper-kind", "There is no paper called {kind}. There are: {known}."
)
NAME_A_LOT = Sentence("paper-of-what", "Say of what the {kind} is to be printed: {about}.")


@dataclass(frozen=True, slots=True)
class PaperKind:
    """A kind of paper.

    Args:
        title: what it is called.
        about: what it is of, in words.
        needed: whether that has to be said.
        report: makes it, of the books, the time and what it is of.
        letters: the codes on whose cards it is offered, by their letters.
    """

    title: str
    about: str
    needed: bool
    report: Callable[[View, int, str], Report]
    letters: str = ""


def _mass_balance(view: View, now_ms: int, text: str) -> Report:
    if text.strip():
        return balance_of_lot(view, now_ms, text)
    return balance_of_house(view, now_ms)


_LOT = "a lot's code, or a jar's"
_LOTS = "".join(LOT_LETTERS)
_FOOD = "PTDJK"
KINDS: Mapping[str, PaperKind] = {
    "pull-sheet": PaperKind(phrase("Pull sheet"), "a yard's code or name", True, pull_sheet, "Y"),
    "weigh-ticket": PaperKind(
        phrase("Weigh ticket"), "a drum's code", True, weigh_ticket, IN_DRUMS
    ),
    "lot-history": PaperKind(phrase("Lot history"), _LOT, True, lot_history, _LOTS),
    "trace-report": PaperKind(phrase("Trace report"), _LOT, True, trace_report, _LOTS),
    "certificate-cover": PaperKind(
        phrase("Certificate cover"), _LOT, True, certificate_cover, _FOOD
    ),
    "mass-balance": PaperKind(
        phrase("Mass balance"), "a lot's code; else all the house", False, _mass_balance, _LOTS
    ),
    "dock-receipt": PaperKind(
        phrase("Dock receipt"),
        "a pallet tag, a pull, or a day; else today",
        False,
        dock_receipt,
        "GS",
    ),
    "stock-list": PaperKind(
        phrase("Stock list"), "letters of kinds of lots; else all", False, stock_list
    ),
    "season-book": PaperKind(
        phrase("Season book by yard"), "a year; else this one", False, season_book
    ),
    "hot-room-log": PaperKind(phrase("Hot-room log"), "a room; else all", False, hot_room_log),
    "checks-log": PaperKind(
        phrase("Checks log"), "a year; else the last twelve months", False, checks_log
    ),
}
"""Every kind by the word the terminal knows it by."""


def paper_of(view: View, now_ms: int, kind: str, text: str = "", operator: str = "") -> Report:
    """The paper of a kind as it is now.

    Args:
        text: what it is of, as `PaperKind.about` says.
        operator: the code of who prints it; "" where nobody is named.

    Raises:
        Refusal: no such kind, or nothing it could be of.
    """
    if kind not in KINDS:
        raise Refusal(NO_SUCH_PAPER, field="kind", kind=kind, known=", ".join(KINDS))
    one = KINDS[kind]
    if one.needed and not text.strip():
        raise Refusal(NAME_A_LOT, field="about", kind=one.title.lower(), about=one.about)
    report = one.report(view, now_ms, text)
    return replace(
        report,
        printed=printed_words(view, now_ms, operator),
        again=prints_of(view, kind, report.of or text),
    )


def offered(letter: str) -> tuple[str, ...]:
    """The kinds that are offered on the card of a code of this letter."""
    return tuple(kind for kind, one in KINDS.items() if letter and letter in one.letters)


def put_on_record(kind: str, text: str, report: Report, copies: int = 1) -> Printed:
    """What is recorded once the paper is out, so that the next one is known for a reprint."""
    return Printed(kind, report.of or text.strip(), copies)
