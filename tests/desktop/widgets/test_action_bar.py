"""The primary button is first, the grave one last and apart."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.action_bar import ActionBar
from honeyledger.desktop.widgets.buttons import Kind
from honeyledger.desktop.widgets.text import body


def test_buttons_stand_in_order_with_their_gaps(qtbot: QtBot) -> None:
    bar = ActionBar()
    first = bar.add_primary("Sign and close run")
    second = bar.add_secondary("Print run sheet", icon="print")
    third = bar.add_plain("Reweigh a drum")
    grave = bar.add_grave("Discard")
    qtbot.addWidget(bar)
    bar.resize(1200, bar.height())
    bar.show()
    assert bar.primary is first
    assert first.x() == 20
    assert second.x() - first.geometry().right() - 1 == 16
    assert third.x() > second.geometry().right()
    assert grave.x() - third.geometry().right() - 1 == 24
    assert grave.kind is Kind.GRAVE
    bar.grab()


def test_at_a_desk_the_gaps_are_smaller(qtbot: QtBot) -> None:
    bar = ActionBar(density=Density.DESK)
    one, other = bar.add_secondary("Print trace"), bar.add_secondary("Copy")
    bar.set_side(body("Nothing in this trace is on hold."))
    qtbot.addWidget(bar)
    bar.resize(900, bar.height())
    bar.show()
    assert other.x() - one.geometry().right() - 1 == 8


def test_in_a_form_the_primary_button_takes_the_width(qtbot: QtBot) -> None:
    bar = ActionBar(wide_primary=True)
    button = bar.add_primary("Receive and print pallet tag")
    qtbot.addWidget(bar)
    bar.resize(502, bar.height())
    bar.show()
    assert button.width() == 502 - 2 * 20
    bar.set_narrow(True)
    assert bar.height() == 63
