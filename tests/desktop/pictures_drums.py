"""The drum room in the states that are worth a picture, on the sample season."""

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtWidgets import QApplication, QScrollArea

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.models.reading_asks import CALIBRATE, INDEX, LABORATORY, MEASURE
from honeyledger.desktop.stations.drums.stock_asks import OPENING, WALK, WARM
from honeyledger.desktop.stations.drums.view import DrumsView
from honeyledger.desktop.widgets.card_parts import QualityRow
from honeyledger.desktop.widgets.fields import Field
from honeyledger.desktop.widgets.labels_ask import LabelsAsk
from tests.desktop.waiting import wait_for_answers, wait_for_page, wait_until

PAGES = (
    *("drums", "drums-pots", "drums-refused", "drums-weigh", "drums-blend", "drums-hold"),
    *(
        "drums-blended",
        "drums-free",
        "drums-found",
        "drums-chosen",
        "drums-walk",
        "drums-before",
        "drums-warm",
    ),
    *("drums-measure", "drums-result", "drums-calibrate", "drums-quality", "drums-way"),
    *("drums-vessel", "drums-label"),
)

STOCK = {"walk": WALK, "before": OPENING, "warm": WARM, "measure": MEASURE, "result": MEASURE}
STOCK |= {"calibrate": CALIBRATE}
MEASURED = {
    "measure": {"scale": INDEX, "value": "1.4908", "at": "27", "instrument": "Refractometer 1"},
    "calibrate": {"instrument": "Refractometer 2", "known": "18.0", "read": "17.6"},
    "result": {"kind": LABORATORY, "result_of": "hmf", "value": "<5", "laboratory": "Bench"},
}


def _view(window: MainWindow) -> DrumsView:
    found = window.stations["drums"]
    assert isinstance(found, DrumsView)
    return found


def _wait(window: MainWindow) -> None:
    QApplication.processEvents()
    wait_for_answers(window)
    QApplication.processEvents()


def _ask_label(window: MainWindow, view: DrumsView, drum: str) -> None:
    """The label of a drum, seen before it is printed."""
    window.desk.ask_labels = lambda asked, then: LabelsAsk(asked, then, window).open()
    view.table.select(drum)
    window.desk.look_first(lambda: view.handle("print"))
    wait_until(lambda: window.findChildren(LabelsAsk), window.desk.jobs)


def _scan(window: MainWindow, *codes: str) -> None:
    for code in codes:
        window.take_code(code)
        _wait(window)


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about, by the name behind the page's."""
    view = _view(window)
    wait_for_page(view.presenter, lambda: view.presenter.page)
    rows = view.presenter.page.rows
    held, to_weigh = (
        next(row.code for row in rows if row.state == state) for state in ("hold", "not weighed")
    )
    pots = [row.code for row in rows if row.state == "not read"][:4]
    read = [row.code for row in rows if row.state == "ready" and row.colour is not None]
    if how in ("weigh", "blend", "hold", "free"):
        view.form.choose(how)
    elif how == "blended":
        view.form.choose("blend")
    if how == "label":
        _ask_label(window, view, read[0])
    if how in ("pots", "refused"):
        _scan(window, *pots)
        wrong = "71" if how == "refused" else "18.6"
        _read(view, pots, ("17,4", "31"), ("16.9", ""), (wrong, "40"))
        if how == "refused":
            view.form.record.click()
    elif how in STOCK:
        _stock(window, view, STOCK[how], pots)
        if how in MEASURED:
            asking = view.stock.asking
            asking.fill(replace(asking.now(), values={**asking.now().values, **MEASURED[how]}))
    elif how == "way":
        # Held through a pull it came of: its card says by which way.
        row = next(row for row in rows if row.held and row.code not in row.held[0])
        _wait(window)
        window.open_card(row.code)
        _wait(window)
        wait_until(window.shell.is_aside_shown, window.desk.jobs)
    elif how == "vessel":
        _wait(window)
        window.open_card(next(iter(view.presenter.page.blends)))
        _wait(window)
        wait_until(window.shell.is_aside_shown, window.desk.jobs)
    elif how == "quality":
        _quality(window, [row.code for row in rows])
    elif how == "weigh":
        _scan(window, to_weigh)
    elif how == "blend":
        _scan(window, *read[:2], held)
        asking = view.presenter.asking
        asking.fill(replace(asking.now(), values={**asking.now().values, "most": "17.8"}))
    elif how == "hold":
        _scan(window, pots[0])
    elif how == "found":
        view.find.set_text("18-20 % hold")
        view.presenter.find("18-20 % hold")
    elif how == "chosen":
        view.table.select(held)
        view.table.take_focus()


def _stock(window: MainWindow, view: DrumsView, kind: str, drums: Sequence[str]) -> None:
    """The forms of what comes up less often, with what a scan gives each."""
    page = view.presenter.page
    assert page is not None
    view.stock.turn()
    view.stock.form.choose(kind)
    if kind == WALK:
        asking = view.stock.asking
        asking.fill(asking.now().with_value("room", page.rooms[0].name))
        _scan(window, *drums[:3])
    elif kind == OPENING:
        _scan(window, *(yard.code for yard in page.yards[:2]))
    else:
        _scan(window, drums[0])


def _quality(window: MainWindow, codes: Sequence[str]) -> None:
    """The card of a drum that had part in a composite, rolled to what is known of its quality."""
    code = window.desk.house.ask(
        lambda view: next(code for code in codes if view.mark(code, "composite/hmf"))
    )
    window.open_card(code)
    _wait(window)
    rows = window.findChildren(QualityRow)
    area = next(one for one in window.findChildren(QScrollArea) if one.isAncestorOf(rows[0]))
    area.ensureWidgetVisible(rows[-1])
    area.ensureWidgetVisible(rows[0])


def _read(view: DrumsView, codes: Sequence[str], *read: tuple[str, str]) -> None:
    for code, (moisture, colour) in zip(codes, read, strict=False):
        for key, text in (("moisture", moisture), ("colour", colour)):
            field = view.form.line_field(key, code)
            assert isinstance(field, Field)
            field.set_text(text)
            field.edited.emit(text)


def leave(window: MainWindow) -> None:
    """Empty what was typed, and find all drums again."""
    for asked in window.findChildren(LabelsAsk):
        asked.reject()
    window.close_card()
    view = _view(window)
    view.handle("clear")
    view.stock.form.choose(WALK, begins=False)
    view.stock.show_first()
    view.form.choose("read")
    view.handle("clear")
    view.find.set_text("")
    view.presenter.find("")
    view.table.select("")
