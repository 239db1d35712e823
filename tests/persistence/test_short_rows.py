import pytest

from honeyledger.domain.codes import make_code
from honeyledger.ledger.effects import changes
from honeyledger.persistence.short_rows import code_rows, in_short, mark_row, side_of, stay_row
from honeyledger.persistence.tables import IN_FACTS, LONG, OPEN

DRUM = str(make_code("D", 28, 691))
LOT = 5
AT_MS = 1_000_000


def test_what_an_entry_changes_is_stored_in_short() -> None:
    place, effects = f"drum/{DRUM}", {"touched": [["jars"]], "codes": [[DRUM]]}
    for name in ("left", "came", "arrived", "drawn"):
        effects[name] = [[place, LOT]]
    # A stay that may have begun earlier tells nothing of what came and went.
    told = changes(7, 0, (AT_MS, 1), [(LOT, place, 9), (LOT, "difference", -9)], effects)
    stored = in_short(told)
    assert stored.held == [("dD28691", LOT, 0, 9, 0), ("difference", LOT, 2, -9, 0)]
    for rows in (stored.ended, stored.began, stored.arrived, stored.drawn, stored.touched):
        assert rows
        assert {row[0] for row in rows} <= {"dD28691", "jars"}
    assert [(place, *row[1:]) for row in stored.ended] == told.ended
    assert stored.codes == [(DRUM, 7)]


@pytest.mark.parametrize(
    ("name", "value", "stored"),
    [
        ("moisture", 1850, "1850"),
        (f"note/{make_code('N', 30, 1)}", {"grams": 9, "jars": 3}, "\x019\x023}"),
        ("loaded/vessel/E27-0001-Z", [AT_MS, AT_MS], "[\x1f,\x1f]"),
        ("record", {"grams": 9, "jars": 3}, '{"grams":9,"jars":3}'),
        ("said", "x" * (LONG - 2), '"' + "x" * (LONG - 2) + '"'),
        ("said", "x" * (LONG - 1), IN_FACTS),
        ("record", "x" * LONG, '"' + "x" * LONG + '"'),
    ],
)
def test_marks_as_stored(name: str, value: object, stored: str) -> None:
    names = {"note": "n/N301", "loaded": "l/vE271"}
    row = mark_row((DRUM, name, 7, AT_MS, value))
    assert row == ("D28691", names.get(name.partition("/")[0], name), 7, AT_MS, stored)


def test_codes_of_lots_are_in_their_own_rows() -> None:
    note = str(make_code("N", 30, 1))
    assert code_rows([(DRUM, 7), (note, 7)], {DRUM}) == [("N301", 7)]


def test_a_stay_that_has_not_ended() -> None:
    assert stay_row(("dD28691", LOT, 7, AT_MS, 4)) == ("dD28691", LOT, 7, AT_MS, 0, OPEN, 0, 4)


def test_sides_of_the_walls() -> None:
    sides = {"vessel/V": 0, "jars": 0, "yard/Y": 1, "unknown": 1, "customer/C": 2, "zoo": 2}
    assert {place: side_of(place) for place in sides} == sides
