"""The whole frame at every width and in both themes: nothing cut unsaid, nothing too small."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QApplication,
    QLineEdit,
    QWidget,
)
from pytestqt.qtbot import QtBot

from honeyledger.desktop import style, tokens
from honeyledger.desktop.models.frame_facts import StatusFacts
from honeyledger.desktop.widgets.line import MORE, SCAN
from honeyledger.desktop.widgets.shell import Shell
from honeyledger.desktop.widgets.text import Text
from tests.desktop.gallery import SIZES, build
from tests.support.tiers import first_plain

PAGES = ("dock", "extraction", "trace")
EXTREMES, BETWEEN = (SIZES[0], SIZES[-1]), SIZES[1:-1]


@pytest.fixture
def shell(qtbot: QtBot) -> Shell:
    made = build()
    qtbot.addWidget(made)
    made.resize(1280, 728)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    return made


def _open(shell: Shell, page: str, size: tuple[int, int]) -> None:
    shell.resize(*size)
    shell.open_page(page)
    QApplication.processEvents()


def _seen(shell: Shell, kind: type[QWidget]) -> list[QWidget]:
    return [one for one in shell.findChildren(kind) if one.isVisible()]


@pytest.mark.parametrize("size", first_plain(((one,) for one in (*EXTREMES, *BETWEEN)), 2))
@pytest.mark.parametrize("page", PAGES)
def test_every_page_is_whole_at_every_size(
    shell: Shell, dressed: QApplication, page: str, size: tuple[int, int]
) -> None:
    """As large as the window, each target 40 px, no text cut without a tip, none out of sight."""
    for theme in (tokens.LIGHT, tokens.DARK):
        style.wear(dressed, theme)
        _open(shell, page, size)
        _is_as_large_as_the_window(shell, size)
    style.wear(dressed, tokens.LIGHT)
    QApplication.processEvents()
    assert _small_targets(shell) == []
    texts = [one for one in _seen(shell, Text) if isinstance(one, Text)]
    assert texts
    unsaid = [text.text() for text in texts if text.is_cut() and not text.toolTip()]
    assert unsaid == []
    for area in _seen(shell, QAbstractScrollArea):
        assert isinstance(area, QAbstractScrollArea)
        inside = area.mapTo(shell, area.rect().bottomRight())
        assert inside.x() < size[0], "a page never scrolls sideways"


def _is_as_large_as_the_window(shell: Shell, size: tuple[int, int]) -> None:
    image = shell.grab().toImage()
    assert (image.width(), image.height()) == size, "no page forces the window to grow"
    assert image.pixelColor(size[0] - 2, size[1] - 40).isValid()


def _small_targets(shell: Shell) -> list[str]:
    targets = _seen(shell, QAbstractButton)
    targets += [one.parentWidget() for one in _seen(shell, QLineEdit)]  # type: ignore[misc]
    return [
        f"{type(one).__name__} {one.accessibleName()}: {one.width()} by {one.height()}"
        for one in targets
        if one.width() < 40 or one.height() < 40
    ]


@pytest.mark.parametrize("page", PAGES)
def test_everything_that_takes_the_keyboard_has_a_name(shell: Shell, page: str) -> None:
    _open(shell, page, (1280, 728))
    nameless = [
        f"{type(one).__name__} {one.objectName()}"
        for one in _seen(shell, QWidget)
        if one.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not isinstance(one, QAbstractScrollArea)
        and not (one.accessibleName() or (isinstance(one, QAbstractButton) and one.text()))
    ]
    assert nameless == []


def test_a_place_on_the_line_asks_for_its_page(qtbot: QtBot, shell: Shell) -> None:
    asked: list[str] = []
    shell.place_pressed.connect(asked.append)
    qtbot.mouseClick(shell.line.spot("extraction"), Qt.MouseButton.LeftButton)
    assert asked == ["extraction"]
    shell.open_page("extraction")
    assert shell.open_key() == "extraction"


def test_at_640_by_400_the_bar_and_the_slot_stay_and_the_fields_scroll(shell: Shell) -> None:
    _open(shell, "dock", (640, 400))
    assert not shell.mast.isVisible()
    assert not shell.status.isVisible()
    dock = shell.pages.currentWidget()
    for part in (dock.slot, dock.receive):  # type: ignore[attr-defined]
        assert part.isVisible()
        bottom = part.mapTo(shell, part.rect().bottomRight()).y()
        assert bottom < 400
    dock.form.take_focus(dock.moisture)  # type: ignore[attr-defined]
    QApplication.processEvents()
    field = dock.moisture.box  # type: ignore[attr-defined]
    assert (
        field.mapTo(shell, field.rect().bottomLeft()).y()
        < dock.receive.mapTo(  # type: ignore[attr-defined]
            shell,
            dock.receive.rect().topLeft(),  # type: ignore[attr-defined]
        ).y()
    )


def test_f2_types_a_code_in_the_mast_or_over_the_narrow_row(qtbot: QtBot, shell: Shell) -> None:
    typed: list[str] = []
    shell.code_typed.connect(typed.append)
    shell.begin_scan()
    qtbot.keyClicks(shell.mast.scan_box.editor, "D26-0611-Y")
    qtbot.keyClick(shell.mast.scan_box.editor, Qt.Key.Key_Return)
    _open(shell, "dock", (731, 560))
    qtbot.mouseClick(shell.line.spot(SCAN), Qt.MouseButton.LeftButton)
    box = shell.scan_box()
    assert box.isVisible()
    qtbot.keyClicks(box.editor, "S26-0415-9")
    qtbot.keyClick(box.editor, Qt.Key.Key_Return)
    assert typed == ["D26-0611-Y", "S26-0415-9"]
    assert not box.isVisible()


def test_a_scan_is_shown_for_two_seconds_at_any_width(qtbot: QtBot, shell: Shell) -> None:
    shell.show_scanned("D26-0611-Y")
    assert shell.mast.scan_box.scanned_code() == "D26-0611-Y"
    _open(shell, "dock", (731, 560))
    shell.show_scanned("D26-0611-Y", refused=True)
    box = shell.scan_box()
    assert box.isVisible()
    qtbot.waitUntil(lambda: not box.isVisible(), timeout=tokens.SCANNED_MS + 2000)


def test_the_words_at_the_foot_are_pressed_at_a_fingers_height(qtbot: QtBot, shell: Shell) -> None:
    pressed: list[bool] = []
    shell.status_pressed.connect(lambda: pressed.append(True))
    assert shell.foot.height() >= tokens.TARGET_LEAST
    assert shell.foot.accessibleName().startswith("How this house is kept: 48")
    qtbot.mouseClick(shell.foot, Qt.MouseButton.LeftButton)
    assert pressed == [True]
    _open(shell, "dock", (640, 400))
    assert not shell.foot.isVisible(), "there it stands in More"


def test_what_needs_a_person_comes_first_in_more(shell: Shell) -> None:
    shell.show_status(StatusFacts(("9 entries",), "kg", "Not backed up for 4 days"))
    _open(shell, "dock", (640, 400))
    words = [action.text() for action in shell.more_menu().actions()]
    assert words.index("Not backed up for 4 days") < words.index("9 entries")


def test_more_has_the_tools_and_what_the_frame_no_longer_says(shell: Shell) -> None:
    _open(shell, "dock", (640, 400))
    menu = shell.more_menu()
    words = [action.text() for action in menu.actions() if not action.isSeparator()]
    assert words[:3] == ["Trace", "Season", "Setup"]
    assert "Windrow Flats Honey" in words
    assert "backup 14 min ago" in words
    asked: list[str] = []
    shell.place_pressed.connect(asked.append)
    menu.actions()[0].trigger()
    assert asked == ["trace"]
    pressed: list[bool] = []
    shell.status_pressed.connect(lambda: pressed.append(True))
    kept = next(one for one in menu.actions() if one.text().startswith("Entries, and how"))
    kept.trigger()
    assert pressed == [True]
    assert menu.actionGeometry(menu.actions()[0]).height() >= 40
    menu.close()


def test_a_lost_ledger_is_said_in_a_strip_under_the_mast(qtbot: QtBot, shell: Shell) -> None:
    assert not shell.strip.isVisible()
    shell.strip.say("The ledger cannot be reached. What is typed is kept.")
    QApplication.processEvents()
    assert shell.strip.y() == 48
    with qtbot.waitSignal(shell.strip.retry):
        qtbot.mouseClick(shell.strip.again, Qt.MouseButton.LeftButton)
    shell.grab()
    shell.strip.say("")
    assert not shell.strip.isVisible()


def test_a_card_pushes_the_page_or_covers_it(qtbot: QtBot, shell: Shell) -> None:
    _open(shell, "trace", (1440, 900))
    shell.show_aside(True)
    QApplication.processEvents()
    assert shell.is_aside_shown()
    assert shell.pages.isVisible()
    assert shell.pages.width() == 1440 - 24 - round(tokens.grid(1440).span(4))
    _open(shell, "trace", (1024, 700))
    assert not shell.pages.isVisible()
    shell.grab()
    shell.show_aside(False)
    assert shell.pages.isVisible()
    assert not shell.is_aside_shown()


def test_the_status_bar_says_how_the_ledger_is(shell: Shell) -> None:
    shell.show_status(StatusFacts(("1 entry",), "kg"))
    assert shell.status.words() == "1 entry"
    assert MORE not in [spot.key for spot in shell.line.spots()]
