"""Checks on a schedule, in the terminal."""

from tests.support.terminal import Terminal


def test_equipment_is_checked(terminal: Terminal) -> None:
    terminal.do("register", "equipment", "add", "Drum scale", "--sort", "scale")
    terminal.do("check", "Drum scale", "20 kg", "--value", "20.0 kg")
    said = terminal.do("check", "Drum scale", "20 kg", "--result", "off", "--value", "20.4 kg")
    assert "Drum scale is off on 20 kg. It was last found right on" in said


def test_what_is_due_is_listed_and_ticked_off(terminal: Terminal) -> None:
    before = {row["check"]: row["state"] for row in terminal.json("checks")["checks"]}
    assert before["pests"] == "never made"
    terminal.do("check", "pests", "--note", "nothing in the traps", "--operator", "Ann Reed")
    terminal.do("check", "Glass and brittle plastic")
    rows = terminal.json("checks", "--all")
    after = {row["check"]: row for row in rows["checks"]}
    assert (after["pests"]["state"], after["pests"]["by"]) == ("in order", "Ann Reed")
    assert after["glass"]["state"] == "in order"
    assert rows["in_order"] == 2
    said = terminal.do("checks")
    assert "Pests" not in said
    assert "follow your own plan and code" in said
    assert terminal.refused("check", "Nothing such", "--of", "mice").startswith(
        "mice is no check of this house. Choose one of the list: Cleaning before work,"
    )


def test_a_failed_check_finds_what_used_it_and_holds_it_in_one_command(
    terminal: Terminal,
) -> None:
    terminal.do(
        *("register", "equipment", "add", "Sieve", "--sort", "sieve", "--part-of", "Extractor")
    )
    terminal.do("check", "Sieve", "--of", "sieve")
    assert terminal.do("used-since", "Sieve").startswith("Nothing used Sieve since 24 Jul 2026")
    terminal.do("load", terminal.pallet(), "Extractor")
    lots = terminal.json("fill", "Extractor", "--net", "60")["lots"]
    drum = next(row["code"] for row in lots if row["kind"] == "D")
    found = terminal.json("used-since", "Sieve", "--of", "sieve")
    assert drum in [row["code"] for row in found["lots"]]
    assert drum in terminal.do("used-since", "Sieve")
    done = terminal.json(
        *("check", "Sieve", "--of", "sieve", "--result", "off", "--note", "a wire is broken"),
        *("--hold", "--operator", "Ann Reed"),
    )
    assert len(done["entries"]) == 2
    assert {row["held"] for row in terminal.json("used-since", "Sieve")["lots"]} == {True}
    (hold,) = terminal.json("holds")["holds"]
    assert (hold["name"], drum in hold["lots"]) == ("Sieve", True)
    assert hold["reason"].startswith("Sieve found off on Sieve whole since 24 Jul 2026")
    said = terminal.refused("check", "Sieve", "--of", "sieve", "--result", "off", "--since",
                            "24 Jul 2026 08:58", "--at", "24 Jul 2026 08:50")  # fmt: skip
    assert said.startswith("It was found off on ")
    assert "so it cannot have been off only since" in said
