"""The line's figures in words."""

import pytest

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.line_figures import (
    Badge,
    Flow,
    LineFigures,
    PlaceFigure,
    figure_words,
    grouped,
    place_sentence,
)


def _line(*places: PlaceFigure, flows: int = 6) -> LineFigures:
    rest = tuple(PlaceFigure(f"p{n}", f"P{n}", n, "kg") for n in range(7 - len(places)))
    return LineFigures(places + rest, tuple(Flow(1120, 30.0) for _ in range(flows)))


def test_thousands_are_parted_by_a_narrow_no_break_space() -> None:
    assert grouped(9840) == "9\u202f840"
    assert grouped(412) == "412"


def test_a_large_mass_is_said_in_tonnes_where_room_is_short() -> None:
    drums = PlaceFigure("drums", "Drums", 124_600, "kg", "on hand")
    assert figure_words(drums, short=True, qualified=False) == ("124.6", "t")
    assert figure_words(drums, short=False, qualified=True) == ("124\u202f600", "kg on hand")
    supers = PlaceFigure("dock", "Dock", 124_600, "supers")
    assert figure_words(supers, short=True, qualified=False)[1] == "supers"


def test_an_estimate_has_its_sign() -> None:
    room = PlaceFigure("hot_room", "Hot room", 9840, "kg", estimated=True)
    assert figure_words(room, short=True, qualified=False)[0] == "≈9\u202f840"


def test_a_place_is_read_out_in_full() -> None:
    drums = PlaceFigure("drums", "Drums", 41_300, "kg", badges=(Badge(Mark.HOLD, 3, "on hold"),))
    yards = PlaceFigure("yards", "Extraction", 38, "kg")
    line = _line(yards, drums)
    assert place_sentence(line, 1) == (
        "Drums, 41 300 kilograms, 3 on hold, 1 120 kilograms from Extraction today"
    )
    assert place_sentence(line, 0) == "Extraction, 38 kilograms"


def test_a_line_has_seven_places_and_six_flows() -> None:
    with pytest.raises(ValueError, match="seven places and six flows"):
        _line(flows=5)
