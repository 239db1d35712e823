"""Dispatch worked by keys and scanner alone, on a real house."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMenu
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.dispatch.typed import NoteTyped, Wanted
from honeyledger.ledger.verbs.dispatch import DispatchLine
from honeyledger.ledger.verbs.packing import Pack, PackLine
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.dispatch_rig import Station
from tests.desktop.rig import SOON, Rig
from tests.support import printing

CLOVER = "product/clover-500-g"


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def test_an_order_is_typed_picked_by_scan_signed_and_printed(station: Station) -> None:
    rig, goods = station.rig, station.goods
    assert rig.focused() == "Customer"
    rig.type("Corner Shop")
    rig.type("PO 7")
    rig.type("Own van")
    rig.type("Clover")
    assert rig.focused() == "Jars wanted"
    rig.type("12x10")
    assert rig.focused().startswith("Goes")
    rig.scan(goods.old)
    assert rig.focused() == "Jars, of 100"
    assert station.fields.jars.text() == "100", "as many as the order wants and there are"
    rig.type("")
    rig.scan(goods.new)
    assert station.fields.jars.text() == "20"
    rig.type("")
    rig.scan(goods.drum)
    assert station.says() == f"{goods.drum} is on the note: 280.0 kg."
    assert station.lines() == [
        (goods.drum, "ready", ""),
        (goods.new, "ready", "20"),
        (goods.old, "ready", "100"),
        (CLOVER, "picked", "120 of 120"),
    ]
    assert station.view.side.tables["note"].foot.words() == "3 lots"
    rig.type("")
    assert rig.focused() == "Sign and send 3 lots, 340.0 kg"
    rig.type("")
    code = station.notes()[0]
    assert rig.toast().lead == f"{code} is signed: 3 lots, 340.0 kg to Corner Shop."
    assert goods.said() == {
        "customer": "Corner Shop",
        "lines": [
            {"code": goods.old, "jars": 100},
            {"code": goods.new, "jars": 20},
            {"code": goods.drum},
        ],
        "carrier": "Own van",
        "reference": "PO 7",
    }
    assert (rig.folder / "papers" / f"{code}.pdf").read_bytes().startswith(b"%PDF")
    assert rig.focused() == "Customer"
    rig.keys("Ctrl+P")
    assert rig.opened == [rig.folder / "papers" / f"{code}.pdf"]


def test_scans_fall_on_the_note_whatever_has_the_keyboard(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.type("Pack", enter=False)
    rig.scan(goods.other_drum)
    rig.scan(goods.container.lower())
    rig.scan(f"https://honey.example/{goods.drum}")
    assert [one.code for one in station.note().picked] == [goods.other_drum, goods.drum]
    assert station.says() == f"{goods.drum} is on this note already; nothing was added."
    assert station.fields.customer.text() == "Pack"


def test_cases_and_a_pallet_of_them_go_by_their_codes(station: Station) -> None:
    rig, goods = station.rig, station.goods
    first, second, third = goods.packed(goods.old, 12, copies=3)
    pallet = rig.told(Pack((PackLine(second), PackLine(third)))).given[0]
    rig.type("Packer")
    for code in (first, pallet, first):
        rig.scan(code)
    assert station.says() == f"{first} is on this note already; nothing was added."
    rig.scan(second)
    assert station.says() == (
        f"Not on the note. {second} stands on {pallet}. Unpack {pallet} first, or scan the whole "
        "pallet."
    )
    assert station.lines() == [(pallet, "ready", "24"), (first, "ready", "12")]
    station.view.side.choose_view("note")
    rig.type("")
    assert station.form.note.hand == "", "a pallet goes as it was packed"
    rig.keys("Ctrl+7")
    station.form.form.take_focus(station.fields.goes)
    rig.type("")
    assert rig.focused() == "Sign and send 2 lots, 18.0 kg"
    rig.type("")
    assert goods.said() == {"customer": "Packer", "lines": [{"code": first}, {"code": pallet}]}


def test_jars_one_by_one_or_from_the_first_to_the_last(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.scan(goods.jar(goods.old, 12))
    assert station.fields.jars.text() == "1"
    assert not station.fields.span.isVisible()
    rig.scan(goods.jar(goods.old, 41))
    rig.scan(goods.jar(goods.old, 12))
    assert station.fields.jars.text() == "2"
    assert [one.text() for one in station.fields.span.buttons()] == [
        "these 2",
        "00012 to 00041: 30",
    ]
    rig.type("")
    assert rig.focused() == "Jars scanned: these 2"
    rig.keys("Right")
    assert station.fields.jars.text() == "30"
    rig.type("")
    assert rig.focused().startswith("Goes")
    assert station.note().picked[0].jars == "30"


def test_a_hold_is_refused_with_its_way_and_what_was_being_said_goes_on(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.scan(goods.old)
    rig.told(PutOnHold(goods.drum, "leaks"))
    drum = goods.fill(100_000)
    fill = rig.house.ask(lambda view: view.origins(view.lot_by_code(drum).id))[0].parent  # type: ignore[union-attr]
    code = rig.house.ask(lambda view: view.lot(fill).code)
    rig.told(PutOnHold(code, "smells of smoke"))
    rig.scan(drum)
    shown = station.slot.shown()
    assert shown is not None
    assert (shown.mark, shown.lead) == (Mark.REFUSED, "Not on the note.")
    assert shown.text == (
        f"{drum} is on hold through {code}: smells of smoke. Put it aside, or have the hold "
        "released or this lot cleared by name."
    )
    assert rig.focused() == "Jars, of 100"
    rig.type("5")
    rig.scan(goods.drum)
    assert f"{goods.drum} is on hold through {goods.drum}: leaks." in station.says()
    assert [one.code for one in station.note().picked] == [goods.old]


def test_what_is_typed_is_as_good_as_a_scan_and_nonsense_is_refused(station: Station) -> None:
    rig, goods = station.rig, station.goods
    station.form.form.take_focus(station.fields.goes)
    rig.type(goods.other_drum.lower().replace("-", " "))
    assert [one.code for one in station.note().picked] == [goods.other_drum]
    rig.type("nonsense")
    assert station.says().startswith("Not on the note. nonsense is not a code")
    assert rig.focused().startswith("Goes")
    assert station.fields.goes.text() == "nonsense"


def test_the_oldest_of_a_product_is_offered_first(station: Station) -> None:
    goods = station.goods
    offered = [one.key for one in station.fields.goes.choices()]
    assert offered.index(CLOVER) < offered.index(goods.old) < offered.index(goods.new)
    station.rig.scan(goods.new)
    station.rig.type("5")
    assert station.lines() == [(goods.new, "older left", "5")]
    assert station.says().startswith(f"{goods.old} is older than {goods.new} and is here still")


def test_a_number_that_cannot_be_keeps_the_keyboard(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.scan(goods.old)
    rig.type("")
    assert rig.focused() == "Jars, of 100"
    assert station.says() == (
        f"Not recorded. Say how many jars of {goods.old} go: type a number, or cases like 24 x 12."
    )
    rig.type("12,5")
    assert station.says().startswith("Not recorded. 12,5 is not a whole number")
    rig.type("101")
    assert rig.focused().startswith("Goes"), "how many there are is the ledger's to say"
    assert station.says().startswith(f"There are 100 jars of {goods.old} here, not 101.")


def test_part_of_a_drum_goes_by_weight(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.scan(goods.drum)
    station.view.side.choose_view("note")
    rig.type("")
    assert rig.focused() == "Net, blank for all, kg"
    rig.type("50,5")
    assert station.note().picked[0].net == "50,5"
    assert station.view.side.tables["note"].foot.accessibleName().endswith("50.5 kg")


def test_a_line_is_taken_off_by_key(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.scan(goods.drum)
    rig.scan(goods.other_drum)
    station.view.side.choose_view("note")
    rig.keys("Down", "Delete")
    assert [one.code for one in station.note().picked] == [goods.other_drum]
    station.view.side.take_off.click()
    assert station.note().picked == (), "the button takes off the row that is chosen"


def test_somebody_signs_by_badge(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.told(Register("operator", {"name": "Bob Ferris"}))
    badge = rig.told(Register("operator", {"name": "Ann Reed"})).given[0]
    rig.desk.operator = ""
    rig.type("Packer", enter=False)
    rig.keys("Tab")
    rig.scan(goods.drum)
    rig.type("")
    rig.type("")
    assert station.says() == (
        "Not recorded. Say who signs: scan a badge, or name a person who works here."
    )
    rig.scan(badge)
    rig.type("")
    assert goods.last().act.operator == badge


def test_what_is_still_to_pick_is_asked_about_and_waits(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.type("Packer")
    rig.type("PO 7")
    rig.type("")
    rig.type("Clover")
    rig.type("130")
    rig.scan(goods.old)
    rig.type("")
    rig.type("")
    rig.type("")
    assert station.says() == (
        "Not recorded. Still to pick: 30 Clover 500 g. Say whether that waits for a next note or "
        "is left out."
    )
    assert rig.focused() == "What is still to pick: waits"
    rig.type("")
    assert rig.focused().startswith("Sign and send 1 lot")
    rig.type("")
    assert len(station.notes()) == 1
    assert "1 note is open" in station.slot.sentence() or "is in" in station.says()
    assert station.view.presenter.open.aside[0].wanted == (Wanted(CLOVER, 30),)
    station.view.side.choose_view("notes")
    assert station.view.side.panel.heading.text() == "Dispatch notes, 1 open"
    rig.type("")
    assert (station.note().customer, station.note().reference) == ("Packer", "PO 7")
    assert rig.focused().startswith("Goes")
    assert station.fields.customer.text() == "Packer"


def test_several_notes_are_open_at_once_and_none_is_lost(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.type("Packer")
    rig.scan(goods.drum)
    rig.keys("Ctrl+N")
    assert station.note() == NoteTyped()
    assert (rig.focused(), station.fields.customer.text()) == ("Customer", "")
    rig.type("Corner Shop")
    rig.keys("Ctrl+2", "Ctrl+7")
    assert station.note().customer == "Corner Shop"
    rig.keys("Ctrl+Backspace")
    assert (station.note(), station.says()) == (NoteTyped(), "The note is cleared.")
    station.slot.focus_action()
    rig.type("")
    assert station.note().customer == "Corner Shop"
    assert [note.customer for note in station.view.presenter.open.aside] == ["Packer"]


def test_the_last_order_is_repeated_by_a_key(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.keys("Ctrl+R")
    assert station.says() == ("Name a customer who had something lately; this asks for it again.")
    goods.sent("Packer", DispatchLine(goods.old, jars=12), DispatchLine(goods.other_drum))
    rig.type("Packer", enter=False)
    rig.keys("Tab", "Ctrl+R")
    assert station.note().wanted == (Wanted(CLOVER, 12), Wanted("lots/D", 1))
    assert rig.focused().startswith("Goes")
    figures = station.view.side.figures
    assert figures.isVisible()
    assert figures.heading.text() == "Packer had in the last 60 days"


def test_the_drums_of_a_note_are_listed_on_paper_by_keys(station: Station) -> None:
    rig, goods = station.rig, station.goods
    code = goods.sent("Packer", DispatchLine(goods.drum))
    rig.scan(code)
    side = station.view.side
    side.paper.setFocus()
    rig.type("")
    (menu,) = side.panel.findChildren(QMenu)
    assert [one.text() for one in menu.actions()] == ["Dispatch note", "Drum list"]
    assert menu.activeAction() is menu.actions()[0]
    rig.bot.keyClick(menu, Qt.Key.Key_Down)
    rig.bot.keyClick(menu, Qt.Key.Key_Return)
    rig.settle()
    assert station.says().startswith("The drum list is in "), station.says()
    said = printing.text_of((rig.folder / "papers" / f"Drum list {code}.pdf").read_bytes())
    assert goods.drum in said.replace("- ", "-")
    assert station.says().startswith("The drum list is in ")


def test_a_note_s_code_shows_it_and_enter_prints_it(station: Station) -> None:
    rig, goods = station.rig, station.goods
    code = goods.sent("Packer", DispatchLine(goods.drum))
    rig.scan(code)
    assert station.view.side.shown == "notes"
    assert station.view.side.tables["notes"].selected_key() == code
    rig.type("")
    assert (rig.folder / "papers" / f"{code}.pdf").exists()
    rig.keys("Ctrl+P")
    assert rig.opened == [rig.folder / "papers" / f"{code}.pdf"]
    station.view.side.paper.click()
    (menu,) = station.view.side.panel.findChildren(QMenu)
    menu.actions()[0].trigger()
    menu.close()
    rig.settle()
    assert station.says().startswith(f"The note {code} is in ")
    assert "reprint 1" in printing.text_of((rig.folder / "papers" / f"{code}.pdf").read_bytes())


def test_several_copies_of_a_note_are_asked_for(station: Station) -> None:
    rig, goods = station.rig, station.goods
    code = goods.sent("Packer", DispatchLine(goods.drum))
    rig.scan(code)
    rig.type("")
    rig.desk.ask_copies = lambda asked, then: then(3 if asked.again == 1 else 0)
    rig.keys("Ctrl+Shift+L")
    words = printing.text_of((rig.folder / "papers" / f"{code}.pdf").read_bytes())
    assert words.count("reprint 1") == words.count("Page 1 of 1") == 3


def test_a_paper_that_cannot_be_written_is_said(station: Station) -> None:
    rig, goods = station.rig, station.goods
    (rig.folder / "papers").write_text("in the way")
    rig.type("Packer")
    rig.scan(goods.drum)
    rig.type("")
    rig.type("")
    assert station.notes(), "the note is recorded all the same"
    assert station.says().startswith("No note printed. ")
    assert "papers/N26-0001-R.pdf cannot be written" in station.says()


def test_the_card_and_the_trace_are_of_the_lot_chosen(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.scan(goods.drum)
    station.view.side.choose_view("note")
    rig.keys("Ctrl+I")
    assert rig.window.card.presenter.code == goods.drum
    rig.keys("Escape")
    station.view.side.choose_view("hand")
    rig.keys("Ctrl+T")
    assert rig.window.shell.open_key() == "trace"


def test_other_codes_open_their_cards(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.scan(goods.yard)
    assert rig.window.card.presenter.code == goods.yard


def test_an_empty_house_says_what_to_do(qtbot: QtBot, tmp_path: Path) -> None:
    rig = Rig(qtbot, tmp_path, first=SOON)
    rig.keys("Ctrl+7")
    view = rig.window.stations["dispatch"]
    table = view.side.tables["hand"]  # type: ignore[attr-defined]
    assert table.view.empty == "Nothing is here that could be sent."
    rig.type("")
    rig.type("")
    rig.type("")
    rig.type("")
    rig.close()


def test_the_first_note_of_a_house_needs_no_badge(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.type("farm g")
    rig.scan(goods.aster)
    rig.type("6")
    rig.type("")
    rig.type("")
    assert goods.said() == {"customer": "gate", "lines": [{"code": goods.aster, "jars": 6}]}
