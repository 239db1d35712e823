"""A run's sheet and its close-out: what went in, what came out, how it adds up."""

from tests.support.terminal import Terminal


def _open(terminal: Terminal) -> str:
    return terminal.given("R", "run", "open", "Extractor", "--crew", "Ann")


def _run(terminal: Terminal) -> tuple[str, str]:
    """A run with a pallet in: its code, and the pallet's."""
    tag = terminal.pallet(gross="500")
    run = _open(terminal)
    terminal.do("load", tag, "Extractor", "--run", run)
    return run, tag


def test_a_run_closes_with_a_balance_that_adds_up(terminal: Terminal) -> None:
    run, _ = _run(terminal)
    terminal.drum("--run", run, net="290")
    terminal.do("cappings", "Extractor", "12,5", "--run", run, "--barrel", "3")
    terminal.do("wet-out", "24", "--gross", "170", "--tare", "15", "--run", run)
    done = terminal.json("run", "close", run, "--heel", "Tank 1", "30", "--operator", "Ann Reed")
    balance = done["balance"]
    assert (balance["in_g"], balance["drums_g"]) == (341_000, 290_000)
    assert (balance["cappings_g"], balance["heel_out_g"]) == (12_500, 30_000)
    assert balance["in_g"] - balance["out_g"] == balance["estimate_gap_g"] + balance["lost_g"]
    assert (balance["supers"], balance["wet_out_supers"]) == (24, 24)
    assert done["run"] == run


def test_a_runs_sheet_tells_what_went_in_and_came_out(terminal: Terminal) -> None:
    run, _ = _run(terminal)
    drum = terminal.drum("--run", run)
    sheet = terminal.json("run", "show")
    assert (sheet["run"], sheet["closed_ms"]) == (run, None)
    assert [row["supers"] for row in sheet["went_in"]] == [24]
    assert [row["code"] for row in sheet["came_out"]] == [drum]
    assert [row["name"] for row in sheet["yards"]] == ["Mill Lane"]
    shown = terminal.do("run", "show", run)
    assert "Mill Lane" in shown
    assert "adds up to" in shown


def test_drums_left_open_are_in_the_balance_and_drums_go_by_their_names(
    terminal: Terminal,
) -> None:
    run, _ = _run(terminal)
    terminal.do("register", "drum", "add", "Blue 7", "--tare", "18")
    terminal.do("fill", "Tank 1", "--net", "90", "--container", "Blue 7", "--open", "--run", run)
    sheet = terminal.json("run", "show", run)
    assert sheet["balance"]["part_filled_g"] == 90_000
    shown = terminal.do("run", "show", run)
    assert "in drums left open         −90.0 kg" in shown
    assert "adds up to                   0.0 kg" in shown
    drum = terminal.given("D", "bung", "Blue 7")
    assert f"{drum}  Blue 7" in terminal.do("run", "show", run)


def test_cappings_may_wait_and_are_said_to(terminal: Terminal) -> None:
    run, _ = _run(terminal)
    terminal.drum("--run", run)
    words = ("run", "close", run, "--heel", "Tank 1", "190", "--cappings-pending")
    assert terminal.refused(*words) == (
        "Say who signs: scan a badge, or name a person who works here."
    )
    shown = terminal.do(*words, "--operator", "Ann Reed")
    assert "The cappings are not weighed yet." in shown


def test_there_has_to_be_a_run(terminal: Terminal) -> None:
    assert terminal.refused("run", "show") == "No run was opened yet: open one on a line first."
    assert "R26-0001-X" in terminal.refused("run", "show", "R26-0001-X")


def test_a_mixed_run_is_named(terminal: Terminal) -> None:
    run, _ = _run(terminal)
    assert "\nWent in\n" in terminal.do("run", "show", run)
    tag = terminal.given("G", "receive", "Long Field", "10", "--gross", "250", "--tare", "15")
    terminal.do("load", tag, "Extractor", "--run", run)
    assert (
        "Went in: mixed run, 2 yards. Close it at a change of yard to keep them apart.\n"
        in terminal.do("run", "show", run)
    )
    terminal.do("run", "close", run, "--operator", "Ann Reed")
    assert "Went in: mixed run, 2 yards\n" in terminal.do("run", "show", run)
