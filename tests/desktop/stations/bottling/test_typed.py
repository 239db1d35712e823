"""From what is typed at the filler to facts, and to a draft and back."""

import pytest

from honeyledger.desktop.stations.bottling.typed import (
    CHANGE,
    CLOSE,
    LEFT,
    START,
    WEIGH,
    AtFiller,
    Kept,
    Typed,
    as_draft,
    change_facts,
    cleared,
    close_facts,
    counter_of,
    field_of,
    from_draft,
    jar_weighed,
    jars_by_mass,
    jars_of,
    left_facts,
    serials_of,
    start_facts,
)
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.drums import Reweigh
from honeyledger.services.papers import Serials
from tests.desktop.bottling_rig import Drums
from tests.support.houses import refused

WEIGHED = AtFiller(((0, 502_000), (0, 503_500)))


def test_a_start_is_from_the_first_feed_of_the_order() -> None:
    typed = Typed(product="clover", order=("D26-0001-C", "D26-0002-A"), why="tasted")
    assert start_facts(typed) == ChangeOver(
        product="clover", feed="D26-0001-C", despite_hold="tasted"
    )
    assert start_facts(Typed(feed=" Tank 1 ")).feed == "Tank 1"
    assert counter_of(Typed(counter=" 12340 ")) == 12_340
    assert counter_of(Typed()) == 0


def test_a_change_over_is_read_by_the_counter(drums: Drums) -> None:
    code = drums.started()
    typed = Typed(CHANGE, jars="120", next="D26-0002-A", empty="yes")
    assert change_facts(typed, drums.sheet(), WEIGHED) == ChangeOver(
        code, feed="D26-0002-A", jars=120, mean_net_mg=502_750, empty=True
    )
    typed = Typed(CHANGE, jars="120", mean="501,5")
    facts = change_facts(typed, drums.sheet(), WEIGHED)
    assert (facts.mean_net_mg, facts.empty, facts.feed) == (501_500, False, "")


def test_the_mean_is_of_the_jars_since_the_last_change_over(drums: Drums) -> None:
    code = drums.started()
    drums.tell(ChangeOver(code, jars=100, feed=drums.second))
    assert WEIGHED.mean_mg(drums.sheet()) is None
    both = AtFiller((*WEIGHED.weighed, (100, 499_000)))
    assert both.mean_mg(drums.sheet()) == 499_000
    assert both.weights_mg == (502_000, 503_500, 499_000)
    assert close_facts(Typed(CLOSE, jars="110"), drums.sheet(), WEIGHED).mean_net_mg is None


def test_a_close_has_rejects_and_says_how_it_was_labelled(drums: Drums) -> None:
    code = drums.started()
    facts = close_facts(Typed(CLOSE, jars="110", rejects="3"), drums.sheet(), AtFiller())
    assert facts == Bottle(code, 110, rejects=3)
    later = Typed(CLOSE, jars="110", in_line="no", empty="yes", why="by name")
    facts = close_facts(later, drums.sheet(), AtFiller())
    assert facts == Bottle(code, 110, in_line=False, empty=True, despite_hold="by name")


def test_without_a_counter_the_case_or_the_mass_says_how_many(drums: Drums) -> None:
    drums.started()
    sheet = drums.sheet()
    assert jars_of(Typed(case="1", case_size="12"), sheet, AtFiller()) == 6
    assert jars_of(Typed(case="9", case_size="24"), sheet, AtFiller()) == 204
    assert jars_of(Typed(empty="yes"), sheet, AtFiller()) == 200
    assert jars_of(Typed(empty="yes"), sheet, WEIGHED) == 198
    assert jars_by_mass(sheet, AtFiller(), 60_000) == 320
    assert jars_of(Typed(jars="12500"), sheet, AtFiller(counter=12_340)) == 160


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        (Typed(), "jars", "Nothing is typed here: type a number of jars, such as 24."),
        (
            Typed(jars="12,5"),
            "jars",
            "12,5 is not a whole number: type a number of jars, such as 24.",
        ),
        (
            Typed(jars="90"),
            "jars",
            "The counter stood at 100 when this bottling began and cannot be 90 now. Read it "
            "again.",
        ),
        (
            Typed(case="0", case_size="12"),
            "case",
            "0 cannot be a case number: type a figure from 1 to 1\u202f000\u202f000\u202f000.",
        ),
        (
            Typed(case="2"),
            "case_size",
            "Nothing is typed here: type a number of jars, such as 24.",
        ),
    ],
)
def test_what_is_no_count_is_refused(
    drums: Drums, typed: Typed, field: str, sentence: str
) -> None:
    drums.started()
    with pytest.raises(Refusal) as refusal:
        jars_of(typed, drums.sheet(), AtFiller(counter=100))
    assert (refusal.value.field, refusal.value.text) == (field, sentence)


