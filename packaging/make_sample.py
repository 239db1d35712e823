#!/usr/bin/env python3
"""Write the sample season's tables again, the same ones every time, into a folder.

    python3 packaging/make_sample.py [FOLDER]

Without a folder they go to resources/sample. Figures are common practice, no source.
"""

import sys
from pathlib import Path

import sample_dry
import sample_house
import sample_laboratory
import sample_pace
import sample_recalls
import sample_rooms
import sample_runs
import sample_trade
from sample_chance import Chance, Tables
from sample_crop import Pallet, pallets, pulls, write_receipts
from sample_floor import Floor

SEED = 1796
LOG = ["When", "Typed", "About min", "By"]
HEADS: dict[str, list[str]] = {
    **sample_house.HEADS,
    "receipts": [
        *("Pallet", "Arrived", "Yard", "Pulled", "Crew", "Supers", "Sheet", "Box", "Gross kg"),
        *("Tare kg", "Condition", "Moisture %", "Owner"),
    ],
    "receipts_on_paper": [
        *("Pallet", "Arrived", "Yard", "Pulled", "Crew", "Supers", "Sheet", "Box", "Gross kg"),
        *("Tare kg", "Condition", "Moisture %", "Owner", "Typed", "By"),
    ],
    "pallets": [
        *(*LOG, "What", "Pallet", "Supers", "Yard", "Onto", "Why", "To", "Frames", "Bees"),
    ],
    "floor": [
        *(*LOG, "Run", "What", "Vessel", "Pallet", "Supers", "Yard", "Gross kg", "Tare kg"),
        *("Net kg", "Barrel", "To", "Remains", "Heel kg", "How", "Pending", "Crew", "Why"),
        *("Wax kg", "Residue kg", "Temperature", "Reason", "Minutes"),
    ],
    "drums": [
        *(*LOG, "Run", "What", "Source", "Container", "Into", "Gross kg", "Tare kg", "Net kg"),
        *("Jars", "To follow", "Whole", "Washed", "Why"),
    ],
    "readings": [*LOG, "Lot", "Moisture %", "Colour mm", "Temperature", "Instrument"],
    "bought": [
        *LOG,
        "Lot",
        "Supplier",
        "Their lot",
        "Country",
        "Certificate",
        "Gross kg",
        "Tare kg",
    ],
    "bottling": [
        *(*LOG, "What", "Bottling", "Product", "Source", "Jars", "Mean net g", "Rejects"),
        *("Empty", "Labelled later", "Packaging", "Why"),
    ],
    "dispatch": [
        *(*LOG, "Note", "Customer", "Goods", "Jars", "Net kg", "Carrier", "Reference"),
        *("Contract", "Vehicle", "Seals"),
    ],
    "returns": [*LOG, "What", "Customer", "Goods", "Jars", "Net kg", "Reason"],
    "quality": [
        *(*LOG, "What", "Target", "Hold", "First day", "Last day", "Reason", "Result", "Net kg"),
        *("Kept at", "Certificate", "Purpose", "Customer"),
    ],
    "corrections": [*LOG, "What", "Lot", "Yard", "Pallet", "Place", "Reason"],
    "opening": [
        *(*LOG, "Lot", "Container", "Net kg", "Season", "Yards", "Written", "Filled on"),
        *("Moisture %", "Colour mm"),
    ],
    "yard_log": [
        *(*LOG, "What", "Yard", "Day", "Supers", "Box", "Product", "Active", "Last day"),
        *("Clear day", "On the hives", "Net kg", "Number", "Issued by", "Note", "Sort", "High"),
    ],
    "rooms_log": [
        *(*LOG, "What", "Room", "Row", "Things", "Temperature", "Humidity %", "Before %"),
        *("After %", "Hours", "Minutes", "Equipment", "Checked", "Result", "Value", "Found kg"),
        *("Written", "Note", "Listed"),
    ],
    "comb": [
        *(*LOG, "What", "Lot", "Pallet", "Supers", "Product", "Comb", "Source", "Pieces"),
        *("Jars", "Net kg", "Drained kg", "Into", "Rejected kg"),
    ],
    "blends": [
        *(*LOG, "Blend", "Into", "Purpose", "Source", "Planned kg", "Net kg", "Whole", "Seed"),
        "Note",
    ],
    "supplies": [
        *(*LOG, "Lot", "Supplier", "Name", "Pieces", "Net kg", "Their lot", "Best before"),
    ],
    "jars": [
        *(*LOG, "What", "Lot", "Jars", "Product", "Roll first", "Roll last", "Torn"),
        *("Seal first", "Seal last", "Packaging", "Copies", "Jar", "Who", "Said", "Answer"),
    ],
    "laboratory": [*LOG, *sample_laboratory.HEADS],
    "recalls": [*LOG, *sample_recalls.HEADS],
    "bulk": [
        *(*LOG, "What", "Of", "Customer", "Verdict", "Reference", "Net kg", "Document"),
        *("Containers", "Carrier", "Kept permille", "Reason"),
    ],
}


def make(seed: int = SEED) -> tuple[Tables, Floor, list[Pallet]]:
    """Make up the season: its tables, the floor at its end, and its pallets."""
    chance = Chance(seed)
    tables = Tables(HEADS)
    colonies = sample_house.write_registers(tables, chance)
    loaded = pallets(pulls(chance, colonies), chance)
    runs = sample_runs.plan(loaded, chance)
    mistyped = sample_trade.mistype(loaded)
    later = Chance(seed + 1)  # a row of its own, so that one part can change without the others
    dried = sample_dry.dry(runs, later)
    returned = sample_dry.return_frames(runs, later)
    write_receipts(tables, loaded, chance)
    floor = Floor(tables, chance, tables.tares())
    sample_runs.work(runs, floor)
    sample_trade.hold_wet(tables, floor)
    sample_runs.write_readings(floor, tables)
    sample_runs.write_hot_room(tables, runs, loaded, chance)
    sample_dry.write(tables, dried, returned)
    sample_rooms.write(tables, later, loaded, floor)
    comb = sample_runs.comb_pallets(loaded)[0].number
    sample_trade.trade(tables, chance, floor, runs, comb)
    sample_trade.put_right(tables, mistyped)
    sample_laboratory.write(tables)
    sample_pace.write(tables)
    sample_recalls.write(tables)
    return tables, floor, loaded


def write(folder: Path) -> None:
    """Write all tables of the sample season, logs in order of time."""
    tables, _, _ = make()
    for file, heads in HEADS.items():
        if heads[0] == "When":
            tables.sort(file, "When")
    tables.write(folder)


if __name__ == "__main__":
    root = Path(__file__).resolve().parents[1]
    write(Path(sys.argv[1]) if len(sys.argv) > 1 else root / "resources" / "sample")
