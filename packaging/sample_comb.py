"""The sample's cut comb: seventy shallow supers, to the gram, and jars with comb in them.

630 kg for sale become 1,500 pieces of 340 g, 78 kg that drain and 42 kg of rejects; 70 kg give 48
for chunk honey, 12 that drain and 10 of rejects. All that drains is poured into the chunk jars, or
into pails.
"""

from datetime import datetime

import sample_house as house
from sample_chance import Tables, at
from sample_house import CHUNK, COMB_TABLE, CUT_COMB

# When, lot, supers, pieces, and kilograms packed, drained and rejected.
CUTS: tuple[tuple[datetime, str, int, int, str, str, str], ...] = (
    (at(9, 23, 15, 40), "comb 1", 32, 760, "258.4", "40.2", "21.4"),
    (at(9, 24, 14, 20), "comb 2", 31, 740, "251.6", "37.8", "20.6"),
    (at(9, 24, 16, 10), "comb 3", 7, 160, "48", "12", "10"),
)
CHUNK_JARS = 160
TABLE_PAILS = (53, 54)


def write(tables: Tables, pallet: int) -> None:
    """Write what was cut, the jars of chunk honey, and two pails of what drained."""
    for time, lot, supers, pieces, net, drained, rejects in CUTS:
        tables.add(
            "comb",
            when=tables.free(time),
            what="cut",
            lot=lot,
            pallet=pallet,
            supers=supers,
            product="" if lot == "comb 3" else CUT_COMB,
            pieces=pieces,
            net=net,
            drained=drained,
            into=COMB_TABLE,
            rejected=rejects,
        )
    tables.add(
        "comb",
        when=tables.free(at(9, 25, 10, 20)),
        what="chunk",
        lot="chunk 1",
        product=CHUNK,
        comb="comb 3",
        source=COMB_TABLE,
        pieces=160,
        jars=CHUNK_JARS,
        net="32",
    )
    for place, pail in enumerate(TABLE_PAILS):
        cells: dict[str, object] = {"source": COMB_TABLE, "container": f"Pail {pail}"}
        when = tables.free(at(9, 25, 11, 5 + 4 * place))
        tables.add("drums", when=when, what="fill", net="27.2", **cells)
    when = tables.free(at(9, 25, 11, 40))
    for goods, pieces in (("comb 1", 240), ("chunk 1", 48)):
        cells = {"note": "comb", "customer": house.SHOPS[5], "by": "Wim Haskerly"}
        tables.add("dispatch", when=when, goods=goods, jars=pieces, **cells)
