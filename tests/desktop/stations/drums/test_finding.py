"""Drums found by words, by moisture and by colour."""

from dataclasses import replace

import pytest

from honeyledger.desktop.stations.drums.finding import found
from tests.desktop.stations.drums.pages import DARK, HELD, PALE, UNREAD

ROWS = (PALE, DARK, HELD, UNREAD)


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("", [row.code for row in ROWS]),
        ("d26-0001", ["D26-0001-C"]),
        ("mill", ["D26-0001-C", "D26-0003-8"]),
        ("mill hold", ["D26-0003-8"]),
        ("strips", ["D26-0003-8"]),
        ("row b3", ["D26-0002-A"]),
        ("pail 4", ["D26-0004-6"]),
        ("missing", ["D26-0004-6"]),
        ("ferris", ["D26-0002-A"]),
        ("17-18 %", ["D26-0001-C"]),
        ("17-18%", ["D26-0001-C"]),
        (">18", ["D26-0003-8"]),
        ("<17,5", ["D26-0001-C", "D26-0002-A"]),
        ("<50 mm", ["D26-0001-C"]),
        ("80-120", ["D26-0002-A"]),
        ("w", ["D26-0001-C"]),
        ("A", ["D26-0002-A"]),
        ("amber", ["D26-0002-A"]),
        ("e26-0005", ["D26-0001-C"]),
    ],
)
def test_what_is_typed_narrows_the_drums(text: str, codes: list[str]) -> None:
    assert [row.code for row in found(ROWS, text)] == codes


def test_a_drum_nobody_read_is_in_no_span_of_readings() -> None:
    assert found([UNREAD], "0-30 %") == []
    assert found([replace(UNREAD, moisture=0)], "0-30 %") != []
