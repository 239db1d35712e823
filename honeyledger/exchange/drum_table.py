"""A list of drums as a table that spreadsheets open: CSV in UTF-8 with its mark, plain numbers."""

import csv
import io

from honeyledger.domain.units import THOUSANDS, MassUnit, format_mass
from honeyledger.services.drum_list import DrumList

MARK = "\ufeff"  # without it a spreadsheet takes UTF-8 for an old code page


def drum_table(drums: DrumList, unit: MassUnit = "kg") -> bytes:
    """The list as CSV; what is not known is an empty cell, and a point stands in every figure."""
    out = io.StringIO(newline="")
    rows = csv.writer(out)
    rows.writerow(
        [
            *("Drum", "Their lot", "Container"),
            *(f"Gross {unit}", f"Tare {unit}", f"Net {unit}"),
            *("Moisture %", "Colour mm", "Season", "Filled", "Owner", "Note", "Seal"),
        ]
    )
    for row in drums.rows:
        gross_g, net_g = (None, None) if row.pending else (row.gross_g, row.net_g)
        rows.writerow(
            [
                *(row.code, row.supplier_lot, row.container),
                *(_mass(grams, unit) for grams in (gross_g, row.tare_g, net_g)),
                *(_hundredths(row.moisture), _tenths(row.colour)),
                *(row.season, row.filled.isoformat(), row.owner, drums.note, row.seal),
            ]
        )
    return (MARK + out.getvalue()).encode("utf-8")


def _mass(grams: int | None, unit: MassUnit) -> str:
    if grams is None:
        return ""
    return format_mass(grams, unit, 3).removesuffix(f" {unit}").replace(THOUSANDS, "")


def _hundredths(value: int | None) -> str:
    return "" if value is None else f"{value // 100}.{value % 100:02}"


def _tenths(value: int | None) -> str:
    return "" if value is None else f"{value // 10}.{value % 10}"
