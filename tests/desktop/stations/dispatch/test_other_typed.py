"""A return, what is thrown away, a sample: the facts that are typed."""

import pytest

from honeyledger.desktop.stations.dispatch.other_typed import (
    AWAY,
    BACK,
    SAMPLE,
    TO_AWAY,
    TO_HOLD,
    OtherTyped,
    facts_of,
    holder_of,
    other_as_draft,
    other_from_draft,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dispatch import Discard, TakeBack
from honeyledger.ledger.verbs.quality import PutOnHold, Sample
from honeyledger.services.dispatch_returns import CameBack, Holder

LOT, DRUM = "J26-0001-L", "D26-0001-C"
HAD = CameBack(
    LOT, "J", "Clover", (Holder("Packer", "Packer", 12, 6_000, 1), Holder("gate", "g", 2, 900, 0))
)
HAD_DRUM = CameBack(DRUM, "D", "", (Holder("Packer", "Packer", 0, 280_000, 1),))


def _refused(kind: str, typed: OtherTyped) -> Refusal:
    with pytest.raises(Refusal) as caught:
        facts_of(kind, typed, "kg", None)
    return caught.value


def test_jars_come_back_to_stock() -> None:
    typed = OtherTyped(LOT, " packer ", "2x6", reason="broken")
    assert facts_of(BACK, typed, "kg", HAD) == [TakeBack("packer", LOT, "broken", jars=12)]


def test_what_comes_back_is_thrown_away_by_its_own_number() -> None:
    some = OtherTyped(LOT, "Packer", "5", reason="other", words=" leaking lids ", goes=TO_AWAY)
    assert facts_of(BACK, some, "kg", HAD) == [
        TakeBack("Packer", LOT, "leaking lids", jars=5),
        Discard(LOT, "leaking lids", 5),
    ]
    every = OtherTyped(LOT, "Packer", reason="broken", goes=TO_AWAY)
    assert facts_of(BACK, every, "kg", HAD)[1] == Discard(LOT, "broken", 12)
    drum = OtherTyped(DRUM, "Packer", reason="broken", goes=TO_AWAY)
    assert facts_of(BACK, drum, "kg", HAD_DRUM)[1] == Discard(DRUM, "broken", None, 280_000)
    part = OtherTyped(DRUM, "Packer", net="50", reason="broken", goes=TO_AWAY)
    assert facts_of(BACK, part, "kg", HAD_DRUM)[1] == Discard(DRUM, "broken", None, 50_000)


def test_what_comes_back_is_held() -> None:
    typed = OtherTyped(LOT, "Packer", "5", reason="wrong", goes=TO_HOLD)
    assert facts_of(BACK, typed, "kg", HAD)[1] == PutOnHold(LOT, "wrong")


def test_a_whole_note_comes_back_to_stock_only() -> None:
    typed = OtherTyped("N26-0001-R", reason="unsold")
    assert facts_of(BACK, typed, "kg", None) == [TakeBack("", "N26-0001-R", "unsold")]
    refusal = _refused(BACK, OtherTyped("KB-N26-0001-R", reason="x", goes=TO_HOLD))
    assert (refusal.field, refusal.text) == (
        "lot",
        "All of KB-N26-0001-R comes back to stock. To throw it away or hold it, scan its lots "
        "one by one.",
    )


def test_what_is_thrown_away_and_what_is_sampled() -> None:
    assert facts_of(AWAY, OtherTyped(LOT, jars="3", reason="spilt"), "kg", None) == [
        Discard(LOT, "spilt", 3)
    ]
    both = OtherTyped(f"{LOT}; {DRUM}, {LOT}", net="250", kept=" shelf 3 ")
    assert facts_of(SAMPLE, both, "lb", None) == [Sample((LOT, DRUM), 250, "shelf 3")]


def test_what_cannot_be_read_is_refused() -> None:
    assert _refused(AWAY, OtherTyped(reason="spilt")).text == "Name the lot, or scan its code."
    assert _refused(AWAY, OtherTyped(LOT, jars="3,5")).field == "jars"
    assert _refused(SAMPLE, OtherTyped(LOT)).field == "net_g"
    assert _refused(BACK, OtherTyped(DRUM, net="1.234")).field == "net_g"


def test_who_is_meant_by_a_name() -> None:
    found = holder_of(OtherTyped(party=" PACKER "), HAD)
    assert found is not None
    assert found.jars == 12
    assert holder_of(OtherTyped(party="Corner Shop"), HAD) is None
    assert holder_of(OtherTyped(), HAD) is None
    assert holder_of(OtherTyped(party="Packer"), None) is None


def test_a_form_is_kept_and_comes_back() -> None:
    typed = OtherTyped(LOT, "Packer", "5", "", "other", "lids", TO_HOLD, "shelf 3")
    assert typed.is_begun
    assert not OtherTyped().is_begun
    assert other_from_draft(other_as_draft(typed)) == typed
    assert other_from_draft({"lot": LOT, "jars": 7}) == OtherTyped(LOT)
    assert other_from_draft(None) == OtherTyped()
