"""The sample's melter: what drains no more from cappings becomes wax and bakery honey.

Of a barrel about three quarters drain off as honey; of the rest a little under a third is honey
still, more than half is wax (common practice, no source).
"""

from datetime import datetime, timedelta

from sample_chance import Tables, at, kg, step
from sample_floor import SHOWN, Filled, Floor

BATCHES = (at(7, 29), at(8, 19), at(8, 29), at(9, 12), at(9, 19))
SOLD = at(9, 10)
HOLDS_G = 285_000
WAX, PAIL_G, PAILS_A_BATCH = 0.55, 27_200, 3
FIRST_PAIL = 37
DARKER = 300  # tenths of a millimetre: 30 mm


def melt(tables: Tables, floor: Floor) -> list[str]:
    """Melt what stands drained, batch by batch; gives the names of the wax there is to sell."""
    kept = {number for number, _ in floor.set_aside}
    barrels = [one for one in floor.drained if one[0] not in kept]
    pail = FIRST_PAIL
    for place, day in enumerate(BATCHES, 1):
        time, melted = day + timedelta(hours=8, minutes=30), 0
        while barrels and _drained(tables, barrels[0][0]) < day:
            number, left_g = barrels[0]
            if melted + left_g > HOLDS_G:
                break
            barrels.pop(0)
            melted += left_g
            cells: dict[str, object] = {"source": f"barrel {number}", "into": "Melter"}
            when = tables.free(time)
            tables.add("drums", when=when, what="pour", net=kg(left_g), whole=True, **cells)
            time += 3 * SHOWN
        pails = min(PAILS_A_BATCH, round(melted * 0.3 / PAIL_G))
        _take_out(tables, time + timedelta(hours=6), place, melted, pails)
        for _ in range(pails):
            _fill(tables, floor, time + timedelta(hours=6, minutes=20), place, pail)
            pail += 1
    return [f"wax {place}" for place, day in enumerate(BATCHES, 1) if day < SOLD]


def _take_out(tables: Tables, time: datetime, batch: int, melted: int, pails: int) -> None:
    wax_g, honey_g = step(melted * WAX, 100), pails * PAIL_G
    tables.add(
        "floor",
        when=tables.free(time),
        what="melt",
        vessel="Melter",
        barrel=batch,
        wax=kg(wax_g),
        net=kg(honey_g),
        residue=kg(melted - wax_g - honey_g),
        temperature="82",
    )


def _fill(tables: Tables, floor: Floor, time: datetime, batch: int, pail: int) -> None:
    name = f"Pail {pail}"
    when = tables.free(time)
    cells: dict[str, object] = {"source": f"melter honey {batch}", "container": name}
    tables.add("drums", when=when, what="fill", net=kg(PAIL_G), **cells)
    colour = round(floor.colour) + DARKER
    floor.filled.append(Filled(name, PAIL_G, 0, when, 1650, colour, "bakery"))


def _drained(tables: Tables, barrel: int) -> datetime:
    row = next(row for row in tables.rows("drums") if row["Source"] == f"barrel {barrel}")
    return datetime.strptime(row["When"], "%Y-%m-%d %H:%M")  # noqa: DTZ007  House's zone.
