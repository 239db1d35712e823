"""From an empty house to a received pallet, by keys alone."""

from pathlib import Path

import pytest

from honeyledger.desktop import look, tokens
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.setup.view import SetupView
from honeyledger.documents.printers import Way, read_printers
from honeyledger.documents.stock import Printer
from honeyledger.services.dock import dock_day
from tests.desktop.rig import Rig, setup_of
from tests.support.printing import page_sizes_mm, raster, read


def test_an_empty_house_receives_its_first_pallet_by_keys_alone(rig: Rig) -> None:
    rig.keys("Return")  # the dock offers to set the house up
    assert rig.window.shell.open_key() == "setup"
    rig.type("Hill House")
    for _ in range(5):  # kilograms, this computer's zone, the tolerances, no letters
        rig.type("")
    assert setup_of(rig).panel.heading.text() == "People"
    rig.type("Ann Reed")
    rig.type("")
    assert setup_of(rig).panel.heading.text() == "Yards"
    rig.type("Mill Lane")
    rig.type("30")
    rig.type("")
    assert rig.focused() == "Name of the yard"
    rig.type("")  # no second yard
    assert setup_of(rig).panel.heading.text() == "Boxes"
    rig.type("")  # as usual
    rig.type("")  # Line 1
    for _ in range(3):  # Tank 1, fed by Line 1, of any size
        rig.type("")
    assert setup_of(rig).slot.sentence().startswith("All that is needed is there.")
    rig.keys("Return")  # and the dock is offered
    assert rig.window.shell.open_key() == "dock"
    rig.type("Mill")
    rig.type("")
    rig.type("")
    rig.type("North truck")
    rig.type("36")
    for _ in range(4):
        rig.type("")
    assert rig.toast().lead == "G26-0001-3 received: 36 supers, ≈ 533 kg of honey."
    arrivals = rig.house.ask(lambda view: dock_day(view, rig.now_ms)).arrivals
    assert [(row.yard, row.supers) for row in arrivals] == [("Mill Lane", 36)]


def test_the_form_in_hand_is_made_in_a_turn_of_its_own_before_the_page_is_shown(rig: Rig) -> None:
    view = setup_of(rig)
    assert not view.by_kind
    rig.desk.jobs.turns.hurry()
    assert list(view.by_kind) == ["house"], "and no other"
    assert not view.widget.isVisible()


def test_a_page_that_is_wanted_before_that_turn_has_its_form(rig: Rig) -> None:
    rig.window.open_station("setup")
    assert not setup_of(rig).by_kind
    rig.window.opening.finish()  # as the first key does
    form = setup_of(rig).by_kind["house"]
    assert rig.focused() == form.by_key["name"].label.text()
    rig.settle()
    assert setup_of(rig).forms.count() == 1


def test_a_refusal_stands_at_the_top_and_the_field_is_marked(rig: Rig) -> None:
    rig.keys("Ctrl+0")
    rig.type("Hill House")
    rig.type("")
    rig.type("Mars")
    for _ in range(3):
        rig.type("")
    view = setup_of(rig)
    shown = view.slot.shown()
    assert shown is not None
    assert shown.mark is Mark.REFUSED
    assert shown.text.startswith("Mars is not a time zone: type its name")
    assert rig.focused() == "Time zone"
    assert rig.head()[0] == 0


def test_the_list_says_what_there_is_and_opens_a_form(rig: Rig) -> None:
    rig.keys("Ctrl+0")
    view = setup_of(rig)
    rows = {kind.key: index for index, kind in enumerate(view.presenter.kinds)}
    assert view.table.model.cell(rows["yard"], 0).mark is Mark.WARNING
    assert view.table.model.cell(rows["yard"], 1).text == "needed"
    assert view.table.model.cell(rows["customer"], 1).text == ""
    view.table.take_focus()
    view.table.select("product")
    rig.keys("Return")
    assert view.panel.heading.text() == "Products"
    assert rig.focused() == "Name of the product"


def _begin(rig: Rig) -> SetupView:
    rig.keys("Ctrl+0")
    for text in ("Hill House", "", "", "", "", ""):
        rig.type(text)
    return setup_of(rig)


def test_a_name_that_is_there_shows_its_record(rig: Rig) -> None:
    view = _begin(rig)
    view.presenter.turn("box")
    rig.type("deep")
    form = view.by_kind["box"]
    assert form.values() == {"name": "deep", "honey_g": "25.5", "tare_g": "8.5", "frames": "9"}
    assert view.slot.sentence().startswith("This one is registered.")
    rig.keys("Ctrl+Backspace")
    assert form.values()["name"] == ""


def test_a_record_is_taken_in_hand_from_the_list_of_them(rig: Rig) -> None:
    view = _begin(rig)
    view.presenter.turn("box")
    view.there.records.take_focus()
    view.there.records.select("deep")
    rig.keys("Return")
    assert view.by_kind["box"].values()["name"] == "deep"
    assert rig.focused() == "Name of the box"


