"""The same facts in the window and in a terminal give the same digests and refusals."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.ledger.verbs.dispatch import DispatchLine
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.dispatch_rig import Station
from tests.desktop.faces import print_same, what_was_told
from tests.desktop.rig import SOON, Rig
from tests.support.houses import MINUTE_MS
from tests.support.terminal import Terminal
from tests.support.tiers import first_plain


class Both:
    """One house with goods, twice: in a window and in a terminal."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        (folder / "window").mkdir()
        (folder / "terminal").mkdir()
        self.window = Rig(qtbot, folder / "window", first=SOON)
        self.station = Station(self.window)
        self.goods = self.station.goods
        self.badge = self.window.told(Register("operator", {"name": "Ann Reed"})).given[0]
        self.goods.sent("Corner Shop", DispatchLine(self.goods.old, jars=40))
        self.window.told(PutOnHold(self.goods.other_drum, "leaks"))
        self.window.scan(self.badge)
        copy = folder / "terminal" / "house.honeyledger"
        with self.window.house.store.reading():
            shutil.copyfile(self.window.file, copy)
            for beside in ("-wal", "-shm"):
                part = Path(f"{self.window.file}{beside}")
                if part.exists():
                    shutil.copyfile(part, f"{copy}{beside}")
        self.terminal = Terminal(folder / "terminal")
        assert self.terminal.head() == self.window.head()

    def type_in_terminal(self, *words: str) -> None:
        """The same command as the last in the window, at its moment, by its person and id."""
        told, printed = what_was_told(self.window)
        by = ("--operator", self.badge, "--station", "dock", "--command")
        self.terminal.now_ms = self.window.now_ms - MINUTE_MS
        self.terminal.do(*words, *by, told.act.command)
        if printed is not None:
            print_same(self.terminal, self.window, printed, *by)

    def refused_in_terminal(self, *words: str) -> str:
        """What the terminal says to the same."""
        self.terminal.now_ms = self.window.now_ms - MINUTE_MS
        return self.terminal.refused(*words)

    def refused_in_window(self) -> str:
        """What the window says it refused."""
        shown = self.station.slot.shown()
        assert shown is not None
        assert shown.lead in ("Not recorded.", "Not on the note.")
        return shown.text


@pytest.fixture
def both(qtbot: QtBot, tmp_path: Path) -> Iterator[Both]:
    made = Both(qtbot, tmp_path)
    yield made
    made.window.close()


def test_a_note_picked_by_scan_is_the_same_entry_from_both_faces(both: Both) -> None:
    rig, goods = both.window, both.goods
    rig.type("corner shop")
    rig.type("PO 7")
    rig.type("Own van")
    rig.scan(goods.drum)
    rig.scan(goods.new)
    rig.type("4x12")
    rig.type("")
    rig.type("")
    assert both.station.notes(), both.station.says()
    both.type_in_terminal(
        *("dispatch", "Corner Shop", goods.drum, f"{goods.new}=4x12"),
        *("--reference", "PO 7", "--carrier", "Own van"),
    )
    assert both.terminal.head() == rig.head()


def test_what_is_said_of_a_load_is_the_same_entry_from_both_faces(both: Both) -> None:
    """All that Tab reaches behind what goes: contract, plates, seals, container, in whose name."""
    rig, goods = both.window, both.goods
    rig.type("corner shop")
    rig.type("")
    rig.type("")
    rig.scan(goods.drum)
    fields = both.station.fields
    both.station.form.form.take_focus(fields.contract)
    for text in ("C 9", "LX 55", "A 104, A 105", "HLBU 3", "packer", "corner shop"):
        rig.type(text)
    assert both.station.notes(), both.station.says()
    both.type_in_terminal(
        *("dispatch", "Corner Shop", goods.drum, "--contract", "C 9", "--vehicle", "LX 55"),
        *("--seal", "A 104", "--seal", "A 105", "--freight-container", "HLBU 3"),
        *("--consignor", "Packer", "--title-to", "Corner Shop"),
    )
    assert both.terminal.head() == rig.head()


