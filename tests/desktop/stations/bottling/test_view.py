"""The bottling worked by keys and scanner alone, on a real house."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.widgets.labels_ask import LabelsAsk, ask_labels
from honeyledger.domain.codes import JarCode, make_jar_code, parse_code
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.bottling_rig import Filler
from tests.desktop.rig import SOON, Rig
from tests.support.printing import text_boxes


@pytest.fixture
def filler(qtbot: QtBot, tmp_path: Path) -> Iterator[Filler]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Filler(rig)
    rig.close()


def _jar(lot: str, serial: int) -> str:
    code = parse_code(lot)
    assert not isinstance(code, JarCode)
    return str(make_jar_code(code, serial))


def _to(filler: Filler, kind: str) -> None:
    """With the arrows to a kind of happening, and with Enter into its fields."""
    what = filler.view.form.what
    what.take_focus()
    order = [button.choice.key for button in what.buttons()]
    steps = order.index(kind) - order.index(what.key())
    filler.keys(*["Right" if steps > 0 else "Left"] * abs(steps), "Return")


def _start(filler: Filler) -> str:
    """Both drums in their order, and begun."""
    filler.scan(filler.first)
    filler.scan(filler.second)
    filler.type("")
    filler.type("")
    return filler.presenter.hand.bottling


def test_a_whole_bottling_by_keys_and_scanner_alone(filler: Filler) -> None:
    rig = filler.window
    assert filler.at() == "feed", "the only product is chosen already"
    code = _start(filler)
    assert rig.toast().lead == f"Bottling {code} of Clover 500 g has begun."
    assert filler.at() == "weight"
    for weight in ("502", "503,5", "501"):
        filler.type(weight)
    assert filler.says() == "In order: mean 502.2 g, declared 500 g. Check your local rule."
    filler.wait(60)
    filler.scan(filler.first)
    assert filler.at() == "jars", "the next drum is known from the order"
    filler.type("198")
    filler.type("")
    assert rig.toast().lead == "198 jars so far; Drum 2 runs now."
    (segment,) = filler.sheet().segments
    assert (segment.first, segment.last, segment.name) == (1, 198, "Drum 1")
    assert segment.grams == 99_429
    filler.wait(30)
    _to(filler, "close")
    filler.type("300")
    filler.type("2")
    assert rig.focused() == "Left in Drum 2: the rest"
    filler.keys("Return")
    assert filler.at() == "mean", "no jar of this drum was weighed"
    filler.type("")
    filler.keys("Return")
    assert rig.toast().lead == f"{code} is made: 300 jars of Clover 500 g, 150.4 kg."
    assert rig.toast().action == "Reverse"
    lot = filler.last().lots[-1]
    assert (lot.attributes["jars"], lot.attributes["margin"]) == (300, 26)
    assert filler.at() == "gross", "what is left in the drum is weighed"
    filler.type("26,5")
    assert rig.toast().lead.startswith("D26-0002-")
    assert filler.at() == "feed"
    rig.keys("Ctrl+Shift+U")
    assert filler.last().reverses == filler.entries() - 1


def test_a_drum_scanned_empty_says_the_serial_by_its_mass(filler: Filler) -> None:
    _start(filler)
    filler.scan(filler.first)
    assert filler.says() == "200 jars: 100.0 kg from Drum 1, nothing left there."
    filler.type("")
    assert filler.at() == "case"
    filler.type("")
    filler.type("")
    filler.type("")
    filler.type("")
    assert filler.sheet().bottling.jars == 200
    assert filler.sheet().feed.code == filler.second


def test_the_case_in_hand_says_the_serial(filler: Filler) -> None:
    _start(filler)
    filler.scan(filler.second)
    assert filler.at() == "jars"
    filler.type("")
    filler.type("9")
    filler.type("12")
    assert filler.says().startswith("102 jars typed, 200 by mass: is it empty, and the count")
    filler.keys("Right")
    assert filler.says() == "102 jars: 51.0 kg from Drum 1, 49.0 kg left there."
    filler.keys("Return")
    filler.type("")
    assert filler.sheet().bottling.jars == 102


def test_a_jar_that_is_scanned_is_the_counter(filler: Filler) -> None:
    code = _start(filler)
    filler.scan(_jar(code, 77))
    assert filler.view.form.jars.text() == "77"
    assert filler.view.form.what.key() == "change"
    _to(filler, "close")
    filler.scan(_jar(code, 90))
    assert filler.view.form.jars.text() == "90"
    assert filler.view.form.what.key() == "close"


def test_a_counter_that_is_not_at_0_at_the_start(filler: Filler) -> None:
    filler.scan(filler.first)
    filler.type("")
    filler.type("12340")
    filler.scan(filler.second)
    filler.type("12300")
    filler.keys("Return")
    filler.type("")
    assert filler.says() == (
        "Not recorded. The counter stood at 12340 when this bottling began and cannot be 12300 "
        "now. Read it again."
    )
    assert filler.at() == "jars"
    filler.type("12400")
    filler.keys("Return")
    filler.type("")
    assert filler.sheet().bottling.jars == 60


def test_held_honey_is_asked_about_and_goes_on_by_name(filler: Filler) -> None:
    filler.tell(PutOnHold(filler.first, "taste"))
    filler.scan(filler.first)
    filler.type("")
    filler.type("")
    shown = filler.view.form.slot.shown()
    assert shown is not None
    assert shown.mark is Mark.REFUSED
    assert "a named person says why" in shown.text
    assert filler.at() == "why"
    filler.type("tasted again: in order")
    assert filler.presenter.hand.bottling
    assert not filler.view.form.why.isVisible()


def test_a_hold_that_travelled_is_asked_about_with_its_way(filler: Filler) -> None:
    filler.tell(PutOnHold("Mill Lane", "residue"))
    filler.scan(filler.first)
    filler.type("")
    filler.type("")
    shown = filler.view.form.slot.shown()
    assert shown is not None
    assert f"{filler.first} is on hold through Mill Lane, by way of S26-" in shown.text
    assert filler.at() == "why"
    filler.type("sampled, kept apart")
    assert filler.presenter.hand.bottling


def test_labels_are_printed_and_opened_with_a_key(filler: Filler) -> None:
    code = _start(filler)
    _to(filler, "labels")
    form = filler.view.form
    assert (form.lot.key(), form.first.text(), form.last.text()) == (code, "1", "320")
    filler.type("")
    filler.type("1")
    filler.type("24")
    file = filler.rig.folder / "papers" / f"{code} 1 to 24.pdf"
    assert file.exists()
    assert filler.says().endswith("24.pdf; Ctrl+P opens them.")
    filler.keys("Ctrl+P")
    assert filler.rig.opened == [file]


def test_a_sheet_of_labels_asks_by_keys_for_the_first_free_one(filler: Filler) -> None:
    code = _start(filler)
    _to(filler, "labels")
    asked: list[LabelsAsk] = []
    filler.rig.desk.ask_labels = lambda sheet, then: asked.append(ask_labels(sheet, then))
    filler.type("")
    filler.type("1")
    filler.type("6")
    (dialog,) = asked
    file = filler.rig.folder / "papers" / f"{code} 1 to 6.pdf"
    assert dialog.isVisible()
    assert not file.exists()
    QTest.keyClick(dialog.look, Qt.Key.Key_Down)
    QTest.keyClick(dialog.look, Qt.Key.Key_Return)
    filler.settle()
    assert filler.says().endswith("6.pdf; Ctrl+P opens them.")
    top = 297 - max(box[3] for box in text_boxes(file.read_bytes())) / 72 * 25.4
    assert top > 37, "the first row of the sheet was used"


def test_with_nothing_printed_yet_print_goes_to_the_labels(filler: Filler) -> None:
    filler.keys("Ctrl+P")
    assert filler.view.form.what.key() == "labels"
    filler.type("J26-0099-X")
    filler.type("")
    filler.type("")
    assert filler.says().startswith("Not printed. ")
    assert filler.rig.opened == []


def test_what_is_half_typed_survives_another_station_and_a_crash(
    filler: Filler, qtbot: QtBot, tmp_path: Path
) -> None:
    code = _start(filler)
    filler.type("502,4")
    filler.scan(filler.first)
    filler.type("19", enter=False)
    filler.keys("Ctrl+2", "Ctrl+6")
    assert filler.view.form.jars.text() == "19"
    filler.settle()
    filler.rig.store.close()  # the window is never closed: the power went
    again = Rig(qtbot, tmp_path, first=SOON)
    again.desk.operator = filler.rig.desk.operator
    again.keys("Ctrl+6")
    view = again.window.stations["bottling"]
    hand = view.presenter.hand  # type: ignore[attr-defined]
    again.settle(view.presenter.pause)  # type: ignore[attr-defined]
    assert (hand.bottling, hand.typed.kind, hand.typed.jars) == (code, "change", "19")
    assert hand.filler().weights_mg == (502_400,)
    assert hand.typed.next == filler.second
    again.close()


def test_other_codes_open_their_cards(filler: Filler) -> None:
    assert not filler.view.take_code("G26-0001-3")
    assert not filler.view.take_code("no code")
    assert not filler.view.take_code("D26-0099-X")


def test_enter_on_a_feed_takes_it_into_the_order(filler: Filler) -> None:
    feeds = filler.view.sheet.feeds
    feeds.select(filler.second)
    feeds.view.setFocus()
    filler.keys("Return")
    assert filler.presenter.hand.typed.order == (filler.second,)
    feeds.view.setFocus()
    filler.keys("Ctrl+I")
    assert filler.window.window.card_has_focus()


def test_the_chosen_source_is_traced(filler: Filler) -> None:
    asked: list[str] = []
    filler.view.asks.trace.connect(asked.append)
    _start(filler)
    sources = filler.view.sheet.sources
    yard = filler.presenter.hand.page.makeup.sources[0].code  # type: ignore[union-attr]
    sources.select(yard)
    sources.view.setFocus()
    assert filler.view.handle("trace-this")
    assert asked == [yard]
    assert not filler.view.handle("more-yards")


def test_several_bottlings_at_once(filler: Filler) -> None:
    first = _start(filler)
    second = filler.started(filler.second)
    filler.settle()
    sheet = filler.view.sheet
    assert sheet.other.isVisible()
    sheet.other.setFocus()
    filler.keys("Return")
    assert filler.presenter.hand.bottling == second
    filler.scan(first)
    assert filler.presenter.hand.bottling == first
    sheet.another.setFocus()
    filler.keys("Return")
    assert (filler.presenter.hand.bottling, filler.view.form.what.key()) == ("", "start")
    assert sheet.back.isVisible()
    sheet.back.setFocus()
    filler.keys("Return")
    assert filler.presenter.hand.bottling == first
    sheet.close_it.setFocus()
    filler.keys("Return")
    assert filler.view.form.what.key() == "close"
    assert filler.at() == "jars"


def test_a_house_without_a_product_is_sent_to_set_up(qtbot: QtBot, tmp_path: Path) -> None:
    rig = Rig(qtbot, tmp_path, first=SOON)
    rig.keys("Ctrl+6")
    view = rig.window.stations["bottling"]
    rig.settle(view.presenter.pause)  # type: ignore[attr-defined]
    assert view.form.slot.sentence().startswith("No product yet. Name it")  # type: ignore[attr-defined]
    assert rig.focused() == "Set up"
    rig.keys("Return")
    assert rig.window.shell.open_key() == "setup"
    rig.close()


def test_a_product_registered_meanwhile_is_chosen_and_the_drum_is_next(
    qtbot: QtBot, tmp_path: Path
) -> None:
    rig = Rig(qtbot, tmp_path, first=SOON)
    rig.keys("Ctrl+6", "Return")
    rig.told(Register("product", {"name": "Meadow 250 g", "net_g": 250}))
    rig.keys("Ctrl+6")
    view = rig.window.stations["bottling"]
    rig.settle(view.presenter.pause)  # type: ignore[attr-defined]
    assert view.form.product.text() == "Meadow 250 g"  # type: ignore[attr-defined]
    assert rig.focused() == "Filled from: scan it"
    rig.close()


def test_a_page_nobody_looks_at_is_asked_for_when_it_is_opened(filler: Filler) -> None:
    filler.keys("Ctrl+2")
    code = filler.started()
    filler.settle()
    assert filler.presenter.hand.bottling == ""
    filler.open()
    assert filler.presenter.hand.bottling == code


@pytest.mark.parametrize(("width", "height"), [(1280, 800), (1024, 700), (853, 640), (640, 400)])
def test_nothing_is_too_small_to_press(filler: Filler, width: int, height: int) -> None:
    _start(filler)
    filler.window.window.resize(width, height)
    for kind in ("weigh", "change", "close", "labels"):
        filler.presenter.choose(kind)
        filler.settle()
        form = filler.view.form
        for button in (*form.what.buttons(), form.record):
            assert min(button.width(), button.height()) >= 40
            assert not getattr(button, "is_cut", lambda: False)()
        for field in form.texts().values():
            if field.isVisible():
                assert field.box.height() >= 40
                assert field.box.width() >= 90
