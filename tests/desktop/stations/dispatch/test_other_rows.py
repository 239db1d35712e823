"""What follows from a return or from throwing away, before and after it is recorded."""

from honeyledger.desktop.stations.dispatch.other_rows import (
    amount_words,
    done_message,
    follows,
    moved,
)
from honeyledger.desktop.stations.dispatch.other_typed import (
    AWAY,
    BACK,
    SAMPLE,
    TO_AWAY,
    TO_HOLD,
    OtherTyped,
)
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Discard, Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.quality import PutOnHold, Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dispatch_page import DispatchPage, dispatch_page
from honeyledger.services.house import Said
from tests.support.houses import BuiltHouse


def _house() -> tuple[BuiltHouse, str]:
    house = BuiltHouse()
    house.vessel("Tank 1")
    house.load(house.yard("Creek"), 900_000, "Tank 1")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.do(Register("customer", {"name": "Packer"}))
    done = house.do(ChangeOver(product="Clover", feed="Tank 1"))
    lot = next(code for code in done.given if code[0] == "J")
    house.do(Bottle(lot, 100))
    house.do(Dispatch("Packer", (DispatchLine(lot, jars=40),)))
    return house, lot


def _page(house: BuiltHouse) -> DispatchPage:
    return house.house.ask(lambda view: dispatch_page(view, house.now_ms))


def test_an_amount_in_words() -> None:
    assert amount_words(0, 280_000, "kg") == "280.0 kg"
    assert amount_words(1, 500, "kg") == "1 jar, 500 g"
    assert amount_words(12, 6_000, "lb") == "12 jars, 13.2 lb"


def test_what_follows_from_throwing_jars_away() -> None:
    house, lot = _house()
    entry = house.house.preview(Discard(lot, "spilt", 10))
    assert moved(entry) == (10, 5_000)
    assert follows(AWAY, OtherTyped(lot.lower()), entry, _page(house)) == (
        f"10 jars, 5.0 kg of {lot} leave the books as thrown away.",
        "Left of it here: 50 jars, 25.0 kg.",
        "What is thrown away can never be sent; entered wrongly, it can be reversed.",
    )
    every = house.house.preview(Discard(lot, "spilt"))
    assert follows(AWAY, OtherTyped(lot), every, _page(house))[1] == "Left of it here: nothing."


def test_what_follows_from_a_return() -> None:
    house, lot = _house()
    entry = house.house.preview(TakeBack("Packer", lot, "broken", jars=12))
    typed = OtherTyped(lot, "Packer", "12")
    page = _page(house)
    assert follows(BACK, typed, entry, page) == (
        f"12 jars, 6.0 kg of {lot} come back from Packer.",
        "They can be sent again.",
    )
    away = OtherTyped(lot, "Packer", "12", goes=TO_AWAY)
    assert follows(BACK, away, entry, page)[1] == (
        "They are thrown away at once, for the same reason."
    )
    held = OtherTyped(lot, "Packer", "12", goes=TO_HOLD)
    assert follows(BACK, held, entry, page)[1] == (
        f"All of {lot} is on hold from then on: what is here and what is made of it."
    )


def test_what_follows_from_a_sample() -> None:
    house, lot = _house()
    entry = house.house.preview(Sample((lot,), 250))
    assert follows(SAMPLE, OtherTyped(lot), entry, _page(house)) == (
        "1 jar, 250 g are taken as a sample, with a code of their own.",
    )


def test_what_was_done_is_said() -> None:
    house, lot = _house()
    typed = OtherTyped(lot, "Packer", "12")
    back = house.do(TakeBack("Packer", lot, "broken", jars=12))
    message = done_message(BACK, typed, back, "kg")
    assert (message.lead, message.about) == (
        f"12 jars, 6.0 kg of {lot} came back.",
        back.entries[0].id,
    )
    both = house.house.record_all(
        [TakeBack("Packer", lot, "broken", jars=2), Discard(lot, "broken", 2)]
    )
    thrown = done_message(BACK, OtherTyped(lot, goes=TO_AWAY), both, "kg")
    assert thrown.lead == f"2 jars, 1.0 kg of {lot} came back and were thrown away."
    assert thrown.about == both.entries[1].id
    held = house.house.record_all(
        [TakeBack("Packer", lot, "wrong", jars=1), PutOnHold(lot, "wrong")]
    )
    words = done_message(BACK, OtherTyped(lot, goes=TO_HOLD), held, "kg").lead
    assert words == f"1 jar, 500 g of {lot} came back; the lot is on hold."


def test_thrown_away_sampled_and_said_twice() -> None:
    house, lot = _house()
    facts = Discard(lot, "spilt", 10)
    done = house.house.record(facts, Said(command="once"))
    assert done_message(AWAY, OtherTyped(lot), done, "kg").lead == (
        f"10 jars, 5.0 kg of {lot} are thrown away."
    )
    again = house.house.record(facts, Said(command="once"))
    entry = done.entries[0].id
    assert done_message(AWAY, OtherTyped(lot), again, "kg").lead == (
        f"That was recorded already, as entry {entry}: it is kept once."
    )
    sample = house.do(Sample((lot,), 250))
    assert done_message(SAMPLE, OtherTyped(lot), sample, "kg").lead == (
        f"Sample {sample.codes[0]} is taken: 1 jar, 250 g."
    )
