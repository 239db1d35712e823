"""The drum room worked by keys and scanner alone, on a real house."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.dispatch.view import DispatchView
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.tracing import trace_back
from tests.desktop.drums_rig import Station
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def test_pots_are_scanned_in_order_and_read_as_a_grid(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    for code in (cellar.third, cellar.second, cellar.container, cellar.third):
        rig.scan(code)
    assert [line.code for line in station.typed().lines] == [
        cellar.third,
        cellar.second,
        cellar.first,
    ], "a container is its drum, and twice is once"
    assert rig.focused() == "Next pot: scan its drum"
    rig.type("")
    assert rig.focused() == f"{cellar.third}, moisture"
    rig.type("17,9")
    assert rig.focused() == f"{cellar.third}, Colour"
    rig.keys("Up", "Down")
    assert rig.focused() == f"{cellar.second}, Colour", "arrows go from pot to pot in a column"
    rig.type("52", enter=False)
    rig.keys("Up")
    rig.type("40")
    rig.type("18.5")
    rig.type("")
    rig.type("", enter=False)
    station.view.form.record.click()
    rig.settle()
    assert rig.toast().lead == "2 drums are read."
    assert cellar.reading(cellar.third, "moisture") == 1_790
    assert cellar.reading(cellar.third, "colour") == 400
    assert cellar.reading(cellar.second, "moisture") == 1_850
    assert cellar.reading(cellar.second, "colour") == 520
    assert station.typed().lines == ()


def test_the_last_enter_of_the_last_pot_keeps_the_readings(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    rig.scan(cellar.second)
    rig.type("")
    rig.type("16.8")
    rig.type("28")
    assert rig.toast().lead == "One drum is read."
    assert rig.toast().action == "Reverse"
    assert cellar.reading(cellar.second, "colour") == 280
    assert rig.focused() == "Next pot: scan its drum"


def test_a_reading_that_cannot_be_is_refused_at_its_pot_and_none_is_kept(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    rig.scan(cellar.second)
    rig.scan(cellar.third)
    rig.type("")
    rig.type("17.5")
    rig.type("")
    rig.type("71")
    rig.type("30")
    assert (
        station.says()
        == "Not recorded. A moisture of 71.0 % cannot be right for honey. Read it again."
    )
    assert rig.focused() == f"{cellar.third}, moisture"
    assert cellar.reading(cellar.second, "moisture") is None
    rig.type("abc")
    assert station.says().startswith("abc is not a moisture")
    rig.keys("Shift+Tab")
    rig.type("17.1", enter=False)
    station.view.form.record.click()
    rig.settle()
    assert cellar.reading(cellar.second, "moisture") == 1_750
    assert cellar.reading(cellar.third, "moisture") == 1_710


def test_a_pot_for_every_drum_that_nobody_has_read(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    station.view.unread.click()
    rig.settle()
    assert [line.code for line in station.typed().lines] == [cellar.second, cellar.third]
    assert rig.focused() == f"{cellar.second}, moisture"
    rig.type("17")
    rig.type("", enter=False)
    station.view.form.off.click()
    rig.settle()
    assert [line.code for line in station.typed().lines] == [cellar.third]
    rig.keys("Ctrl+Backspace")
    assert station.typed().lines == ()


def test_a_drum_is_weighed_again(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    station.choose("weigh")
    rig.scan(cellar.container)
    assert rig.focused() == "Gross, kg"
    rig.type("319,5")
    rig.type("")
    rig.type("")
    assert rig.toast().lead == f"{cellar.first} is weighed: 301.5 kg."
    assert cellar.said() == {"drum": cellar.first, "weight": {"gross_g": 319_500}}
    rig.keys("Ctrl+Shift+U")
    assert station.view.presenter.row(cellar.first).grams == 300_000  # type: ignore[union-attr]


def test_a_weight_below_the_tare_is_refused_at_the_gross(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    station.choose("weigh")
    rig.scan(cellar.first)
    rig.type("18")
    rig.type("")
    rig.type("")
    shown = station.view.form.slot.shown()
    assert shown is not None
    assert (shown.mark, shown.lead) == (Mark.REFUSED, "Not recorded.")
    assert shown.text.startswith("Gross 18.0 kg is not above the tare")
    assert rig.focused() == "Gross, kg"


def test_several_drums_are_sampled_and_moved_by_scan(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    station.choose("sample")
    rig.scan(cellar.first)
    station.view.form.form.take_focus(station.view.form.fields["sample"]["lots"])
    rig.scan(cellar.second)
    rig.scan(cellar.first)
    assert station.typed().codes("lots") == (cellar.first, cellar.second)
    rig.type("250")
    rig.type("shelf 2")
    rig.type("")
    assert rig.toast().lead.startswith("Sample X26-0001-")
    station.choose("move")
    rig.scan(cellar.third)
    rig.type("Drum")
    rig.type("B3")
    assert rig.toast().lead == "One drum was moved."
    row = station.view.presenter.row(cellar.third)
    assert row is not None
    assert row.spot == "Drum room, row B3"


def test_a_hold_is_put_on_and_one_drum_is_freed_and_then_all(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    rig.told(PutOnHold(cellar.pull, "strips"))
    station.choose("hold")
    rig.scan(cellar.third)
    rig.keys("Right", "Right", "Right")
    rig.type("")
    rig.type("smells of smoke")
    assert rig.toast().lead == f"{cellar.third} is on hold."
    held = station.view.presenter.row(cellar.third)
    assert held is not None
    assert f"{cellar.third}: smells of smoke" in held.held
    station.choose("free")
    station.view.form.form.take_focus(station.view.form.fields["free"]["hold"])
    rig.type(f"{cellar.pull}: strips")
    rig.keys("Right")
    assert station.view.form.fields["free"]["lot"].isVisible()
    rig.scan(cellar.second)
    rig.type("nothing found")
    rig.type("lab says so")
    assert rig.toast().lead == f"{cellar.second} is free of the hold, which stays on the rest."
    free = station.view.presenter.row(cellar.second)
    assert free is not None
    assert free.held == ()
    rig.type(f"{cellar.third}: smells of smoke")
    rig.type("")
    rig.type("aired")
    assert rig.toast().lead == "The hold is ended."


def test_where_two_people_free_a_hold_the_second_is_asked_for(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    rig.told(Register("operator", {"name": "Bo Lind"}))
    rig.told(PutOnHold(cellar.pull, "smoke"))
    station.choose("free")
    fields = station.view.form.fields["free"]
    assert not fields["second"].isVisible()
    rig.told(Register("house", {"name": "Test House", "zone": "UTC", "two_free": 1}))
    rig.desk.operator = cellar.badge
    station.choose("weigh")
    station.choose("free")
    assert fields["second"].isVisible()
    station.view.form.form.take_focus(fields["hold"])
    for text in (f"{cellar.pull}: smoke", "", "aired", ""):
        rig.type(text)
    assert "name the second one, who agrees" in station.says()
    assert rig.focused() == "Who agrees"
    rig.type("Bo Lind")
    assert rig.toast().lead == "The hold is ended."


def test_a_blend_is_planned_by_scan_and_kept_when_it_is_poured(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    station.choose("blend")
    rig.scan(cellar.first)
    rig.scan(cellar.third)
    assert station.figures()[:4] == [
        "550 kg, goes in",
        "not read, moisture",
        "31 mm, colour of its parts",
        "2, yards tied",
    ]
    rig.type("Blender")
    rig.type("")
    rig.type("")
    rig.type("17,8")
    rig.type("30-44")
    rig.type("")
    assert station.view.figures.heading.text() == (
        "Not as wanted: not every part's moisture was read; not every part's colour was read"
    )
    rig.type("")
    assert rig.focused() == f"{cellar.first}, planned, blank for all"
    rig.type("100")
    rig.type("")
    rig.type("")
    rig.type("")
    assert station.says() == (
        f"Not recorded. Of {cellar.first} 100.0 kg is planned: type what the scale says, or empty "
        "the plan so that all of it goes in."
    )
    assert rig.focused() == f"{cellar.first}, Weighed"
    rig.type("101.5")
    rig.type("")
    rig.type("")
    assert rig.toast().lead == "351.5 kg are blended in Blender."
    planned, all_of_it = cellar.said()["parts"]
    assert planned["source"] == cellar.first
    assert (planned["planned_g"], planned["weight"]) == (100_000, {"net_g": 101_500})
    assert (all_of_it["source"], all_of_it["whole"]) == (cellar.third, 1)
    heading = station.view.figures.heading.text()
    assert heading.startswith("Blended in Blender, ")
    assert station.figures() == [
        "351.5 kg, weighed",
        "+1.5 kg, against 350.0 kg planned",
        "not read, by its parts",
        "not read, since",
    ]


@pytest.mark.parametrize("by_way", [False, True])
def test_held_honey_goes_into_a_blend_only_when_somebody_says_why(
    station: Station, by_way: bool
) -> None:
    rig, cellar = station.rig, station.cellar
    rig.told(PutOnHold(cellar.pull if by_way else cellar.second, "wet"))
    station.choose("blend")
    rig.scan(cellar.second)
    assert station.view.form.fields["blend"]["despite"].isVisible()
    rig.type("Blender")
    station.view.form.record.click()
    rig.settle()
    assert "It can go on only if a named person says why." in station.says()
    assert (f"through {cellar.pull}, by way of " in station.says()) is by_way
    assert rig.focused() == "Next part: scan it"
    station.view.form.form.take_focus(station.view.form.fields["blend"]["despite"])
    rig.type("blended down", enter=False)
    station.view.form.record.click()
    rig.settle()
    assert rig.toast().lead == "200.0 kg are blended in Blender."
    assert "went on although held" in rig.toast().text


def test_drums_are_found_by_what_they_are_and_opened_by_enter(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    rig.keys("Ctrl+F")
    rig.type("17-18 %")
    assert station.codes() == [cellar.first]
    assert station.view.listed.heading.text() == "One drum of 3, 300 kg"
    rig.keys("Down")
    rig.type("")
    assert [line.code for line in station.typed().lines] == [cellar.first]
    rig.scan(cellar.second)
    assert station.view.find.text() == "", "what is scanned is shown, whatever was looked for"
    assert station.view.table.selected_key() == cellar.second
    rig.keys("Ctrl+F")
    rig.type("willow")
    assert station.codes() == [cellar.third]
    rig.keys("Ctrl+F")
    rig.type("nothing like that", enter=False)
    assert station.codes() == []


def test_the_drum_in_hand_says_what_is_known_of_it(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    rig.scan(cellar.first)
    assert station.figures()[:2] == ["17.2 %, keeps with little yeast", "31 mm, colour, Pfund"]
    assert station.view.figures.heading.text() == f"{cellar.first}: in reach of Mill Lane"
    rig.told(PutOnHold(cellar.pull, "strips"))
    trace = rig.house.ask(lambda view: trace_back(view, cellar.first))
    fill = next(row.code for row in trace.lots if row.kind == "T")
    assert station.view.figures.heading.text() == f"{cellar.pull}, by way of {fill}: strips"


def test_codes_of_other_things_open_their_card(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    rig.scan(cellar.mill)
    assert station.typed().lines == ()
    assert rig.window.shell.is_aside_shown()
    rig.keys("Escape")
    rig.scan(cellar.first)
    rig.keys("Ctrl+I")
    assert rig.window.card_has_focus()


def test_drums_to_sell_go_on_the_note_in_hand_at_dispatch(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    station.view.sell.click()
    assert station.says() == "Choose the drums first: they go on a note then."
    rig.told(PutOnHold(cellar.third, "wet"))
    station.view.table.view.selectAll()
    station.view.sell.click()
    rig.settle()
    assert rig.window.shell.open_key() == "dispatch"
    dispatch = rig.window.stations["dispatch"]
    assert isinstance(dispatch, DispatchView)
    on_note = [one.code for one in dispatch.presenter.note.picked]
    assert sorted(on_note) == sorted([cellar.first, cellar.second])
    said = dispatch.form.slot.sentence()
    assert cellar.third in said, "what is on hold is refused there"


def test_half_a_grid_outlives_the_night(qtbot: QtBot, tmp_path: Path) -> None:
    rig = Rig(qtbot, tmp_path, first=SOON)
    station = Station(rig)
    cellar = station.cellar
    rig.scan(cellar.second)
    rig.scan(cellar.third)
    rig.type("")
    rig.type("17.3", enter=False)
    rig.close()
    again = Rig(qtbot, tmp_path, first=SOON)
    again.keys("Ctrl+5")
    again.settle()
    again.desk.operator = cellar.badge
    view = again.window.stations["drums"]
    lines = view.presenter.asking.now().lines  # type: ignore[attr-defined]
    assert [(line.code, dict(line.values)) for line in lines] == [
        (cellar.second, {"moisture": "17.3"}),
        (cellar.third, {}),
    ]
    QApplication.processEvents()
    again.close()
