"""Which yards to pull next, on the terminal."""

from pathlib import Path

from tests.support.printing import text_of
from tests.support.terminal import Terminal


def _yards(terminal: Terminal) -> None:
    for name, east in (("North", "-98.7"), ("South", "-98.6")):
        where = ("--latitude", "49.4", "--longitude", east)
        terminal.do("register", "yard", "add", name, "--colonies", "20", *where)
        terminal.do("supers-on", name, "40", "--day", "1 Jun 2026")


def test_a_plan_in_tables_and_for_other_programs(terminal: Terminal) -> None:
    _yards(terminal)
    words = ("plan", "pulling", "--truck", "80", "--days", "1", "--from", "49.4,-98.8")
    shown = terminal.do(*words, "North", "South")
    assert shown.startswith("truck takes 80 supers; hot room takes ")
    assert "North" in shown
    value = terminal.json(*words, "North", "South")
    (trip,) = value["trips"]
    assert sorted(stop["yard"]["name"] for stop in trip["stops"]) == ["North", "South"]
    assert (trip["proved"], trip["day"]) == (True, "2026-07-24")
    terminal.do("treat", "South", "Pads", "--in", "20 Jul 2026", "--supers-off")
    value = terminal.json(*words, "South")
    assert value["not_yet"][0]["yard"]["ready"] is None


def test_a_truck_sheet_to_drive_with(terminal: Terminal, tmp_path: Path) -> None:
    _yards(terminal)
    file = tmp_path / "truck.pdf"
    assert terminal.do("plan", "pulling", "-o", str(file)) == f"Truck sheet: {file}\n"
    assert "look under the lid" in " ".join(text_of(file.read_bytes()).split())


def test_slips_in_what_was_typed(terminal: Terminal) -> None:
    refused = terminal.refused("plan", "pulling", "--from", "49.4")
    assert "49.4 is no place: type latitude and longitude, such as 49.42,-98.88." in refused
    assert "is no yard of this house" in terminal.refused("plan", "pulling", "Yew")
    refused = terminal.refused("plan", "pulling", "--truck", "0")
    assert "A truck that takes 0 supers pulls nothing." in refused
