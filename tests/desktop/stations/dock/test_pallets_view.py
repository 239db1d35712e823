"""Pallets split, joined and counted, and honey bought in: by keys and scanner alone."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.faces import Faces, what_was_told
from tests.desktop.rig import Rig
from tests.support.houses import MINUTE_MS


class Dock:
    """Two pallets at the dock, the smaller forms in hand."""

    def __init__(self, rig: Rig, folder: Path) -> None:
        self.rig = rig
        rig.told(Register("yard", {"name": "Mill Lane"}))
        rig.told(Register("supplier", {"name": "Hollow Bees", "country": "Canada"}))
        self.first, self.second = self.pallet(36), self.pallet(20)
        rig.keys("Ctrl+2")
        self.faces = Faces(rig, folder)
        self.forms = rig.dock.pallets.forms
        self.forms.turn()
        rig.settle(self.forms.asking.pause)

    def pallet(self, supers: int) -> str:
        done = self.rig.told(Receive((Line("Mill Lane", supers),), gross_g=supers * 21_000))
        return next(code for code in done.given if code[0] == "G")

    def scan(self, code: str) -> None:
        self.rig.now_ms += MINUTE_MS
        self.rig.scan(code)
        self.rig.settle(self.forms.asking.pause)

    def type(self, *texts: str) -> None:
        for text in texts:
            self.rig.type(text)
        self.rig.settle(self.forms.asking.pause)

    def choose(self, kind: str) -> None:
        self.forms.form.choose(kind)
        self.rig.settle(self.forms.asking.pause)

    def given(self) -> str:
        entry = what_was_told(self.rig)[0]
        return entry.lots[0].code if entry.lots else ""


@pytest.fixture
def dock(qtbot: QtBot, tmp_path: Path) -> Iterator[Dock]:
    rig = Rig(qtbot, tmp_path)
    yield Dock(rig, tmp_path)
    rig.close()


def test_a_pallet_is_split_and_the_new_one_gets_its_tag(dock: Dock) -> None:
    terminal = dock.faces.copy()
    assert dock.rig.focused() == "Pallet: scan it"
    dock.scan(dock.first)
    dock.type("12", "")
    lead = dock.rig.toast().lead
    assert lead.startswith(f"12 supers of {dock.first} stand on G26-0003-")
    tag = lead.split(" stand on ")[1].removesuffix(" now.")
    dock.faces.same(terminal, "split", dock.first, "12")
    dock.rig.keys("Ctrl+P")
    assert [file.name for file in dock.rig.opened] == [f"{tag}.pdf"]
    assert dock.rig.opened[0].exists()


def test_a_pallet_is_joined_to_the_one_scanned_second(dock: Dock) -> None:
    terminal = dock.faces.copy()
    dock.choose("join")
    dock.scan(dock.first)
    dock.scan(dock.first)
    dock.scan(dock.second)
    dock.rig.dock.pallets.forms.form.record.click()
    dock.rig.settle(dock.forms.asking.pause)
    assert dock.rig.toast().lead == f"{dock.first} stands on {dock.second} now."
    dock.faces.same(terminal, "join", dock.first, dock.second)


def test_a_count_is_put_right(dock: Dock) -> None:
    terminal = dock.faces.copy()
    dock.choose("count")
    dock.scan(dock.second)
    dock.type("19", "")
    assert dock.rig.toast().lead == f"{dock.second} has 19 supers."
    dock.faces.same(terminal, "count", dock.second, "19")


def test_a_drum_is_bought_in_with_its_papers_and_gets_its_label(dock: Dock) -> None:
    terminal = dock.faces.copy()
    dock.choose("buy")
    dock.type("hollow", "HB 7", "", "318", "18", "", "acacia", "C 12", "", "")
    code = dock.given()
    assert dock.rig.toast().lead == f"{code} is bought in from Hollow Bees."
    dock.faces.same(
        *(terminal, "purchase", "Hollow Bees", "--gross", "318", "--tare", "18"),
        *("--floral", "acacia"),
        *("--lot", "HB 7", "--certificate", "C 12"),
    )
    dock.rig.keys("Ctrl+P")
    assert [file.name for file in dock.rig.opened] == [f"{code}.pdf"]


def test_what_cannot_be_stands_at_the_top_and_its_field_has_the_keyboard(dock: Dock) -> None:
    dock.scan(dock.second)
    dock.type("21", "")
    assert "20 supers" in dock.forms.form.slot.sentence()
    assert dock.rig.focused() == "Supers that go"


def test_a_pull_sheet_goes_back_to_the_receipt(dock: Dock) -> None:
    yard = dock.rig.told(Register("yard", {"name": "Long Field"})).given[0]
    dock.scan(yard)
    assert not dock.forms.is_shown()
    assert dock.rig.dock.presenter.typed.line.yard == yard


def test_half_a_form_outlives_the_window(dock: Dock, qtbot: QtBot, tmp_path: Path) -> None:
    dock.choose("count")
    dock.scan(dock.second)
    dock.rig.type("19", enter=False)
    dock.rig.settle(dock.forms.asking.pause)
    dock.rig.close()
    again = Rig(qtbot, tmp_path)
    again.keys("Ctrl+2")
    forms = again.dock.pallets.forms
    forms.turn()
    again.settle(forms.asking.pause)
    typed = forms.asking.typed["count"]
    assert (typed.text("pallet"), typed.text("count")) == (dock.second, "19")
    again.close()
