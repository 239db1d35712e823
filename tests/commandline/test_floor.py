"""The floor: runs from opening to a close-out that adds up, and what is refused on the way."""

from typing import Any

import pytest

from tests.support.terminal import Terminal

SIGNED = ("--operator", "Ann Reed")


def _open(terminal: Terminal) -> str:
    return terminal.given("R", "run", "open", "Extractor", "--crew", "Ann")


def _run(terminal: Terminal) -> tuple[str, str]:
    """A run with a pallet in: its code, and the pallet's."""
    tag = terminal.pallet(gross="500")
    run = _open(terminal)
    terminal.do("load", tag, "Extractor", "--run", run)
    return run, tag


def test_part_of_a_pallet_goes_in(terminal: Terminal) -> None:
    tag = terminal.pallet(supers="24")
    terminal.do("load", tag, "Extractor", "--count", "10")
    assert [(row["kind"], row["pieces"]) for row in terminal.json("stock")] == [
        ("S", 14),
        ("S", 0),
    ]


def test_a_load_and_a_draw_typed_without_their_run_are_in_it(terminal: Terminal) -> None:
    tag, run = terminal.pallet(gross="500"), _open(terminal)
    said = terminal.do("load", tag, "Extractor")
    assert f"Nobody named a run: it is in {run}, the one that is open here." in said
    terminal.do("fill", "Tank 1", "--net", "100")
    balance = terminal.json("run", "show", run)["balance"]
    assert (balance["supers"], balance["drums_g"]) == (24, 100_000)


def test_a_load_typed_before_its_run_was_opened_is_named_at_the_end_and_put_in(
    terminal: Terminal,
) -> None:
    tag = terminal.pallet(gross="500")
    entry = terminal.json("load", tag, "Extractor")["entries"][0]
    run = terminal.given("R", "run", "open", "Extractor", "--at", "24 Jul 2026 08:30")
    purposely = terminal.pallet()
    terminal.do("load", purposely, "Extractor", "--run", "None")
    assert terminal.json("run", "show", run)["balance"]["supers"] == 0
    said = terminal.do("run", "close", run, *SIGNED)
    assert f"Not in {run}, though its vessels had them while it was open: entry {entry}. " in said
    terminal.do("amend", "--entry", str(entry), "--of-run", run, "--reason", "typed without")
    assert terminal.json("run", "show", run)["balance"]["supers"] == 24


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
    terminal.do("run", "close", run, "--heel", "Tank 1", "191", *SIGNED)
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
        (("run", "close", *SIGNED), "Say which run to close."),
        (("load", "G26-0001-3", "Extractor"), "G26-0001-3 is not a code of this house."),
        (("cappings", "Extractor", "12"), "Nothing has been loaded into Extractor yet"),
        (("cappings", "Extractor", "-3"), "−3 is below zero"),
        (("wash", "Extractor", "--remains", "gone"), "gone is no answer"),
        (("wet-out", "0"), "empty supers"),
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


def test_a_load_dated_before_unknown_honey_asks(terminal: Terminal) -> None:
    tag, other = terminal.pallet(), terminal.pallet()
    words = ("load", tag, "Extractor", "--at", "24 Jul 2026 09:00")
    terminal.now_ms += 60 * 60_000
    done = terminal.json("fill", "Tank 1", "--net", "300")
    unknown = next(lot["code"] for lot in done["lots"] if lot["kind"] == "S")
    said = terminal.refused(*words)
    assert f"(amend {unknown} --pallet {tag})" in said
    terminal.do(*words, "--apart")
    terminal.do("amend", unknown, "--pallet", other, "--reason", "not scanned")


def test_rinse_honey_is_kept(terminal: Terminal) -> None:
    terminal.do("register", "vessel", "add", "Rinse tank")
    terminal.do("load", terminal.pallet(), "Extractor")
    terminal.drum()
    said = terminal.do("wash", "Tank 1", "--rinse-into", "Rinse tank", "--rinse", "4.5")
    assert "Rinse honey is wet and ferments" in said
    rows = [row for row in terminal.json("stock") if row["place"].startswith("vessel")]
    assert sum(row["grams"] for row in rows) == 4_500