def test_more_facts_are_asked_where_they_are_wanted(rig: Rig) -> None:
    view = _begin(rig)
    form = view.by_kind["yard"]
    view.presenter.turn("yard")
    assert form.by_key["forage"].isHidden()
    view.more.setFocus()
    rig.keys("Return")
    assert not form.by_key["forage"].isHidden()
    assert view.more.text() == "Fewer facts"
    rig.keys("Return")
    assert form.by_key["forage"].isHidden()


def test_a_form_can_be_skipped_and_the_dock_reached(rig: Rig) -> None:
    rig.keys("Ctrl+0")
    view = setup_of(rig)
    view.skip.setFocus()
    rig.keys("Return")
    assert view.panel.heading.text() == "People"
    view.to_dock.setFocus()
    rig.keys("Return")
    assert rig.window.shell.open_key() == "dock"


def test_a_table_is_chosen_and_what_is_wrong_in_it_stands_beside(rig: Rig, tmp_path: Path) -> None:
    view = _begin(rig)
    file = tmp_path / "yards.csv"
    file.write_text("name,colonies\nMill Lane,many\nHigh Wood,few\n")
    rig.desk.choose_file = lambda _parent: file
    view.presenter.turn("table")
    view.more.setFocus()
    rig.keys("Return")
    assert rig.focused() == "File"
    rig.keys("Return")
    assert len(view.there.notes.sentences()) == 2
    assert view.slot.sentence() == (
        "Not saved. yards.csv has 2 things to put right, so nothing of it was taken in."
    )
    file.write_text("name,colonies\nMill Lane,30\n")
    rig.keys("Return")
    assert view.there.bodies.currentWidget() is view.there.records
    assert rig.toast().lead == "yards.csv: 1 new yard, 0 changed."


def test_backups_and_papers_are_a_press_away(rig: Rig) -> None:
    view = _begin(rig)
    view.presenter.turn("papers")
    view.more.click()
    assert rig.opened == [rig.desk.papers]
    assert rig.desk.papers.is_dir()
    view.presenter.turn("kept")
    rig.keys("Return")
    assert rig.window.shell.open_key() == "entries"


@pytest.mark.parametrize(("kind", "page"), [("due", "checks"), ("calculator", "calculator")])
def test_pages_without_a_place_are_a_press_away(rig: Rig, kind: str, page: str) -> None:
    view = _begin(rig)
    view.presenter.turn(kind)
    view.save.click()
    rig.settle()
    assert rig.window.shell.open_key() == page


def test_the_look_changes_at_once(rig: Rig) -> None:
    view = _begin(rig)
    view.presenter.turn("computer")
    view.by_kind["computer"].fill({"station": "bench", "look": "dark", "scale": "100"})
    view.save.click()
    rig.settle()
    assert look.theme() is tokens.DARK


def test_a_stock_is_drawn_as_it_is_typed_and_kept_by_keys_alone(rig: Rig) -> None:
    view = _begin(rig)
    view.presenter.turn("stock")
    assert rig.focused() == "What it is called here"
    rig.type("Jar sheet")
    rig.type("")  # A4
    rig.type("99")
    rig.type("38")
    sheet = view.there.sheet
    assert sheet.words() == "One label of 99 × 38 mm on A4"
    rig.type("3")  # more side by side than the sheet has room for
    assert sheet.words() == "3 labels of 99 × 38 mm on A4"
    assert not sheet.sheet().contains(sheet.cell(3))
    for text in ("7", "5", "10", "2", "0"):
        rig.type(text)
    shown = view.slot.shown()
    assert shown is not None
    assert shown.text == (
        "3 labels side by side take 306 mm with the left margin and the gaps, and the sheet is "
        "210 mm wide: measure again, or count the columns again."
    )
    assert rig.focused() == "Side by side"
    form = view.by_kind["stock"]
    form.fill(form.values() | {"columns": "2"})
    view.save.click()
    rig.settle()
    record = rig.house.ask(lambda view: view.mark("stock/jar-sheet", "record"))
    assert record is not None
    assert record.value["columns"] == 2
    assert [row.name for row in view.presenter.stocks][-1] == "Jar sheet"


def test_other_sheets_are_asked_for_their_size(rig: Rig) -> None:
    view = _begin(rig)
    view.presenter.turn("stock")
    form = view.by_kind["stock"]
    assert not form.by_key["sheet_width_um"].isVisibleTo(form)
    form.fill(form.values() | {"paper": "sheet"})
    form.changed.emit()
    assert form.by_key["sheet_width_um"].isVisibleTo(form)


