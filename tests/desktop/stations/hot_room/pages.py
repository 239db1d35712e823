"""Pages of a hot room, made by hand."""

from datetime import date

from honeyledger.domain.moments import moment_at
from honeyledger.services.dock import Choice
from honeyledger.services.hot_room_page import HotRoomPage, RoomNow, WaitsRow
from tests.support.houses import START_MS

OLD = WaitsRow(
    *("G26-0001-6", ("Mill Lane",), "waits too long", 20, 300_000, 96, 1_750, "dries"),
    *("Hot room, row 2", (), frozenset({"yard/Y26-0001-P"})),
)
WET = WaitsRow(
    *("G26-0002-4", ("Mill Lane", "Willow Bank"), "dry first", 30, 450_000, 20, 1_900, "wets"),
    *("", (), frozenset({"yard/Y26-0001-P", "yard/Y26-0002-M"})),
)
HELD = WaitsRow(
    *("G26-0003-2", ("A", "B", "C"), "hold", 4, 60_000, 2, None, "", ""),
    *(("S26-0003-X: smoke",), frozenset({"yard/Y26-0003-K"})),
)
ROOM = RoomNow("hot-room", "Hot room", 340, 4_500, moment_at(START_MS, "UTC"))
STORE = RoomNow("store", "Store", None, None, None)
PAGE = HotRoomPage(
    ledger="ledger-1",
    unit="kg",
    zone="UTC",
    today=date(2026, 7, 24),
    rows=(OLD, WET, HELD),
    rooms=(ROOM, STORE),
    yards=(Choice("Y26-0001-P", "Mill Lane"),),
)
