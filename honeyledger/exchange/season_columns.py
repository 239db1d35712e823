"""The sample season's tables: which there are, and what may stand in each.

Two kinds: registers, whose rows are records, and logs, whose rows each happened at a time. A log
may say when a row was typed, where that was later, and how far its time may be off.
"""

from collections.abc import Mapping

from honeyledger.domain.units import parse_count, parse_mass_g, parse_percent
from honeyledger.exchange.delimited import Column
from honeyledger.exchange.mapping import (
    Setting,
    colour,
    count_of,
    day,
    mass,
    moisture,
    moment,
    receipt_columns,
    temperature,
    words,
    yard_columns,
    yes_or_no,
)
from honeyledger.exchange.season_laboratory import COLUMNS as LABORATORY_COLUMNS
from honeyledger.exchange.season_recalls import COLUMNS as RECALL_COLUMNS

MINUTE_MS = 60_000
WEIGHTS = (
    "gross",
    "tare",
    "net",
    "heel",
    "wax",
    "residue",
    "planned",
    "drained",
    "found",
    "rejected",
    "destroyed",
)
COUNTS = {
    "supers": "supers",
    "frames": "frames",
    "jars": "jars",
    "rejects": "jars",
    "pieces": "pieces",
    "copies": "cases",
    "torn": "labels",
    "hours": "hours",
    "minutes": "minutes",
    "roll first": "labels",
    "roll last": "labels",
    "jar": "the jar",
    "season": "the year",
    "kept permille": "a thousand",
}
"""Columns of whole numbers, and what they count."""
Columns = tuple[Column, ...]

_NAME = Column("name", ("name",), words, needed=True)
_NOTE = Column("note", ("note",), words)
_PLACE = Column("place", ("place",), words)


def _minutes(text: str, _unit: str) -> int:
    return parse_count(text, "a number of minutes") * MINUTE_MS


def _milligrams(text: str, _unit: str) -> int:
    """A weight in grams with decimals, as milligrams: a thousandth, as grams are of a kilogram."""
    return parse_mass_g(text, "kg")


def _percent(text: str, _unit: str) -> int:
    return parse_percent(text)


def registers(setting: Setting) -> Mapping[str, tuple[str, Columns]]:
    """The registers' files in the order in which they are written: kind and columns of each."""
    kg = mass(setting)
    return {
        "operators": ("operator", (_NAME, Column("role", ("role",), words), _NOTE)),
        "boxes": (
            "box",
            (
                _NAME,
                Column("honey_g", ("usual honey",), kg),
                Column("tare_g", ("tare",), kg),
                Column("frames", ("frames",), count_of("a number of frames", 1)),
            ),
        ),
        "yards": ("yard", yard_columns()),
        "vessels": (
            "vessel",
            (
                _NAME,
                Column("sort", ("sort",), words),
                Column("fed_by", ("fed by",), words),
                Column("capacity_g", ("capacity",), kg),
                _NOTE,
            ),
        ),
        "containers": (
            "drum",
            (
                _NAME,
                Column("sort", ("sort",), words),
                Column("tare_g", ("tare",), kg),
                Column("usual_g", ("usual net",), kg),
                Column("limit_g", ("limit",), kg),
            ),
        ),
        "products": (
            "product",
            (
                _NAME,
                Column("net_g", ("net",), kg),
                Column("origin", ("origin",), words),
                Column("keeps_months", ("keeps months",), count_of("a number of months", 1)),
            ),
        ),
        "customers": ("customer", (_NAME, _PLACE, _NOTE)),
        "suppliers": ("supplier", (_NAME, Column("country", ("country",), words), _PLACE)),
        "rooms": ("room", (_NAME, _NOTE)),
        "equipment": (
            "equipment",
            (
                _NAME,
                Column("sort", ("sort",), words),
                Column("at", ("part of",), words),
                Column("weighs", ("weighs",), words),
                _NOTE,
            ),
        ),
    }


def house_columns(setting: Setting) -> Columns:
    """What stands of the house itself, and since when it keeps its ledger."""
    return (
        _NAME,
        Column("since", ("since",), moment(setting), needed=True),
        Column("zone", ("zone",), words, needed=True),
        Column("unit", ("weighs in",), words),
        Column("margin_ms", ("reach margin",), _minutes),
        Column("producer", ("producer",), words),
        _PLACE,
    )


