"""The yards' forms: the facts each says, and a record shown so that it can be changed."""

from datetime import date
from typing import Any

import pytest

from honeyledger.desktop.models.asked import FormSpec, FormTyped, Reading
from honeyledger.desktop.stations.yards.asks import degrees_words, values_of, yard_forms
from honeyledger.domain.units import parse_coordinate
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import Certify, Disease, FeedYard, SupersOn, Treat
from honeyledger.services.house import Recorded
from honeyledger.services.yards_page import SeasonGiven, YardRow, YardsPage

TODAY = date(2026, 7, 24)
RECORD = {
    "name": "Mill Lane",
    "number": "7",
    "colonies": 30,
    "forage": "clover",
    "latitude": 494_234_500,
    "longitude": -988_764_000,
    "organic": 1,
}
MILL = YardRow("Y26-0001-P", RECORD, "pulled", "", (SeasonGiven(2026, 0, 0, 0),), "")
PAGE = YardsPage("ledger-1", "kg", "UTC", TODAY, (MILL,), (), None)
READING = Reading("kg", TODAY, PAGE)
DONE = Recorded((), ())
CODE = MILL.code


def spec(kind: str) -> FormSpec:
    return next(one for one in yard_forms() if one.key == kind)


@pytest.mark.parametrize(
    ("kind", "values", "facts", "words"),
    [
        (
            "supers",
            {"yard": CODE, "count": "60", "box": "medium", "day": "1 Jul 2026"},
            SupersOn(CODE, 60, "2026-07-01", "medium"),
            "60 supers are on Mill Lane.",
        ),
        (
            "treat",
            {"yard": CODE, "product": "Formic pads", "in": "1 Aug 2025", "clear": "15 Aug 2026"},
            Treat(CODE, "Formic pads", first_day="2025-08-01", clear_day="2026-08-15"),
            "Mill Lane was treated with Formic pads.",
        ),
        (
            "treat",
            {
                "yard": CODE,
                "product": "Strips",
                "active": "amitraz",
                "out": "2 Jul 2026",
                "supers_on": "no",
                "completes": "17",
                "note": "44 hives",
            },
            Treat(
                *(CODE, "Strips", "amitraz", "", "2026-07-02", "", False, 17, "44 hives"),
            ),
            "Mill Lane was treated with Strips.",
        ),
        (
            "treat",
            {"yard": CODE, "product": "Strips", "out": "2 Jul 2026", "interval": "6 weeks"},
            Treat(CODE, "Strips", last_day="2026-07-02", interval="6 weeks"),
            "Mill Lane was treated with Strips.",
        ),
        (
            "feed",
            {"yard": CODE, "source": "J26-0001-Z", "jars": "12", "whole": "no", "despite": "ours"},
            FeedYard(CODE, source="J26-0001-Z", jars=12, despite_hold="ours"),
            "Mill Lane was fed J26-0001-Z.",
        ),
        (
            "feed",
            {"yard": CODE, "what": "syrup", "net": "200", "supers_on": "yes"},
            FeedYard(CODE, "syrup", "", 200_000, True),
            "Mill Lane was fed syrup.",
        ),
        (
            "disease",
            {"yard": CODE, "disease": "chalkbrood", "since": "1 Jul 2026", "note": "two hives"},
            Disease(CODE, "chalkbrood", "2026-07-01", "", "two hives"),
            "Mill Lane is flagged.",
        ),
        (
            "disease",
            {"yard": CODE, "until": "20 Jul 2026"},
            Disease(CODE, "", "", "2026-07-20"),
            "The flag of Mill Lane is lifted.",
        ),
        (
            "certify",
            {"yard": CODE, "number": "C 7", "by": "the province", "to": "1 Sep 2026"},
            Certify(CODE, "C 7", "the province", "", "2026-09-01"),
            "Certificate C 7 of Mill Lane is on record.",
        ),
    ],
)
def test_each_form_says_its_facts(
    kind: str, values: dict[str, str], facts: Any, words: str
) -> None:
    typed = FormTyped(values)
    assert spec(kind).facts(typed, READING) == [facts]
    assert spec(kind).done(typed, DONE, READING) == words


def test_a_new_yard_is_its_name_and_what_is_known_of_it() -> None:
    values = {"yard": "Hill Top", "colonies": "24", "latitude": "49.5", "longitude": "98.8 W"}
    values |= {"organic": "yes", "certified": "no", "region": "Parkland"}
    assert spec("record").facts(FormTyped(values), READING) == [
        Register(
            "yard",
            {
                "name": "Hill Top",
                "colonies": 24,
                "latitude": 495_000_000,
                "longitude": -988_000_000,
                "organic": 1,
                "certified": 0,
                "region": "Parkland",
            },
        )
    ]


def test_a_record_that_is_only_shown_and_kept_again_is_the_same() -> None:
    values = values_of(MILL)
    assert values["latitude"] == "49.42345"
    (same,) = spec("record").facts(FormTyped(values), READING)
    assert same == Register("yard", RECORD, CODE)


def test_what_is_emptied_is_gone_and_what_is_not_asked_stays() -> None:
    values = {"yard": CODE, "name": "Mill Road", "colonies": "28"}
    (changed,) = spec("record").facts(FormTyped(values), READING)
    assert changed == Register("yard", {"name": "Mill Road", "number": "7", "colonies": 28}, CODE)
    words = spec("record").done(FormTyped(values), DONE, READING)
    assert words == "The record of Mill Road is changed."


@pytest.mark.parametrize("value", [0, 1, -1, 494_234_500, -988_764_000, 5, -1_800_000_000])
def test_a_coordinate_can_be_typed_as_it_is_shown(value: int) -> None:
    assert parse_coordinate(degrees_words(value), "longitude") == value
