"""Pooled runs and settlements in the terminal."""

from honeyledger.domain.codes import next_code
from tests.support.terminal import Terminal


def test_a_pooled_run_is_settled_and_its_statement_stays(terminal: Terminal) -> None:
    terminal.do("register", "customer", "add", "Wendt")
    run = terminal.given("R", "run", "open", "Extractor")
    terminal.do("pool", run, "agreed by telephone")
    for yard, owner in (("Mill Lane", "Wendt"), ("Long Field", "")):
        tag = terminal.given(
            "G", "receive", yard, "10", "--gross", "250", "--tare", "15", "--owner", owner
        )
        terminal.do("load", tag, "Extractor", "--run", run)
    drum = terminal.given("D", "fill", "Tank 1", "--net", "300", "--run", run)
    ann = ("--operator", "Ann Reed")
    terminal.do("run", "close", run, *ann)
    before = terminal.json("statement", run)
    assert (before["signed_in"], before["basis"], before["honey_g"]) == (0, "boxes", 300_000)
    assert terminal.do("statement", run).endswith(
        "Not signed: this is how it stands now, and it may change until it is settled.\n"
    )
    said = terminal.do("settle", run, "--kept", "100", "--drum", drum, "Wendt", *ann)
    assert "Wendt: 10 supers, 150.0 kg of honey by number of boxes; 15.0 kg kept" in said
    after = terminal.json("statement", run)
    assert after["signed_in"] > 0
    assert [(row["owner"], row["due_g"]) for row in after["rows"]] == [
        ("Wendt", 135_000),
        ("Test House", 150_000),
    ]
    shown = terminal.do("statement", run)
    assert "135.0 kg" in shown
    assert shown.endswith(f"Signed in entry {after['signed_in']}.\n")
    assert "taken out" in shown
    assert "Shared by the number of supers: not all of them were weighed full and wet." in shown
    assert "Its drums read" not in shown
    terminal.do("measure", drum, "--moisture", "17.8")
    assert "Its drums read 17.8 % on average." in terminal.do("statement", run)


def test_a_statement_of_no_run(terminal: Terminal) -> None:
    nowhere = str(next_code("R", 26, 500))
    assert terminal.refused("statement", nowhere) == (
        f"{nowhere} is not a run of this house. Open a run first."
    )


def test_a_run_opened_for_an_owner(terminal: Terminal) -> None:
    terminal.do("register", "customer", "add", "Wendt")
    run = terminal.given("R", "run", "open", "Extractor", "--owner", "Wendt")
    assert "is Test House's" in terminal.refused(
        "load", terminal.pallet(), "Extractor", "--run", run
    )
