"""The sample's trade and quality: who got what, what was held, and mistakes found later."""

from dataclasses import dataclass, field
from datetime import datetime, timedelta

import sample_bulk
import sample_comb
import sample_house as house
import sample_packing
from sample_chance import Chance, Tables, at, kg
from sample_crop import Pallet
from sample_floor import SHOWN, Filled, Floor, Run
from sample_jars import Bottling, BottlingRoom, write_bought
from sample_melter import melt
from sample_runs import LAST_OF_JULY, OWNERS
from sample_spice import write_spiced

TRUCK, TRUCK_DRUMS = at(9, 17), 66
TRUCK_PAPERS = {
    "Contract": "CP 26-118",
    "Reference": "PO 5571",
    "Vehicle": "HKR 417 / trailer TQ 20",
    "Seals": "SL-40411 SL-40412",
}
TRUE_YARD, TYPED_YARD = "Wrenlatch West", "Wrenlatch East"
SAME_DAY_TRUE, SAME_DAY_TYPED = "Lower Tansel", "Upper Tansel"


@dataclass
class Drums:
    """Drums by what they are kept for."""

    light: list[Filled]
    jars: list[Filled]
    owners: list[Filled]
    held: list[Filled]
    free: list[Filled]
    cleared: list[Filled] = field(default_factory=list)
    sold: list[Filled] = field(default_factory=list)


def sort_drums(floor: Floor) -> Drums:
    """Share out the drums: the palest for creaming, the next ones for jars, the rest to sell."""
    drums = [one for one in floor.filled if one.sort == "drum"]
    held = [one for one in drums if one.run == LAST_OF_JULY]
    owners = [one for one in drums if one.run == OWNERS]
    july = [one for one in drums if one.run < LAST_OF_JULY]
    light = sorted(july, key=lambda one: one.colour)[:5]
    jars = [one for one in july if one not in light and one.moisture <= 1860][:25]
    used = [*held, *owners, *light, *jars]
    free = [one for one in drums if one not in used]
    return Drums(light, jars, owners[:-1], held, free)


def mistype(pallets: list[Pallet]) -> tuple[Pallet, Pallet]:
    """Two pallets' yards are typed wrongly: one is found the same day, one after shipping."""
    same = next(one for one in pallets if _is_of(one, SAME_DAY_TRUE))
    late = next(
        one for one in pallets if _is_of(one, TRUE_YARD) and at(8, 3) < one.arrived < at(8, 20)
    )
    same.yard_typed[SAME_DAY_TRUE] = SAME_DAY_TYPED
    late.yard_typed[TRUE_YARD] = TYPED_YARD
    return same, late


def _is_of(pallet: Pallet, yard: str) -> bool:
    return len(pallet.parts) == 1 and pallet.parts[0][0].yard == yard


def trade(
    tables: Tables, chance: Chance, floor: Floor, runs: list[Run], comb: int
) -> BottlingRoom:
    """Write everything that happened to honey once it was in drums; `comb` is a pallet."""
    drums = sort_drums(floor)
    bought = write_bought(tables, chance)
    room = BottlingRoom(tables, chance, drums.light, drums.jars, bought)
    room.work()
    write_spiced(tables, room.blends + 1)
    _held(tables, drums, runs)
    wax = melt(tables, floor)
    _truck(tables, drums, chance)
    sample_bulk.write(tables, drums.owners, drums.free, drums.sold)
    sample_comb.write(tables, comb)
    sample_packing.write(tables, room.done)
    Shop(tables, chance, room.done).sell()
    _others(tables, drums, floor, wax)
    return room


def _held(tables: Tables, drums: Drums, runs: list[Run]) -> None:
    """A pull of late July is held; one drum of it is cleared by the laboratory."""
    pallet = runs[LAST_OF_JULY - 1].loads[-1].pallet
    pull = f"{pallet.parts[0][0].yard} on pallet {pallet.number}"
    drum = drums.held[-2].container.lower()
    cells: dict[str, object] = {"by": "Nell Varrowby"}
    tables.add(
        "quality",
        when=tables.free(at(8, 24, 16, 30)),
        what="hold",
        target=pull,
        reason="strips were left in two hives during the flow",
        **cells,
    )
    tables.add(
        "quality",
        when=tables.free(at(8, 25, 9, 40)),
        what="sample",
        target=drum,
        net="0.25",
        kept_at="half to the laboratory, half on shelf 3",
        by="Cass Doverling",
    )
    tables.add(
        "quality",
        when=tables.free(at(9, 9, 14, 10)),
        what="clear",
        target=drum,
        hold=pull,
        result="not detected, report 26-0118",
        reason="the laboratory found nothing",
        **cells,
    )
    drums.cleared.append(drums.held[-2])


def hold_wet(tables: Tables, floor: Floor) -> None:
    """One drum of September is too wet to sell as it is; it is held until it is blended."""
    wet = max(
        (one for one in floor.filled if one.sort == "drum" and at(9, 15) < one.time < at(9, 24)),
        key=lambda one: one.moisture,
    )
    wet.moisture = 1_960
    tables.add(
        "quality",
        when=tables.free(at(9, 24, 9, 50)),
        what="hold",
        target=wet.container.lower(),
        reason="19.6 %: ferments as it is, to be blended down",
        by="Cass Doverling",
    )


