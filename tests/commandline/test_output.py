"""Plain tables and what a code's letter stands for; a table on a terminal is rich's."""

import io
import json
import sys

import pytest

from honeyledger.commandline import output
from honeyledger.commandline.output import Column, noun_of, plain_lines

COLUMNS = (Column("code"), Column("weight", right=True), Column("name"))
ROWS = [["D26-0001-C", "1.0 kg", "Mill [north]"], ["T26-0002-Y", "1 000.0 kg", ""]]


def test_a_plain_table_stands_in_columns() -> None:
    assert plain_lines(COLUMNS, ROWS) == [
        "code            weight  name",
        "D26-0001-C      1.0 kg  Mill [north]",
        "T26-0002-Y  1 000.0 kg",
    ]


def test_a_table_is_plain_where_no_terminal_is(capsys: pytest.CaptureFixture[str]) -> None:
    output.table(COLUMNS, ROWS)
    assert capsys.readouterr().out.splitlines() == plain_lines(COLUMNS, ROWS)


class _Screen(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_a_table_is_drawn_on_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = _Screen()
    monkeypatch.setattr(sys, "stdout", screen)
    output.table(COLUMNS, ROWS)
    assert "Mill [north]" in screen.getvalue()


def test_json_keeps_every_letter(capsys: pytest.CaptureFixture[str]) -> None:
    output.write_json({"name": "Łąka"})
    shown = capsys.readouterr().out
    assert "Łąka" in shown
    assert json.loads(shown) == {"name": "Łąka"}


def test_the_noun_of_a_code() -> None:
    assert noun_of("G26-0001-3") == "pallet tag"
    assert noun_of("HB-D26-0001-3") == "drum"
    assert noun_of("N26-12345-3") == "dispatch note"
