"""The balance is drawn, said in words, and told piece by piece."""

from PySide6.QtCore import QPoint
from PySide6.QtGui import QHelpEvent
from PySide6.QtWidgets import QApplication, QToolTip
from pytestqt.qtbot import QtBot

from honeyledger.desktop import look
from honeyledger.desktop.colouring import pfund_colour
from honeyledger.desktop.models.balance_bars import BalanceBars, BalancePiece, PieceKind
from honeyledger.desktop.widgets.balance import Balance, label_runs
from tests.desktop.gallery_closing import BARS


def _balance(qtbot: QtBot, bars: BalanceBars = BARS) -> Balance:
    balance = Balance()
    qtbot.addWidget(balance)
    balance.show_bars(bars)
    balance.resize(860, balance.sizeHint().height())
    balance.show()
    return balance


def test_drums_are_in_their_own_colour_and_the_missing_is_an_empty_box(qtbot: QtBot) -> None:
    balance = _balance(qtbot)
    image = balance.grab().toImage()
    geometry = balance.geometry_now()
    assert geometry is not None
    drum = geometry.lower[0]
    at = image.pixelColor(int(drum.left + drum.width) - 6, int(drum.top) + 6)
    assert at.name().upper() == pfund_colour(39)
    box = geometry.lower[-1]
    assert box.piece.kind is PieceKind.MISSING
    middle = image.pixelColor(int(box.left + box.width / 2), int(box.top) + 20)
    assert middle.name() == look.colour("sheet").name()
    edge = image.pixelColor(int(box.left) + 1, int(box.top) + 20)
    assert edge.name() == look.colour("edge").name(), "an estimate's error is no alarm"


def test_a_loss_between_weighed_points_is_marked_as_an_alert(qtbot: QtBot) -> None:
    bars = BalanceBars(
        "Weighed in and out",
        (BalancePiece("Tank 2", "400.0", 400_000, 40),),
        (BalancePiece("0611", "365.0", 365_000, 40, is_code=True),),
        "35.0 kg missing (8.8 %)",
        is_loss=True,
    )
    balance = _balance(qtbot, bars)
    geometry = balance.geometry_now()
    assert geometry is not None
    box = geometry.lower[-1]
    image = balance.grab().toImage()
    edge = image.pixelColor(int(box.left) + 1, int(box.top) + 20)
    assert edge.name() == look.colour("alert").name()


def test_it_is_read_out(qtbot: QtBot) -> None:
    balance = _balance(qtbot)
    assert "Estimates ran high by 29.5 kg" in balance.accessibleName()
    assert "0611 300.5" in balance.accessibleDescription()
    assert "cappings ≈ 133.5" in balance.accessibleDescription()


def test_the_piece_under_the_mouse_is_told(qtbot: QtBot) -> None:
    balance = _balance(qtbot)
    geometry = balance.geometry_now()
    assert geometry is not None
    heel = geometry.upper[2]
    found = balance.piece_at(heel.middle, heel.top + 10)
    assert found is not None
    assert found.kind is PieceKind.HEEL
    assert balance.piece_at(5, 5) is None
    at = QPoint(int(heel.middle), int(heel.top) + 10)
    event = QHelpEvent(QHelpEvent.Type.ToolTip, at, balance.mapToGlobal(at))
    QApplication.sendEvent(balance, event)
    assert QToolTip.text() == "heel 38 kg"
    QToolTip.hideText()


def test_a_code_on_a_bar_is_set_as_a_code() -> None:
    drum = BARS.came_out[0]
    runs = label_runs(drum, drum.words, "#000000")
    assert [run.font.family() for run in runs] == [look.MONO, look.SANS]
    yard = BARS.went_in[0]
    assert [run.text for run in label_runs(yard, yard.label, "#000000")] == ["Tamarack Rise"]


def test_before_a_run_is_shown_nothing_is(qtbot: QtBot) -> None:
    balance = Balance()
    qtbot.addWidget(balance)
    assert balance.geometry_now() is None
    assert balance.piece_at(10, 30) is None
    assert balance.minimumSizeHint().width() >= 240
    balance.grab()


def test_the_key_of_what_is_missing_is_a_piece_of_a_bar_and_no_letter(qtbot: QtBot) -> None:
    balance = _balance(qtbot)
    image = balance.grab().toImage()
    edge, inside = look.colour("edge").name(), look.colour("sheet").name()
    row = [image.pixelColor(x, 24 + 40 + 4 + 40 + 4 + 16).name() for x in range(40)]
    assert row == [edge] * 2 + [inside] * 36 + [edge] * 2


def test_where_it_is_narrow_what_is_said_of_colours_stands_below_the_losses(qtbot: QtBot) -> None:
    balance = _balance(qtbot)
    beside = balance.sizeHint().height()
    balance.resize(400, beside)
    assert balance.sizeHint().height() == beside + 20
    balance.grab()
    balance.resize(860, beside)
    assert balance.sizeHint().height() == beside


def test_no_hatch_runs_through_the_words_on_what_was_not_read(qtbot: QtBot) -> None:
    unread = BalancePiece("Quillery", "498", 498_000)
    bars = BalanceBars("In and out", (unread,), (BalancePiece("0190", "498.0", 498_000, 40),))
    balance = _balance(qtbot, bars)
    geometry = balance.geometry_now()
    assert geometry is not None
    piece = geometry.upper[0]
    assert piece.inside
    image, well = balance.grab().toImage(), look.colour("well").name()
    edge = int(piece.left) + 4
    column = [image.pixelColor(edge, int(piece.top) + y).name() for y in range(10, 30)]
    assert set(column) == {well}
    beyond = [image.pixelColor(x, int(piece.top) + 20).name() for x in range(300, 340)]
    assert set(beyond) != {well}, "the rest is hatched"
