"""What goes wrong in a honey house: what happened, what the ledger says, what people are told.

Each test is one trouble as bookkeepers and auditors of honey houses describe them (common
practice, no source); the troubles that have a story of their own elsewhere are named there.
"""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill, Reweigh
from honeyledger.ledger.verbs.floor import Cappings, CloseRun, Heel, Load, OpenRun, WetOut
from honeyledger.ledger.verbs.jars import LabelJars
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.opening import FoundDrum
from honeyledger.ledger.verbs.owners import Pool, Settle
from honeyledger.ledger.verbs.quality import PutOnHold, Release
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import Disease
from honeyledger.services.bottling_makeup import Makeup, makeup_of
from honeyledger.services.cards import lot_card
from honeyledger.services.labelling import label_rows
from honeyledger.services.settling import statement
from honeyledger.services.store import View
from honeyledger.services.through import through
from tests.support.books import attributes, code_in, holding, mark, origins, postings, turned_down
from tests.support.houses import MINUTE_MS, START_MS, BuiltHouse, refused

YEAR_MIN = 366 * 24 * 60


@pytest.fixture
def house() -> BuiltHouse:
    """Three yards, a line and its tank, a bottling tank, containers, customers, a supplier."""
    house = BuiltHouse()
    for name in ("Creek", "Hill", "Moor"):
        house.yard(name)
    house.vessel("Line", sort="line")
    house.vessel("Tank", fed_by="Line")
    house.vessel("Bottling tank")
    for name in ("Drum 1", "Drum 2"):
        house.container(name, tare_g=18_000, usual_g=100_000, limit_g=300_000)
    for kind, name in (("customer", "Shop"), ("customer", "Wendt"), ("supplier", "Ridge")):
        house.do(Register(kind, {"name": name}))
    for name in ("Clover 500", "Clover 250"):
        house.do(Register("product", {"name": name, "net_g": int(name[-3:])}))
    return house


def _in_run(house: BuiltHouse, run: str, yard: str, grams: int, owner: str = "") -> str:
    facts = Receive((Line(yard, 10, owner=owner),), gross_g=grams + 60_000, tare_g=0)
    done = house.do(facts)
    house.do(Load(code_in(done, "G"), "Line"), run=run)
    return done.codes[0]


def _jars(house: BuiltHouse, product: str, feed: str, count: int) -> str:
    code = code_in(house.do(ChangeOver(product=product, feed=feed)), "J")
    house.do(Bottle(code, count))
    return code


def test_several_yards_in_one_run_are_all_sources_of_each_drum(house: BuiltHouse) -> None:
    """The run's sheet says "mixed run" (see the command line's tests of it)."""
    run = code_in(house.do(OpenRun("Line")), "R")
    for yard in ("Creek", "Hill", "Moor"):
        _in_run(house, run, yard, 100_000)
    for grams in (100_000, 150_000):
        shares = house.shares(house.drum("Tank", grams, run=run))
        assert shares == pytest.approx({"Creek": 1 / 3, "Hill": 1 / 3, "Moor": 1 / 3})


def test_a_heel_links_one_run_to_the_next_until_a_wash(house: BuiltHouse) -> None:
    first = code_in(house.do(OpenRun("Line")), "R")
    _in_run(house, first, "Creek", 100_000)
    house.drum("Tank", 80_000, run=first)
    house.do(CloseRun(first, (Heel("Tank", 12_000),)))
    second = house.do(OpenRun("Line"))
    (heels,) = (mark(house, f"run/{code_in(second, 'R')}", "opened")["heels"],)
    assert [grams for _, grams in heels] == [0, 12_000]  # the last heel out is the heel in
    _in_run(house, code_in(second, "R"), "Hill", 100_000)
    assert "Creek" in house.shares(house.drum("Tank", 50_000))
    house.wash("Line", "Tank", remains="discarded")
    house.load("Moor", 50_000, "Line")
    assert set(house.shares(house.drum("Tank", 50_000))) == {"Moor"}


