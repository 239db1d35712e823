"""The sample's rooms and yards by dates: air, checks, drums in rows, a stocktake, supers on."""

from datetime import datetime, timedelta

import sample_house as house
from sample_chance import Chance, Tables, at
from sample_crop import Pallet
from sample_floor import SHOWN, Floor
from sample_runs import NOW, TREATED_YARD

OPENED = at(6, 26, 14)
LAST_GOOD, LOW_FOUND = at(8, 17, 7, 10), at(9, 1, 12, 50)
HOLE_FOUND = at(9, 25, 15, 5)
ONCE = (
    ("water", "Water", "laboratory report W 26-114"),
    ("training", "Training of staff", "7 people"),
    ("suppliers", "Suppliers", "3 approved"),
    ("allergens", "Allergens", "none in store"),
)
WALKED, WALKED_ROW = at(9, 12, 9, 30), "D"
FLAGGED = house.GAVE_NOTHING


def write(tables: Tables, chance: Chance, pallets: list[Pallet], floor: Floor) -> None:
    """Write the logs of rooms and yards."""
    _air(tables, chance)
    _checks(tables)
    _house_checks(tables)
    rows = _carried(tables, floor)
    _walked(tables, rows)
    _supers_on(tables, chance, pallets)
    _in_the_yards(tables, {pull.yard for one in pallets if _late(one) for pull, _ in one.parts})


def _air(tables: Tables, chance: Chance) -> None:
    """The hot room's air, every second morning while supers stand in it."""
    day = at(7, 8, 16, 50)
    while day < NOW:
        hot, damp = chance.normal(34, 0.8, 31, 36.5), chance.normal(41, 4, 30, 55)
        tables.add(
            "rooms_log",
            when=tables.free(day),
            what="air",
            room=house.HOT_ROOM,
            temperature=f"{hot:.1f}",
            humidity=round(damp),
        )
        day = (day + timedelta(days=2)).replace(hour=6, minute=55)


def _checks(tables: Tables) -> None:
    """Scale and sieve on Mondays; one refractometer was right, and a week later was not."""
    day = at(7, 6, 6, 35)
    while day < NOW:
        for equipment, checked, value in (
            (house.SCALE, "20 kg", "20.0"),
            (house.SIEVE, "mesh", "whole"),
        ):
            cells: dict[str, object] = {"equipment": equipment, "checked": checked}
            tables.add("rooms_log", when=tables.free(day), what="checked", value=value, **cells)
        day += timedelta(days=7)
    oil: dict[str, object] = {"what": "checked", "checked": "reference oil"}
    for when, instrument, result, value in (
        (LAST_GOOD, "Refractometer 2", None, "0.0"),
        (LOW_FOUND, "Refractometer 2", "off", "-0.4"),
        (LOW_FOUND + 4 * SHOWN, "Refractometer 1", None, "0.0"),
        (LOW_FOUND + 90 * SHOWN, "Refractometer 2", None, "0.0"),
    ):
        cells = {**oil, "equipment": instrument, "result": result, "value": value}
        tables.add("rooms_log", when=tables.free(when), by="Cass Doverling", **cells)


def _house_checks(tables: Tables) -> None:
    """What is looked at on Mondays, each month, once a season; and a sieve found with a hole."""

    def add(when: datetime, listed: str, checked: str, **cells: object) -> None:
        told = {"listed": listed, "checked": checked, "by": "Nell Varrowby", **cells}
        tables.add("rooms_log", when=tables.free(when), what="checked", **told)

    day = at(7, 6, 6, 40)
    for listed, checked, value in ONCE:
        add(day, listed, checked, value=value)
    while day < NOW:
        for listed, checked in (("sanitation", "Cleaning before work"), ("pests", "Pests")):
            add(day, listed, checked)
        day += timedelta(days=7)
    for month in (7, 8):
        add(at(month, 6, 16, 10), "glass", "Glass and brittle plastic", value="41 of 41 pieces")
    for listed, checked in (
        *(("sanitation", "Cleaning before work"), ("hands", "Health and hands")),
        *(("chemicals", "Chemicals and grease"), ("visitors", "Visitors and contractors")),
    ):
        add(at(9, 25, 6, 10), listed, checked)
    sieve: dict[str, object] = {"equipment": house.SIEVE, "result": "off", "value": "a hole"}
    note = "one wire is broken at the rim; looked for in the drums, nothing found so far"
    add(HOLE_FOUND, "sieve", "mesh", note=note, **sieve)


