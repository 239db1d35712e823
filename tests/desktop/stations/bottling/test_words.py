"""What the bottling says of claims, net contents, and of what would be recorded."""

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.bottling.typed import (
    CHANGE,
    CLOSE,
    LABELS,
    LEFT,
    START,
    WEIGH,
    AtFiller,
    Typed,
    change_facts,
    close_facts,
)
from honeyledger.desktop.stations.bottling.words import (
    done_message,
    look_messages,
    next_step,
)
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.bottling_page import Wanted
from honeyledger.services.house import Said
from tests.desktop.bottling_rig import PRODUCT, Drums


def test_the_empty_slot_says_the_next_step(drums: Drums) -> None:
    assert next_step(None, Typed()) == "Choose the product, then scan its drums in their order."
    assert next_step(None, Typed(order=("D",))).startswith("Scan the next drum")
    drums.started()
    page = drums.page()
    assert next_step(page, Typed(WEIGH)) == "Weigh filled jars. Scan Drum 1 when it is empty."
    for kind in (CHANGE, CLOSE, LABELS, LEFT):
        assert next_step(page, Typed(kind)).endswith((".", "?"))


def _looked(drums: Drums, typed: Typed) -> list[str]:
    page = drums.page()
    assert page.sheet is not None
    read = change_facts if typed.kind == CHANGE else close_facts
    facts = read(typed, page.sheet, AtFiller())
    entry = drums.rig.house.preview(facts, Said(operator=drums.operator))
    return [one.sentence for one in look_messages(entry, page, typed, AtFiller(), facts)]


def test_what_would_be_filled_and_what_is_left(drums: Drums) -> None:
    code = drums.started()
    assert _looked(drums, Typed(CHANGE, jars="80")) == [
        "80 jars: 40.0 kg from Drum 1, 60.0 kg left there."
    ]
    drums.tell(ChangeOver(code, jars=80))
    assert _looked(drums, Typed(CLOSE, jars="100")) == [
        "20 jars: 10.0 kg from Drum 1, 50.0 kg left there."
    ]
    assert _looked(drums, Typed(CHANGE, jars="190", empty="yes")) == [
        "110 jars: 55.0 kg from Drum 1, nothing left there."
    ]
    assert _looked(drums, Typed(CHANGE, jars="120", empty="yes"))[0] == (
        "40 jars typed, 120 by mass: is it empty, and the count right?"
    )


def test_what_the_ledger_would_note_is_a_warning(drums: Drums) -> None:
    drums.started()
    page = drums.page()
    assert page.sheet is not None
    typed = Typed(CLOSE, jars="210")
    facts = close_facts(typed, page.sheet, AtFiller())
    entry = drums.rig.house.preview(facts, Said(operator=drums.operator))
    first = look_messages(entry, page, typed, AtFiller(), facts)[0]
    assert first.mark is Mark.WARNING
    assert first.sentence == (
        "The books saw 100.0 kg in Drum 1; the missing 5.0 kg is booked as weighing difference."
    )


def test_before_a_start_holds_are_told(drums: Drums) -> None:
    drums.tell(PutOnHold(drums.second, "taste"))
    page = drums.page(Wanted(order=(drums.first, drums.second)))
    facts = ChangeOver(product=PRODUCT, feed=drums.first)
    entry = drums.rig.house.preview(facts, Said(operator=drums.operator))
    (held,) = look_messages(entry, page, Typed(START), AtFiller(), facts)
    assert (held.mark, held.sentence) == (Mark.HOLD, f"On hold. {drums.second}: taste")


def test_what_was_recorded_is_said_and_can_be_reversed(drums: Drums) -> None:
    page = drums.page()
    done = drums.rig.house.record(ChangeOver(product=PRODUCT, feed=drums.first))
    message = done_message(done, page, Typed(START, product=PRODUCT))
    code = done.given[0]
    assert message.sentence == f"Bottling {code} of Clover 500 g has begun."
    assert (message.action, message.about) == ("Reverse", done.entries[0].id)
    page = drums.page()
    done = drums.rig.house.record(ChangeOver(code, jars=80))
    assert done_message(done, page, Typed(CHANGE)).lead == "80 jars so far."
    done = drums.rig.house.record(ChangeOver(code, jars=80, feed=drums.second))
    told = done_message(done, page, Typed(CHANGE, next=drums.second)).lead
    assert told == "80 jars so far; Drum 2 runs now."
    done = drums.rig.house.record(Bottle(code, 100))
    told = done_message(done, page, Typed(CLOSE)).lead
    assert told == f"{code} is made: 100 jars of Clover 500 g, 50.0 kg."
    assert done_message(done, page, Typed(LEFT, lot="D26")).lead == "D26 is weighed."
