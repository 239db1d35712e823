"""The order of the next run, as somebody means it: which pallets, and which first.

It is a plan of this computer and no entry: what goes in is what is scanned at the uncapper.
"""

from dataclasses import dataclass

from honeyledger.services.hot_room_page import HotRoomPage, WaitsRow


@dataclass(frozen=True, slots=True)
class Order:
    """Pallet tags in the order in which they are to go in."""

    codes: tuple[str, ...] = ()

    def joined(self, code: str) -> "Order":
        """With a pallet at the end; one that is in it stays where it is."""
        return self if code in self.codes else Order((*self.codes, code))

    def without(self, code: str) -> "Order":
        """Without a pallet."""
        return Order(tuple(one for one in self.codes if one != code))

    def placed(self, code: str, place: int) -> "Order":
        """With a pallet at a place, from 0; behind the last one it joins the end."""
        others = [one for one in self.codes if one != code]
        others.insert(max(0, min(place, len(others))), code)
        return Order(tuple(others))

    def shifted(self, code: str, by: int) -> "Order":
        """With a pallet some places on."""
        return self.placed(code, self.codes.index(code) + by) if code in self.codes else self

    def number(self, code: str) -> int:
        """The place of a pallet, from 1; 0 where it is not in it."""
        return self.codes.index(code) + 1 if code in self.codes else 0

    def of(self, page: HotRoomPage) -> "Order":
        """Only the pallets that still wait."""
        return Order(tuple(code for code in self.codes if page.row(code) is not None))

    def rows(self, page: HotRoomPage) -> list[WaitsRow]:
        """The pallets of the next run in their order."""
        return [row for code in self.codes if (row := page.row(code)) is not None]


def ordered(page: HotRoomPage, order: Order) -> list[WaitsRow]:
    """All pallets: those of the next run in their order, then those that wait longest."""
    first = order.rows(page)
    return [*first, *(row for row in page.rows if row.code not in order.codes)]
