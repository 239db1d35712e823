"""The best-before line, by how long honey keeps."""

from datetime import date

import pytest

from honeyledger.services.best_before import best_before


@pytest.mark.parametrize(
    ("months", "line"),
    [(None, ""), (12, "Best before end Jul 2027"), (18, "Best before end Jan 2028"),
     (24, "Best before end 2028"), (3, "Best before 24 Oct 2026"),
     (4, "Best before end Nov 2026")],
)  # fmt: skip
def test_best_before_by_how_long_it_keeps(months: int | None, line: str) -> None:
    # Regulation (EU) 1169/2011, Annex X: over 18 months the year is enough, to 3 the day is due.
    assert best_before(date(2026, 7, 24), months) == line
