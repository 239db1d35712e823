"""Tables given out by the terminal."""

import csv
from pathlib import Path

from tests.support.terminal import Terminal


def test_every_posting_is_written_into_a_new_file(terminal: Terminal, tmp_path: Path) -> None:
    terminal.do("load", terminal.pallet(), "Extractor")
    drum = terminal.drum()
    file = tmp_path / "postings.csv"
    shown = terminal.do("export", "postings", "-o", str(file))
    with file.open(encoding="utf-8-sig", newline="") as table:
        rows = list(csv.DictReader(table))
    assert shown == f"{len(rows)} postings: {file}\n"
    assert sum(int(row["Grams"]) for row in rows) == 0
    assert sum(int(row["Grams"]) for row in rows if row["Lot"] == drum) == 150_000
    before = file.read_bytes()
    assert "postings.csv" in terminal.refused("export", "postings", "-o", str(file))
    assert file.read_bytes() == before
    again = str(tmp_path / "again.csv")
    answer = terminal.json("export", "postings", "-o", again)
    assert answer == {"file": again, "postings": len(rows)}
