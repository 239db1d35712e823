"""Postings as a table: read again by a reader that knows nothing of this program."""

import csv
import io
from dataclasses import replace

from honeyledger.domain.moments import Moment
from honeyledger.exchange.postings_table import HEADS, postings_table
from honeyledger.services.postings import PostingRow

ROW = PostingRow(
    entry=12,
    happened=Moment(1_784_882_400_000, 120, "Europe/Berlin"),
    kind="dry",
    run="R26-0001-T",
    operator="O26-0001-1",
    reverses=0,
    reversed_by=14,
    line=2,
    lot="S26-0001-G",
    lot_kind="S",
    bucket="pallet",
    place="pallet/G26-0001-3",
    where='pallet "3", west',
    grams=-1_234,
    before=1_905,
    after=1_800,
)


def test_every_cell_is_read_as_it_was() -> None:
    data, count = postings_table([ROW, replace(ROW, reverses=3, before=None, after=None)])
    assert count == 2
    assert data[:3] == b"\xef\xbb\xbf"
    text = data.decode("utf-8-sig")
    first, second = csv.DictReader(io.StringIO(text, newline=""))
    assert tuple(first) == HEADS
    assert list(first.values()) == [
        *("12", "2026-07-24T10:40:00.000+02:00", "dry", "R26-0001-T", "O26-0001-1", "", "14"),
        *("2", "S26-0001-G", "S", "pallet", "pallet/G26-0001-3", 'pallet "3", west', "-1234"),
        *("19.05", "18.00"),
    ]
    assert (second["Reverses"], second["Moisture before %"]) == ("3", "")


def test_a_ledger_without_postings_is_a_head() -> None:
    data, count = postings_table([])
    assert count == 0
    assert data.decode("utf-8-sig").splitlines() == [",".join(HEADS)]
