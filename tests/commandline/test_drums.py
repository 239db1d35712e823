"""Drums and tanks: filling, the container's limit, weighing again, buying in."""

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def tank(terminal: Terminal) -> Terminal:
    """341 kg of Mill Lane's honey in the tank."""
    terminal.do("load", terminal.pallet(gross="500"), "Extractor")
    return terminal


def _container(tank: Terminal, *options: str) -> str:
    words = ("register", "drum", "add", "Blue 7", "--number", "7", "--tare", "18", *options)
    return tank.given("E", *words)


def test_a_drum_is_filled_by_gross_and_registered_tare(tank: Terminal) -> None:
    _container(tank)
    done = tank.json("fill", "Tank 1", "--container", "7", "--gross", "218,5")
    drum = next(lot for lot in done["lots"] if lot["kind"] == "D")
    assert drum["made_g"] == 200_500


def test_more_than_the_books_hold_is_posted_and_goes_on(tank: Terminal) -> None:
    done = tank.json("fill", "Tank 1", "--net", "350")
    assert [note["key"] for note in done["notes"]] == ["more-than-the-books"]
    assert tank.json("audit")["invariants"][0]["holds"]


def test_much_more_is_honey_of_unknown_source_on_hold(tank: Terminal) -> None:
    done = tank.json("fill", "Tank 1", "--net", "600")
    assert "unknown-honey" in [note["key"] for note in done["notes"]]
    drum = next(lot["code"] for lot in done["lots"] if lot["kind"] == "D")
    trace = tank.json("trace", drum)
    assert trace["reach_complete"] is False
    assert {row["kind"] for row in trace["yards"]} == {"yard", "unknown"}
    assert "source not known" in tank.do("trace", drum)


def test_unknown_honey_is_not_called_a_pull(tank: Terminal) -> None:
    said = tank.do("fill", "Tank 1", "--net", "600").splitlines()
    assert "  S26-0002-E  source not known, 259.0 kg" in said
    assert "S26-0002-E, source not known, " in tank.do("lot", "S26-0002-E")
    tank.do("amend", "S26-0002-E", "--pallet", tank.pallet(), "--reason", "not scanned")
    assert "S26-0002-E, pull, " in tank.do("lot", "S26-0002-E")


def test_a_drum_that_waits_is_filled_on_and_bunged(tank: Terminal) -> None:
    _container(tank)
    tank.do("fill", "Tank 1", "--container", "Blue 7", "--net", "100", "--open")
    tank.do("fill", "Tank 1", "--container", "Blue 7", "--net", "150", "--open")
    done = tank.json("bung", "Blue 7")
    assert [(lot["kind"], lot["made_g"]) for lot in done["lots"]] == [("D", 250_000)]


def test_a_weight_may_follow(tank: Terminal) -> None:
    drum = tank.given("D", "fill", "Tank 1", "--to-follow")
    assert tank.json("lot", drum)["pending"] is True
    tank.do("reweigh", drum, "--net", "281")
    card = tank.json("lot", drum)
    assert (card["pending"], card["on_hand_g"]) == (False, 281_000)


def test_honey_goes_from_vessel_to_vessel_and_foam_is_taken_off(tank: Terminal) -> None:
    tank.do("register", "vessel", "add", "Tank 2")
    tank.do("fill", "Tank 1", "--into", "Tank 2", "--net", "100")
    tank.do("skim", "Tank 2", "2,5")
    rows = {row["where"]: row["grams"] for row in tank.json("stock")}
    assert rows == {"Tank 1": 241_000, "Tank 2": 97_500}


def test_a_bought_drum_ends_at_its_supplier(tank: Terminal) -> None:
    tank.do("register", "supplier", "add", "Far Hills", "--country", "Argentina")
    words = ("purchase", "Far Hills", "--gross", "310", "--tare", "18", "--lot", "FH-9")
    code = tank.given("P", *words)
    yards = tank.json("trace", code)["yards"]
    assert [(row["kind"], row["name"], row["grams"]) for row in yards] == [
        ("supplier", "Far Hills", 292_000)
    ]


def test_a_full_drum_is_refused(tank: Terminal) -> None:
    _container(tank, "--usual", "150", "--limit", "160")
    drum = tank.drum("--container", "7")
    assert tank.refused("fill", "Tank 1", "--container", "7", "--net", "50", "--top-up") == (
        f"Blue 7 is already full: it holds {drum} with 150.0 kg, and its limit is 160.0 kg. Take "
        "another container."
    )


def test_topping_up_asks_and_then_voids_the_label(tank: Terminal) -> None:
    _container(tank)
    drum = tank.drum("--container", "7")
    said = tank.refused("fill", "Tank 1", "--container", "7", "--net", "50")
    assert said.startswith(f"Blue 7 holds {drum} with 150.0 kg.")
    done = tank.json("fill", "Tank 1", "--container", "7", "--net", "50", "--top-up")
    assert "label-void" in [note["key"] for note in done["notes"]]
    assert tank.json("lot", drum)["label_void"] is True


def test_a_used_drum_asks_whether_it_was_washed(tank: Terminal) -> None:
    _container(tank)
    old = tank.drum("--container", "7")
    tank.do("dispatch", "Corner Shop", old)
    said = tank.refused("fill", "Tank 1", "--container", "7", "--net", "150")
    assert "Say whether it was washed" in said
    new = tank.drum("--container", "7", "--not-washed", net="150")
    assert old in [row["code"] for row in tank.json("lot", new)["in_reach_only"]]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            ("fill", "Tank 1", "--gross", "15", "--tare", "18"),
            "Gross 15.0 kg is not above the tare of 18.0 kg. Weigh again, or correct the tare.",
        ),
        (
            ("fill", "Tank 1", "--net", "1.234"),
            "1.234 can mean 1 kg 234 g or 1234 kg: type 1.2340 or 1234.",
        ),
        (
            ("fill", "Tank 1"),
            "Type the gross or net weight, or say that the weight is to follow.",
        ),
        (
            ("fill", "Tank 1", "--net", "50", "--open"),
            "A drum that waits for more needs a container's number. Scan the container.",
        ),
    ],
)
def test_what_does_not_fit_gets_a_sentence_and_changes_nothing(
    tank: Terminal, words: tuple[str, ...], sentence: str
) -> None:
    assert tank.refused(*words) == sentence
