"""The page of recalls: opened by a scan, told, answered and closed by keys; its papers."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.recalls.asks import ALL, ANSWER, CLOSE, OPEN, TOLD
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.recalls_rig import Station
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    """The page, open."""
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def _type(station: Station, kind: str, **values: str) -> None:
    station.choose(kind)
    spec = station.page.asked.asking.specs[kind]
    station.page.asked.asking.fill(FormTyped({**spec.begins().values, **values}))
    station.rig.settle()


def _opened(station: Station, **more: str) -> str:
    _type(station, OPEN, about="smells of smoke", yard=station.sent.yard, **more)
    station.keep()
    assert station.view.presenter.page is not None
    case = station.view.presenter.page.case
    assert case is not None
    return case.code


def test_a_case_from_its_opening_to_its_end(station: Station) -> None:
    assert station.view.listed.heading.text() == "No case is open"
    code = _opened(station, found="by Packer", risk="low")
    assert station.rig.toast().lead == f"{code} is open, and all stock in its scope is on hold."
    assert station.view.listed.heading.text() == "One case is open"
    assert station.codes() == [code]
    said = station.view.notes.sentences()
    assert said[0].startswith(f"{code}: smells of smoke. ")
    assert "Stands on Creek, all its pulls." in said[0]
    assert "0 of 1 told" in said[2]
    assert [row.name for row in station.view.who.model.rows()] == ["Packer"]
    station.view.who.opened.emit(station.view.who.model.rows()[0].key)
    station.rig.settle()
    assert station.page.asked.asking.kind == TOLD
    station.keep()
    assert station.rig.toast().lead == "Packer told."
    station.view.who.opened.emit(station.view.who.model.rows()[0].key)
    station.rig.settle()
    assert station.page.asked.asking.kind == ANSWER
    key = station.typed().text("customer")
    _type(station, ANSWER, customer=key, here_g="0", destroyed_g="60", proof="photographs")
    station.keep()
    assert station.rig.toast().lead == "The answer of Packer is kept."
    _type(station, CLOSE, result="burner thrown out")
    station.keep()
    assert station.rig.toast().lead == "The case is closed, and what it held is free."
    assert station.view.listed.heading.text() == "No case is open"
    assert station.books.said()["result"] == "burner thrown out"


def test_a_scan_is_what_is_called_back(station: Station) -> None:
    assert station.view.take_code(station.sent.here)
    station.rig.settle()
    assert station.typed().text("lots") == station.sent.here
    assert station.page.asked.asking.kind == OPEN
    first = _opened(station, sort="drill")
    assert station.view.take_code(first)
    page = station.view.presenter.page
    assert page is not None
    assert page.case is not None
    assert page.case.sort == "drill"


def test_all_who_were_not_told_are_told_at_once(station: Station) -> None:
    station.rig.house.record(Dispatch("Baker", (DispatchLine(station.sent.here),)))
    _opened(station)
    _type(station, TOLD, customers=ALL, how="letter")
    station.keep()
    assert station.rig.toast().lead == "2 customers told."
    assert len(station.books.said()["customers"]) == 2


def test_report_and_letters_are_printed(station: Station) -> None:
    station.view.report.click()
    assert station.says() == (
        "Open a case, or choose one: its report and letters are printed then."
    )
    code = _opened(station)
    station.view.report.click()
    station.rig.settle()
    papers = station.rig.desk.papers
    assert (papers / f"Recall {code}.pdf").read_bytes().startswith(b"%PDF")
    station.view.letters.click()
    station.rig.settle()
    assert (papers / f"Recall {code} letters.pdf").read_bytes().startswith(b"%PDF")


def test_with_nobody_to_write_to_that_is_said(station: Station) -> None:
    _type(station, OPEN, about="leaks", lots=station.sent.here)
    station.keep()
    station.view.letters.click()
    assert station.says() == (
        "Nobody whose name is known has any of it: there is no letter to write."
    )


def test_what_is_refused_is_said(station: Station) -> None:
    _type(station, TOLD, customers="x")
    station.keep()
    assert "Choose the case that is meant, or open one first." in station.says()
    _opened(station)
    _type(station, ANSWER, here_g="0")
    station.keep()
    assert "Choose the customer from the list." in station.says()


def test_a_drill_is_begun_with_a_jar_drawn_at_random(station: Station) -> None:
    view, record = station.view, station.rig.house.record
    view.drawing.click()
    station.rig.settle()
    assert station.says() == (
        "Not recorded. No jars were bottled yet. Name a lot to rehearse with, such as a drum."
    )
    record(Register("product", {"name": "Clover 500 g", "net_g": 500}))
    lot = record(ChangeOver(product="Clover 500 g", feed=station.sent.here)).given[0]
    record(Bottle(lot, 40, empty=True))
    view.drawing.click()
    station.rig.settle()
    typed = view.presenter.asking.typed[OPEN]
    said = [typed.text(key) for key in ("about", "sort", "lots")]
    assert said == [f"drill on {lot}", "drill", lot]
    station.keep()
    page = view.presenter.page
    assert page is not None
    assert page.case is not None
    assert (page.case.sort, page.case.stands_on) == ("drill", lot)
