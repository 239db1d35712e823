"""The window by keys, clicks and scanner: stations, cards, people, reversal, the end."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractScrollArea, QMenu
from pytestqt.qtbot import QtBot

from honeyledger.desktop import look, tokens
from honeyledger.desktop.actions import ACTIONS
from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.setup.view import SetupView
from honeyledger.domain.refusals import Damage
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.setup import new_house
from honeyledger.settings import Settings
from tests.desktop.rig import Rig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    made.told(Register("yard", {"name": "Mill Lane"}))
    yield made
    made.close()


def _pallet(rig: Rig, begins: str = "G") -> tuple[str, str]:
    done = rig.told(Receive((Line("Mill Lane", 12),)))
    return done.codes[0], next(code for code in done.given if code.startswith(begins))


def test_every_scroll_bar_is_as_wide_as_a_glove_needs(rig: Rig) -> None:
    for key in rig.window.stations:
        rig.window.open_station(key)
        rig.settle()
    shown = []
    for area in rig.window.findChildren(QAbstractScrollArea):
        if area.verticalScrollBarPolicy() != Qt.ScrollBarPolicy.ScrollBarAlwaysOff:
            shown.append(area.verticalScrollBar().sizeHint().width())
        if area.horizontalScrollBarPolicy() != Qt.ScrollBarPolicy.ScrollBarAlwaysOff:
            shown.append(area.horizontalScrollBar().sizeHint().height())
    assert len(shown) > 20
    assert set(shown) == {tokens.SCROLL_BAR}


def test_every_place_opens_by_key_and_by_click(rig: Rig) -> None:
    for spec in ACTIONS:
        if spec.opens:
            rig.keys(spec.keys)
            assert rig.window.shell.open_key() == spec.opens
    for key in ("dock", "yards", "trace"):
        rig.bot.mouseClick(rig.window.shell.line.spot(key), Qt.MouseButton.LeftButton)
        rig.settle()
        assert rig.window.shell.open_key() == key
    assert rig.window.shell.mast.accessibleName() == "Test House · Trace · 2026"


def test_f1_opens_the_guide_and_control_k_lists_the_keys(rig: Rig) -> None:
    rig.keys("F1")
    assert rig.window.shell.open_key() == "guide"
    assert rig.window.shell.mast.accessibleName() == "Test House · Guide · 2026"
    rig.keys("Ctrl+2", "Ctrl+K")
    assert rig.window.shell.open_key() == "keys"


def test_a_scan_opens_a_card_beside_the_page_and_escape_puts_it_away(rig: Rig) -> None:
    _, tag = _pallet(rig)
    rig.keys("Ctrl+2")
    where = rig.focused()
    rig.scan(tag.lower())
    assert rig.window.card.widget.code() == tag
    assert rig.window.shell.is_aside_shown()
    assert rig.focused() == where, "a scan does not take the keyboard"
    rig.keys("Esc")
    assert not rig.window.shell.is_aside_shown()
    assert rig.window.card.presenter.code == ""


def test_a_code_is_taken_however_a_scanner_is_set(rig: Rig, qtbot: QtBot, tmp_path: Path) -> None:
    """With the symbol's kind in front, in a web address or a GS1 string, caps lock on or off."""
    rig.close()
    folder = tmp_path / "prefixed"
    folder.mkdir()
    house = Rig(qtbot, folder, begun=False)
    house.house.record_all(new_house("Test House", "UTC", prefix="KB"))
    house.told(Register("yard", {"name": "Mill Lane"}))
    pull, tag = _pallet(house, "KB-G")
    for ground in (tag, pull):
        for text in (
            ground,
            ground.replace("-", ""),
            f"]C0{ground}",
            f"]Q1https://kb.example/01/09521234543213/10/{ground}",
            f"HTTPS://KB.EXAMPLE/L/{ground}?x=1",
            f"]d2010952123454321310{ground}\x1d17281231",
        ):
            for sent in (text, text.swapcase()):
                house.window.close_card()
                house.scan(sent)
                assert house.window.card.widget.code() == ground, sent
    before = house.head()
    house.scan(tag)
    house.scan(tag)
    assert house.head() == before, "a double scan adds nothing"
    house.close()


def test_a_scanners_enter_presses_nothing_wherever_the_keyboard_is(rig: Rig) -> None:
    _, tag = _pallet(rig)
    before = rig.head()
    for page in ("Ctrl+2", "Ctrl+4", "Ctrl+8", "Ctrl+0"):
        rig.keys(page)
        for _ in range(20):
            rig.scan(tag)
            rig.scan(tag)
            if rig.window.shell.is_aside_shown():
                rig.window.close_card()
                rig.settle()
            rig.keys("Tab")
    assert rig.head() == before


