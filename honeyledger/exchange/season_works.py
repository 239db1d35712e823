"""What else a row of the sample season's logs says: yards, rooms, comb, blends, jars, bulk trade.

`season_steps` has the rows of the floor, and how things are named.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.domain.refusals import BrokenRule, Refusal
from honeyledger.exchange.delimited import Row
from honeyledger.exchange.season_steps import (
    NO_SUCH_STEP,
    Make,
    Names,
    Step,
    several,
    weight_of,
)
from honeyledger.ledger.packaging import INGREDIENT, PACKAGING
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.stated import Part
from honeyledger.ledger.verbs import (
    blending,
    bought_in,
    by_products,
    checks,
    hot_room,
    jars,
    opening,
    owners,
    packing,
    stocktake,
    supplies,
    trade,
    warming,
    weather,
    yards,
)

PERMILLE = 10  # a percent


def _strange(row: Row) -> Refusal:
    return Refusal(NO_SUCH_STEP, what=row.text("what"))


def opening_stock(rows: Sequence[Row], _names: Names) -> Step:
    """A drum of an earlier season; its yards as "Oatfell 60 + Pikestaff 40", or without shares."""
    row = rows[0]
    parts = [one.strip() for one in row.text("yards").split("+") if one.strip()]
    facts = opening.OpeningStock(
        weight_of(row),
        row["season"] or 0,
        tuple(_part(one) for one in parts),
        row.text("container"),
        row.text("written"),
        row.text("filled_on"),
        row["moisture"],
        row["colour"],
    )
    return Step(facts, gives=((row.text("lot"), "D"),))


def _part(text: str) -> Part:
    name, _, share = text.rpartition(" ")
    return Part(name, int(share) * PERMILLE) if share.isdigit() else Part(text)


def on_yards(rows: Sequence[Row], _names: Names) -> Step:
    """What was done in a yard: supers on, treated, fed, flagged, certificates, weather."""
    row = rows[0]
    yard, day = row.text("yard"), row.text("day")
    match row.text("what"):
        case "supers on":
            return Step(yards.SupersOn(yard, row["supers"] or 0, day, row.text("box")))
        case "treated":
            facts = yards.Treat(
                yard,
                row.text("product"),
                row.text("active"),
                day,
                row.text("last_day"),
                row.text("clear_day"),
                row["on_the_hives"],
                note=row.text("note"),
            )
            return Step(facts)
        case "fed":
            fed = yards.FeedYard(yard, row.text("product"), day, row["net_g"], row["on_the_hives"])
            return Step(fed)
        case "flagged":
            until, note = row.text("last_day"), row.text("note")
            return Step(yards.Disease(yard, row.text("product"), day, until, note))
        case "certificate":
            number, by = row.text("number"), row.text("issued_by")
            return Step(yards.Certify(yard, number, by, day, row.text("last_day")))
        case "weather":
            sort, note = row.text("sort"), row.text("note")
            return Step(weather.Weather(sort, day, yard, row["high"], note))
    raise _strange(row)


def in_rooms(rows: Sequence[Row], names: Names) -> Step:
    """Air, drying, warming, drums carried, rows walked, equipment checked."""
    row = rows[0]
    room, place = row.text("room"), row.text("row")
    things, note = several(row.text("things"), names), row.text("note")
    match row.text("what"):
        case "air":
            return Step(hot_room.RoomLog(room, row["temperature"], row["humidity"], note))
        case "dried":
            before, after = row["before"], row["after"]
            return Step(hot_room.Dry(things[0], before, after, room=room, hours=row["hours"]))
        case "warmed":
            hot, minutes = row["temperature"] or 0, row["minutes"] or 0
            return Step(warming.Warm(things[0], hot, minutes, note))
        case "carried":
            return Step(stocktake.Move(things, room, place))
        case "walked":
            found = row["found_g"]
            drums = [opening.FoundDrum(Weight(net_g=found), written=row.text("written"))]
            facts = stocktake.Stocktake(room, place, things, tuple(drums if found else ()))
            return Step(facts, gives=((f"found in row {place}", "D"),))
        case "checked":
            result, value = row.text("result") or "ok", row.text("value")
            checked, listed = row.text("checked"), row.text("listed")
            equipment = row.text("equipment")
            return Step(checks.Check(equipment, checked, result, value, note, listed))
    raise _strange(row)


def in_comb(rows: Sequence[Row], names: Names) -> Step:
    """Comb cut into pieces, and pieces put into jars with liquid honey."""
    row = rows[0]
    product, pieces, net_g = row.text("product"), row["pieces"] or 0, row["net_g"]
    gives = ((row.text("lot"), "K"),)
    match row.text("what"):
        case "cut":
            cut = by_products.Cut(
                names.code(f"pallet {row.text('pallet')}"),
                pieces,
                net_g or 0,
                row["supers"],
                product=product,
                drained_g=row["drained_g"] or 0,
                into=row.text("into"),
                rejects_g=row["rejected_g"] or 0,
            )
            return Step(cut, gives=gives)
        case "chunk":
            comb, source = names.code(row.text("comb")), names.code(row.text("source"))
            made = row["jars"] or 0
            chunk = by_products.Chunk(product, comb, pieces, source, made, net_g)
            return Step(chunk, gives=gives)
    raise _strange(row)


def blended(rows: Sequence[Row], names: Names) -> Step:
    """All parts of one blend."""
    first = rows[0]
    parts = tuple(
        blending.Portion(
            names.code(row.text("source")),
            weight_of(row),
            row["planned_g"],
            bool(row["whole"]),
            bool(row["seed"]),
        )
        for row in rows
    )
    purpose = first.text("purpose") or "blend"
    return Step(blending.Blend(first.text("into"), parts, purpose, first.text("note")))


def supplied(rows: Sequence[Row], _names: Names) -> Step:
    """A lot of packaging, or of an ingredient, which is weighed."""
    row = rows[0]
    facts = supplies.Supply(
        row.text("supplier"),
        PACKAGING if row["net_g"] is None else INGREDIENT,
        row.text("name"),
        Weight(net_g=row["net_g"]),
        row["pieces"],
        supplier_lot=row.text("their_lot"),
        best_before=row.text("best_before"),
    )
    return Step(facts, gives=((row.text("lot"), "A"),))


def with_jars(rows: Sequence[Row], names: Names) -> Step:
    """Jars labelled later, packed, and complained of."""
    row = rows[0]
    lot, count = names.code(row.text("lot")), row["jars"] or 0
    match row.text("what"):
        case "label":
            facts = jars.LabelJars(
                lot,
                count,
                row.text("product"),
                row["roll_first"],
                row["roll_last"],
                row["torn"] or 0,
                row.text("seal_first"),
                row.text("seal_last"),
                several(row.text("packaging"), names),
            )
            return Step(facts)
        case "case":
            copies = row["copies"] or 1
            packed = packing.Pack((packing.PackLine(lot, count),), copies)
            cases = tuple((f"case {at} of {row.text('lot')}", "C") for at in range(1, copies + 1))
            return Step(packed, gives=cases)
        case "pallet":
            onto = packing.Pack(tuple(packing.PackLine(one) for one in _cases(row, names)))
            return Step(onto, gives=((f"shipping pallet of {row.text('lot')}", "L"),))
        case "complaint" | "answer":
            return _complaint(row, lot, names)
    raise _strange(row)


def _cases(row: Row, names: Names) -> tuple[str, ...]:
    copies = row["copies"] or 1
    return tuple(names.code(f"case {at} of {row.text('lot')}") for at in range(1, copies + 1))


def _complaint(row: Row, lot: str, names: Names) -> Step:
    """A complaint about one jar, by its serial; its answer names the same jar."""
    name = f"complaint of {row.text('lot')}"
    code = lot
    if row["jar"] is not None:
        parsed = parse_code(lot)
        if not isinstance(parsed, Code):
            raise BrokenRule(f"{lot} is a jar's own code")
        code = str(make_jar_code(parsed, row["jar"]))
    completes = names.entry(name) if row.text("what") == "answer" else 0
    facts = jars.Complain(
        code, row.text("said"), row.text("who"), answer=row.text("answer"), completes=completes
    )
    return Step(facts, called=name)


def in_bulk(rows: Sequence[Row], names: Names) -> Step:
    """Samples judged, the buyer's scale, titles, empties, drums sent back, settlements."""
    row = rows[0]
    of, customer, reference = row.text("of"), row.text("customer"), row.text("reference")
    lots, reason = several(of, names), row.text("reason")
    match row.text("what"):
        case "judged":
            facts: Any = trade.Approve(lots[0], row.text("verdict"), reason, reference, customer)
        case "buyer's weight":
            facts = trade.BuyersWeight(lots[0], weight_of(row), customer, reference)
        case "title":
            facts = trade.TransferTitle(lots, customer, row.text("document"))
        case "empties":
            facts = trade.Empties(customer, several(row.text("containers"), names))
        case "sent back":
            facts = bought_in.SendBack(lots, reason, row.text("carrier"), reference)
        case "settled":
            drums = tuple((one, customer) for one in several(row.text("containers"), names))
            facts = owners.Settle(lots[0], row["kept_permille"] or 0, drums)
        case _:
            raise _strange(row)
    return Step(facts)


WORKS: Mapping[str, Make] = {
    "opening": opening_stock,
    "yard_log": on_yards,
    "rooms_log": in_rooms,
    "comb": in_comb,
    "blends": blended,
    "supplies": supplied,
    "jars": with_jars,
    "bulk": in_bulk,
}
