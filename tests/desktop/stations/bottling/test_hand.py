"""What is in hand at the filler: jars weighed, bottlings taken up, drafts."""

import pytest

from honeyledger.desktop.stations.bottling.hand import Hand
from honeyledger.desktop.stations.bottling.typed import (
    CHANGE,
    CLOSE,
    LABELS,
    LEFT,
    START,
    WEIGH,
    Typed,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.drums import Reweigh
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.bottling_page import Wanted
from tests.desktop.bottling_rig import PRODUCT, Drums


def _hand(drums: Drums) -> Hand:
    hand = Hand()
    hand.take_page(drums.page(hand.wanted()))
    return hand


def _new_id() -> str:
    return "id-9"


def test_at_rest_whatever_is_open_is_taken_in_hand(drums: Drums) -> None:
    hand = _hand(drums)
    assert (hand.typed.kind, hand.bottling, hand.sheet()) == (START, "", None)
    assert hand.check() is None
    code = drums.started()
    hand.take_page(drums.page(hand.wanted()))
    assert (hand.typed.kind, hand.bottling) == (WEIGH, code)


def test_a_start_that_was_begun_is_not_taken_away(drums: Drums) -> None:
    hand = _hand(drums)
    hand.typed = Typed(order=(drums.second,))
    drums.started()
    assert hand.wanted() == Wanted("", True, (drums.second,))
    hand.take_page(drums.page(hand.wanted()))
    assert (hand.typed.kind, hand.bottling) == (START, "")


def test_another_is_begun_beside_those_that_go_on(drums: Drums) -> None:
    code = drums.started()
    hand = _hand(drums)
    hand.take_in_hand("")
    hand.take_page(drums.page(hand.wanted()))
    assert (hand.bottling, hand.typed.kind, hand.next_open()) == ("", START, code)
    hand.take_in_hand(code)
    assert hand.wanted() == Wanted(code)
    assert hand.typed.kind == WEIGH
    assert Hand().next_open() == ""


def test_jars_are_weighed_one_after_another_and_taken_back(drums: Drums) -> None:
    drums.started()
    hand = _hand(drums)
    assert not hand.weigh()
    assert not hand.take_back_jar()
    for text in ("502", "498,5"):
        hand.typed = Typed(WEIGH, weight=text, tare="")
        assert hand.weigh()
    check = hand.check()
    assert check is not None
    assert (check.weighed, check.mean_mg) == (2, 500_250)
    hand.typed = Typed(WEIGH, weight="51")
    with pytest.raises(Refusal, match=r"51\.0 g is no jar of 500 g"):
        hand.weigh()
    assert not hand.take_back_jar(), "what is being typed goes first"
    hand.typed = Typed(WEIGH)
    assert hand.take_back_jar()
    assert hand.filler().weights_mg == (502_000,)


def test_the_facts_of_each_kind(drums: Drums) -> None:
    hand = _hand(drums)
    assert isinstance(hand.facts("kg"), ChangeOver)
    hand.typed = Typed(START, counter="x")
    with pytest.raises(Refusal):
        hand.facts("kg")
    hand.typed = Typed(LEFT, lot="D", gross="12")
    assert isinstance(hand.facts("kg"), Reweigh)
    drums.started()
    hand.take_page(drums.page())
    hand.typed = Typed(CHANGE, jars="1")
    assert isinstance(hand.facts("kg"), ChangeOver)
    hand.typed = Typed(CLOSE, jars="1")
    assert isinstance(hand.facts("kg"), Bottle)
    hand.typed = Typed(LABELS)
    assert hand.facts("kg") is None


def test_after_each_entry_the_next_step_begins(drums: Drums) -> None:
    hand = _hand(drums)
    typed = Typed(START, PRODUCT, (drums.first, drums.second), counter="100")
    hand.command = "id-1"
    page = drums.page()
    done = drums.rig.house.record(ChangeOver(product=PRODUCT, feed=drums.first))
    hand.after(typed, page, done)
    code = done.given[0]
    assert (hand.bottling, hand.command, hand.filler().counter) == (code, "", 100)
    assert hand.typed == Typed(WEIGH, PRODUCT, (drums.second,))
    hand.take_page(drums.page(hand.wanted()))
    page = drums.page(hand.wanted())
    done = drums.rig.house.record(ChangeOver(code, jars=150, feed=drums.second))
    hand.after(Typed(CHANGE, PRODUCT, (drums.second,), next=drums.second), page, done)
    assert hand.typed == Typed(WEIGH, PRODUCT)
    page = drums.page(hand.wanted())
    done = drums.rig.house.record(Bottle(code, 160))
    hand.after(Typed(CLOSE, PRODUCT, jars="260"), page, done)
    assert (hand.bottling, hand.typed.kind, hand.typed.lot) == ("", LEFT, drums.second)
    assert hand.filler().counter == 0
    hand.after(Typed(LEFT, PRODUCT, lot=drums.second, gross="70"), page, done)
    assert hand.typed == Typed(START, PRODUCT)


def test_a_bottling_that_was_closed_elsewhere_takes_its_form_with_it(drums: Drums) -> None:
    code = drums.started()
    hand = _hand(drums)
    hand.typed = Typed(WEIGH, PRODUCT, weight="502")
    hand.weigh()
    hand.typed = Typed(CLOSE, PRODUCT, jars="12")
    drums.tell(Bottle(code, 100))
    hand.take_page(drums.page(hand.wanted()))
    assert (hand.bottling, hand.typed) == ("", Typed(START, PRODUCT))
    assert hand.draft(_new_id)["fillers"] == {}


def test_the_form_is_emptied_but_for_what_stays_the_same(drums: Drums) -> None:
    hand = _hand(drums)
    hand.typed = Typed(CHANGE, jars="3", case_size="12", tare="240")
    hand.command = "id-1"
    hand.clear()
    assert (hand.typed, hand.command) == (Typed(CHANGE, case_size="12", tare="240"), "")


def test_a_code_that_means_nothing_here_is_left_to_its_card(drums: Drums) -> None:
    assert Hand().scan(drums.first, "", 0) is None
    hand = _hand(drums)
    assert hand.scan("no code", "", 0) is None
    assert hand.scan("G26-0001-3", "", 0) is None


def test_a_double_scan_does_nothing_twice(drums: Drums) -> None:
    hand = _hand(drums)
    for now_ms, is_double in ((10_000, False), (12_000, True), (16_000, False)):
        after = hand.scan(drums.first.lower(), "", now_ms)
        assert after is not None
        assert after.is_double == is_double


def test_a_draft_is_kept_and_taken_up_again(drums: Drums) -> None:
    code = drums.started()
    hand = _hand(drums)
    assert hand.draft(_new_id) == {}, "there is nothing to lose"
    hand.typed = Typed(WEIGH, weight="502")
    hand.weigh()
    hand.typed = Typed(CHANGE, jars="12")
    draft = hand.draft(_new_id)
    assert draft["command"] == "id-9"
    assert hand.command_id(lambda: "another") == "id-9"
    read = {**draft, "fillers": {code: {"weighed": [[0, 502_000]], "counter": 0}}}
    again = _hand(drums)
    again.restore(read)
    assert again.typed == Typed(CHANGE, jars="12")
    assert (again.bottling, again.command) == (code, "id-9")
    assert again.filler().weights_mg == (502_000,)


def test_a_draft_of_what_was_closed_meanwhile_is_none(drums: Drums) -> None:
    code = drums.started()
    hand = _hand(drums)
    hand.typed = Typed(CHANGE, jars="12")
    draft = hand.draft(_new_id)
    drums.tell(Bottle(code, 100))
    again = _hand(drums)
    again.restore(draft)
    assert again.typed == Typed(START, PRODUCT)
    Hand().restore(draft)
    typing = _hand(drums)
    typing.typed = Typed(START, PRODUCT, feed="dru")
    typing.restore({"typed": {"kind": "left"}})
    assert typing.typed.feed == "dru", "nobody's typing is written over"


def test_what_a_label_may_not_claim_is_of_the_product_in_hand(drums: Drums) -> None:
    drums.tell(Register("product", {"name": "Clover 500 g", "net_g": 500, "crop": 2020}, PRODUCT))
    hand = Hand()
    assert hand.against() == ()
    hand.take_page(drums.page(Wanted(order=(drums.first,))))
    hand.typed = Typed(product=PRODUCT)
    assert [one.key for one in hand.against()] == ["other-crop"]
    hand.typed = Typed(product="no such")
    assert hand.against() == ()