def test_a_code_typed_in_the_scan_box_is_taken_like_a_scan(rig: Rig) -> None:
    pull, _ = _pallet(rig)
    rig.keys("Ctrl+5", "F2")
    rig.type(pull)
    assert rig.window.card.widget.code() == pull


def test_a_card_beside_the_page_does_not_keep_a_wide_window_from_becoming_narrow(rig: Rig) -> None:
    pull, _ = _pallet(rig)
    rig.window.open_card(pull)
    rig.settle()
    assert rig.window.shell.pages.isVisible(), "the card stands beside the page"
    rig.window.resize(640, 400)
    rig.settle()
    assert (rig.window.width(), rig.window.height()) == (640, 400)
    assert not rig.window.shell.pages.isVisible(), "the card covers the page"


def test_in_a_narrow_window_the_card_covers_the_page(rig: Rig) -> None:
    pull, _ = _pallet(rig)
    rig.window.resize(853, 640)
    rig.settle()
    rig.window.open_card(pull)
    rig.settle()
    assert not rig.window.shell.pages.isVisible()
    assert rig.window.card_has_focus()
    rig.keys("Esc")
    assert rig.window.shell.pages.isVisible()
    rig.window.open_card(pull)
    rig.settle()
    rig.keys("Ctrl+1")
    assert rig.window.shell.pages.isVisible(), "a station that is opened is seen"


def test_a_misread_code_is_never_guessed_and_the_near_one_offered(rig: Rig) -> None:
    _, tag = _pallet(rig)
    rig.scan(tag.replace("0001", "0007"))
    message = rig.toast()
    assert (message.mark, message.action) == (Mark.REFUSED, f"Take {tag}")
    assert message.text.startswith("G26-0007-3 is not a code of this house. Was it G26-0001-3?")
    assert not rig.window.shell.is_aside_shown()
    rig.window.toast.act()
    rig.settle()
    assert rig.window.card.widget.code() == tag


def test_a_badge_signs_in_from_any_page(rig: Rig) -> None:
    badge = rig.told(Register("operator", {"name": "Ann Reed"})).given[0]
    rig.keys("Ctrl+4")
    rig.scan(badge)
    assert rig.desk.operator == badge
    assert rig.toast().lead == "Ann Reed works here now."
    assert "Ann Reed" in rig.window.shell.mast.accessibleName()
    assert rig.window.shell.open_key() == "extraction"
    assert rig.kept[-1].operator == badge


def test_people_can_be_chosen_from_a_list(rig: Rig) -> None:
    rig.told(Register("operator", {"name": "Ann Reed"}))  # and she is signed in
    badge = rig.told(Register("operator", {"name": "Bob Ferris"})).given[0]
    rig.keys("Ctrl+L")
    menu = rig.window.findChild(QMenu)
    assert menu is not None
    names = [action.text() for action in menu.actions()]
    assert names == ["Ann Reed", "Bob Ferris", "", "Nobody"]
    menu.actions()[1].trigger()
    menu.close()
    rig.settle()
    assert rig.desk.operator == badge


def test_a_house_with_people_asks_who_works_here_at_the_start(
    rig: Rig, qtbot: QtBot, tmp_path: Path
) -> None:
    badge = rig.told(Register("operator", {"name": "Ann Reed"})).given[0]
    rig.close()
    again = Rig(qtbot, tmp_path)
    assert again.toast().sentence.startswith("Who works here? Scan your badge")
    again.close()
    known = Rig(qtbot, tmp_path, settings=Settings(operator=badge, tones=False))
    assert known.toast().lead == "Ann Reed works here now."
    known.close()


def test_what_was_recorded_is_reversed_by_key_and_by_press(rig: Rig) -> None:
    rig.keys("Ctrl+2")
    for _ in range(2):
        rig.dock.form.yard.set_text("Mill Lane")
        rig.dock.form.supers.set_text("12")
        rig.dock.presenter.type(rig.dock.form.typed())
        rig.dock.form.receive.click()
        rig.settle()
    assert rig.toast().action == "Reverse"
    rig.keys("Ctrl+Shift+U")
    assert rig.toast().lead == "Entry 8 is reversed by entry 10.", "9 is that its tag was printed"
    assert rig.dock.table.model.rowCount() == 1
    rig.window.taking_back.reverse(8)
    rig.settle()
    assert rig.toast().mark is Mark.REFUSED
    assert rig.toast().lead == "Not reversed."