def test_a_drum_cannot_be_filled_into_nothing_and_one_without_a_label_is_unknown(
    house: BuiltHouse,
) -> None:
    run = code_in(house.do(OpenRun("Line")), "R")
    pull = _in_run(house, run, "Creek", 100_000)
    assert turned_down(house, Fill("Tank", Weight(net_g=50_000), bung=False)) == (
        "A drum that waits for more needs a container's number. Scan the container."
    )
    house.do(Fill("Tank", Weight(net_g=50_000)), run=run)
    house.do(CloseRun(run))
    done = house.do(FoundDrum(Weight(net_g=48_000), written="a smear"))
    drum = code_in(done, "D")
    (source,) = origins(house, drum)
    assert done.notes[0].startswith(
        f"{drum} stands for a drum of 48.0 kg that the books do not know, on hold. It may be of "
        f"{run}"
    )
    assert house.shares(drum) == {"source not known": 1.0}
    sent = Dispatch("Shop", (DispatchLine(drum),))
    assert turned_down(house, sent).startswith(f"{drum} is on hold through {source}")
    house.do(Amend(drum, "the smear is a 5", run=run))
    assert house.shares(drum) == {"Creek": 1.0, "source not known": 0.0}
    assert pull in {row.code for row in house.back(drum).lots}
    house.do(Release(source, "it was of that run"))
    house.do(sent)


