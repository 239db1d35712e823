#!/usr/bin/env python3
"""Write the sample season's tables again, the same ones every time, into a folder.

    python3 packaging/make_sample.py [FOLDER]

Without a folder they go to resources/sample. Figures are common practice, no source.
"""

import sys
from pathlib import Path

import sample_house
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
    "pallets": [*LOG, "What", "Pallet", "Supers", "Yard", "Onto"],
    "floor": [
        *(*LOG, "Run", "What", "Vessel", "Pallet", "Supers", "Yard", "Gross kg", "Tare kg"),
        *("Net kg", "Barrel", "To", "Remains", "Heel kg", "How", "Pending", "Crew", "Why"),
    ],
    "drums": [
        *(*LOG, "Run", "What", "Source", "Container", "Into", "Gross kg", "Tare kg", "Net kg"),
        *("To follow", "Whole", "Washed", "Why"),
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
        *("Empty", "Labelled later", "Why"),
    ],
    "dispatch": [
        *(*LOG, "Note", "Customer", "Goods", "Jars", "Net kg", "Carrier", "Reference"),
    ],
    "returns": [*LOG, "What", "Customer", "Goods", "Jars", "Net kg", "Reason"],
    "quality": [
        *(*LOG, "What", "Target", "Hold", "First day", "Last day", "Reason", "Result", "Net kg"),
        *("Kept at", "Certificate"),
    ],
    "corrections": [*LOG, "What", "Lot", "Yard", "Pallet", "Place", "Reason"],
}


def make(seed: int = SEED) -> tuple[Tables, Floor, list[Pallet]]:
    """Make up the season: its tables, the floor at its end, and its pallets."""
    chance = Chance(seed)
    tables = Tables(HEADS)
    colonies = sample_house.write_registers(tables, chance)
    loaded = pallets(pulls(chance, colonies), chance)
    runs = sample_runs.plan(loaded, chance)
    mistyped = sample_trade.mistype(loaded)
    write_receipts(tables, loaded, chance)
    floor = Floor(tables, chance, tables.tares())
    sample_runs.work(runs, floor)
    sample_trade.hold_wet(tables, floor)
    sample_runs.write_readings(floor, tables)
    sample_runs.write_hot_room(tables, runs, loaded, chance)
    sample_trade.trade(tables, chance, floor, runs)
    sample_trade.put_right(tables, mistyped)
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