def test_a_printer_is_kept_on_this_computer_and_its_calibration_page_printed(rig: Rig) -> None:
    rig.desk.printers = rig.folder / "printers.toml"
    view = _begin(rig)
    before = rig.head()
    view.presenter.turn("printer")
    rig.type("Tag printer")
    for text in ("", "", "0,4", "-0.3"):  # a roll, 203 dots
        rig.type(text)
    view.more.click()
    rig.settle()
    page = rig.desk.papers / "Calibration Tag printer.pdf"
    assert rig.toast().lead == "The calibration page"
    rig.keys("Ctrl+P")
    assert rig.opened == [page]
    assert page_sizes_mm(page.read_bytes()) == [pytest.approx((100, 150), abs=0.01)]
    rig.type("100")
    rig.type("99,6")
    rig.settle()
    kept = read_printers(rig.desk.printers).printers["Tag printer"]
    assert kept == Printer("Tag printer", "roll", 203, 0.4, -0.3, 100.0, 99.6)
    assert rig.head() == before
    view.presenter.turn("printer")
    assert view.there.records.model.cell(0, 0).text == "Tag printer"
    view.presenter.turn("papers")
    form = view.by_kind["papers"]
    form.fill(form.values() | {"labels_printer": "Tag printer", "labels_stock": "a4-24-70x37"})
    view.save.click()
    shown = view.slot.shown()
    assert shown is not None
    assert shown.text == (
        "Label stock a4-24-70x37 is for A4 paper, but printer Tag printer has a label roll: "
        "choose a stock for a label roll, or put A4 paper in the printer and set it so."
    )
    form.fill(form.values() | {"labels_stock": "roll-70x40"})
    view.save.click()
    rig.settle()
    ways = read_printers(rig.desk.printers).ways
    assert ways["labels"] == Way("Tag printer", "roll-70x40")


def _to_by_keys(rig: Rig, view: SetupView, key: str) -> None:
    """To a kind in the list, with Shift+Tab and arrows, and into its form with Enter."""
    while rig.focused() != "What is set up":
        rig.keys("Shift+Tab")
    order = [kind.key for kind in view.presenter.kinds]
    steps = order.index(key) - order.index(view.table.selected_key())
    rig.keys(*["Down" if steps > 0 else "Up"] * abs(steps), "Return")
    rig.settle()


def test_a_printer_is_measured_and_gets_its_labels_by_keys_alone(rig: Rig) -> None:
    rig.desk.printers = rig.folder / "printers.toml"
    view = _begin(rig)
    _to_by_keys(rig, view, "printer")
    for text in ("Tag printer", "", "", "0,4", "-0.3"):
        rig.type(text)
    while rig.focused() != "Calibration page":
        rig.keys("Tab")
    rig.keys("Return", "Ctrl+P")
    assert [file.name for file in rig.opened] == ["Calibration Tag printer.pdf"]
    while not rig.focused().startswith("100 mm across"):
        rig.keys("Shift+Tab")
    rig.type("100")
    rig.type("99,6")
    kept = read_printers(rig.desk.printers).printers["Tag printer"]
    assert (kept.shift_x_mm, kept.shift_y_mm, kept.measured_y_mm) == (0.4, -0.3, 99.6)
    _to_by_keys(rig, view, "papers")
    for text in ("Tag printer", "roll-100x150", "Tag printer", "a4-24-70x37", "", "", ""):
        rig.type(text)
    assert view.slot.sentence().startswith(
        "Not saved. Label stock a4-24-70x37 is for A4 paper, but printer Tag printer has a label"
    )
    assert rig.focused() == "on the stock"
    for text in ("roll-70x40", "", "", ""):
        rig.type(text)
    ways = read_printers(rig.desk.printers).ways
    assert (ways["tags"], ways["labels"]) == (
        Way("Tag printer", "roll-100x150"),
        Way("Tag printer", "roll-70x40"),
    )


def test_badges_are_printed_from_the_people_and_say_who_works_here(rig: Rig) -> None:
    view = _begin(rig)
    for name in ("Ann Reed", "Bo Hale"):
        view.presenter.turn("operator")
        rig.type(name)
        rig.type("")
    view.presenter.turn("operator")
    assert view.there.badges.isVisible()
    bo = view.there.codes()[1]
    view.there.records.take_focus()
    view.there.records.select(bo)
    rig.keys("Ctrl+P")
    rig.settle()
    badge = rig.desk.papers / f"{bo}.pdf"
    assert rig.toast().lead == f"The badge {bo}"
    (printed,) = read(raster(badge.read_bytes(), 300))
    assert printed == bo
    assert rig.desk.operator != bo
    rig.scan(printed)
    rig.settle()
    assert rig.desk.operator == bo
    view.there.every_badge.click()
    rig.settle()
    assert rig.toast().lead == "2 badges"
    view.presenter.turn("yard")
    assert not view.there.badges.isVisible()


def test_a_badge_of_nobody_is_asked_for(rig: Rig) -> None:
    view = _begin(rig)
    rig.type("Ann Reed")
    rig.type("")
    view.presenter.turn("operator")
    view.there.badge.click()
    assert rig.toast().lead == "Choose a person in the list: that badge is printed then."
