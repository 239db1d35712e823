"""What the dock's table, figures and slot say of the day."""

from dataclasses import replace

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.dock.rows import (
    WIDE,
    about_yards,
    arrival_columns,
    arrival_rows,
    entry_messages,
    heading,
    received_of,
    said,
    season_figures,
    season_heading,
    totals,
)
from honeyledger.desktop.stations.dock.typed import LineTyped, Typed
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.dock_page import DockPage, dock_page
from tests.support.houses import BuiltHouse


def _page(house: BuiltHouse, yard: str = "") -> DockPage:
    return house.house.ask(lambda view: dock_page(view, house.now_ms, yard))


def _house() -> tuple[BuiltHouse, str]:
    house = BuiltHouse()
    yard = house.yard("Mill Lane", colonies=30)
    house.do(Receive((Line(yard, 36, crew="North truck", sheet=40),), 812_500, moisture=1840))
    house.do(Receive((Line(yard, 20, crew="North truck"),), condition="green"))
    return house, yard


def test_rows_say_what_came_when_and_what_is_to_be_done() -> None:
    house, _ = _house()
    green, wet = arrival_rows(_page(house))
    assert (wet.state, wet.mark, wet.reason) == ("dry first", Mark.WARNING, "above 18 %")
    assert (wet.supers, wet.honey, wet.moisture) == (36, "582", "18.4")
    assert (green.state, green.mark, green.moisture) == ("green", Mark.WARNING, "")
    assert wet.time == "08:44"


def test_a_count_that_differs_from_its_sheet_is_marked() -> None:
    house = BuiltHouse()
    house.do(Receive((Line(house.yard("Mill Lane"), 10, sheet=12, crew="North"),)))
    (row,) = arrival_rows(_page(house))
    assert (row.state, row.mark, row.reason) == ("count off", Mark.WARNING, "12 on its sheet")
    assert (row.sheet, row.crew, row.box) == ("12", "North", "medium")


def test_what_the_sheet_says_is_shown_where_there_is_room() -> None:
    more = {column.key for column in arrival_columns("kg") if column.from_width >= WIDE}
    assert more == {"crew", "pulled", "box", "sheet"}


def test_a_held_pull_is_marked_so() -> None:
    house, yard = _house()
    house.do(PutOnHold(yard, "treatment record"))
    assert {row.mark for row in arrival_rows(_page(house))} == {Mark.HOLD}


def test_the_heading_counts_against_the_pull_sheets() -> None:
    house, _ = _house()
    assert heading(_page(house)) == "56 of 60 supers of North truck are in"
    assert heading(_page(BuiltHouse())) == "Arrivals today"


def test_totals_are_of_the_day() -> None:
    house, _ = _house()
    found = totals(_page(house))
    assert {name: total.text for name, total in found.items()} == {
        "supers": "56",
        "sheet": "60",
        "honey": "878",
        "moisture": "18.4",
    }


def test_a_yard_s_season_is_said_by_colony_where_its_colonies_are_known() -> None:
    house, yard = _house()
    season = _page(house, yard).season
    assert season is not None
    assert season_heading(season) == "Mill Lane this season"
    assert [(one.figure, one.meaning) for one in season_figures(season, "kg")] == [
        ("878 kg", "29.3 kg a colony"),
        ("56 supers", "1.9 a colony"),
        ("18.4 %", "mean moisture"),
    ]
    bare = BuiltHouse()
    other = bare.yard("Long Field")
    bare.pull(other, 100_000)
    season = _page(bare, other).season
    assert season is not None
    assert season_figures(season, "kg")[0].meaning == "in one pull"


def test_columns_are_in_the_unit_of_the_house() -> None:
    assert [column.unit for column in arrival_columns("lb") if column.key == "honey"] == ["lb"]


def test_a_sentence_falls_into_its_first_words_and_the_rest() -> None:
    found = said(Mark.WARNING, "Above 18 %: dry first, wet honey ferments.")
    assert (found.lead, found.text) == ("Above 18 %:", "dry first, wet honey ferments.")
    assert said(Mark.NOTE, "Nothing to part.") == Message(Mark.NOTE, "Nothing to part.")


def test_what_the_ledger_would_note_is_told_with_the_honey_it_would_book() -> None:
    house, yard = _house()
    facts = Receive((Line(yard, 10, sheet=12),), moisture=1900)
    entry = house.house.preview(facts)
    messages = entry_messages(entry, _page(house), Typed())
    assert [(one.mark, one.lead) for one in messages] == [
        (Mark.WARNING, "Mill Lane:"),
        (Mark.WARNING, "Above 18 %:"),
        (Mark.NOTE, "≈ 148 kg"),
    ]
    weighed = entry_messages(entry, _page(house), Typed(gross="400"))
    assert weighed[-1].text == "of honey, by its weight."


def test_a_first_pull_and_a_hold_on_the_yard_are_told() -> None:
    house, yard = _house()
    fresh = house.yard("Long Field")
    house.do(PutOnHold(yard, "treatment record", "2026-07-01"))
    kept = (LineTyped(yard),)
    messages = about_yards(_page(house, fresh), Typed(LineTyped("long field"), kept))
    assert [(one.mark, one.lead) for one in messages] == [
        (Mark.HOLD, "On hold."),
        (Mark.NOTE, "First pull of this yard this season."),
    ]
    assert about_yards(_page(house), Typed(LineTyped("nowhere"))) == []
    assert about_yards(None, Typed(LineTyped(yard))) == []


def test_what_is_said_after_recording() -> None:
    house, yard = _house()
    done = house.do(Receive((Line(yard, 10),)))
    received = received_of(done, "kg")
    tag = next(code for code in done.given if code[0] == "G")
    assert (received.tag, received.pull) == (tag, done.codes[0])
    assert received.message.lead == f"{received.tag} received: 10 supers, ≈ 148 kg of honey."
    assert received.message.about == done.entries[0].id
    again = received_of(replace(done, again=True), "kg").message.lead
    assert again == (
        f"{received.tag} was received already, as entry {done.entries[0].id}: it is kept once."
    )