def _truck(tables: Tables, drums: Drums, chance: Chance) -> None:
    """One truck of drums to a packer; a few are weighed again first."""
    ready = [one for one in drums.free if one.time < TRUCK - timedelta(days=1)]
    dry = [one for one in ready if one.moisture <= 1860]
    loaded = [*drums.cleared, *dry][:TRUCK_DRUMS]
    for place, one in enumerate(loaded[:6]):
        gross = one.net_g + 18_000 + chance.whole(-9, 4) * 100
        one.weighed_g = gross - 18_000
        tables.add(
            "drums",
            when=tables.free(TRUCK - timedelta(days=1) + timedelta(hours=14, minutes=3 * place)),
            what="weigh",
            container=one.container.lower(),
            gross=kg(gross),
            tare="18",
        )
    when = tables.free(TRUCK + timedelta(hours=11, minutes=20))
    for one in loaded:
        _note(
            tables, when, "truck", house.PACKER, one.container.lower(), carrier="Skelbow Haulage"
        )
    tables.complete("dispatch", "truck", **TRUCK_PAPERS)
    drums.free = [one for one in drums.free if one not in loaded]
    drums.sold = loaded


def _note(
    tables: Tables,
    when: datetime,
    note: str,
    customer: str,
    goods: str,
    jars: int | None = None,
    carrier: str = "",
) -> None:
    tables.add(
        "dispatch",
        when=when,
        note=note,
        customer=customer,
        goods=goods,
        jars=jars,
        carrier=carrier,
        by="Wim Haskerly",
    )


class Shop:
    """Jars going out: shops on Fridays, the gate on Saturdays, oldest first."""

    def __init__(self, tables: Tables, chance: Chance, done: list[Bottling]) -> None:
        self._tables = tables
        self._chance = chance
        self._done = done
        self._notes = 0

    def sell(self) -> None:
        """Sell all season."""
        day = at(8, 7)
        self._pallet()
        while day <= at(9, 25):
            for place in range(3 + self._chance.whole(0, 1)):
                shop = house.SHOPS[(self._notes + place) % len(house.SHOPS)]
                self._order(day + timedelta(hours=8, minutes=40 + 21 * place), shop, 5, 22)
            if day < at(9, 24):
                self._order(day + timedelta(days=1, hours=15), "gate", 2, 2)
            day += timedelta(days=7)
        self._came_back()

    def _pallet(self) -> None:
        """One order goes as it was packed: a shipping pallet of cases, by its own code."""
        goods = f"shipping pallet of bottling {sample_packing.CASED}"
        when = self._tables.free(at(9, 11, 10, 15))
        _note(self._tables, when, "pallet", house.SHOPS[1], goods, carrier="Skelbow Haulage")

    def _order(self, time: datetime, customer: str, most_lots: int, most_cases: int) -> None:
        """A note with some cases of each of a few bottlings."""
        ready = [
            one for one in self._done if one.day < time - timedelta(days=1) and one.left >= 12
        ]
        if not ready:
            return
        self._notes += 1
        when = self._tables.free(time)
        for one in ready[:most_lots]:
            case = 2 if one.product == house.PAIL else 12
            jars = min(one.left // case, self._chance.whole(1, most_cases)) * case
            one.left -= jars
            goods = f"bottling {one.number}"
            _note(self._tables, when, str(self._notes), customer, goods, jars)

    def _came_back(self) -> None:
        """A case and its neighbour come back from a shop: lids not tight."""
        sent = [row for row in self._tables.rows("dispatch") if row["Jars"]]
        row = next(
            one for one in sent if one["Customer"] == house.SHOPS[1] and int(one["Jars"]) >= 24
        )
        self._tables.add(
            "returns",
            when=self._tables.free(at(9, 10, 14, 20)),
            what="came back",
            customer=row["Customer"],
            goods=row["Goods"],
            jars=24,
            reason="lids not tight",
            by="Odile Braskew",
        )


def _others(tables: Tables, drums: Drums, floor: Floor, wax: list[str]) -> None:
    """The tote, the owner's own honey, bakery honey and wax."""
    when = tables.free(at(8, 14, 10, 30))
    _note(tables, when, "tote", house.SHOPS[3], "tote 1", carrier="their own truck")
    when = tables.free(at(8, 27, 13, 40))
    for one in drums.owners:
        _note(tables, when, "owner", house.OWNER, one.container.lower(), carrier="their own truck")
    bakery = [one for one in floor.filled if one.sort == "bakery" and one.time < at(9, 4)]
    when = tables.free(at(9, 4, 9, 15))
    for one in bakery:
        _note(
            tables,
            when,
            "bakery",
            house.SHOPS[3],
            one.container.lower(),
            carrier="their own truck",
        )
    when = tables.free(at(9, 10, 11, 5))
    for name in wax:
        _note(tables, when, "wax", house.WAX_BUYER, name, carrier="their own truck")


def put_right(tables: Tables, mistyped: tuple[Pallet, Pallet]) -> None:
    """Wrong yards: one seen the same evening and narrowed, one found after its honey was sold."""
    same, late = mistyped
    evening = same.arrived.replace(hour=18, minute=10)
    for what, when, yard in (("amend", evening, SAME_DAY_TRUE), ("narrow", evening + SHOWN, None)):
        tables.add(
            "corrections",
            what=what,
            when=tables.free(when),
            by="Nell Varrowby",
            lot=f"{SAME_DAY_TYPED} on pallet {same.number}",
            yard=yard,
            place=None if yard else SAME_DAY_TYPED,
            reason="the pull sheet says so" if yard else "seen at the truck: pull sheet in hand",
        )
    tables.add(
        "corrections",
        what="amend",
        when=tables.free(at(9, 21, 16, 45)),
        by="Nell Varrowby",
        lot=f"{TYPED_YARD} on pallet {late.number}",
        yard=TRUE_YARD,
        reason="found when the pull sheets were filed",
    )
