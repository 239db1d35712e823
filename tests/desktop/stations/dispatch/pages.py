"""A small page of dispatch in plain values: two lots of one product, a held one, two drums."""

from datetime import date

from honeyledger.domain.moments import Moment
from honeyledger.services.dispatch_notes import Lately, NoteLine, NoteRow
from honeyledger.services.dispatch_page import DispatchPage
from honeyledger.services.dispatching import GroupOnHand, OnShelf
from honeyledger.services.dock import Choice
from tests.support.houses import START_MS

CLOVER = "product/clover-500-g"
OLD = OnShelf("J26-0001-L", "J", CLOVER, "Clover 500 g", 100, 50_000, None, START_MS)
NEW = OnShelf("J26-0002-J", "J", CLOVER, "Clover 500 g", 200, 100_000, None, START_MS + 1)
HELD = OnShelf(
    "J26-0003-H", "J", CLOVER, "Clover 500 g", 10, 5_000, None, START_MS + 2, "Mill Lane: treated"
)
DRUM = OnShelf("D26-0001-C", "D", "lots/D", "Drum 7", 0, 280_000, 18_000, START_MS)
ONE_WAY = OnShelf("D26-0002-A", "D", "lots/D", "", 0, 150_000, None, START_MS + 1, "", True)
CASE = OnShelf(
    "C26-0001-A", "C", CLOVER, "Clover 500 g", 12, 6_000, None, START_MS, contents=((CLOVER, 12),)
)
SHELF = (OLD, NEW, HELD, DRUM, ONE_WAY)
NOTE = NoteRow(
    "N26-0001-R",
    12,
    "customer/corner-shop",
    "Corner Shop",
    "sent",
    Moment(START_MS, 0, "UTC"),
    "PO 7",
    "Own van",
    (
        NoteLine(OLD.code, "J", CLOVER, "Clover 500 g", 40, 20_000),
        NoteLine("D26-0009-X", "D", "lots/D", "drums", 0, 280_000),
    ),
)
PAGE = DispatchPage(
    ledger="ledger-1",
    unit="kg",
    zone="UTC",
    today=date(2026, 7, 24),
    now_ms=START_MS,
    customers=(Choice("corner-shop", "Corner Shop"), Choice("packer", "Packer")),
    parties=(Choice("corner-shop", "Corner Shop"), Choice("hollow", "Hollow Bees")),
    products=(Choice("clover-500-g", "Clover 500 g"), Choice("aster-250-g", "Aster 250 g")),
    people=(),
    shelf=SHELF,
    by_code={row.code: row for row in (*SHELF, CASE)},
    on_hand=(
        GroupOnHand(CLOVER, "Clover 500 g", 300, 150_000, (OLD.code, NEW.code), 1),
        GroupOnHand("lots/D", "drums", 0, 430_000, (DRUM.code, ONE_WAY.code), 0),
    ),
    notes=(NOTE,),
    lately={
        "corner-shop": Lately("Corner Shop", 2, 44, 222_000, START_MS, ((CLOVER, 40),)),
        "gate": Lately("gate", 1, 0, 1_500, START_MS, (("lots/D", 1),)),
    },
)
