"""The bottling's page in the states that are worth a picture, on the sample season."""

from PySide6.QtWidgets import QApplication, QScrollArea

from honeyledger.desktop.label_print import print_label
from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.stations.bottling.typed import CHANGE, CLOSE, LABELS, Typed
from honeyledger.desktop.stations.bottling.view import BottlingView
from honeyledger.desktop.widgets.card_parts import QualityRow
from honeyledger.desktop.widgets.labels_ask import LabelsAsk
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Said
from honeyledger.services.label_forms import JAR_FRONT
from honeyledger.services.papers import Serials
from tests.desktop.waiting import wait_for_answers, wait_for_page, wait_until

# Jars of 500 g as a filler gives them, and two that are short.
WEIGHED = (
    *("502.1", "501.4", "503.0", "500.6", "502.8", "501.9", "499.2", "502.4"),
    *("501.1", "503.3", "500.9", "502.2"),
)
SHORT = ("483.9", "484.2")
SHEET = "a4-24-70x37"
MOOR = "moor-honey-250-g"
AFTER = ("label", "keep", "pack", "unpack", "chunk", "claims")
PAGES = (
    *("bottling", "bottling-weighed", "bottling-short", "bottling-change", "bottling-refused"),
    *("bottling-close", "bottling-labels", "bottling-start", "bottling-planned"),
    "bottling-proposed",
    *("bottling-mean", "bottling-card", "bottling-claim", "bottling-sheet"),
    *("bottling-label", "bottling-keep", "bottling-pack", "bottling-unpack"),
    *("bottling-chunk", "bottling-claims"),
)


def _view(window: MainWindow) -> BottlingView:
    found = window.stations["bottling"]
    assert isinstance(found, BottlingView)
    return found


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about, by the name behind the page's."""
    view = _view(window)
    presenter = view.presenter
    wait_for_page(presenter, lambda: presenter.hand.page)
    if how in ("weighed", "short"):
        for text in (*WEIGHED, *(SHORT if how == "short" else ())):
            presenter.type(Typed(kind=presenter.hand.typed.kind, weight=text))
            presenter.add_weight()
    elif how == "change":
        presenter.choose(CHANGE)
        view.form.jars.set_text("577")
        presenter.type(view.form.typed())
    elif how == "refused":
        presenter.choose(CHANGE)
        view.form.jars.set_text("120")
        view.form.submit()
    elif how == "close":
        presenter.choose(CLOSE)
        view.form.jars.set_text("571")
        presenter.type(view.form.typed())
    elif how == "mean":
        presenter.choose(CLOSE)
        view.form.jars.set_text("571")
        view.form.mean.set_text("497.5")
        presenter.type(view.form.typed())
    elif how == "card":
        card(window, view)
    elif how == "claim":
        claim(view)
    elif how in ("labels", "sheet"):
        presenter.choose(LABELS)
        if how == "sheet":
            ask_front(window, view.presenter.hand.typed.lot or _first_lot(view))
    elif how in AFTER:
        view.turn()
        view.after.form.choose(how)
    elif how in ("start", "planned", "proposed"):
        presenter.take_in_hand("")
        if how == "planned":
            plan(view)
        elif how == "proposed":
            propose(view)


def plan(view: BottlingView) -> None:
    """The tank with the blend, and a drum on hold behind it."""
    page = view.presenter.hand.page
    assert page is not None
    tank = next(feed for feed in page.feeds if not feed.is_drum)
    held = next(feed for feed in page.feeds if feed.state == "hold")
    order = (tank.code, held.code)
    view.presenter.type(Typed(product=page.products[0].key, order=order))
    view.form.fill()
    view.presenter.ask()


def propose(view: BottlingView) -> None:
    """Drums proposed for jars of the first product."""
    page = view.presenter.hand.page
    assert page is not None
    view.presenter.type(Typed(product=page.products[0].key, about="900"))
    view.form.fill()
    view.propose.button.click()
    wait_until(lambda: view.presenter.hand.typed.order, view.presenter.hand)


def claim(view: BottlingView) -> None:
    """A product whose label would say what the honey in the drum is not."""
    house = view.presenter._desk.house
    record = {"name": "Moor honey 250 g", "net_g": 250, "claims_organic": 1, "crop": 2026}
    if house.ask(lambda v: v.mark(f"product/{MOOR}", "record")) is None:
        house.record(Register("product", record), Said(operator=view.presenter._desk.operator))
    page = view.presenter.hand.page
    assert page is not None
    presenter = view.presenter
    presenter.take_in_hand("")
    drum = next(feed for feed in page.feeds if feed.is_drum and feed.state != "hold")
    wait_until(
        lambda: any(row.key == MOOR for row in presenter.hand.page.products),  # type: ignore[union-attr]
        presenter.hand,
    )
    presenter.type(Typed(product=MOOR, order=(drum.code,)))
    view.form.fill()
    presenter.ask()


def card(window: MainWindow, view: BottlingView) -> None:
    """The card of jars, rolled to what may be claimed of them."""
    page = view.presenter.hand.page
    assert page is not None
    going_on = [row.code for row in page.bottlings]
    made = [row.code for row in page.jars if row.code[0] == "J" and row.code not in going_on]
    window.open_card(made[0])
    wait_until(lambda: window.findChildren(QualityRow), window.desk.jobs)
    wait_for_answers(window)
    rows = window.findChildren(QualityRow)
    QApplication.processEvents()
    area = next(one for one in window.findChildren(QScrollArea) if one.isAncestorOf(rows[0]))
    area.ensureWidgetVisible(rows[-1])


def ask_front(window: MainWindow, lot: str) -> None:
    """Fronts of a lot, from the eighth label of a sheet on."""
    desk = window.desk
    desk.free_labels[SHEET] = 8
    desk.ask_labels = lambda asked, then: LabelsAsk(asked, then, window).open()
    fronts = Serials(1, 12, JAR_FRONT)
    print_label(desk, lot, lambda _outcome: None, serials=fronts, looks=True)
    wait_until(lambda: window.findChildren(LabelsAsk), window.desk.jobs)


def _first_lot(view: BottlingView) -> str:
    page = view.presenter.hand.page
    assert page is not None
    return page.jars[0].code


def leave(window: MainWindow) -> None:
    """Back to the bottling that is open, with nothing typed or weighed."""
    for asked in window.findChildren(LabelsAsk):
        asked.reject()
    window.close_card()
    if _view(window).is_after():
        _view(window).turn()
    presenter = _view(window).presenter
    presenter.take_in_hand(presenter.hand.next_open())
    wait_until(lambda: presenter.hand.sheet() is not None, presenter.hand)
    while presenter.hand.take_back_jar():
        pass
    presenter.clear()