def test_a_container_is_used_again_and_each_filling_has_its_own_code(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank")
    first = house.do(Fill("Tank", Weight(net_g=90_000), container="Drum 1")).codes[-1]
    house.do(Fill("Drum 1", into="Bottling tank", whole=True))
    house.now_ms += YEAR_MIN * MINUTE_MS
    house.load("Hill", 100_000, "Tank")
    second = house.do(Fill("Tank", Weight(net_g=90_000), container="Drum 1", washed=True))
    again = second.codes[-1]
    assert first[:3] == "D26"
    assert again[:3] == "D27"
    assert attributes(house, first)["container"] == attributes(house, again)["container"]
    assert "Hill" not in house.shares(first)


def test_a_lots_code_is_never_given_twice_and_on_two_products_labels_is_told(
    house: BuiltHouse,
) -> None:
    house.load("Creek", 100_000, "Bottling tank")
    jars = _jars(house, "Clover 500", "Bottling tank", 20)
    house.do(Register("product", {"name": "Farm shop 500", "net_g": 500}))
    house.do(LabelJars(jars, 10))
    assert house.do(LabelJars(jars, 10, product="Farm shop 500")).notes == (
        f"{jars} stands on labels of Clover 500 already: whoever is warned of the code by one "
        "product's name has to hear of the other.",
    )
    entry = house.house.ask(lambda view: view.head().entry)
    house.do(Reverse(entry, "one product only"))
    house.do(Fill(jars, into="Bottling tank", jars=20))  # nothing of it is left
    assert _jars(house, "Clover 500", "Bottling tank", 20) != jars


def test_two_batches_of_one_day_have_two_codes(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Bottling tank")
    codes = [_jars(house, "Clover 500", "Bottling tank", 20) for _ in range(2)]
    assert len(set(codes)) == 2
    assert turned_down(house, Bottle(codes[0], 10)).startswith(f"{codes[0]} is not an open")


def test_wet_supers_of_a_sick_yard_do_not_go_to_another(house: BuiltHouse) -> None:
    run = code_in(house.do(OpenRun("Line")), "R")
    pull = _in_run(house, run, "Creek", 100_000)
    house.do(WetOut(4, pull=pull, to="Hill"), run=run)
    done = house.do(Disease("Creek", "foulbrood", "2026-07-24"))
    assert done.notes[-1] == "Empties of Creek since 24 Jul 2026 went to: Hill."
    assert turned_down(house, WetOut(6, pull=pull, to="Moor"), run=run) == (
        "These empties come from Creek, flagged for foulbrood since 24 Jul 2026: they do not go "
        "to another yard. Keep them apart, or have a named person say why they go."
    )


def test_honey_of_two_seasons_has_both_years_and_no_label_of_one(house: BuiltHouse) -> None:
    house.do(
        Register("product", {"name": "Clover 500", "net_g": 500, "crop": 2027}, key="clover-500")
    )
    house.load("Creek", 50_000, "Bottling tank")
    house.now_ms += YEAR_MIN * MINUTE_MS
    house.load("Hill", 50_000, "Bottling tank")
    jars = _jars(house, "Clover 500", "Bottling tank", 20)

    def makeup(view: View) -> Makeup | None:
        lot = view.lot_by_code(jars)
        return makeup_of(view, {lot.id: lot.made_g}) if lot else None

    found = house.house.ask(makeup)
    assert found is not None
    assert set(found.claims.of("crop").says) == {"2026", "2027"}
    said = refused(lambda: house.house.ask(lambda view: list(label_rows(view, jars))))
    assert said.startswith("The label of Clover 500 says crop 2027")


def test_bought_in_honey_is_no_yard_and_waits_for_its_papers(house: BuiltHouse) -> None:
    bought = house.do(Purchase("Ridge", Weight(net_g=100_000))).codes[0]
    assert set(house.shares(bought)) == {"Ridge"}
    assert turned_down(house, Dispatch("Shop", (DispatchLine(bought),))).startswith(
        f"{bought} is on hold through {bought}"
    )
    bare = Release(bought, "it came by fax")
    assert "certificate" in turned_down(house, bare)
    house.do(Release(bought, "it came", certificate="C 31", supplier_lot="L7", country="AR"))
    house.do(Dispatch("Shop", (DispatchLine(bought),)))


def test_own_honey_back_is_a_run_of_ones_own(house: BuiltHouse) -> None:
    run = code_in(house.do(OpenRun("Line", owner="Wendt")), "R")
    _in_run(house, run, "Creek", 100_000, owner="Wendt")
    pull, tag = house.pull("Hill", 100_000)
    assert turned_down(house, Load(tag, "Line"), run=run).startswith(f"{pull} is Test House's")
    drum = house.drum("Tank", 90_000, run=run)
    assert mark(house, drum, "owner")["owner"] == "customer/wendt"
    assert set(house.shares(drum)) == {"Creek"}


def test_a_pooled_run_says_so_and_is_shared_to_the_gram(house: BuiltHouse) -> None:
    run = code_in(house.do(OpenRun("Line")), "R")
    assert house.do(Pool("agreed", run)).notes == (
        "From a pooled run nobody gets the honey of their own hives alone: say so to the owners.",
    )
    for yard, owner in (("Creek", "Wendt"), ("Hill", ""), ("Moor", "A neighbour")):
        _in_run(house, run, yard, 100_000, owner=owner)
    house.drum("Tank", 250_001, run=run)
    house.do(CloseRun(run))
    house.do(Settle(run))
    found = house.house.ask(lambda view: statement(view, run))
    assert sorted(row.honey_g for row in found.rows) == [83_333, 83_334, 83_334]
    assert sum(row.honey_g for row in found.rows) == found.honey_g == 250_001


def test_a_settlement_says_what_went_in_and_out_by_owner(house: BuiltHouse) -> None:
    """Boxes, honey in, taken out by two weighings, moisture, cappings, what the house keeps."""
    run = code_in(house.do(OpenRun("Line")), "R")
    house.do(Pool("agreed", run))
    pulls = [_in_run(house, run, "Creek", 100_000, owner="Wendt")]
    pulls.append(_in_run(house, run, "Hill", 100_000))
    for pull, wet_g in zip(pulls, (62_000, 66_000), strict=True):
        house.do(WetOut(10, gross_g=wet_g, pull=pull), run=run)
    drum = house.drum("Tank", 150_000, run=run)
    house.do(Measure(drum, moisture=1_780))
    house.do(Cappings("Line", 20_001), run=run)
    house.do(CloseRun(run))
    house.do(Settle(run, 75))
    found = house.house.ask(lambda view: statement(view, run))
    wendt, ours = found.rows
    assert (found.basis, found.moisture, found.honey_g) == ("weighed", 1_780, 150_000)
    assert (wendt.supers, wendt.taken_g, ours.taken_g) == (10, 98_000, 94_000)
    assert (wendt.honey_g, ours.honey_g) == (76_563, 73_437)  # 150 kg by 98 to 94: 76,562.5
    assert (wendt.kept_g, wendt.due_g) == (5_742, 70_821)
    assert wendt.cappings_g + ours.cappings_g == found.cappings_g == 20_001


def test_a_jar_taken_and_not_noted_shows_as_weighing_difference(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank")
    drum = house.drum("Tank", 90_000)
    done = house.do(Reweigh(drum, Weight(net_g=89_400)))
    assert (drum, "difference", 600) in postings(house, done)


@pytest.mark.parametrize(
    ("gross_g", "tare_g", "said"),
    [
        (
            18_000,
            318_000,
            "Gross 18.0 kg is not above the tare of 318.0 kg. Weigh again, or correct the tare.",
        ),
        (
            680_000,
            18_000,
            "662.0 kg does not go into Drum 1, which takes 300.0 kg at most: check pounds against "
            "kilograms, and gross against tare.",
        ),
    ],
)
def test_weights_typed_wrong(house: BuiltHouse, gross_g: int, tare_g: int, said: str) -> None:
    """Gross and tare swapped; pounds typed as kilograms."""
    house.load("Creek", 700_000, "Tank")
    facts = Fill("Tank", Weight(gross_g=gross_g, tare_g=tare_g), container="Drum 1")
    assert turned_down(house, facts) == said


def test_what_is_written_later_keeps_both_times_and_is_marked_late(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank", at_min=10)
    house.drum("Tank", 10_000, at_min=100)
    done = house.do(Fill("Tank", Weight(net_g=10_000)), at_min=50)
    (entry,) = done.entries
    assert entry.act.happened.at_ms == START_MS + 50 * MINUTE_MS
    assert entry.recorded_ms > entry.act.happened.at_ms
    assert any(note.startswith("Typed later than other entries on Tank") for note in done.notes)


def test_after_shipping_only_a_correction_is_possible(house: BuiltHouse) -> None:
    pull = house.load("Creek", 100_000, "Tank")
    filled = house.do(Fill("Tank", Weight(net_g=90_000)))
    drum = code_in(filled, "D")
    house.do(Dispatch("Shop", (DispatchLine(drum),)))
    assert "Entry" in turned_down(house, Reverse(filled.entries[0].id, "wrong"))
    house.do(Amend(pull, "Y14 typed for Y41", yard="Hill"))
    assert house.shares(drum) == {"Hill": 1.0, "Creek": 0.0}
    assert [row.name for row in house.forward("Hill").customers] == ["Shop"]


def test_jars_emptied_back_make_a_circle_by_product_and_none_by_lot(house: BuiltHouse) -> None:
    house.load("Creek", 50_000, "Bottling tank")
    first = _jars(house, "Clover 500", "Bottling tank", 50)
    house.do(Fill(first, into="Bottling tank", jars=10))
    second = _jars(house, "Clover 500", "Bottling tank", 20)
    (fill,) = [code for code in origins(house, second) if code[0] == "T"]
    assert first in origins(house, fill)
    assert set(house.shares(second)) == {"Creek"}
    assert holding(house, first)["jars"] == (20_000, 40)


def test_wet_honey_blended_down_stays_held_until_a_second_reading(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank")
    wet = house.drum("Tank", 90_000)
    house.do(Measure(wet, moisture=1960))
    house.do(PutOnHold(wet, "19.6 %: ferments as it is"))
    house.load("Hill", 300_000, "Bottling tank")
    poured = Fill(wet, into="Bottling tank", whole=True)
    assert turned_down(house, poured).endswith("only if a named person says why.")
    house.do(Fill(wet, into="Bottling tank", whole=True, despite_hold="blended down to 17.9 %"))
    blended = house.do(
        Fill("Bottling tank", Weight(net_g=290_000), container="Drum 2", despite_hold="as above")
    ).codes[-1]
    assert turned_down(house, Dispatch("Shop", (DispatchLine(blended),))).startswith(
        f"{blended} is on hold through {wet}"
    )
    house.do(Measure(blended, moisture=1780))
    house.do(Release(wet, "the blend reads 17.8 %"))
    house.do(Dispatch("Shop", (DispatchLine(blended),)))
    card = house.house.ask(lambda view: lot_card(view, wet))
    assert card.moisture == 1960  # both lots and both readings stay


def test_two_sizes_from_one_batch_are_two_lots_of_the_same_drum(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank")
    drum = house.drum("Tank", 90_000)
    large = _jars(house, "Clover 500", drum, 60)
    small = _jars(house, "Clover 250", drum, 40)
    assert house.shares(large) == house.shares(small) == {"Creek": 1.0}
    assert {large, small} <= {row.code for row in house.forward(drum).lots}


def test_a_label_and_its_lineage_disagree(house: BuiltHouse) -> None:
    record = {"name": "Clover 500", "net_g": 500, "claims_region": "Fen Edge"}
    house.do(Register("product", record, key="clover-500"))
    house.load("Creek", 50_000, "Bottling tank")
    jars = _jars(house, "Clover 500", "Bottling tank", 10)
    said = refused(lambda: house.house.ask(lambda view: list(label_rows(view, jars))))
    assert said.startswith("The label of Clover 500 says Fen Edge")


def test_foreign_matter_is_searched_by_vessel_and_time(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Bottling tank", at_min=10)
    jars = code_in(house.do(ChangeOver(product="Clover 500", feed="Bottling tank")), "J")
    house.do(Bottle(jars, 100))
    house.do(Dispatch("Shop", (DispatchLine(jars, jars=60),)))
    first, last = START_MS, START_MS + 60 * MINUTE_MS
    found = house.house.ask(lambda view: through(view, "Bottling tank", first, last))
    assert jars in {row.code for row in found.forward.lots}
    assert [(row.name, row.jars) for row in found.forward.customers] == [("Shop", 60)]
