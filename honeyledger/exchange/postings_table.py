"""The ledger's postings as a table that spreadsheets and statistics programs open: plain CSV.

Unlike a list made for a person it has whole grams only, in every house, so that sums are exact.
"""

import csv
import io
from collections.abc import Iterable

from honeyledger.domain.moments import format_iso
from honeyledger.exchange.drum_table import MARK
from honeyledger.services.postings import PostingRow

HEADS = (
    *("Entry", "Happened", "Verb", "Run", "Operator", "Reverses", "Reversed by", "Line"),
    *("Lot", "Kind", "Bucket", "Place", "Where", "Grams", "Moisture before %", "Moisture after %"),
)


def postings_table(rows: Iterable[PostingRow]) -> tuple[bytes, int]:
    """The rows as CSV, and how many there are; what does not apply is an empty cell."""
    out = io.StringIO(newline="")
    table = csv.writer(out)
    table.writerow(HEADS)
    count = 0
    for row in rows:
        count += 1
        table.writerow(
            [
                *(row.entry, format_iso(row.happened), row.kind, row.run, row.operator),
                *(row.reverses or "", row.reversed_by or "", row.line, row.lot, row.lot_kind),
                *(row.bucket, row.place, row.where, row.grams),
                *(_percent(row.before), _percent(row.after)),
            ]
        )
    return (MARK + out.getvalue()).encode("utf-8"), count


def _percent(value: int | None) -> str:
    return "" if value is None else f"{value // 100}.{value % 100:02}"
