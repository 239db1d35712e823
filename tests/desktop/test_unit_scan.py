"""A pallet's number, scanned in the window, is its code wherever a code is taken."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.dispatch.view import DispatchView
from honeyledger.ledger.units import unit_number
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.packing import Pack, PackLine
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.setup import new_house
from tests.desktop.rig import Rig
from tests.support import printing


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    yield made
    made.close()


def _packed(rig: Rig) -> tuple[str, str, str]:
    """A jar lot, a case of it and the case's number."""
    with rig.hearing_at_the_end():
        house = new_house("Test House", "UTC")[0]
        rig.told(Register("house", {**house.record, "gs1_prefix": "9521234"}))
        rig.told(Register("yard", {"name": "Mill Lane"}))
        rig.told(Register("vessel", {"name": "Tank"}))
        rig.told(Register("product", {"name": "Clover", "net_g": 500, "gtin": "9521234543213"}))
        tag = rig.told(Receive((Line("Mill Lane", 12),), gross_g=400_000)).given[0]
        rig.told(Load(tag, "Tank"))
        jars = rig.told(ChangeOver(product="Clover", feed="Tank")).given[0]
        rig.told(Bottle(jars, 60))
        (case,) = rig.told(Pack((PackLine(jars, 12),))).given
    return jars, case, rig.house.ask(lambda view: unit_number(view, case))


def test_a_number_scanned_opens_the_card_of_its_case(rig: Rig) -> None:
    jars, case, number = _packed(rig)
    rig.keys("Ctrl+2")
    for text in (
        f"]C100{number}",
        f"00{number}",
        f"]d200{number}02095212345432133712\x1d10{jars}",
        f"]Q3HTTPS://HONEY.EXAMPLE/00/{number}",
    ):
        rig.window.close_card()
        rig.scan(text)
        rig.settle()
        assert rig.window.card.widget.code() == case, text
    rig.scan("]d20209521234543213376\x1d10" + jars)
    assert rig.window.card.widget.code() == jars


def test_a_number_scanned_at_dispatch_puts_the_case_on_the_note(rig: Rig) -> None:
    _, case, number = _packed(rig)
    rig.window.open_station("dispatch")
    rig.settle()
    rig.scan(f"]C100{number}")
    rig.settle()
    dispatch = rig.window.station()
    assert isinstance(dispatch, DispatchView)
    assert [one.code for one in dispatch.presenter.note.picked] == [case]


def test_the_label_of_a_case_is_printed_from_its_card(rig: Rig) -> None:
    _, case, number = _packed(rig)
    rig.scan(f"]C100{number}")
    rig.settle()
    assert rig.window.card.handle("print")
    rig.settle()
    (file,) = rig.window.desk.papers.glob(f"{case}*.pdf")
    assert f"(00) {number}" in printing.text_of(file.read_bytes())


def test_a_number_or_retail_code_that_leads_nowhere_says_what_to_do(rig: Rig) -> None:
    _packed(rig)
    rig.scan("]C100106141411234567897")
    rig.settle()
    said = rig.toast()
    assert "106141411234567897 is the number (SSCC) of no case or pallet" in said.sentence
    rig.scan("]E09521234543213")
    rig.settle()
    assert "9521234543213 is the retail code of Clover" in rig.toast().sentence