# The columns of each log beside its times and person; what a row of it means is in `season_steps`.
_OF_LOG: Mapping[str, tuple[str, ...]] = {
    "pallets": ("what", "pallet", "supers", "yard", "onto", "why", "to", "frames", "bees"),
    "floor": (
        *("run", "what", "vessel", "pallet", "supers", "yard", "gross", "tare", "net"),
        *("barrel", "to", "remains", "heel", "how", "pending", "crew", "why"),
        *("wax", "residue", "temperature", "reason", "minutes"),
    ),
    "drums": (
        *("run", "what", "source", "container", "into", "gross", "tare", "net"),
        *("jars", "to follow", "whole", "washed", "why"),
    ),
    "readings": ("lot", "moisture", "colour", "temperature", "instrument"),
    "bought": ("lot", "supplier", "their lot", "country", "certificate", "gross", "tare"),
    "bottling": (
        *("what", "bottling", "product", "source", "jars", "mean net", "rejects", "empty"),
        *("labelled later", "packaging", "why"),
    ),
    "dispatch": (
        *("note", "customer", "goods", "jars", "net", "carrier", "reference", "contract"),
        *("vehicle", "seals"),
    ),
    "returns": ("what", "customer", "goods", "jars", "net", "reason"),
    "quality": (
        *("what", "target", "hold", "first day", "last day", "reason", "result", "net"),
        *("kept at", "certificate", "purpose", "customer"),
    ),
    "corrections": ("what", "lot", "yard", "pallet", "place", "reason"),
    "opening": (
        *("lot", "container", "net", "season", "yards", "written", "filled on", "moisture"),
        "colour",
    ),
    "yard_log": (
        *("what", "yard", "day", "supers", "box", "product", "active", "last day", "clear day"),
        *("on the hives", "net", "number", "issued by", "note", "sort", "high"),
    ),
    "rooms_log": (
        *("what", "room", "row", "things", "temperature", "humidity", "before", "after", "hours"),
        *("minutes", "equipment", "checked", "result", "value", "found", "written", "note"),
        "listed",
    ),
    "comb": (
        *("what", "lot", "pallet", "supers", "product", "comb", "source", "pieces", "jars", "net"),
        *("drained", "into", "rejected"),
    ),
    "blends": ("blend", "into", "purpose", "source", "planned", "net", "whole", "seed", "note"),
    "supplies": ("lot", "supplier", "name", "pieces", "net", "their lot", "best before"),
    "jars": (
        *("what", "lot", "jars", "product", "roll first", "roll last", "torn", "seal first"),
        *("seal last", "packaging", "copies", "jar", "who", "said", "answer"),
    ),
    "laboratory": LABORATORY_COLUMNS,
    "recalls": RECALL_COLUMNS,
    "bulk": (
        *("what", "of", "customer", "verdict", "reference", "net", "document", "containers"),
        *("carrier", "kept permille", "reason"),
    ),
}


def logs(setting: Setting) -> Mapping[str, Columns]:
    """The logs' files with their columns, in the order of rows that have one time."""
    readers = _readers(setting)
    common = (
        Column("when", ("when",), moment(setting), needed=True),
        Column("typed", ("typed",), moment(setting)),
        Column("about_ms", ("about",), _minutes),
        Column("by", ("by",), words),
    )
    receipts = receipt_columns(setting)
    typed, by = common[1], common[3]
    own = {
        file: tuple(readers.get(head) or _text(head) for head in heads)
        for file, heads in _OF_LOG.items()
    }
    return {
        "receipts": receipts,
        "receipts_on_paper": (*receipts, typed, by),
        **{file: (*common, *columns) for file, columns in own.items()},
    }


def _readers(setting: Setting) -> dict[str, Column]:
    """The columns that hold no plain text, by head."""
    kg = mass(setting)
    switches = (
        *("pending", "whole", "washed", "empty", "labelled later", "to follow", "seed"),
        "on the hives",
    )
    return {
        **{
            name: Column(name.replace(" ", "_"), (name,), count_of(f"a number of {what}"))
            for name, what in COUNTS.items()
        },
        **{name: Column(f"{name.replace(' ', '_')}_g", (name,), kg) for name in WEIGHTS},
        "mean net": Column("mean_net_mg", ("mean net",), _milligrams),
        "moisture": Column("moisture", ("moisture",), moisture),
        "colour": Column("colour", ("colour",), colour),
        "temperature": Column("temperature", ("temperature",), temperature),
        "high": Column("high", ("high",), temperature),
        "humidity": Column("humidity", ("humidity",), _percent),
        "before": Column("before", ("before",), moisture),
        "after": Column("after", ("after",), moisture),
        "first day": Column("first_day", ("first day",), day(setting)),
        **{name: Column(name.replace(" ", "_"), (name,), yes_or_no) for name in switches},
    }


def _text(head: str) -> Column:
    return Column(head.replace(" ", "_"), (head,), words)
