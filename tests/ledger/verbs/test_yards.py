"""What is done to a yard by dates, and what honey it puts in doubt."""

from dataclasses import replace
from typing import Any

import pytest

from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.floor import Load, WetOut
from honeyledger.ledger.verbs.quality import PutOnHold, Release
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import Certify, Disease, FeedYard, SupersOn, Treat
from honeyledger.services.cards import lot_card
from tests.support.books import code_in, holding, postings, turned_down
from tests.support.houses import BuiltHouse

LABEL = "Follow the label and your local code; the days here are as they were typed."


@pytest.fixture
def house() -> BuiltHouse:
    """The day is 24 July 2026."""
    house = BuiltHouse()
    for name in ("Creek", "Hill"):
        house.yard(name, colonies=30)
    house.vessel("Tank 1")
    return house


def _pull(
    house: BuiltHouse, yard: str, pulled: str, count: int = 10
) -> tuple[str, str, list[str]]:
    done = house.do(Receive((Line(yard, count, pulled=pulled),)))
    return done.codes[0], next(code for code in done.given if code[0] == "G"), list(done.notes)


def test_a_treatment_holds_the_pulls_of_its_days_those_to_come_too(house: BuiltHouse) -> None:
    before, tag, _ = _pull(house, "Creek", "2026-07-01")
    done = house.do(
        Treat("Creek", "Formic strips", "formic acid", "2026-07-02", "2026-07-09", "2026-07-23")
    )
    held = "treated with Formic strips on 2 Jul 2026, not clear until 23 Jul 2026"
    assert list(done.notes) == [
        f"Pulls of Creek are held from 2 Jul 2026 to 22 Jul 2026: {held}.",
        LABEL,
    ]
    house.do(Load(tag, "Tank 1"))
    code, tag, notes = _pull(house, "Creek", "2026-07-22")
    assert notes == [f"{code} of Creek is on hold as it comes in: {held}. Put the pallet aside."]
    assert turned_down(house, Load(tag, "Tank 1")) == (
        f"{code} is on hold through Creek: {held}. It can go on only if a named person says why."
    )
    _, clear, notes = _pull(house, "Creek", "2026-07-23")
    assert notes == []
    house.do(Load(clear, "Tank 1"))
    house.do(Release("Creek", "the laboratory found nothing"))
    house.do(Load(tag, "Tank 1"))
    assert set(house.shares(before)) == {"Creek"}


def test_a_treatment_that_is_completed_later_moves_the_end_of_its_hold(house: BuiltHouse) -> None:
    began = house.do(Treat("Creek", "Strips", first_day="2026-06-01", clear_day="2026-06-20"))
    number = began.entries[0].id
    done = house.do(
        Treat(
            "Creek",
            "Strips",
            first_day="2026-06-01",
            last_day="2026-06-25",
            clear_day="2026-07-20",
            completes=number,
        )
    )
    assert done.notes[0] == (
        "Pulls of Creek are held from 1 Jun 2026 to 19 Jul 2026: treated with Strips on "
        "1 Jun 2026, not clear until 20 Jul 2026."
    )
    assert _pull(house, "Creek", "2026-07-19")[2]
    house.do(Reverse(done.entries[0].id, "typed for the wrong yard"))
    assert not _pull(house, "Creek", "2026-07-19")[2]
    assert _pull(house, "Creek", "2026-06-19")[2]


def test_supers_on_while_treated_or_fed_are_held_until_someone_releases_them(
    house: BuiltHouse,
) -> None:
    house.do(SupersOn("Creek", 60, "2026-06-01", "medium"))
    asked = (
        "Supers have been on Creek since 1 Jun 2026 by the books. Say whether they were on then."
    )
    assert turned_down(house, Treat("Creek", "Strips", first_day="2026-06-10")) == asked
    assert turned_down(house, FeedYard("Creek", "syrup", "2026-06-10")) == asked
    in_and_out = {"first_day": "2026-06-10", "last_day": "2026-06-11"}
    house.do(Treat("Creek", "Strips", supers_on=False, **in_and_out))
    assert not _pull(house, "Creek", "2026-07-24")[2]
    done = house.do(FeedYard("Creek", "sugar syrup", "2026-06-11", 40_000, supers_on=True))
    reason = "fed 40.0 kg of sugar syrup on 11 Jun 2026 with supers on"
    assert list(done.notes) == [
        "Pulls of Creek are held from 11 Jun 2026 on, until someone releases them: " + reason + "."
    ]
    code, _, notes = _pull(house, "Creek", "2026-07-24")
    assert notes == [f"{code} of Creek is on hold as it comes in: {reason}. Put the pallet aside."]
    house.do(Treat("Hill", "Strips", first_day="2026-06-10", supers_on=True))
    assert _pull(house, "Hill", "2026-07-24")[2] == [
        notes[0]
        .replace(code, _last(house))
        .replace("Creek", "Hill")
        .replace(reason, "treated with Strips on 10 Jun 2026 with supers on")
    ]


