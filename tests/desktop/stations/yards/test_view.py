"""The yards worked by keys and scanner alone, on a real house."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument
from pytestqt.qtbot import QtBot

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import Treat
from tests.desktop.rig import SOON, Rig
from tests.desktop.yards_rig import Station


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def test_a_new_yard_is_registered_by_keys(station: Station) -> None:
    rig, land = station.rig, station.land
    assert rig.focused() == "Yard: scan it, or name it"
    rig.type("Hill Top")
    rig.type("")
    rig.type("24")
    rig.type("clover")
    rig.type("NE 10")
    station.view.form.record.click()
    rig.settle()
    assert rig.toast().lead.startswith("Hill Top is registered as Y26-0003-")
    record = {"name": "Hill Top", "colonies": 24, "forage": "clover", "place": "NE 10"}
    assert land.said()["record"] == record
    assert station.view.listed.heading.text() == "3 yards, 2 not yet pulled this season"


def test_a_scanned_yard_shows_its_record_to_be_changed(station: Station) -> None:
    rig, land = station.rig, station.land
    rig.scan(land.mill)
    assert station.typed().text("colonies") == "30"
    assert station.view.table.selected_key() == land.mill
    colonies = station.view.form.fields["record"]["colonies"]
    station.view.form.form.take_focus(colonies)
    rig.type("28", enter=False)
    station.view.form.record.click()
    rig.settle()
    assert rig.toast().lead == "The record of Mill Lane is changed."
    assert (land.said()["record"]["colonies"], land.said()["record"]["number"]) == (28, "7")
    rig.keys("Ctrl+Shift+U")
    assert station.view.presenter.row(land.mill).colonies == 30  # type: ignore[union-attr]


def test_a_name_that_is_taken_is_refused_at_the_top(station: Station) -> None:
    rig, land = station.rig, station.land
    rig.scan(land.mill)
    name = station.view.form.fields["record"]["name"]
    station.view.form.form.take_focus(name)
    rig.type("Willow Bank", enter=False)
    station.view.form.record.click()
    rig.settle()
    assert station.says().startswith("Not recorded. Willow Bank is already the name of")


def test_a_treatment_says_in_words_until_when_honey_is_not_clear(station: Station) -> None:
    rig, land = station.rig, station.land
    station.choose("treat")
    rig.scan(land.bank)
    rig.type("Formic pads")
    rig.type("")
    rig.type("20 Jul 2026")
    rig.type("")
    rig.type("20 Aug 2026")
    station.view.form.record.click()
    rig.settle()
    assert rig.toast().lead == "Willow Bank was treated with Formic pads."
    row = station.view.presenter.row(land.bank)
    assert row is not None
    assert row.due == "treated with Formic pads, not clear until 20 Aug 2026"
    station.view.table.select(land.bank)
    heading = station.view.bars.accessibleName()
    assert heading == "Willow Bank: treated with Formic pads, not clear until 20 Aug 2026"


def test_days_that_run_backwards_are_refused_at_their_field(station: Station) -> None:
    rig, land = station.rig, station.land
    station.choose("treat")
    rig.scan(land.bank)
    rig.type("Formic pads")
    rig.type("")
    rig.type("20 Jul 2026")
    rig.type("10 Jul 2026")
    station.view.form.record.click()
    rig.settle()
    assert rig.focused() == "Out"
    assert station.says().startswith("Not recorded.")


def test_supers_feed_disease_and_papers_are_written_down(station: Station) -> None:
    rig, land = station.rig, station.land
    for kind, answers, lead in (
        ("supers", ("60", "", ""), "60 supers are on Willow Bank."),
        ("feed", ("syrup", "200", "", ""), "Willow Bank was fed syrup."),
        ("disease", ("chalkbrood", "", "", ""), "Willow Bank is flagged."),
        ("certify", ("C 7", "", "", ""), "Certificate C 7 of Willow Bank is on record."),
    ):
        station.choose(kind)
        rig.scan(land.bank)
        for answer in answers[:-1]:
            rig.type(answer)
        if kind == "feed":
            station.view.form.fields["feed"]["supers_on"].set_key("no")  # type: ignore[union-attr]
            station.view.form.fields["feed"]["supers_on"].chosen.emit("no")  # type: ignore[union-attr]
        station.view.form.record.click()
        rig.settle()
        assert rig.toast().lead == lead
    assert station.view.presenter.row(land.bank).state == "flagged"  # type: ignore[union-attr]


def test_the_map_is_walked_by_arrows_and_opens_a_yard(station: Station) -> None:
    rig, land = station.rig, station.land
    station.view.turning.click()
    rig.settle()
    assert station.view.turning.text() == "List"
    rig.keys("Right")
    assert station.view.map.chosen == land.mill
    assert station.view.bars.rows()[0].name == "This season"
    rig.keys("Return")
    assert station.typed().text("yard") == land.mill
    station.view.turning.click()
    assert station.view.table.view.isVisible()


def test_the_code_of_a_pull_sheet_is_printed(station: Station) -> None:
    rig, land = station.rig, station.land
    rig.keys("Ctrl+P")
    assert station.says().startswith("Choose a yard first")
    station.view.table.select(land.mill)
    rig.keys("Ctrl+P")
    file = rig.folder / "papers" / f"{land.mill}.pdf"
    assert file.read_bytes().startswith(b"%PDF")
    rig.keys("Ctrl+P")
    assert rig.opened == [file]


def test_the_codes_of_all_yards_chosen_are_printed_into_one_file(station: Station) -> None:
    rig = station.rig
    station.view.table.view.selectAll()
    station.view.sheet.click()
    rig.settle()
    keys = station.view.table.view.chosen_keys()
    assert len(keys) == 2
    file = rig.folder / "papers" / f"{keys[0]} and 1 more.pdf"
    assert len(PdfDocument(file)) == 2
    assert station.says() == f"The codes of 2 yards are in {file}; Ctrl+P opens them."
    rig.keys("Ctrl+P")
    assert rig.opened == [file]


def test_a_pull_sheet_of_a_yard_is_printed_and_opened(station: Station) -> None:
    rig, land = station.rig, station.land
    station.view.pull_sheet.click()
    assert station.says() == "Choose a yard first: its pull sheet is printed."
    station.view.table.select(land.mill)
    station.view.pull_sheet.click()
    rig.settle()
    file = rig.folder / "papers" / f"Pull sheet {land.mill}.pdf"
    with PdfDocument(file) as document:
        assert "Mill Lane" in document[0].get_textpage().get_text_bounded()
    assert station.says() == f"Pull sheet is in {file}; Ctrl+P opens it."
    rig.keys("Ctrl+P")
    assert rig.opened == [file]
    station.view.table.select(land.bank)
    rig.keys("Ctrl+P")
    assert (rig.folder / "papers" / f"{land.bank}.pdf").exists()


def test_cards_traces_the_dock_and_other_codes(station: Station) -> None:
    rig, land = station.rig, station.land
    station.view.table.select(land.mill)
    rig.keys("Ctrl+I")
    assert rig.window.card_has_focus()
    rig.keys("Escape")
    rig.scan(land.mill)
    rig.keys("Ctrl+Backspace")
    assert station.typed().text("yard") == ""
    assert not station.view.take_code("G26-0001-6")
    assert not station.view.handle("repeat")
    rig.keys("Ctrl+T")
    assert rig.window.shell.open_key() == "trace"
    rig.keys("Ctrl+1")
    station.view.to_dock.click()
    rig.settle()
    assert rig.window.shell.open_key() == "dock"


def test_what_a_colony_gave_is_drawn_and_walked_and_taken_in_hand(station: Station) -> None:
    view, land = station.view, station.land
    view.drawing.click()
    assert station.rig.focused() == "Honey a colony by yard this season"
    assert view.drawing.text() == "List"
    station.rig.keys("Down")
    assert station.rig.focused().endswith("Mill Lane: about 30.0 kg a colony, 30 colonies")
    assert view.table.selected_key() == land.mill
    station.rig.keys("Return")
    assert station.typed().text("yard") == land.mill
    view.turning.click()
    assert (view.turning.text(), view.drawing.text()) == ("List", "Chart")
    view.drawing.click()
    view.drawing.click()
    assert view.bodies.currentWidget() is view.table


def test_honey_of_the_house_is_fed_by_scan(station: Station) -> None:
    rig, land = station.rig, station.land
    drum = _drum(rig, land.mill)
    station.choose("feed")
    fields = station.view.form.fields["feed"]
    assert not fields["whole"].isVisible()
    rig.scan(land.bank)
    rig.scan(drum)
    assert station.typed().text("source") == drum
    assert fields["whole"].isVisible()
    fields["supers_on"].set_key("no")  # type: ignore[union-attr]
    fields["supers_on"].chosen.emit("no")  # type: ignore[union-attr]
    station.view.form.form.take_focus(fields["net"])
    rig.type("20", enter=False)
    station.keep()
    said = land.said()
    assert (said["source"], said["net_g"], said["yard"]) == (drum, 20_000, land.bank)
    assert rig.toast().lead == f"Willow Bank was fed {drum}."


def test_a_treatment_that_is_in_is_completed_by_name(station: Station) -> None:
    rig, land = station.rig, station.land
    done = rig.told(Treat(land.bank, "Formic pads", supers_on=False))
    station.choose("treat")
    field = station.view.form.fields["treat"]["completes"]
    rig.scan(land.mill)
    assert not field.isVisible(), "nothing is in there"
    rig.scan(land.bank)
    assert field.isVisible()
    assert [(one.key, one.text) for one in field.choices()] == [  # type: ignore[union-attr]
        (str(done.entries[0].id), "Willow Bank: Formic pads")
    ]


def _drum(rig: Rig, yard: str) -> str:
    """A drum of a yard's honey."""
    tank = rig.told(Register("vessel", {"name": "Tank 1", "sort": "tank"})).given[0]
    done = rig.told(Receive((Line(yard, 20),), gross_g=400_000, tare_g=0))
    rig.told(Load(next(code for code in done.given if code[0] == "G"), tank))
    filled = rig.told(Fill(tank, Weight(net_g=200_000)))
    return next(code for code in filled.codes if code[0] == "D")


@pytest.mark.parametrize("size", [(1280, 800), (640, 400)])
def test_what_chooses_a_form_is_in_view_after_a_scrolled_form_was_left(
    station: Station, size: tuple[int, int]
) -> None:
    rig, form = station.rig, station.view.form
    rig.window.resize(*size)
    rig.settle()
    form.form.take_focus(form.fields["record"]["longitude"])
    bar = form.form.verticalScrollBar()
    bar.setValue(bar.maximum())
    assert bar.value() > 0
    rig.keys("Ctrl+2", "Ctrl+1")
    buttons = [button for row in form.kinds for button in row.buttons()]
    rig.bot.waitUntil(
        lambda: all(one.visibleRegion().boundingRect() == one.rect() for one in buttons)
    )
