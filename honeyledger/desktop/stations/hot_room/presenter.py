"""What the hot room knows: what waits, its air, the order of the next run, the form in hand."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Signal

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.drafts import DraftKeeper
from honeyledger.desktop.models.asked_page import AskedPage
from honeyledger.desktop.models.asking import CLOSING
from honeyledger.desktop.models.next_run import NEXT_RUN, codes_from, order_draft
from honeyledger.desktop.stations.hot_room.asks import hot_room_forms
from honeyledger.desktop.stations.hot_room.order import Order, ordered
from honeyledger.services.hot_room_page import HotRoomPage, WaitsRow, hot_room_page


class HotRoomPresenter(AskedPage):
    """The hot room's page, its forms, and the order of the next run.

    Signals:
        reordered: other pallets go into the next run, or in another order.
    """

    page: HotRoomPage | None
    reordered = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "hot-room", hot_room_forms(), hot_room_page)
        self.order = Order()
        self._keeper = DraftKeeper(desk.drafts, desk.jobs)
        desk.refresh.watch(CLOSING, lambda: self._keeper.keep_now(self._kept()))

    def came(self, page: HotRoomPage) -> None:
        """Pallets that are gone leave the order; with the first page, the order that was left."""
        self.order = self.order.of(page)
        if not self._keeper.name:
            self._keeper.name = order_draft(page.ledger)
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

    def take(self, codes: Sequence[str]) -> None:
        """These go into the next run, in this order, instead of what was meant before."""
        self._set(Order(tuple(codes)))

    def _set(self, order: Order) -> None:
        if order != self.order:
            self.order = order
            self._keeper.keep(self._kept())
            self._desk.next_run = order.codes
            self._desk.refresh.broadcast(NEXT_RUN, self)
            self.reordered.emit()

    def _kept(self) -> dict[str, object]:
        return {"order": list(self.order.codes)} if self.order.codes else {}

    def _restored(self, kept: Mapping[str, object]) -> None:
        """Take up the order that was left, unless somebody orders already."""
        if self.page is not None and not self.order.codes:
            self._set(Order(codes_from(kept)).of(self.page))
