"""Papers of one lot of the sample season say what the books say."""

from collections.abc import Iterator

import pytest

from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.services.house import House
from honeyledger.services.lot_papers import (
    ESTIMATES,
    NOT_OURS,
    STILL_TO_WEIGH,
    balance_of_lot,
    certificate_cover,
    lot_history,
    trace_report,
    weigh_ticket,
)
from honeyledger.services.stock import lot_balance
from honeyledger.services.trace_page import trace_page
from tests.support.sample import code, sample_house


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    opened = sample_house(tmp_path_factory.mktemp("lot-papers"))
    yield opened
    opened.store.close()


def test_a_history_is_told_in_sentences(house: House) -> None:
    report = house.ask(lambda view: lot_history(view, SAMPLE_NOW_MS, code("drum 45")))
    assert report.of == code("drum 45")
    told = [row[1] for row in report.tables[0].rows]
    assert told[0].startswith("Filled: ")
    assert all(sentence.endswith(".") for sentence in told)


def test_a_weigh_ticket_has_what_a_buyer_asks_for(house: House) -> None:
    report = house.ask(lambda view: weigh_ticket(view, SAMPLE_NOW_MS, code("drum 45")))
    facts = dict(report.facts)
    assert facts["Crop year"] == "2026"
    assert facts["Floral kind"] not in ("", "not stated")
    captions = [row[0] for row in report.tables[0].rows]
    assert captions == ["Gross", "Tare", "Net", "Moisture", "Colour"]
    assert report.sign == ("Weighed by", "Scale", "Day and time")
    assert STILL_TO_WEIGH not in report.says


def test_a_balance_has_no_gap(house: House) -> None:
    report = house.ask(lambda view: balance_of_lot(view, SAMPLE_NOW_MS, code("drum 45")))
    assert dict(report.facts)["Not accounted for"] == "0.0 kg"
    came, gone = report.tables
    assert came.total[1] == gone.total[1]
    balance = house.ask(lambda view: lot_balance(view, code("drum 45")))
    assert len(came.rows) == len(balance.came)


def test_a_trace_has_every_lot_and_every_source(house: House) -> None:
    jars = code("bottling 1")
    page = house.ask(lambda view: trace_page(view, jars))
    report = house.ask(lambda view: trace_report(view, SAMPLE_NOW_MS, jars))
    sources, reach = report.tables
    assert [row[0] for row in sources.rows] == [line.row.name for line in page.yards]
    assert [row[0] for row in reach.rows] == [line.code for line in page.lots]
    assert report.says[0] == ESTIMATES
    assert sum(share for _, share in report.bands) == pytest.approx(1)


def test_a_cover_stands_before_the_reports_of_others(house: House) -> None:
    report = house.ask(lambda view: certificate_cover(view, SAMPLE_NOW_MS, code("drum 45")))
    assert report.says == (NOT_OURS,)
    assert {row[0] for row in report.tables[0].rows} >= {"moisture"}
    assert report.sign[-1] == "Pages behind this one"
