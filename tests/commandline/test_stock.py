"""Stock and balances on the terminal."""

from tests.support.terminal import Terminal


def test_stock_lists_every_lot_on_hand(terminal: Terminal) -> None:
    assert terminal.json("stock") == []
    assert terminal.do("stock") == "Nothing is on hand.\n"
    tag = terminal.pallet("Long Field", supers="12")
    terminal.do("load", terminal.pallet(), "Extractor")
    drum = terminal.drum()
    rows = terminal.json("stock")
    assert [set(row) >= {"code", "kind", "place", "grams"} for row in rows] == [True] * 3
    by_kind = {row["kind"]: row for row in rows}
    assert by_kind["D"]["place"] == f"drum/{drum}"
    assert (by_kind["S"]["where"], by_kind["S"]["pieces"]) == (f"pallet {tag}", 12)
    assert [row["code"] for row in terminal.json("stock", "--kind", "d")] == [drum]
    assert [row["kind"] for row in terminal.json("stock", "--place", "vessel")] == ["T"]
    assert drum in terminal.do("stock")


def test_weights_are_shown_in_the_unit_asked_for_and_in_the_houses_own(terminal: Terminal) -> None:
    terminal.pallet(gross="259")
    assert "100.0 kg" in terminal.do("stock")
    assert "220.5 lb" in terminal.do("stock", "--unit", "lb")
    terminal.do("register", "house", "change", "--weighs-in", "lb")
    assert "220.5 lb" in terminal.do("stock")


def test_the_balance_of_a_lot(terminal: Terminal) -> None:
    terminal.do("load", terminal.pallet(), "Extractor")
    drum = terminal.drum()
    terminal.do("reweigh", drum, "--net", "149")
    balance = terminal.json("mass-balance", drum)
    assert (balance["made_g"], balance["on_hand_g"], balance["gap_g"]) == (150_000, 149_000, 0)
    assert {row["name"]: row["grams"] for row in balance["places"]} == {
        f"drum {drum}": 149_000,
        "weighing difference": 1_000,
    }
    shown = terminal.do("mass-balance", drum)
    assert shown.splitlines()[-1].split() == ["not", "accounted", "for", "0.0", "kg"]


def test_the_balance_of_a_run_is_its_sheet(terminal: Terminal) -> None:
    run = terminal.given("R", "run", "open", "Extractor")
    terminal.do("load", terminal.pallet(), "Extractor", "--run", run)
    terminal.drum("--run", run)
    sheet = terminal.json("mass-balance", run)
    assert (sheet["run"], sheet["balance"]["in_g"]) == (run, 341_000)
    assert sheet["balance"]["drums_g"] == 150_000


def test_the_balance_of_the_house_needs_no_code(terminal: Terminal) -> None:
    terminal.do("load", terminal.pallet(), "Extractor")
    drum = terminal.drum()
    balance = terminal.json("mass-balance")
    grams = {row["code"]: row["grams"] for row in balance["places"]}
    assert balance["came"][0]["grams"] == 341_000
    assert (grams["drum"], grams["vessel"]) == (150_000, 191_000)
    assert (balance["on_hand_g"], balance["gap_g"]) == (341_000, 0)
    shown = terminal.do("mass-balance").splitlines()
    assert shown[0] == "All honey since the ledger began"
    assert shown[-1].split() == ["not", "accounted", "for", "0.0", "kg"]
    assert not any("farm gate" in line for line in shown)  # nothing went there
    assert drum in terminal.do("mass-balance", drum)


def test_a_balance_needs_a_code_that_exists(terminal: Terminal) -> None:
    assert "R26-0001-X" in terminal.refused("mass-balance", "R26-0001-X")


def test_a_kind_or_place_that_is_none_is_refused(terminal: Terminal) -> None:
    assert terminal.refused("stock", "--kind", "Q").startswith("Q is no kind of lot.")
    assert terminal.refused("stock", "--place", "moon").startswith("moon is no kind of place")
