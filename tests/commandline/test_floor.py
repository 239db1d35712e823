"""The floor: runs from opening to a close-out that adds up, and what is refused on the way."""

from typing import Any

import pytest

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


def test_cappings_may_wait_and_are_said_to(terminal: Terminal) -> None:
    run, _ = _run(terminal)
    terminal.drum("--run", run)
    shown = terminal.do("run", "close", run, "--heel", "Tank 1", "190", "--cappings-pending")
    assert "The cappings are not weighed yet." in shown


def test_part_of_a_pallet_goes_in(terminal: Terminal) -> None:
    tag = terminal.pallet(supers="24")
    terminal.do("load", tag, "Extractor", "--count", "10")
    assert [(row["kind"], row["pieces"]) for row in terminal.json("stock")] == [
        ("S", 14),
        ("S", 0),
    ]


def test_a_wash_asks_what_became_of_the_honey(terminal: Terminal) -> None:
    _run(terminal)
    terminal.drum(net="340")
    said = terminal.refused("wash", "Extractor", "Tank 1")
    assert said.startswith("The books still see 1.0 kg in Tank 1.")
    terminal.do("wash", "Extractor", "Tank 1", "--remains", "rinse")
    assert [row["kind"] for row in terminal.json("stock")] == ["D"]


def test_a_closed_run_takes_nothing_more(terminal: Terminal) -> None:
    run, _ = _run(terminal)
    terminal.drum("--run", run)
    terminal.do("run", "close", run, "--heel", "Tank 1", "191")
    tag = terminal.pallet()
    sentence = f"{run} is closed. Open a new run, or correct the entry that is wrong."
    assert terminal.refused("load", tag, "Extractor", "--run", run) == sentence
    assert terminal.refused("run", "close", run) == sentence


def test_a_pallet_is_loaded_once(terminal: Terminal) -> None:
    _, tag = _run(terminal)
    entry = terminal.head()[0]
    assert terminal.refused("load", tag, "Extractor") == (
        f"Nothing stands on {tag} any more: it was loaded with entry {entry}. Scan the tag of the "
        "next pallet."
    )


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("run", "close"), "Say which run to close."),
        (("run", "show"), "No run was opened yet"),
        (("load", "G26-0001-3", "Extractor"), "G26-0001-3 is not a code of this house."),
        (("cappings", "Extractor", "12"), "Nothing has been loaded into Extractor yet"),
        (("cappings", "Extractor", "-3"), "−3 is below zero"),
        (("wash", "Extractor", "--remains", "gone"), "gone is no answer"),
        (("wet-out", "0"), "0"),
        (("run", "open", "Extraktor"), "Extraktor"),
    ],
)
def test_what_cannot_be_is_refused(terminal: Terminal, words: tuple[str, ...], said: str) -> None:
    assert said in terminal.refused(*words)


def test_a_second_try_with_the_same_id_writes_once(terminal: Terminal) -> None:
    tag = terminal.pallet()
    words = ("load", tag, "Extractor", "--command", "load-1")
    first: Any = terminal.json(*words)
    head = terminal.head()
    second: Any = terminal.json(*words)
    assert terminal.head() == head
    assert (first["again"], second["again"]) == (False, True)
    assert second["entries"] == first["entries"]
    assert second["digest"] == first["digest"] == head[1]
    assert "nothing was written again" in terminal.do(*words)
