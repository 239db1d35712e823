"""What has to happen in a season to be believed is in the sample, each where it left its mark."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.holds import open_holds, target_text
from honeyledger.ledger.places import CUSTOMER, PALLET, UNKNOWN, YARD, place
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.stops import REASONS
from honeyledger.services.house import Said
from honeyledger.services.tracing import trace_back, trace_forward
from tests.support.sample import (
    Season,
    code,
    notes,
    said,
    sample_house,
    season_read,
    tonnes,
    whole,
)


@pytest.fixture(scope="module")
def season(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Season]:
    with season_read(tmp_path_factory.mktemp("season")) as read:
        yield read


def test_pallets_of_two_yards_and_a_pallet_split(season: Season) -> None:
    yards = [{lot.attributes["yard"] for lot in e.lots} for e in season.of("receive")]
    shared = [one for one in yards if len(one) > 1]
    assert len(shared) >= 3
    (split,) = season.of("split")
    assert said(split)["count"] == 14
    assert len(season.of("join")) == len(season.of("count")) == 1


def test_twelve_supers_are_carried_over_to_the_next_run(season: Season) -> None:
    loads = season.of("load")
    parts = {said(e)["pallet"]: e for e in loads if said(e).get("count")}
    carried = [e for e in loads if said(e)["pallet"] in parts and not said(e).get("count")]
    (rest,) = [e for e in carried if e.act.run == code("run 10")]
    pieces = rest.facts["effects"]["pieces"]  # type: ignore[index, call-overload]
    assert [row[2] for row in pieces] == [-12]


def test_an_untagged_pallet_was_unknown_honey_and_is_amended(season: Season) -> None:
    unknown = season.lot("unknown 1")
    (made,) = [e for e in season.entries if any(n[0] == "unknown-honey" for n in notes(e))]
    assert unknown.made_by == made.id
    assert made.act.run == code("run 20")
    rows = {row.place: row.grams for row in season.view.holdings(unknown.id)}
    assert rows[UNKNOWN] == 0
    assert any(where.startswith(f"{YARD}/") and grams < 0 for where, grams in rows.items())
    late = [edge for edge in season.view.origins(unknown.id) if edge.late]
    assert late
    assert not any(hold.target == unknown.code for hold in open_holds(season.view))


def test_receipts_on_paper_are_typed_after_the_run_and_widen_it(season: Season) -> None:
    run = code("run 8")
    typed = [e for e in season.of("receive") if e.recorded_ms - e.act.happened.at_ms > 3_600_000]
    assert len(typed) == 2
    loads = [
        e
        for e in season.of("load")
        if e.act.run == run and e.recorded_ms - e.act.happened.at_ms > 3_600_000
    ]
    assert len(loads) == 2
    ways = {
        row.name: row.how
        for lot in season.lots("D")
        if lot.attributes.get("run") == run
        for row in trace_back(season.view, lot.code).ancestors
    }
    assert any("late" in how for how in ways.values())


def test_a_wrong_yard_found_after_shipping_is_amended_and_stays_in_reach(season: Season) -> None:
    pull = next(
        season.view.lot_by_code(said(e)["lot"])
        for e in season.of("amend")
        if said(e).get("yard") == "Wrenlatch West"
    )
    assert pull is not None
    trace = {row.name: row for row in trace_back(season.view, pull.code).ancestors}
    assert trace["Wrenlatch West"].share == 1
    assert trace["Wrenlatch East"].share == 0
    assert "amended" in trace["Wrenlatch East"].how
    gone = trace_forward(season.view, pull.code)
    assert "Corvane Packing" in {row.name for row in gone.customers}


def test_a_wrong_yard_seen_the_same_evening_is_narrowed(season: Season) -> None:
    (narrowed,) = season.of("narrow")
    names = {row.name for row in trace_back(season.view, said(narrowed)["lot"]).ancestors}
    assert names == {"Lower Tansel"}
    assert narrowed.act.operator == code("nell varrowby")


def test_a_drum_is_topped_up_the_next_day(season: Season) -> None:
    (void,) = [m for m in season.view.marked("label") if m.value == "void"]
    old = season.view.lot_by_code(void.subject)
    assert old is not None
    (new,) = [
        lot
        for lot in season.lots("D")
        if any(edge.parent == old.id and edge.grams for edge in season.view.origins(lot.id))
    ]
    times = [season.view.entry(lot.made_by) for lot in (old, new)]
    hours = (times[1].act.happened.at_ms - times[0].act.happened.at_ms) / 3_600_000  # type: ignore[union-attr]
    assert 12 < hours < 36
    assert new.attributes["container"] == old.attributes["container"]


def test_the_line_is_washed_once_and_the_sump_on_sundays(season: Season) -> None:
    washes = [said(e)["vessels"] for e in season.of("wash")]
    assert washes.count(["Line A", "Sump", "Settling tank"]) == 1
    assert washes.count(["Sump"]) == len(washes) - 1 >= 6
    first = season.view.lot_by_code(code("drum 1"))
    after = trace_forward(season.view, "Brackle Slough", "2026-07-01", "2026-07-31")
    august = {lot.code for lot in season.lots("D") if lot.attributes.get("run") == code("run 14")}
    assert first is not None
    assert not august & {row.code for row in after.lots}  # the wash cut July off


def test_cappings_stay_overnight_across_runs(season: Season) -> None:
    runs: dict[int, set[str]] = {}
    loads = {p.lot: e.act.run for e in season.of("load") for p in e.postings}
    for barrel in season.lots("W", "cappings"):
        origins = season.view.origins(barrel.id)
        runs[barrel.id] = {loads[edge.parent] for edge in origins if edge.grams}
    assert any(len(of) > 1 for of in runs.values())


def test_a_pallet_under_treatment_hold_is_stopped_at_the_uncapper(
    season: Season, tmp_path: Path
) -> None:
    holds = [h for h in open_holds(season.view) if h.target.startswith(f"{YARD}/")]
    (hold,) = [h for h in holds if target_text(season.view, h) == "Thrumley Road"]
    lots = {lot.id for lot in season.view.source_lots(hold.target)}
    (row,) = [one for one in season.view.held_at(PALLET) if one.lot in lots]
    house = sample_house(tmp_path)
    with pytest.raises(Refusal) as refused:
        house.record(Load(row.place.partition("/")[2], "Line A"), Said(run=code("run 26")))
    house.store.close()
    assert (
        "is on hold through Thrumley Road: treated with formic acid pads on 1 Sep 2026"
        in refused.value.text
    )
    assert "It can go on only if a named person says why." in refused.value.text


def test_a_refractometer_reads_low_for_a_week(season: Season) -> None:
    again: dict[str, list[int]] = {}
    for entry in season.of("measure"):
        told = said(entry)
        if "Refractometer 2" in told.get("instrument", "") or "0.4 low" in told.get(
            "instrument", ""
        ):
            again.setdefault(told["lot"], []).append(told["moisture"])
    assert len(again) >= 8
    assert all(second - first == 40 for first, second in again.values())
    days = [e.act.happened.at_ms for e in season.of("measure") if _is_low(e)]
    assert 3 <= (max(days) - min(days)) / 86_400_000 <= 8


def _is_low(entry: Entry) -> bool:
    return bool(said(entry).get("instrument") == "Refractometer 2")


def test_a_broken_jar_costs_forty_more(season: Season) -> None:
    (thrown,) = [e for e in season.of("discard") if said(e).get("jars") == 41]
    lot = said(thrown)["code"]
    held = [e for e in season.of("hold") if said(e)["target"] == lot]
    released = [e for e in season.of("release") if said(e)["hold"] == lot]
    assert len(held) == len(released) == 1
    assert held[0].id < thrown.id < released[0].id


def test_a_contract_owners_supers_and_his_own_honey_back(season: Season) -> None:
    pulls = [lot for lot in season.lots("S") if lot.attributes.get("owner") == "Wendt Harloff"]
    assert sum(whole(lot, "count") for lot in pulls) == 110
    assert tonnes(pulls) == pytest.approx(1.6, rel=0.02)
    owner = place(CUSTOMER, "wendt-harloff")
    got = [p for e in season.of("dispatch") for p in e.postings if p.place == owner]
    assert len(got) >= 4


def test_one_drum_is_cleared_while_its_pull_stays_held(season: Season) -> None:
    (cleared,) = season.of("clear")
    drum = season.view.lot_by_code(said(cleared)["lot"])
    assert drum is not None
    pulls = [h for h in open_holds(season.view) if h.target.startswith("S")]
    (hold,) = [h for h in pulls if not h.reason.startswith("found")]
    assert drum.id in hold.cleared
    assert any(row.place.startswith("customer/") for row in season.view.holdings(drum.id))
    assert [drum.code] in [said(sample)["lots"] for sample in season.of("sample")]


def test_a_tote_is_refilled_unwashed(season: Season) -> None:
    first, second = [lot for lot in season.lots("D") if lot.made_g == 1_395_000]
    assert first.attributes["container"] == second.attributes["container"]
    (edge,) = [edge for edge in season.view.origins(second.id) if edge.parent == first.id]
    assert edge.grams == 0


def test_a_run_is_kept_without_times(season: Season) -> None:
    of_run = [e for e in season.entries if e.act.run == code("run 11")]
    assert {e.act.unsure_ms for e in of_run} == {240 * 60_000}
    assert any(note[0] == "late-draw" for e in of_run for note in notes(e))


def test_a_creamed_batch_is_seeded_by_the_last_one(season: Season) -> None:
    """A pail of each batch is an origin of the next; the first is seeded from last season's."""
    seeds = [
        part["source"]
        for entry in season.of("blend")
        for part in said(entry)["parts"]
        if part.get("seed")
    ]
    assert [seed[:3] for seed in seeds] == ["D25", "D26", "D26"]
    second, pail = season.lot("bottling 10"), season.view.lot_by_code(seeds[1])
    assert pail is not None
    grams = {edge.parent for edge in season.view.ancestry([second.id]) if edge.grams}
    first = {edge.parent for edge in season.view.origins(season.lot("bottling 2").id)}
    assert pail.id in grams
    assert first & {edge.parent for edge in season.view.ancestry([pail.id]) if edge.grams}
    noted = [n for entry in season.of("blend") for n in notes(entry) if n[0] == "old-seed"]
    assert len(noted) == 2


