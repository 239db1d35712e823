"""A lot's card on the terminal: everything of it, and its history as dated sentences."""

from tests.support.terminal import Terminal


def test_the_card_of_a_jar_lot(terminal: Terminal) -> None:
    terminal.do("load", terminal.pallet(), "Extractor")
    drum = terminal.drum()
    lot = terminal.given("J", "change-over", "--product", "Summer 500", "--feed", drum)
    terminal.do("bottle", lot, "240", "--operator", "Ann Reed")
    terminal.do("dispatch", "Corner Shop", f"{lot}=100")
    terminal.do("discard", f"{lot}=1", "--reason", "broken")
    card = terminal.json("lot", lot)
    assert {row["where"]: row["pieces"] for row in card["places"]} == {
        "Corner Shop": 100,
        "jar store": 139,
        "discarded": 1,
    }
    assert card["facts"]["product"] == "Summer 500"
    assert [told["kind"] for told in card["history"]] == ["bottle", "dispatch", "discard"]
    assert card["history"][0]["by"] == "Ann Reed"
    shown = terminal.do("lot", lot).splitlines()
    assert shown[0] == f"{lot}, jar lot, 120.0 kg made 24 Jul 2026 08:54"
    assert "  50.0 kg at Corner Shop, 100 jars" in shown
    assert "  500 g at discarded, 1 jar" in shown
    assert "  100.0 % Mill Lane (Y26-0001-P)" in shown
    assert shown[-3] == (
        f"24 Jul 2026 08:54  Bottled: 120.0 kg of {drum} into the jar store; 240 jars. Ann Reed. "
        f"[entry {card['history'][0]['entry']}]"
    )


def test_what_is_in_reach_only_is_named_by_entry_and_line(terminal: Terminal) -> None:
    terminal.do("register", "house", "change", "--reach-margin", "60")
    terminal.do("load", terminal.pallet(), "Extractor")
    drum = terminal.drum()
    terminal.do("load", terminal.pallet("Long Field"), "Extractor")
    fill = next(row for row in terminal.json("trace", drum)["lots"] if row["kind"] == "T")
    (row,) = terminal.json("lot", fill["code"])["in_reach_only"]
    assert row["late"] is True
    words = ("--entry", str(row["entry"]), "--line", str(row["line"]))
    shown = terminal.do("lot", fill["code"])
    assert "In its reach at 0 g" in shown
    terminal.do(
        "narrow", fill["code"], *words, "--reason", "scanned at once", "--operator", "Ann Reed"
    )
    assert terminal.json("lot", fill["code"])["in_reach_only"] == []


def test_what_the_scale_found_is_said_against_the_books(terminal: Terminal) -> None:
    terminal.do("load", terminal.pallet(), "Extractor")
    drum = terminal.drum()
    made_g = terminal.json("lot", drum)["made_g"]
    terminal.do("reweigh", drum, "--net", f"{made_g / 1000 + 1.5}")
    assert (
        "  by the scale: 1.5 kg more than the books saw" in terminal.do("lot", drum).splitlines()
    )


def test_a_card_needs_a_lot(terminal: Terminal) -> None:
    assert "Y26-0001-P" in terminal.refused("lot", "Y26-0001-P")