def _notes(house: BuiltHouse, facts: Any) -> list[str]:
    return list(house.do(facts).notes)


def _last(house: BuiltHouse) -> str:
    return house.house.ask(lambda view: view.lot(view.next_lot - 1).code)


def test_supers_pulled_since_are_not_on_any_more(house: BuiltHouse) -> None:
    house.do(SupersOn("Creek", 10, "2026-06-01"))
    _pull(house, "Creek", "2026-07-01", count=10)
    assert _notes(house, FeedYard("Creek", "syrup", "2026-07-02")) == []


def test_supers_before_the_label_allows_are_warned_of(house: BuiltHouse) -> None:
    house.do(Treat("Creek", "Strips", first_day="2026-06-01", clear_day="2026-06-20"))
    assert _notes(house, SupersOn("Creek", 20, "2026-06-19")) == [
        "Creek was treated with Strips, not clear until 20 Jun 2026. Supers that go on before are "
        "against the label: what is pulled from them is to be held by name."
    ]
    assert _notes(house, SupersOn("Creek", 20, "2026-06-20")) == []


def test_a_yard_that_needs_a_certificate(house: BuiltHouse) -> None:
    house.do(Register("yard", {"name": "Border", "certified": 1}))
    assert _pull(house, "Border", "2026-07-20")[2] == [
        "Border needs a certificate to move its supers, and none is on record for 20 Jul 2026. "
        "Follow your local code."
    ]
    house.do(Certify("Border", "MV-118", "the inspector", "2026-07-01", "2026-07-31"))
    assert _pull(house, "Border", "2026-07-20")[2] == []


def test_a_flagged_yard_says_where_its_empties_went_and_keeps_the_next_ones(
    house: BuiltHouse,
) -> None:
    from_creek, tag, _ = _pull(house, "Creek", "2026-07-01")
    house.do(Load(tag, "Tank 1"))
    house.do(WetOut(6, pull=from_creek, to="Hill"))
    done = house.do(Disease("Creek", "American foulbrood", "2026-07-20"))
    assert list(done.notes) == [
        "Bee diseases may have to be reported: follow your local law and your inspector.",
        "Empties of Creek since 20 Jul 2026 went to: Hill.",
    ]
    assert turned_down(house, WetOut(4, pull=from_creek, to="hill")) == (
        "These empties come from Creek, flagged for American foulbrood since 20 Jul 2026: they do "
        "not go to another yard. Keep them apart, or have a named person say why they go."
    )
    assert _notes(house, WetOut(2, pull=from_creek, to="the wet stack")) == [
        "These empties come from Creek, flagged for American foulbrood: keep them apart."
    ]
    done = house.do(WetOut(2, pull=from_creek, to="Hill", despite_flag="irradiated"))
    assert list(done.notes) == [
        "Empties of Creek went to Hill although flagged for American foulbrood: irradiated."
    ]
    house.do(Disease("Creek", until="2026-07-24"))
    assert _notes(house, WetOut(1, pull=from_creek, to="Hill")) == []


