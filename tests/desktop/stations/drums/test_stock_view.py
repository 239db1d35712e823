"""Rows walked, drums found, warmed, of before and sent back; by keys and scans."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.stocktake import Move
from tests.desktop.drums_rig import Station
from tests.desktop.rig import SOON, Rig
from tests.support.printing import text_of


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    made = Station(rig)
    made.view.stock.asking.pause.setInterval(0)
    yield made
    rig.close()


def _turn(station: Station, kind: str) -> None:
    station.view.stock.turn()
    station.view.stock.form.choose(kind)
    station.rig.settle()


def _says(station: Station) -> str:
    return station.view.stock.form.slot.sentence()


def test_a_row_is_walked_and_what_is_missing_is_named(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    rig.told(Move((cellar.first, cellar.second), "Drum room", "B3"))
    _turn(station, "walk")
    rig.type("Drum room")
    rig.type("B3")
    rig.scan(cellar.first)
    rig.scan(cellar.third)
    rig.type("290; 285,5")
    assert len(cellar.said()["found"]) == 2
    said = cellar.said()
    assert (said["room"], said["row"]) == ("Drum room", "B3")
    assert said["scanned"] == [cellar.first, cellar.third]
    lead = rig.toast().lead
    assert lead.startswith("Drum room, B3: 1 where they should be; missing: ")
    assert f"missing: {cellar.second}" in lead
    assert f"not placed before: {cellar.third}" in lead
    assert "found without a label: D26-" in lead


def test_what_should_stand_there_is_printed_to_walk_with(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    rig.told(Move((cellar.first, cellar.second), "Drum room", "B3"))
    _turn(station, "walk")
    stock = station.view.stock
    assert stock.list.isVisible()
    stock.list.click()
    rig.settle()
    assert _says(station) == "Nothing printed. Name the room first; a row alone says too little."
    rig.type("Drum room")
    rig.type("B3", enter=False)
    rig.keys("Ctrl+P")
    assert _says(station).startswith("The list of what should stand there is in ")
    rig.keys("Ctrl+P")
    (file,) = rig.opened
    assert file.name == "Standing Drum room B3.pdf"
    assert cellar.first in text_of(file.read_bytes()).replace("- ", "-")
    stock.form.choose("warm")
    assert stock.list.accessibleName() == "Print the stock list"
    stock.list.click()
    rig.settle()
    assert _says(station).startswith("Stock list is in ")
    (listed,) = (rig.folder / "papers").glob("Stock list.pdf")
    assert cellar.third in text_of(listed.read_bytes()).replace("- ", "-")


def test_a_found_drum_gets_a_code_and_is_on_hold(station: Station) -> None:
    rig = station.rig
    _turn(station, "found")
    for text in ("310", "18", "", "", "12 Jul 2026", "7/12", "Drum room", "A1"):
        rig.type(text)
    said = station.cellar.said()
    assert said["weight"] == {"gross_g": 310_000, "tare_g": 18_000}
    assert (said["filled_on"], said["written"]) == ("2026-07-12", "7/12")
    assert rig.toast().lead.endswith(" stands for the drum, on hold.")
    code = rig.toast().lead.split()[0]
    row = station.view.presenter.row(code)
    assert row is not None
    assert row.state == "hold"


def test_heat_is_logged_with_its_caution(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    _turn(station, "warm")
    assert _says(station) == (
        "Hot honey scalds: gloves. Above 40 °C it counts as heated in all it goes into."
    )
    rig.scan(cellar.first)
    for text in ("45,5", "20", "30", "liquefying"):
        rig.type(text)
    said = cellar.said()
    assert (said["temperature"], said["minutes"]) == (455, 20 * 60 + 30)
    assert rig.toast().lead == f"{cellar.first} was at 45.5 °C."
    assert "counts as heated now" in rig.toast().text


def test_a_drum_of_before_comes_with_the_shares_of_its_yards(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    _turn(station, "opening")
    for text in ("2025", "", "", "", "290", "17,4"):
        rig.type(text)
    rig.scan(cellar.mill)
    rig.scan(cellar.bank)
    form = station.view.stock.form
    first = form.line_field("share", cellar.mill)
    assert first is not None
    form.form.take_focus(first)
    rig.type("60")
    rig.type("33,33")
    assert _says(station) == (
        "Not recorded. 33,33 is too fine: shares go by tenths of a percent. Round it."
    )
    rig.type("40")
    said = cellar.said()
    assert said["season"] == 2025
    assert [(part["name"], part["permille"]) for part in said["yards"]] == [
        (cellar.mill, 600),
        (cellar.bank, 400),
    ]
    assert rig.toast().lead.endswith(" is on hand.")


def test_bought_drums_go_back_and_other_codes_open_their_card(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    rig.told(Register("supplier", {"name": "Aster Apiaries"}))
    bought = rig.told(Purchase("Aster Apiaries", Weight(net_g=290_000))).codes[0]
    _turn(station, "back")
    rig.scan(bought)
    assert station.view.stock.asking.now().codes("lots") == (bought,)
    rig.scan(cellar.first)
    assert rig.window.shell.is_aside_shown(), "that is no bought-in drum"
    rig.keys("Escape")
    form = station.view.stock.form
    form.form.take_focus(form.fields["back"]["reason"])
    for text in ("too wet", "", ""):
        rig.type(text)
    assert rig.toast().lead == "One drum went back."


def test_the_forms_turn_back_and_are_emptied(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    _turn(station, "warm")
    rig.scan(cellar.first)
    rig.keys("Ctrl+Backspace")
    assert station.view.stock.asking.now().text("what") == ""
    station.view.table.opened.emit(cellar.second)
    rig.settle()
    assert not station.view.stock.is_shown(), "a drum in hand is for the first form"
    assert [line.code for line in station.typed().lines] == [cellar.second]