def test_an_entry_of_a_card_can_be_reversed(rig: Rig) -> None:
    pull, _ = _pallet(rig)
    rig.window.open_card(pull)
    rig.settle()
    rig.window.card.widget.entry_asked.emit(6)
    rig.bot.mouseClick(rig.window.toast.action, Qt.MouseButton.LeftButton)
    rig.settle()
    assert rig.toast().lead == "Entry 6 is reversed by entry 7."


def test_a_key_that_means_nothing_here_says_so(rig: Rig) -> None:
    rig.keys("Ctrl+1", "Ctrl+R")
    assert rig.toast().sentence == "Repeat the last one: There is nothing here to do it with."


def test_keys_mean_the_card_while_the_keyboard_is_in_it(rig: Rig) -> None:
    pull, _ = _pallet(rig)
    rig.keys("Ctrl+2")
    rig.window.open_card(pull)
    rig.settle()
    rig.keys("Ctrl+T")
    assert rig.window.shell.open_key() == "trace"
    assert not rig.window.shell.is_aside_shown()


def test_light_and_dark_change_and_are_remembered(rig: Rig) -> None:
    rig.keys("Ctrl+D")
    assert look.theme() is tokens.DARK
    assert rig.kept[-1].look == "dark"
    rig.keys("Ctrl+D")
    assert look.theme() is tokens.LIGHT
    rig.settle()
    assert rig.window.shell.pages.updatesEnabled()
    page = rig.window.shell.pages.grab().toImage()
    assert page.pixelColor(2, page.height() - 2).name().upper() == tokens.LIGHT.ground.upper()


def test_damage_stops_recording_and_says_what_to_do(rig: Rig) -> None:
    def damaged() -> None:
        raise Damage("entry 3, lot")

    rig.desk.jobs.write(damaged, lambda _outcome: None)
    rig.settle()
    words = rig.window.shell.strip.accessibleName()
    assert words.startswith("Nothing more is recorded: entry 3, lot.")
    assert words.endswith("Run honeyledger audit in a terminal.")


def test_closing_finishes_what_is_being_recorded(rig: Rig) -> None:
    before = rig.head()[0]
    facts = Register("yard", {"name": "Long Field"})
    rig.desk.record([facts], rig.desk.said(), lambda _outcome: None)
    rig.window.close()
    assert rig.head()[0] == before + 1


def test_every_control_of_the_frame_has_a_name_and_a_size(rig: Rig) -> None:
    window: MainWindow = rig.window
    for spot in window.shell.line.spots():
        assert spot.accessibleName()
        assert spot.width() >= tokens.TARGET_LEAST
        assert spot.height() >= tokens.TARGET_LEAST
    side = window.shell.mast.side
    assert side.accessibleName()
    assert side.height() >= tokens.TARGET_LEAST


def _round(rig: Rig) -> list[str]:
    """What Tab comes to, from where the keyboard is, once round the window."""
    names = [rig.focused()]
    while len(names) < 60:
        rig.keys("Tab")
        if rig.focused() == names[0]:
            return names
        names.append(rig.focused())
    raise AssertionError("Tab does not come round")


def test_tab_goes_through_the_dock_in_the_order_of_the_work(rig: Rig) -> None:
    rig.keys("Ctrl+2")
    assert _round(rig) == [
        *("Yard: scan its pull sheet", "On its sheet", "Pulled", "Crew", "Supers", "Box"),
        *("Gross, kg", "Condition: sealed", "Moisture, %", "Receive and print tag"),
        *("Another yard on this pallet", "Arrivals today", "Dock receipt"),
        "Split, join, buy in…",
        *("Dock, 0 supers, 0 kilograms from Yards today", "Scan or type any code"),
    ]


def test_tab_goes_through_the_form_of_the_set_up_and_its_buttons(rig: Rig) -> None:
    rig.keys("Ctrl+0")
    setup = rig.window.stations["setup"]
    assert isinstance(setup, SetupView)
    setup.presenter.turn("house")
    assert _round(rig)[:10] == [
        *("Name of the house", "Weighs in: kg", "Time zone", "A run may be out by, %"),
        *("A scan may come late by, min", "Letters before every code, or none"),
        *("Save and go on", "Skip", "More facts", "What there is"),
    ]


@pytest.mark.parametrize("key", ["yards", "season", "keys", "setup", "dock"])
def test_whatever_tab_comes_to_has_a_name(rig: Rig, key: str) -> None:
    rig.window.open_station(key)
    rig.settle()
    assert all(_round(rig))
