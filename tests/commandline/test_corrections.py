"""Putting right: amend with old and new in reach, narrow by name, reverse one or a chain."""

from tests.support.terminal import Terminal

ANN = ("--operator", "Ann Reed")


def _drum(terminal: Terminal) -> tuple[str, str]:
    """A pull loaded and a drum filled of it: their codes."""
    done = terminal.json("receive", "Mill Lane", "24", "--gross", "500")
    pull, tag = (next(code for code in done["codes"] if code[0] == letter) for letter in "SG")
    terminal.do("load", tag, "Extractor")
    return pull, terminal.drum()


def test_a_wrong_yard_is_amended_and_then_narrowed(terminal: Terminal) -> None:
    pull, drum = _drum(terminal)
    terminal.do("amend", pull, "--yard", "Long Field", "--reason", "typed wrong", *ANN)
    yards = {row["name"]: row["grams"] for row in terminal.json("trace", drum)["yards"]}
    assert yards == {"Long Field": 150_000, "Mill Lane": 0}
    assert terminal.refused("narrow", pull, "--place", "Mill Lane", "--reason", "seen") == (
        "Say who signs: scan a badge, or name a person who works here."
    )
    terminal.do("narrow", pull, "--place", "Mill Lane", "--reason", "the sheet says so", *ANN)
    assert [row["name"] for row in terminal.json("trace", drum)["yards"]] == ["Long Field"]


def test_a_row_with_grams_is_never_narrowed(terminal: Terminal) -> None:
    _, drum = _drum(terminal)
    entry = terminal.head()[0]
    words = ("narrow", drum, "--entry", str(entry), "--line", "3", "--reason", "no", *ANN)
    assert "Only a row of 0 g can be narrowed." in terminal.refused(*words)


def test_what_nothing_is_built_on_is_reversed(terminal: Terminal) -> None:
    _, drum = _drum(terminal)
    entry = str(terminal.head()[0])
    terminal.do("reverse", entry, "--reason", "wrong drum", *ANN)
    assert drum not in [row["code"] for row in terminal.json("stock")]
    said = terminal.refused("reverse", entry, "--reason", "again")
    assert said.startswith(f"Entry {entry} is already reversed")
    assert f"reverses {entry}" in terminal.do("entries", "--last", "1")


def test_a_chain_is_shown_and_asked_about_first(terminal: Terminal) -> None:
    tag = terminal.pallet()
    first = terminal.head()[0]
    terminal.do("load", tag, "Extractor")
    terminal.drum()
    assert terminal.refused("reverse", str(first), "--reason", "never came") == (
        f"Entry {first} is built on by entry {first + 1} (load), entry {first + 2} (fill). "
        "Reverse those first, newest first, or reverse the whole chain."
    )
    words = ("reverse", str(first), "--chain", "--reason", "never came")
    before = terminal.head()
    no = terminal.type(*words, answer="n\n")
    assert (no.code, no.err) == (2, "Nothing was reversed.\n")
    assert "3 entries would be reversed, newest first:" in no.out
    nobody = terminal.type(*words)
    assert nobody.code == 2
    numbers = f"{first + 2}, {first + 1}, {first}"
    assert f"This would reverse entry {numbers}: say --yes to do it." in nobody.err
    assert terminal.head() == before
    yes = terminal.do(*words, answer="y\n")
    assert f"Recorded as entry {first + 3} (reverse) and {first + 4} (reverse)" in yes
    assert terminal.json("stock") == []


def test_a_program_sees_the_chain_before_it_says_yes(terminal: Terminal) -> None:
    tag = terminal.pallet()
    first = terminal.head()[0]
    terminal.do("load", tag, "Extractor")
    head = terminal.head()
    shown = terminal.json("reverse", str(first), "--chain", "--reason", "never came")
    assert shown["done"] is False
    assert [(row["entry"], row["kind"]) for row in shown["would_reverse"]] == [
        (first + 1, "load"),
        (first, "receive"),
    ]
    assert shown["would_reverse"][1]["happened"].startswith("2026-07-24T")
    assert tag in shown["would_reverse"][1]["codes"]
    assert terminal.head() == head


def test_of_a_long_chain_the_first_and_last_number_are_told(terminal: Terminal) -> None:
    tag = terminal.pallet()
    first = terminal.head()[0]
    terminal.do("load", tag, "Extractor")
    for _ in range(2):
        terminal.drum(net="100")
    said = terminal.do("reverse", str(first), "--chain", "--yes", "--reason", "never came")
    assert said.splitlines()[0] == f"Recorded as entries {first + 4} to {first + 7} (reverse)."


def test_a_chain_is_reversed_unasked_with_yes(terminal: Terminal) -> None:
    tag = terminal.pallet()
    first = terminal.head()[0]
    terminal.do("load", tag, "Extractor")
    done = terminal.json("reverse", str(first), "--chain", "--yes", "--reason", "never came")
    assert (done["done"], len(done["entries"])) == (True, 2)
    assert all(row["holds"] for row in terminal.json("audit")["invariants"])


def test_corrections_need_an_entry_and_a_reason(terminal: Terminal) -> None:
    pull, _ = _drum(terminal)
    assert terminal.refused("reverse", "999", "--reason", "x").startswith("There is no entry 999")
    said = terminal.refused("reverse", "999", "--chain", "--yes", "--reason", "x")
    assert said.startswith("There is no entry 999")
    assert terminal.refused("reverse", "3") == "Give the reason in a word or two."
    assert terminal.refused("amend", pull, "--yard", "Long Field") == (
        "Give the reason in a word or two."
    )
    assert terminal.refused("amend", pull, "--reason", "x").startswith("Say what was wrong")