def test_what_is_left_is_weighed_gross() -> None:
    typed = Typed(LEFT, lot="D26-0001-C", gross="74,5")
    assert left_facts(typed, "kg") == Reweigh("D26-0001-C", Weight(gross_g=74_500))


def test_serials_are_all_where_no_last_one_is_typed() -> None:
    assert serials_of(Typed()) == Serials()
    assert serials_of(Typed(first="25", last="48")) == Serials(25, 48)
    assert "0 cannot be a serial" in refused(lambda: serials_of(Typed(first="0")))


def test_a_jar_is_weighed_net_or_less_the_empty_one() -> None:
    assert jar_weighed(Typed(weight="502,4"), 500) == 502_400
    assert jar_weighed(Typed(weight="742.4", tare="240"), 500) == 502_400
    assert refused(lambda: jar_weighed(Typed(weight="742.4"), 300)) == (
        "742.4 g is no jar of 300 g. Weigh it again, or type what the empty jar weighs."
    )
    assert refused(lambda: jar_weighed(Typed(weight="240", tare="742,4"), 500)) == (
        "A jar of 240.0 g is lighter than the empty one of 742.4 g. Weigh it again."
    )


def test_a_refused_fact_is_shown_at_its_field() -> None:
    some = Sentence("some", "Some.")
    assert field_of(Refusal(some, field="feed"), START) == "feed"
    assert field_of(Refusal(some, field="feed"), CHANGE) == "next"
    assert field_of(Refusal(some, field="mean_net_mg"), CLOSE) == "mean"
    assert field_of(Refusal(some, field="drum"), LEFT) == "lot"
    assert field_of(Refusal(some, field="jars"), CHANGE) == "jars"


def test_fields_are_emptied_by_name() -> None:
    assert cleared(Typed(jars="3", case="4"), ("jars",)) == Typed(case="4")


def test_a_draft_keeps_everything_that_was_typed_and_weighed() -> None:
    typed = Typed(CHANGE, product="clover", order=("D26-0001-C",), jars="12", in_line="no")
    fillers = (("J26-0001-L", AtFiller(((0, 502_000),), 7)),)
    kept = Kept(typed, "J26-0001-L", fillers, "id-1")
    read = as_draft(kept)
    read["fillers"] = {"J26-0001-L": {"weighed": [[0, 502_000]], "counter": 7}}
    assert from_draft({**read, "typed": {**read["typed"], "order": ["D26-0001-C"]}}) == kept  # type: ignore[dict-item]


def test_a_draft_that_is_not_understood_is_empty() -> None:
    assert from_draft({}) == Kept()
    odd = {"typed": {"kind": "dance", "jars": 3, "order": "x"}, "fillers": {"J": 4}}
    assert from_draft(odd) == Kept(Typed(), "", (("J", AtFiller()),))
    assert from_draft({"typed": {"kind": "weigh"}}).typed == Typed(WEIGH)


def test_labels_may_be_of_the_front_the_back_or_the_lid() -> None:
    typed = Typed(lot="J26-0001-A", first="2", label_as="lid seal")
    assert serials_of(typed) == Serials(2, 0, "lid seal")
