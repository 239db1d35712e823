"""The sample's one batch with something added: an ingredient stands beside the honey's shares."""

from sample_chance import Tables, at
from sample_floor import SHOWN
from sample_house import KETTLE, SPICES
from sample_jars import SEED_PAILS

SPICED_PAIL = 60


def write_spiced(tables: Tables, blend: int) -> None:
    """The last creamed batch is tried with cinnamon: a pail of it, and a lot of an ingredient."""
    tables.add(
        "supplies",
        when=tables.free(at(9, 17, 9, 10)),
        lot="cinnamon 1",
        supplier=SPICES,
        name="ground cinnamon",
        net="5",
        their_lot="SW 4417",
        best_before="2028-03-31",
        by="Odile Braskew",
    )
    when = tables.free(at(9, 18, 13, 30))
    for source, planned, net in (
        (f"pail {SEED_PAILS[15]}", "27.2", None),
        ("cinnamon 1", "0.25", "0.25"),
    ):
        tables.add(
            "blends",
            when=when,
            blend=blend,
            into=KETTLE,
            source=source,
            planned=planned,
            net=net,
            whole=net is None,
            note="a trial for the winter market",
            by="Odile Braskew",
        )
    tables.add(
        "drums",
        when=tables.free(when + 20 * SHOWN),
        what="fill",
        source=KETTLE,
        container=f"Pail {SPICED_PAIL}",
        net="27.4",
        by="Odile Braskew",
    )