def _carried(tables: Tables, floor: Floor) -> dict[str, list[str]]:
    """The drums of each run go to their row the next morning; gives each row's drums."""
    rows: dict[str, list[str]] = {}
    for number in range(1, 26):
        drums = [one for one in floor.filled if one.run == number and one.sort == "drum"]
        if not drums:
            continue
        day = max(one.time for one in drums).replace(hour=11, minute=20) + timedelta(days=1)
        row = chr(ord("A") + (number - 1) // 4)
        names = [one.container.lower() for one in drums]
        rows.setdefault(row, []).extend(names)
        tables.add(
            "rooms_log",
            when=tables.free(day),
            what="carried",
            room=house.DRUM_STORE,
            row=row,
            things=" + ".join(names),
            by="Anselm Tirrow",
        )
    return rows


def _walked(tables: Tables, rows: dict[str, list[str]]) -> None:
    """A row is walked: one drum stands in the wrong row, and one nobody ever wrote down."""
    things = " + ".join([*rows[WALKED_ROW], rows["E"][0]])
    tables.add(
        "rooms_log",
        when=tables.free(WALKED),
        what="walked",
        room=house.DRUM_STORE,
        row=WALKED_ROW,
        things=things,
        found="288.4",
        written="a smear, perhaps a 7",
        by="Nell Varrowby",
    )


def _late(pallet: Pallet) -> bool:
    return pallet.arrived > at(9, 1)


def _supers_on(tables: Tables, chance: Chance, pallets: list[Pallet]) -> None:
    """Supers go on a month before they are pulled; what went on before the books was typed."""
    pulled: dict[tuple[str, datetime, str], int] = {}
    for pallet in pallets:
        for pull, count in pallet.parts:
            key = (pull.yard, pull.day, pull.box)
            pulled[key] = pulled.get(key, 0) + count
    pulled[(house.GAVE_NOTHING, at(7, 20), "medium")] = 38
    for (yard, pull_day, box), count in pulled.items():
        day = pull_day - timedelta(days=chance.whole(24, 33))
        when = max(OPENED, day.replace(hour=18, minute=chance.whole(0, 59)))
        tables.add(
            "yard_log",
            when=tables.free(when),
            what="supers on",
            yard=yard,
            day=day,
            supers=count,
            box=box,
            by="Petra Lunnock",
        )


def _in_the_yards(tables: Tables, pulled_late: set[str]) -> None:
    """Treated and fed after the last pull; one treated yard was pulled too soon."""

    def add(when: datetime, what: str, yard: str, **cells: object) -> None:
        cells.setdefault("by", "Petra Lunnock")
        tables.add("yard_log", when=tables.free(when), what=what, yard=yard, **cells)

    add(
        at(7, 2, 17, 30),
        "flagged",
        FLAGGED,
        product="European foulbrood",
        day=at(7, 2),
        note="sample sent; no supers are pulled here",
        by="Nell Varrowby",
    )
    for place, yard in enumerate((house.FAILED[0], "Cattail Row")):
        cells: dict[str, object] = {"number": f"MV 26-{41 + place}", "issued_by": "the inspector"}
        add(at(6, 27, 8, 20), "certificate", yard, day=at(6, 27), last_day="2026-09-30", **cells)
    acid: dict[str, object] = {
        "product": "formic acid pads",
        "active": "formic acid",
        "on_the_hives": "no",
    }
    done = [yard for yard in house.YARDS if yard not in (*pulled_late, FLAGGED)]
    for place, yard in enumerate(done[:8]):
        day = at(9, 2) + timedelta(days=place // 4)
        out = day + timedelta(days=10)  # typed when the pads came out: done for the year
        given = {"last_day": f"{out:%Y-%m-%d}", "clear_day": f"{out:%Y-%m-%d}", **acid}
        add(out + timedelta(hours=17), "treated", yard, day=day, **given)
        fed = day + timedelta(days=9)
        syrup: dict[str, object] = {"product": "syrup 2:1", "net": 260 + 20 * place}
        add(fed + timedelta(hours=18), "fed", yard, day=fed, on_the_hives="no", **syrup)
    add(
        at(9, 23, 7, 55),
        "treated",
        TREATED_YARD,
        day=at(9, 1),
        clear_day="2026-09-30",
        note="the slip lay in the truck",
        by="Jory Tamblock",
        **acid,
    )