def test_jars_are_fed_by_their_count(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank 1")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(lot, 60))
    facts = FeedYard("Creek", source=lot)
    assert turned_down(house, facts) == (
        f"Say how many jars of {lot} are given, or that all of them are."
    )
    assert turned_down(house, replace(facts, net_g=500)) == (
        f"{lot} is counted in jars: say how many jars."
    )
    assert turned_down(house, replace(facts, jars=61)) == (
        f"There are 60 jars of {lot} here, not 61. Count again."
    )
    done = house.do(replace(facts, jars=12))
    assert postings(house, done) == {(lot, "jars", -6_000), (lot, "fed/Y26-0001-P", 6_000)}
    assert done.notes[0].startswith("Honey fed to bees can carry foulbrood")
    told = house.house.ask(lambda view: lot_card(view, lot)).history[-1]
    assert told.sentence == "Fed: 12 jars, 6.0 kg from the jar store to bees of Creek."
    house.do(PutOnHold(lot, "glass"))
    assert turned_down(house, replace(facts, jars=1)).startswith(f"{lot} is on hold")
    house.do(replace(facts, whole=True, despite_hold="only the glass matters"), operator="O1")
    assert "jars" not in holding(house, lot)
    house.do(Reverse(done.entries[0].id + 2, "they stayed here"))
    assert holding(house, lot)["jars"] == (24_000, 48)


def test_what_goes_by_weight_is_not_fed_by_jars(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank 1")
    drum = house.drum("Tank 1", 60_000)
    said = "Jars are counted, {} goes by weight: type the net weight, or say that all of it goes."
    assert turned_down(house, FeedYard("Creek", source=drum, jars=3)) == said.format(drum)
    assert turned_down(house, FeedYard("Creek", "syrup", jars=3)) == said.format("syrup")


def test_what_they_refuse(house: BuiltHouse) -> None:
    house.do(Register("equipment", {"name": "Scale"}))
    said = [
        turned_down(house, SupersOn("Creek", 0)),
        turned_down(house, SupersOn("Creek", 5, "2026-08-01")),
        turned_down(house, Treat("Creek", " ")),
        turned_down(house, Treat("Creek", "x", first_day="2026-07-10", last_day="2026-07-09")),
        turned_down(
            house,
            Treat(
                "Creek",
                "x",
                first_day="2026-07-10",
                last_day="2026-07-12",
                clear_day="2026-07-11",
            ),
        ),
        turned_down(house, Treat("Creek", "x", completes=1)),
        turned_down(house, FeedYard("Creek", "")),
        turned_down(house, Disease("Creek")),
        turned_down(house, Disease("Creek", "x", until="2026-07-01")),
        turned_down(house, Certify("Creek", "")),
        turned_down(house, Certify("Creek", "MV", "", "2026-07-10", "2026-07-09")),
    ]
    assert said == [
        "Count the supers put on Creek: 0 is none, and there is at least one.",
        "1 Aug 2026 is still to come. Type the day on which it was done.",
        "Say what the colonies were treated with, as its label calls it.",
        "It cannot have come out on 9 Jul 2026, before it went in on 10 Jul 2026.",
        "By what was typed the honey would be clear on 11 Jul 2026, before the treatment was out "
        "on 12 Jul 2026. Read the label again.",
        "Entry 1 is no treatment of Creek. Give the number of the entry that began it.",
        "Say what the colonies were fed.",
        "Name the disease, or say that the flag is lifted.",
        "Creek is not flagged for a disease. Nothing was changed.",
        "Type the certificate's number.",
        "A certificate that is good from 10 Jul 2026 cannot end on 9 Jul 2026. Read it again.",
    ]


def test_an_interval_typed_as_it_goes_in_counts_when_it_comes_out(house: BuiltHouse) -> None:
    began = house.do(Treat("Creek", "Strips", first_day="2026-06-01", interval="6 weeks"))
    number = began.entries[0].id
    assert began.notes[0] == (
        "Pulls of Creek are held from 1 Jun 2026 on, until someone releases them: treated with "
        "Strips on 1 Jun 2026, not out yet, then 6 weeks."
    )
    code, tag, notes = _pull(house, "Creek", "2026-07-20")
    assert notes[0].startswith(f"{code} of Creek is on hold as it comes in: treated with Strips")
    out = Treat("Creek", "Strips", first_day="2026-06-01", last_day="2026-06-10", completes=number)
    assert house.do(out).notes[0] == (
        "Pulls of Creek are held from 1 Jun 2026 to 21 Jul 2026: treated with Strips on 1 Jun "
        "2026, not clear until 22 Jul 2026."
    )
    assert "is on hold through Creek" in turned_down(house, Load(tag, "Tank 1"))
    _, tag, _ = _pull(house, "Creek", "2026-07-22")
    house.do(Load(tag, "Tank 1"))
    assert (
        turned_down(house, Treat("Creek", "x", clear_day="2026-09-01", interval="6 weeks"))
        == "Give the day it is clear, or its label's interval: one of the two."
    )


def test_a_pull_is_held_while_a_treatment_is_in_though_nobody_typed_an_end(
    house: BuiltHouse,
) -> None:
    began = house.do(Treat("Creek", "Pads", first_day="2026-07-02", supers_on=False))
    code, tag, notes = _pull(house, "Creek", "2026-07-20")
    held = "treated with Pads on 2 Jul 2026, not out yet"
    assert notes == [f"{code} of Creek is on hold as it comes in: {held}. Put the pallet aside."]
    number = began.entries[0].id
    house.do(
        Treat("Creek", "Pads", "", "2026-07-02", "2026-07-10", supers_on=False, completes=number)
    )
    house.do(Load(tag, "Tank 1"))
    early, tag, _ = _pull(house, "Creek", "2026-07-10")
    assert turned_down(house, Load(tag, "Tank 1")) == (
        f"{early} is on hold through Creek: treated with Pads on 2 Jul 2026, out on 10 Jul 2026. "
        "It can go on only if a named person says why."
    )
