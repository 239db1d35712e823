"""Bulk trade by keys and scanner alone, the same entries as from the terminal."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.dispatch.trade_view import GATE_VIEW, OWED
from honeyledger.ledger.verbs.dispatch import DispatchLine
from honeyledger.ledger.verbs.quality import Sample
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.dispatch_rig import Station
from tests.desktop.rig import SOON, Rig
from tests.support.terminal import Terminal


class Trading:
    """A drum sent, a sample drawn for a customer, jars at the gate; trade's forms in hand."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        (folder / "window").mkdir()
        (folder / "terminal").mkdir()
        self.folder = folder
        self.rig = Rig(qtbot, folder / "window", first=SOON)
        self.station = Station(self.rig)
        self.goods = self.station.goods
        self.badge = self.rig.told(Register("operator", {"name": "Ann Reed"})).given[0]
        self.sample = self.rig.told(Sample((self.goods.other_drum,), 250, customer="Packer"))
        self.note = self.goods.sent("Packer", DispatchLine(self.goods.drum))
        self.goods.sent("gate", DispatchLine(self.goods.old, jars=12))
        self.rig.scan(self.badge)

    def copy(self) -> Terminal:
        """The house as it is now, for a terminal."""
        copy = self.folder / "terminal" / "house.honeyledger"
        with self.rig.house.store.reading():
            shutil.copyfile(self.rig.file, copy)
            for beside in ("-wal", "-shm"):
                part = Path(f"{self.rig.file}{beside}")
                if part.exists():
                    shutil.copyfile(part, f"{copy}{beside}")
        return Terminal(self.folder / "terminal")

    def choose(self, kind: str) -> None:
        """One of the forms in hand, its first field with the keyboard."""
        if not self.station.view.trade.forms.is_shown():
            self.station.view.trade.forms.turn()
        self.station.view.trade.forms.form.choose(kind)
        self.rig.settle(self.station.view.trade.forms.asking.pause)

    def same(self, terminal: Terminal, *words: str) -> None:
        """The terminal, told the same, has the same head."""
        act = self.goods.last().act
        terminal.now_ms = self.rig.now_ms - 60_000
        by = ("--operator", self.badge, "--station", "dock", "--command", act.command)
        terminal.do(*words, *by)
        assert terminal.head() == self.rig.head()


@pytest.fixture
def trading(qtbot: QtBot, tmp_path: Path) -> Iterator[Trading]:
    made = Trading(qtbot, tmp_path)
    yield made
    made.rig.close()


def test_a_sample_is_refused_by_its_customer(trading: Trading) -> None:
    terminal, rig = trading.copy(), trading.rig
    sample = trading.sample.codes[-1]
    trading.choose("judged")
    rig.scan(sample)
    rig.type("")
    rig.keys("Right")
    rig.type("")
    rig.type("HMF 44")
    rig.type("L-88")
    assert rig.toast().lead == f"Sample {sample} is refused."
    trading.same(
        *(terminal, "approve", sample, "--refused", "--reason", "HMF 44", "--reference", "L-88")
    )


def test_the_buyers_scale_of_a_whole_note(trading: Trading) -> None:
    terminal, rig = trading.copy(), trading.rig
    trading.choose("scale")
    rig.scan(trading.note)
    for text in ("T 17", "279,4", "", "", ""):
        rig.type(text)
    assert rig.toast().lead == f"The buyer's scale counts for {trading.note}."
    words = ("buyers-weight", trading.note, "--net", "279.4", "--reference", "T 17")
    trading.same(terminal, *words)


def test_empties_come_back_by_scan_or_by_enter_on_what_is_owed(trading: Trading) -> None:
    terminal, rig = trading.copy(), trading.rig
    view = trading.station.view
    view.side.choose_view(OWED)
    rig.settle()
    assert [row.name for row in view.trade.owed.model.rows()] == ["Drum 7"]
    assert view.trade.owed.foot.words().startswith("1 container is out")
    rig.keys("Ctrl+C")
    assert rig.toast().lead == "One row is copied.", "a table made late is looked after, too"
    rig.keys("Return")
    rig.scan(trading.goods.container)
    assert view.trade.forms.asking.now().codes("containers") == (trading.goods.container,)
    rig.type("")
    assert rig.toast().lead == "1 container is back."
    trading.same(terminal, "empties", "Packer", trading.goods.container)
    assert view.trade.owed.model.rowCount() == 0


