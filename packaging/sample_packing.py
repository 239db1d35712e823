"""The sample's jars after they were filled: packaging lots, labels, cases, complaints."""

from datetime import timedelta

import sample_house as house
from sample_chance import Tables, at
from sample_jars import LABELLED_LATER, Bottling

CASED, CASES, A_CASE = 12, 20, 12
COMPLAINED = 3


def write(tables: Tables, done: list[Bottling]) -> None:
    """Write what was bought for jars, what was labelled later, packed, and complained of."""
    for place, (lot, name, pieces, theirs, day) in enumerate(
        (
            ("jars 1", "glass jars, all sizes", 24_000, "TG 2206", at(6, 29)),
            ("lids 1", "lids, all sizes", 10_000, "TL 511", at(6, 29)),
            ("lids 2", "lids, all sizes", 12_000, "TL 530", at(8, 24)),
            ("labels 1", "labels, creamed honey", 4_000, "TE 77", at(8, 24)),
        )
    ):
        tables.add(
            "supplies",
            when=tables.free(day + timedelta(hours=9, minutes=15 + 2 * place)),
            lot=lot,
            supplier=house.PACKAGING,
            name=name,
            pieces=pieces,
            their_lot=theirs,
        )
    _labels(tables)
    _cases(tables, done)
    _complaints(tables)


def _labels(tables: Tables) -> None:
    """One bottling is labelled on later days: some for the house, some for a shop of its own."""
    lot = f"bottling {LABELLED_LATER}"
    cells: dict[str, object] = {"lot": lot, "packaging": "labels 1", "by": "Odile Braskew"}
    for when, product, jars, first, torn, seals in (
        (at(9, 2, 10, 30), house.CREAMED, 700, 1, 4, ("CR 20001", "CR 20700")),
        (at(9, 3, 9, 40), house.SHOPS_OWN, 400, 705, 2, ("CR 20701", "CR 21100")),
    ):
        tables.add(
            "jars",
            when=tables.free(when),
            what="label",
            product=product,
            jars=jars,
            roll_first=first,
            roll_last=first + jars + torn - 1,
            torn=torn,
            seal_first=seals[0],
            seal_last=seals[1],
            **cells,
        )


def _cases(tables: Tables, done: list[Bottling]) -> None:
    """Twenty cases of one bottling, and a shipping pallet of them."""
    bottling = next(one for one in done if one.number == CASED)
    bottling.left -= CASES * A_CASE
    cells: dict[str, object] = {"lot": f"bottling {CASED}", "copies": CASES, "by": "Odile Braskew"}
    when = tables.free(at(9, 10, 10, 40))
    tables.add("jars", when=when, what="case", jars=A_CASE, **cells)
    tables.add("jars", when=tables.free(at(9, 10, 13, 15)), what="pallet", **cells)
    tables.add(
        "rooms_log",
        when=tables.free(at(9, 10, 13, 30)),
        what="carried",
        room=house.JAR_STORE,
        row="1",
        things=f"shipping pallet of bottling {CASED}",
        by="Odile Braskew",
    )


def _complaints(tables: Tables) -> None:
    """Somebody finds their jar set hard; it is answered, and somebody else says the same."""
    lot = f"bottling {COMPLAINED}"
    said = "has set hard, and is coarse"
    first: dict[str, object] = {"lot": lot, "jar": 107, "who": "Mrs Tollard, by telephone"}
    second: dict[str, object] = {"lot": lot, "jar": 1204, "who": "Brindlecote Stores"}
    answer = "told how to warm it; a new jar sent"
    for when, what, cells in (
        (at(9, 16, 9, 20), "complaint", first),
        (at(9, 18, 14, 5), "answer", {**first, "answer": answer}),
        (at(9, 22, 16, 15), "complaint", second),
    ):
        tables.add(
            "jars", when=tables.free(when), what=what, said=said, by="Nell Varrowby", **cells
        )
