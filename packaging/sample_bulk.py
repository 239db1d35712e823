"""The sample's bulk trade: last season's drums, samples judged, scales that differ, empties."""

from datetime import timedelta

import sample_house as house
from sample_chance import Tables, at, exact_kg, kg
from sample_floor import Filled

REFUSED_DRUMS, TITLE_DRUMS, SAMPLED_DRUMS = 4, 5, 3
BUYERS_PERMILLE = 998  # the buyer's scale says two in a thousand less
OWN_LABOUR = 75  # what the house keeps of the owner's honey, in a thousand
OWNERS_RUN, POOLED_RUN = 18, 23


def write(tables: Tables, owners: list[Filled], free: list[Filled], truck: list[Filled]) -> None:
    """Write it all; `free` are drums that stay in the house, `truck` those that were sold."""
    _opening(tables)
    _settled(tables, owners)
    _settled_pool(tables)
    _judged(tables, truck)
    old = [one for one in free if one.time < at(9, 6)]
    _refused(tables, old[:REFUSED_DRUMS])
    _turned_down(tables, old[REFUSED_DRUMS + TITLE_DRUMS :][:SAMPLED_DRUMS])
    tables.add(
        "bulk",
        when=tables.free(at(9, 23, 14)),
        what="title",
        of=_names(old[REFUSED_DRUMS : REFUSED_DRUMS + TITLE_DRUMS]),
        customer=house.PACKER,
        document="invoice 26-0311, stored until November",
        by="Nell Varrowby",
    )
    tables.add(
        "bulk",
        when=tables.free(at(8, 26, 16, 10)),
        what="empties",
        customer=house.SHOPS[3],
        containers="Tote 1",
        by="Wim Haskerly",
    )


def _names(drums: list[Filled]) -> str:
    return " + ".join(one.container.lower() for one in drums)


def _opening(tables: Tables) -> None:
    """Three drums and a pail were full before the ledger was begun; one is of unknown yards."""
    for place, (lot, container, net, yards, written, moisture, colour) in enumerate(
        (
            (
                "old drum 1",
                "Drum 151",
                "291.6",
                "Quernhollow 60 + Mosswick Bend 40",
                "25/88",
                17.4,
                24,
            ),
            ("old drum 2", "Drum 152", "292.9", "Pikestaff + Oatfell", "25/91", 17.8, 31),
            ("old drum 3", "Drum 153", "288.2", "", "no number", 17.9, 46),
            ("old seed", "Pail 58", "27.2", "Quernhollow", "creamed 25", 17.2, 14),
        )
    ):
        tables.add(
            "opening",
            when=tables.free(at(6, 26, 11) + timedelta(minutes=6 * place)),
            lot=lot,
            container=container,
            net=net,
            season=2025,
            yards=yards,
            written=written,
            moisture=moisture,
            colour=colour,
            by="Nell Varrowby",
        )


def _settled(tables: Tables, owners: list[Filled]) -> None:
    tables.add(
        "bulk",
        when=tables.free(at(8, 20, 11, 10)),
        what="settled",
        of=f"run {OWNERS_RUN}",
        customer=house.OWNER,
        kept_permille=OWN_LABOUR,
        containers=_names(owners),
        by="Nell Varrowby",
    )


def _settled_pool(tables: Tables) -> None:
    """The guest's share is written down; he takes it in jars in the winter."""
    tables.add(
        "bulk",
        when=tables.free(at(9, 18, 15, 20)),
        what="settled",
        of=f"run {POOLED_RUN}",
        kept_permille=OWN_LABOUR,
        by="Nell Varrowby",
    )


def _judged(tables: Tables, truck: list[Filled]) -> None:
    """The buyer has a sample of all drums before they go, and weighs them when they come."""
    names = _names(truck)
    tables.add(
        "quality",
        when=tables.free(at(9, 14, 15, 20)),
        what="sample",
        target=names,
        net=kg(10 * len(truck)),
        purpose="before shipment",
        customer=house.PACKER,
        kept_at="half sent, half on shelf 1",
        by="Cass Doverling",
    )
    judged: dict[str, object] = {"of": f"sample for {house.PACKER}", "reference": "CP-L 2209"}
    tables.add(
        "bulk",
        when=tables.free(at(9, 16, 13, 45)),
        what="judged",
        verdict="approved",
        by="Nell Varrowby",
        **judged,
    )
    net_g = sum(one.sold_g for one in truck) * BUYERS_PERMILLE // 1000
    tables.add(
        "bulk",
        when=tables.free(at(9, 21, 10, 30)),
        what="buyer's weight",
        of="note truck",
        reference="weighing slip 88120",
        net=exact_kg(round(net_g / 10_000) * 10_000),
        by="Nell Varrowby",
    )


def _turned_down(tables: Tables, drums: list[Filled]) -> None:
    """After that load came back the same customer has a sample first, and turns it down."""
    tables.add(
        "quality",
        when=tables.free(at(9, 18, 10, 40)),
        what="sample",
        target=_names(drums),
        net=exact_kg(50 * len(drums)),
        purpose="before shipment",
        customer=house.REFUSER,
        kept_at="half sent, half on shelf 1",
        by="Cass Doverling",
    )
    tables.add(
        "bulk",
        when=tables.free(at(9, 24, 10, 15)),
        what="judged",
        of=f"sample for {house.REFUSER}",
        verdict="refused",
        reference="MF 26-77",
        reason="darker than the 50 mm agreed",
        by="Nell Varrowby",
    )


def _refused(tables: Tables, drums: list[Filled]) -> None:
    """A small load comes back whole: its colour is not what was agreed."""
    when = tables.free(at(9, 8, 9, 50))
    for one in drums:
        tables.add(
            "dispatch",
            when=when,
            note="refused",
            customer=house.REFUSER,
            goods=one.container.lower(),
            carrier="Skelbow Haulage",
            by="Wim Haskerly",
        )
    tables.add(
        "returns",
        when=tables.free(at(9, 10, 16, 30)),
        what="came back",
        customer=house.REFUSER,
        goods="note refused",
        reason="refused at the gate: darker than agreed",
        by="Wim Haskerly",
    )