def test_title_goes_over_by_scan(trading: Trading) -> None:
    terminal, rig = trading.copy(), trading.rig
    other = trading.goods.other_drum
    trading.choose("title")
    rig.scan(other)
    rig.scan(other)
    for text in ("pack", "INV 12", ""):
        rig.type(text)
    assert rig.toast().lead == f"Title of {other} went over to Packer."
    trading.same(terminal, "transfer-title", "Packer", other, "--document", "INV 12")


def test_a_complaint_is_taken_in_by_the_jar(trading: Trading) -> None:
    terminal, rig = trading.copy(), trading.rig
    jar = trading.goods.jar(trading.goods.old, 7)
    trading.choose("complaint")
    rig.scan(jar)
    slot = trading.station.view.trade.forms.form.slot
    assert "What may hurt someone: hold the lot" in slot.sentence()
    for text in ("Ms Orla", "a splinter of glass", "", ""):
        rig.type(text)
    assert rig.toast().lead.startswith(f"The complaint about {jar} is kept as entry ")
    trading.same(terminal, "complaint", jar, "a splinter of glass", "--who", "Ms Orla")


def test_what_cannot_be_is_refused_at_the_top(trading: Trading) -> None:
    rig = trading.rig
    trading.choose("title")
    rig.scan(trading.goods.other_drum)
    for text in ("packer", "", ""):
        rig.type(text)
    said = trading.station.view.trade.forms.form.slot.sentence()
    assert said.endswith(
        "Name the document by which title goes over, such as the number of the invoice."
    )
    assert rig.focused() == "Invoice or contract"


def test_the_farm_gate_by_day(trading: Trading) -> None:
    view = trading.station.view
    view.side.choose_view(GATE_VIEW)
    trading.rig.settle()
    (row,) = view.trade.gate.model.rows()
    assert (row.code, row.jars) == (trading.goods.old, 12)
    trading.rig.keys("Return")
    assert trading.rig.window.card.widget.code() == trading.goods.old
    trading.goods.sent("gate", DispatchLine(trading.goods.new, jars=3))
    assert view.trade.gate.model.rowCount() == 2, "and follows what is sold meanwhile"


def test_the_forms_are_left_as_they_were_and_outlive_the_window(
    trading: Trading, qtbot: QtBot
) -> None:
    rig = trading.rig
    trading.choose("complaint")
    for text in ("J26-0001-L", "", "foam"):
        rig.type(text)
    rig.keys("Ctrl+2", "Ctrl+7")
    assert trading.station.view.trade.forms.asking.now().text("what") == "foam"
    rig.window.close()
    again = Rig(qtbot, trading.folder / "window", first=SOON)
    again.keys("Ctrl+7")
    forms = again.window.stations["dispatch"].trade.forms  # type: ignore[attr-defined]
    forms.turn()
    again.settle(forms.asking.pause)
    assert forms.asking.typed["complaint"].text("what") == "foam"
    again.close()


def test_a_scan_that_is_for_no_form_opens_its_card_and_clear_empties(trading: Trading) -> None:
    rig, forms = trading.rig, trading.station.view.trade.forms
    trading.choose("judged")
    rig.scan(trading.goods.drum)
    assert rig.window.card.widget.code() == trading.goods.drum
    rig.keys("Esc")
    rig.scan(trading.sample.codes[-1])
    assert forms.asking.now().text("sample")
    rig.keys("Ctrl+Backspace")
    assert not forms.asking.now().text("sample")
    forms.turn()
    assert not forms.is_shown()
    assert rig.focused() == "Customer"
