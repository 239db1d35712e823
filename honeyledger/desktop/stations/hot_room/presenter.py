"""What the hot room knows: what waits, its air, the order of the next run, the form in hand."""

from collections.abc import Mapping

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.drafts import DraftKeeper
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.models.asking import CLOSING, Asking
from honeyledger.desktop.stations.hot_room.asks import hot_room_forms
from honeyledger.desktop.stations.hot_room.order import Order, order_from, ordered
from honeyledger.services.hot_room_page import HotRoomPage, WaitsRow, hot_room_page


class HotRoomPresenter(QObject):
    """The hot room's page, its forms, and the order of the next run.

    Signals:
        shown: a `HotRoomPage` has come.
        reordered: other pallets go into the next run, or in another order.
    """

    shown = Signal(object)
    reordered = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.page: HotRoomPage | None = None
        self.order = Order()
        self.asking = Asking(desk, "hot-room", hot_room_forms())
        self._keeper = DraftKeeper(desk.drafts, desk.jobs)
        desk.refresh.watch(EVERYTHING, self.ask)
        desk.refresh.watch(CLOSING, lambda: self._keeper.keep_now(self._kept()))

    def ask(self) -> None:
        """Ask for the hot room as it is now."""
        house = self._desk.house
        now_ms = house.clock()
        self._desk.jobs.read(
            lambda: house.ask(lambda view: hot_room_page(view, now_ms)),
            self._answered,
            about=(self, "page"),
        )

    def _answered(self, outcome: Outcome[HotRoomPage]) -> None:
        page = outcome.value
        if page is None:
            return
        self.page = page
        self._desk.unit, self._desk.zone = page.unit, page.zone
        self.asking.show_page(page, page.ledger, page.today)
        self.order = self.order.of(page)
        self.shown.emit(page)
        if not self._keeper.name:
            self._keeper.name = f"hot-room-order-{page.ledger}"
            self._keeper.read(self._restored)

    def rows(self) -> list[WaitsRow]:
        """What waits: the next run in its order, then the rest."""
        return ordered(self.page, self.order) if self.page else []

    def row(self, code: str) -> WaitsRow | None:
        """A pallet by its tag."""
        return self.page.row(code) if self.page else None

    # The next run.

    def join(self, code: str) -> None:
        """A pallet goes into the next run."""
        self._set(self.order.joined(code))

    def toggle(self, code: str) -> None:
        """A pallet goes into the next run, or not after all."""
        inside = bool(self.order.number(code))
        self._set(self.order.without(code) if inside else self.order.joined(code))

    def shift(self, code: str, by: int) -> None:
        """A pallet goes in earlier or later."""
        self._set(self.order.shifted(code, by))

    def place(self, code: str, place: int) -> None:
        """A pallet was let go at a place of the list; below the next run it leaves it."""
        if place > len(self.order.without(code).codes) and self.order.number(code):
            self._set(self.order.without(code))
        else:
            self._set(self.order.placed(code, place))

    def _set(self, order: Order) -> None:
        if order != self.order:
            self.order = order
            self._keeper.keep(self._kept())
            self.reordered.emit()

    def _kept(self) -> dict[str, object]:
        return {"order": list(self.order.codes)} if self.order.codes else {}

    def _restored(self, kept: Mapping[str, object]) -> None:
        """Take up the order that was left, unless somebody orders already."""
        if self.page is not None and not self.order.codes:
            self._set(order_from(kept).of(self.page))
