"""Every kind of paper is made of the sample, and says who printed it."""

from collections.abc import Iterator

import pytest

from honeyledger.documents.report_paper import report_pdf
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.services.house import House
from honeyledger.services.paper_kinds import KINDS, offered, paper_of
from tests.support import printing
from tests.support.sample import code, sample_house


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    opened = sample_house(tmp_path_factory.mktemp("paper-kinds"))
    yield opened
    opened.store.close()


@pytest.mark.parametrize("kind", KINDS)
def test_every_page_says_which_it_is_when_printed_and_at_which_head(
    house: House, kind: str
) -> None:
    about = "Thrumley Road" if kind == "pull-sheet" else code("drum 45")
    about = about if KINDS[kind].needed else ""
    report = house.ask(lambda view: paper_of(view, SAMPLE_NOW_MS, kind, about))
    pdf = report_pdf(report, printing.typefaces())
    assert pdf == report_pdf(report, printing.typefaces())
    assert report.title == KINDS[kind].title
    pages = printing.text_of(pdf)
    count = pages.count("Page ")
    assert f"Page 1 of {count}" in pages
    assert f"Page {count} of {count}" in pages
    assert pages.count(report.printed) == pages.count(f"Ledger {report.head}") == count


def test_no_such_paper(house: House) -> None:
    with pytest.raises(Refusal) as refused:
        house.ask(lambda view: paper_of(view, SAMPLE_NOW_MS, "poem"))
    assert refused.value.text == (
        "There is no paper called poem. There are: pull-sheet, weigh-ticket, lot-history, "
        "trace-report, certificate-cover, mass-balance, dock-receipt, stock-list, season-book, "
        "hot-room-log, checks-log."
    )


def test_a_paper_of_nothing(house: House) -> None:
    with pytest.raises(Refusal) as refused:
        house.ask(lambda view: paper_of(view, SAMPLE_NOW_MS, "weigh-ticket"))
    assert refused.value.text == ("Say of what the weigh ticket is to be printed: a drum's code.")


def test_a_card_offers_what_fits_its_code() -> None:
    assert offered("D") == (
        "weigh-ticket",
        "lot-history",
        "trace-report",
        "certificate-cover",
        "mass-balance",
    )
    assert offered("G") == ("dock-receipt",)
    assert offered("S")[-1] == "dock-receipt"
    assert offered("Y") == ("pull-sheet",)
    assert offered("A") == ("lot-history", "trace-report", "mass-balance")
    assert offered("E") == offered("") == ()