def test_a_consignor_nobody_knows_is_refused_in_its_field(both: Both) -> None:
    rig, goods = both.window, both.goods
    rig.type("corner shop")
    rig.scan(goods.drum)
    both.station.form.form.take_focus(both.station.fields.consignor)
    rig.type("Nobody", enter=False)
    both.station.form.record.click()
    rig.settle()
    assert rig.focused() == "In whose name"
    said = both.refused_in_window()
    words = ("dispatch", "Corner Shop", goods.drum, "--consignor", "Nobody")
    assert said == both.refused_in_terminal(*words, "--operator", both.badge)


def test_part_of_a_drum_to_the_gate_is_the_same_entry_from_both_faces(both: Both) -> None:
    rig, goods = both.window, both.goods
    rig.type("farm g")
    rig.scan(goods.drum)
    both.station.view.side.choose_view("note")
    rig.type("")
    rig.type("50,5")
    rig.type("")
    rig.type("")
    both.type_in_terminal("dispatch", "gate", f"{goods.drum}=50.5")
    assert both.terminal.head() == rig.head()


def test_a_return_is_the_same_entry_from_both_faces(both: Both) -> None:
    rig, goods = both.window, both.goods
    both.station.choose("back")
    rig.scan(goods.old)
    rig.type("12")
    rig.type("")
    rig.type("")
    rig.type("")
    both.type_in_terminal(
        *("take-back", "Corner Shop", goods.old, "--reason", "broken", "--jars", "12")
    )
    assert both.terminal.head() == rig.head()


def test_honey_thrown_away_is_the_same_entry_from_both_faces(both: Both) -> None:
    rig, goods = both.window, both.goods
    both.station.choose("away")
    rig.scan(goods.aster)
    rig.type("5")
    rig.keys("Right", "Right")
    rig.type("")
    rig.type("")
    both.type_in_terminal("discard", goods.aster, "--reason", "spilt", "--jars", "5")
    assert both.terminal.head() == rig.head()


def test_a_sample_is_the_same_entry_from_both_faces(both: Both) -> None:
    rig, goods = both.window, both.goods
    both.station.choose("sample")
    rig.scan(goods.drum)
    rig.scan(goods.aster)
    rig.type("500")
    rig.type("shelf 3")
    both.type_in_terminal(
        *("draw-sample", goods.drum, goods.aster, "--net", "500 g", "--kept-at", "shelf 3")
    )
    assert both.terminal.head() == rig.head()


def test_both_faces_refuse_what_may_not_go_in_the_same_words(both: Both) -> None:
    rig, goods = both.window, both.goods
    rig.type("Packer")
    for code in (goods.other_drum, goods.tag, goods.yard):
        both.station.view.presenter.scan(code)
        rig.settle()
        said = both.refused_in_window()
        assert both.refused_in_terminal("dispatch", "Packer", code) == said


@pytest.mark.parametrize(
    ("customer", "jars"),
    first_plain([("Nobody", "5"), ("", "5"), ("Packer", "101"), ("Packer", "0")]),
)
def test_both_faces_refuse_a_note_in_the_same_words(both: Both, customer: str, jars: str) -> None:
    rig, goods = both.window, both.goods
    rig.type(customer)
    rig.scan(goods.new)
    jars = "161" if jars == "101" else jars
    rig.type(f"1{jars}" if jars == "161" else jars)
    both.station.form.record.click()
    rig.settle()
    wanted = "1161" if jars == "161" else jars
    said = both.refused_in_window()
    assert both.refused_in_terminal("dispatch", customer, f"{goods.new}={wanted}") == said


@pytest.mark.parametrize(
    ("jars", "reason"),
    first_plain([("41", "broken"), ("0", "broken"), ("4,5", "broken"), ("5", "")]),
)
def test_both_faces_refuse_a_return_in_the_same_words(both: Both, jars: str, reason: str) -> None:
    rig, goods = both.window, both.goods
    both.station.choose("back")
    rig.scan(goods.old)
    rig.type(jars)
    both.station.fields.back_reason.set_key(reason)
    both.station.fields.back_reason.chosen.emit(reason)
    both.station.form.record.click()
    rig.settle()
    words = ("take-back", "Corner Shop", goods.old, "--reason", reason, "--jars", jars)
    assert both.refused_in_terminal(*words) == both.refused_in_window()