def test_a_return_a_reversal_and_a_hold_of_each_kind(season: Season) -> None:
    shop, load = season.of("take back")
    assert said(shop)["jars"] == 24
    assert len({posting.lot for posting in load.postings}) == 4  # a refused load, by its note
    (undone,) = [e for e in season.everything if e.reverses]
    wrong = season.view.entry(undone.reverses)
    assert wrong is not None
    assert wrong.kind == "fill"
    assert sorted(h.target[0] for h in open_holds(season.view)) == ["D", "S", "S", *"y" * 9]


def test_weights_that_were_to_follow(season: Season) -> None:
    pending = [str(m.value) for m in season.view.marked("pending") if m.subject[0] == "D"]
    assert sorted(pending) == ["0", "0", "1"]  # two were weighed the next day, one waits


def test_green_pallets_stand_until_they_are_dry(season: Season) -> None:
    """Three are read until they are dry; most lose some water while they wait."""
    wet: dict[str, list[tuple[int, int]]] = {}
    for pull in season.lots("S", "receive"):
        for entry in season.view.history(pull.id):
            if entry.kind == "measure" and said(entry).get("temperature"):
                at = (entry.act.happened.at_ms, said(entry)["moisture"])
                wet.setdefault(pull.code, []).append(at)
    assert len(wet) >= 3
    for name, rows in wet.items():
        lot = season.view.lot_by_code(name)
        assert lot is not None
        came = season.view.entry(lot.made_by)
        assert came is not None
        hours = (rows[-1][0] - came.act.happened.at_ms) / 3_600_000
        assert 36 <= hours <= 48
        assert said(came)["moisture"] > 1900 > rows[-1][1]


def test_stops_are_said_while_their_run_is_open_and_weather_is_noted(season: Season) -> None:
    stops = season.of("stop")
    assert len(stops) == 12
    assert {said(one)["reason"] for one in stops} == set(REASONS) - {"other"}
    opened = {one.act.run: one.act.happened.at_ms for one in season.of("open run")}
    closed = {one.act.run: one.act.happened.at_ms for one in season.of("close run")}
    for one in stops:
        until_ms = one.act.happened.at_ms
        assert opened[one.act.run] < until_ms - int(str(said(one)["minutes"])) * 60_000
        assert until_ms < closed[one.act.run]
    weather = season.of("weather")
    assert len(weather) == 17
    (hail,) = [one for one in weather if said(one).get("yard")]
    assert said(hail)["yard"] == "Windrow Seven"
