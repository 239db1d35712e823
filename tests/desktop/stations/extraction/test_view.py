"""The extraction floor worked by keys and scanner alone, on a real house."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

from honeyledger.desktop.desk import LabelsAsked, LabelsWanted
from honeyledger.desktop.marks import Mark
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Cappings, CloseRun, Heel, Load, OpenRun, WetOut
from honeyledger.persistence.store import open_store
from honeyledger.services.house import House, Said
from tests.desktop.floor_rig import Floor
from tests.support.houses import MINUTE_MS


def _choose(floor: Floor, kind: str) -> None:
    """With the arrows to a kind of happening, and with Enter into its fields."""
    what = floor.view.floor.form.what
    what.take_focus()
    order = [button.choice.key for button in what.buttons()]
    steps = order.index(kind) - order.index(what.key())
    floor.rig.keys(*["Right" if steps > 0 else "Left"] * abs(steps), "Return")


def test_a_whole_run_by_keys_and_scanner_alone(floor: Floor) -> None:
    rig = floor.rig
    assert rig.focused() == "Line"
    run = floor.open_run()
    assert run == "R26-0001-X"
    assert rig.toast().lead == "Run R26-0001-X is open."
    assert rig.focused() == "Pallet: scan its tag"
    rig.scan(floor.tag)
    assert rig.toast().lead == f"{floor.tag} is in."
    floor.wait()
    rig.type(floor.later.lower())
    rig.type("12")
    assert [row.supers for row in floor.sheet(run).went_in] == [36, 12]
    floor.wait(60)
    rig.scan(floor.drum)
    assert rig.focused() == "Gross, kg"
    rig.type("310,5")
    rig.type("")
    assert rig.toast().lead == "Drum D26-0001-C is filled: 292.5 kg."
    _choose(floor, "cappings")
    rig.type("41")
    assert rig.toast().lead == "Cappings W26-0001-M are weighed: 41.0 kg."
    _choose(floor, "wet")
    rig.type("48")
    rig.type("290")
    assert rig.toast().lead == "The wet supers are counted."
    floor.view.floor.close_run.setFocus()
    rig.keys("Return")
    assert rig.focused() == "Left in it, kg"
    rig.type("40")
    rig.type("")
    rig.type("")
    assert "out by scale and dip" in floor.view.closing.answer.sentence.text()
    assert floor.view.closing.sign.hasFocus()
    rig.keys("Return")
    assert rig.toast().lead == f"Run {run} is closed."
    assert rig.toast().action == "Reverse"
    assert floor.sheet(run).run.closed_ms == rig.now_ms
    assert floor.view.widget.currentWidget() is floor.view.floor
    assert rig.focused() == "Line"
    rig.keys("Ctrl+Shift+U")
    assert floor.sheet(run).run.closed_ms is None


def test_the_window_and_the_house_write_the_same(floor: Floor, tmp_path: Path) -> None:
    """The same facts, clock, ids, station and operator: the same digests."""
    rig = floor.rig
    before, began_ms = floor.entries(), rig.now_ms
    run = floor.open_run()
    rig.now_ms += MINUTE_MS
    rig.scan(floor.tag)
    rig.now_ms += MINUTE_MS
    rig.scan(floor.drum)
    rig.type("308")
    rig.type("")
    _choose(floor, "cappings")
    rig.type("30")
    _choose(floor, "wet")
    rig.type("36")
    rig.type("")
    floor.view.floor.close_run.click()
    rig.type("25")
    rig.type("")
    rig.type("")
    rig.keys("Return")
    entries = rig.house.ask(lambda view: view.entries(last=6))
    assert [entry.id for entry in entries] == list(range(before + 1, before + 7))
    drum = Fill(floor.tank, Weight(gross_g=308_000), container=floor.drum)
    every = [
        (OpenRun(floor.line), ""),
        (Load(floor.tag, floor.line), run),
        (drum, run),
        (Cappings(floor.line, 30_000), run),
        (WetOut(36), run),
        (CloseRun(run, (Heel(floor.tank, 25_000, "dip"),)), ""),
    ]
    twin = _twin(floor, tmp_path, before)
    for (facts, in_run), entry in zip(every, entries, strict=True):
        said = Said("O26-0001-X", "dock", entry.act.command, run=in_run)
        House(twin.store, partial(int, entry.recorded_ms), str).record(facts, said)
    assert twin.ask(lambda view: view.head()).digest == rig.head()[1]
    assert began_ms < entries[-1].recorded_ms


def test_a_drum_that_is_filled_has_its_label_or_sticker_there_and_then(floor: Floor) -> None:
    rig, form = floor.rig, floor.view.floor.form
    asked: list[LabelsAsked] = []

    def ask(labels: LabelsAsked, then: Callable[[LabelsWanted | None], None]) -> None:
        asked.append(labels)
        then(LabelsWanted())

    rig.desk.ask_labels = ask
    floor.loaded()
    assert form.label.isHidden()
    rig.now_ms += MINUTE_MS
    rig.scan(floor.drum)
    rig.type("308")
    rig.type("")
    assert not form.label.isHidden()
    drum = floor.view.presenter.made
    assert form.label.accessibleName() == f"Label or sticker of {drum}"
    for press in (form.label.click, lambda: rig.keys("Ctrl+Shift+L")):
        press()
        rig.settle()
    assert [[form for form, _ in one.forms] for one in asked] == [["", "drum sticker"]] * 2
    assert rig.opened[-1].name == f"{drum}.pdf"
    assert "It was printed before: this is reprint 1." in rig.toast().text
    floor.wait()
    rig.scan(floor.later)
    assert form.label.isHidden(), "something else happened since"


def _twin(floor: Floor, folder: Path, entries: int) -> House:
    """Another house of the same ledger, with the same first entries."""
    store = open_store(str(folder / "twin.honeyledger"), create=True, new_id=lambda: "ledger-1")
    with floor.rig.store.reading() as view:
        begun = list(view.entries())[:entries]
    with store.writing() as unit:
        for entry in begun:
            unit.append(entry)
    return House(store, lambda: floor.rig.now_ms, lambda: "none")


def test_a_double_scan_loads_once(floor: Floor) -> None:
    run = floor.open_run()
    floor.rig.scan(floor.tag)
    entries = floor.entries()
    floor.rig.scan(floor.tag)
    assert floor.entries() == entries
    assert floor.says() == f"{floor.tag} was scanned a moment ago."
    floor.wait()
    floor.rig.scan(floor.tag)
    assert floor.entries() == entries
    assert "Scan the tag of the next pallet." in floor.says()
    assert [row.supers for row in floor.sheet(run).went_in] == [36]


def test_scans_that_come_while_one_is_recorded_wait_their_turn(floor: Floor) -> None:
    run = floor.open_run()
    for code in (floor.tag, floor.tag, floor.later):
        floor.view.take_code(code)
    floor.rig.settle()
    assert [row.supers for row in floor.sheet(run).went_in] == [36, 20]


def test_a_held_pallet_asks_for_a_reason_and_keeps_it_in_the_entry(floor: Floor) -> None:
    floor.open_run()
    floor.hold(floor.tag)
    floor.rig.scan(floor.tag)
    assert floor.says().startswith("Not recorded.")
    assert floor.view.floor.form.pallet.text() == floor.tag
    assert floor.rig.focused() == "On hold: why it may go on"
    floor.rig.type("sampled, goes apart")
    assert floor.rig.toast().lead.startswith(f"{floor.tag} is in.")
    said = floor.last().facts["said"]
    assert isinstance(said, dict)
    assert said["despite_hold"] == "sampled, goes apart"


def test_a_drum_of_honey_that_a_hold_travelled_to_asks_with_its_way(floor: Floor) -> None:
    floor.loaded()
    floor.rig.told(Fill(floor.tank, Weight(net_g=20_000)))
    floor.hold(floor.tag)
    floor.rig.scan(floor.drum)
    floor.rig.type("318")
    floor.rig.type("")
    assert ", by way of " in floor.says()
    assert floor.says().endswith(
        ": lab result awaited. It can go on only if a named person says why."
    )
    assert floor.rig.focused() == "On hold: why it may go on"
    floor.rig.type("kept apart")
    assert floor.rig.toast().lead.startswith("Drum D26-0002-A is filled: 300.0 kg.")
    said = floor.last().facts["said"]
    assert isinstance(said, dict)
    assert said["despite_hold"] == "kept apart"


def test_a_scan_loads_whatever_else_is_half_typed(floor: Floor) -> None:
    floor.open_run()
    floor.rig.scan(floor.drum)
    floor.rig.type("305", enter=False)
    floor.rig.scan(floor.tag)
    assert floor.rig.toast().lead == f"{floor.tag} is in."
    form = floor.view.floor.form
    assert form.kind == "drum"
    assert form.gross.text() == "305"
    assert form.container.text() == "Drum 7"
    assert floor.rig.focused() == "Gross, kg"


def test_a_weight_that_is_to_follow_has_to_be_said(floor: Floor) -> None:
    run = floor.loaded()
    floor.rig.scan(floor.drum)
    floor.rig.type("")
    floor.rig.type("")
    assert "say that the weight is to follow" in floor.says()
    assert floor.came_out(run) == []
    assert floor.rig.focused() == "Gross, kg"
    floor.view.floor.form.follows.take_focus()
    floor.rig.keys("Return")
    assert floor.sheet(run).came_out[0].pending
    assert floor.came_out(run) == ["290.0 kg"]


def test_a_drum_brings_its_tare_and_a_one_way_drums_tare_stays(floor: Floor) -> None:
    run = floor.loaded()
    form = floor.view.floor.form
    floor.view.floor.choose("drum")
    floor.rig.type("100")
    floor.rig.type("20")
    assert floor.came_out(run) == ["80.0 kg"]
    assert form.tare.text() == "20"
    floor.rig.scan(floor.drum)
    assert form.tare.text() == ""
    floor.rig.type("100")
    floor.rig.type("")
    assert floor.came_out(run) == ["80.0 kg", "82.0 kg"]


def test_a_drum_that_is_full_is_refused_and_a_part_filled_one_is_asked_about(
    floor: Floor,
) -> None:
    run = floor.loaded()
    for gross in ("150", "110"):
        floor.rig.scan(floor.drum)
        floor.rig.type(gross)
        floor.rig.type("")
    assert "say that you top it up" in floor.says()
    form = floor.view.floor.form
    assert form.gross.text() == "110"
    assert form.top_up.isVisible()
    floor.rig.keys("Return")
    assert len(floor.came_out(run)) == 2
    floor.rig.scan(floor.drum)
    floor.rig.type("300")
    floor.rig.type("")
    assert "is already full" in floor.says()
    assert floor.rig.focused() == "Drum, blank if one-way"
    assert form.gross.text() == "300"
    assert len(floor.came_out(run)) == 2


def test_an_emptied_drum_is_asked_whether_it_was_washed(floor: Floor) -> None:
    run = floor.loaded()
    floor.rig.scan(floor.drum)
    floor.rig.type("60")
    floor.rig.type("")
    drum = floor.sheet(run).came_out[0].code
    floor.rig.told(Fill(drum, Weight(net_g=42_000), into=floor.tank, whole=False))
    floor.rig.scan(floor.drum)
    floor.rig.type("70")
    floor.rig.type("")
    assert "Say whether it was washed since" in floor.says()
    assert floor.rig.focused() == "Was the drum washed since?: yes"
    floor.rig.keys("Return")
    assert floor.rig.toast().lead == "Drum D26-0002-A is filled: 52.0 kg."


def test_a_wash_asks_what_became_of_what_the_books_see(floor: Floor) -> None:
    floor.loaded()
    floor.view.floor.wash.click()
    form = floor.view.floor.form
    assert form.remains.label.text() == "The books still see 540.0 kg in the line. It was"
    floor.rig.keys("Right", "Return")
    assert floor.rig.toast().lead.startswith("The line is washed.")
    assert form.kind == "load"
    floor.view.floor.wash.click()
    assert not form.remains.isVisible(), "nothing is left to ask about"
    assert form.record.hasFocus()


def test_the_line_is_washed_between_runs_too(floor: Floor) -> None:
    floor.loaded()
    floor.view.floor.close_run.click()
    floor.rig.type("0")
    floor.rig.type("")
    floor.rig.type("")
    floor.rig.keys("Return")
    assert not floor.view.presenter.is_open()
    floor.view.floor.wash.click()
    floor.rig.keys("Return")
    assert floor.last().kind == "wash"
    assert floor.last().act.run == ""
    assert floor.view.floor.form.kind == "open"


@pytest.mark.parametrize(
    ("kind", "name", "text", "says"),
    [
        ("cappings", "net", "1.234", "1.234"),
        ("cappings", "net", "0", "Weigh the cappings first"),
        ("wet", "count", "12,5", "12,5"),
        ("load", "pallet", "G26-0001-X", "G26-0001-3"),
        ("drum", "gross", "12 stone", "12 stone"),
    ],
)
def test_what_cannot_be_is_refused_at_the_top_and_nothing_typed_is_lost(
    floor: Floor, kind: str, name: str, text: str, says: str
) -> None:
    floor.loaded()
    entries = floor.entries()
    form = floor.view.floor.form
    floor.view.floor.choose(kind)
    field = form.fields()[name]
    field.take_focus()
    floor.rig.type(text, enter=False)
    form.record.click()
    floor.rig.settle()
    shown = form.slot.shown()
    assert shown is not None
    assert shown.mark is Mark.REFUSED
    assert says in shown.text
    assert floor.entries() == entries
    assert field.focusWidget() is not None
    assert field.focusWidget().hasFocus()
    assert getattr(field, "text")() == text  # noqa: B009 - the fields differ in kind


def test_another_stations_work_moves_no_keyboard(floor: Floor) -> None:
    floor.rig.keys("Ctrl+2")
    focused = floor.rig.focused()
    floor.rig.told(OpenRun(floor.line))
    assert floor.view.presenter.is_open()
    assert floor.rig.focused() == focused


def test_other_codes_are_for_the_card(floor: Floor) -> None:
    floor.loaded()
    assert not floor.view.take_code("Y26-0001-P")
    assert not floor.view.take_code("not a code")
    assert not floor.view.take_code(floor.tank)


def test_the_card_of_the_chosen_row(floor: Floor) -> None:
    floor.loaded()
    asked: list[str] = []
    floor.view.asks.card.connect(asked.append)
    assert not floor.view.handle("card")
    floor.view.floor.went_in.take_focus()
    assert floor.view.handle("card")
    assert asked == [floor.view.floor.went_in.selected_key()]
    assert not floor.view.handle("repeat")
    assert floor.view.handle("clear")
