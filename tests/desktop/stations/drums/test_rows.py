"""What the drum room shows of its page: columns, heading, totals and figures."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.rows import RowsModel
from honeyledger.desktop.stations.drums.rows import (
    about,
    caution,
    drum_columns,
    drum_figures,
    drum_heading,
    heading,
    reason,
    state_word,
    totals,
    yards_words,
)
from honeyledger.domain.phrases import phrase
from honeyledger.services.drums_page import DrumRow
from tests.desktop.stations.drums.pages import DARK, HELD, PAGE, PALE, UNREAD


def test_a_row_says_what_it_is_called_what_is_wrong_and_what_is_in_it() -> None:
    columns = {column.key: column for column in drum_columns("kg")}
    shown = {key: column.cell(HELD) for key, column in columns.items()}
    assert (shown["state"].text, shown["state"].mark) == ("hold", Mark.HOLD)
    assert shown["about"].note == "S26-0001-G: strips"
    assert (shown["moisture"].text, shown["colour"].text) == ("19.6", "not read")
    assert (shown["grams"].text, shown["age"].text) == ("250.0", "9")
    pale = columns["colour"].cell(PALE)
    assert (pale.text, pale.pfund_mm) == ("31 mm W", 31.0)
    assert columns["moisture"].cell(UNREAD).text == ""
    weighed_later = replace(PALE, state="not weighed")
    assert columns["grams"].cell(weighed_later).estimated
    assert columns["state"].cell(weighed_later).mark is Mark.WARNING
    for key in ("code", "state", "about", "moisture", "colour", "age", "grams"):
        sort_key = columns[key].sort_key
        assert sort_key is not None
        assert sort_key(PALE) is not None


def test_by_which_way_it_is_held_is_for_the_tip_and_for_who_hears_it() -> None:
    columns = {column.key: column for column in drum_columns("kg")}
    way = "S26-0001-G, by way of T26-0001-J: strips"
    cell = columns["about"].cell(replace(HELD, ways=(way,)))
    assert (cell.note, cell.detail) == ("S26-0001-G: strips", way)
    itself = replace(HELD, ways=HELD.held)
    assert columns["about"].cell(itself).detail == "", "nothing stands between"
    model = RowsModel(drum_columns("kg"), lambda row: row.code)
    model.show([replace(HELD, ways=(way,))])
    place = list(columns).index("about")
    spoken = model.data(model.index(0, place), Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.endswith(way)


def test_states_are_said_as_what_is_to_be_done() -> None:
    words = [state_word(state) for state in ("not weighed", "not read", "not closed", "hold")]
    assert words == ["to weigh", "to read", "open", "hold"]


def test_where_it_stands_whose_it_is_and_that_it_is_missing() -> None:
    assert about(DARK) == "Drum 8, Drum room, row B3"
    assert reason(DARK) == "belongs to Ann Ferris"
    assert reason(UNREAD) == "not found at the last walk"
    assert reason(replace(PALE, held=(f"{PALE.code}: 19.6 %", *HELD.held))) == (
        "19.6 %; S26-0001-G: strips"
    )


def test_a_room_that_is_the_only_one_is_not_named_in_every_row() -> None:
    """The container and the row stay, which a narrow column would have cut in their middle."""
    spot = phrase("{room}, row {row}", room="Drum room", row="B3")
    in_row, other = replace(DARK, spot=spot), replace(PALE, spot="Drum room")

    def shown(*rows: DrumRow) -> list[str]:
        about_it = next(one for one in drum_columns("kg", rows) if one.key == "about")
        return [about_it.cell(row).text for row in rows]

    assert shown(in_row, other)[0] == "Drum 8, row B3"
    assert shown(other)[0] == PALE.container
    assert shown(in_row, replace(other, spot="Hot room"))[0] == "Drum 8, Drum room, row B3"


def test_the_heading_counts_what_is_shown() -> None:
    assert heading(PAGE.rows, PAGE) == "4 drums on hand, 777 kg"
    assert heading([PALE], PAGE) == "One drum of 4, 300 kg"
    lead, sums = totals(PAGE.rows, PAGE)
    assert (lead, sums["grams"].text) == ("1 held, 1 to read", "777.0")
    assert totals([PALE], PAGE)[0] == "All in order"


@pytest.mark.parametrize(
    ("yards", "words"),
    [
        ((), "no yard"),
        (("Mill Lane",), "Mill Lane"),
        (("Mill Lane", "Willow Bank"), "Mill Lane and Willow Bank"),
        (("A", "B", "C"), "3 yards"),
    ],
)
def test_few_yards_are_named_and_many_are_counted(yards: tuple[str, ...], words: str) -> None:
    assert yards_words(yards) == words


def test_a_drum_says_whether_it_keeps() -> None:
    assert [(one.figure, one.meaning) for one in drum_figures(PALE)] == [
        ("17.2 %", "keeps with little yeast"),
        ("31 mm", "colour, Pfund"),
        ("3 days", "since it was filled"),
    ]
    assert drum_figures(UNREAD)[0].figure == "not read"
    assert drum_heading(PALE) == "D26-0001-C: in reach of Mill Lane"


def test_wet_honey_has_a_caution_that_defers_to_local_code() -> None:
    assert caution(HELD) == (
        "At 19.6 % it will likely ferment: limits differ by country, follow your local code."
    )
    assert caution(PALE) == ""
    assert caution(DARK) == ""
    assert caution(UNREAD) == ""
