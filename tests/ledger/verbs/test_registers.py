"""Registers: each change is the full new record, kept as an entry like everything else."""

import pytest

from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register, key_from
from honeyledger.services.house import notes_of
from tests.support.books import mark, refusal_of, turned_down
from tests.support.houses import BuiltHouse


def test_a_yard_gets_a_code_and_a_product_a_key() -> None:
    house = BuiltHouse()
    yard = house.do(Register("yard", {"name": "Creek", "colonies": 40}))
    product = house.do(Register("product", {"name": "Clover 500", "net_g": 500}))
    (code,) = yard.given
    assert code.startswith("Y26-0001-")
    assert mark(house, f"yard/{code}", "record") == {"name": "Creek", "colonies": 40}
    assert product.given == ()
    assert mark(house, "product/clover-500", "record") == {"name": "Clover 500", "net_g": 500}
    (entry,) = yard.entries
    assert (entry.kind, entry.lots, entry.postings) == ("register", (), ())


def test_a_change_is_the_whole_new_record_and_the_old_one_stays_in_its_entry() -> None:
    house = BuiltHouse()
    first = house.do(Register("yard", {"name": "Creek", "colonies": 40}))
    (code,) = first.given
    house.do(Register("yard", {"name": "Creek East"}, key=code))
    assert mark(house, f"yard/{code}", "record") == {"name": "Creek East"}
    kept = house.house.ask(lambda view: view.entry(first.entries[0].id))
    assert kept == first.entries[0]


def test_equipment_shares_one_run_of_numbers() -> None:
    house = BuiltHouse()
    tank, drum = house.vessel("Tank 1"), house.container("17")
    assert tank.startswith("E26-0001")
    assert drum.startswith("E26-0002")


def test_a_line_that_feeds_a_tank_is_kept_by_its_code() -> None:
    house = BuiltHouse()
    line = house.vessel("Line", sort="line")
    tank = house.vessel("Tank 1", fed_by="Line")
    assert mark(house, f"vessel/{tank}", "record") == {
        "name": "Tank 1",
        "sort": "tank",
        "fed_by": line,
    }


@pytest.mark.parametrize("name", ["", "   ", "- -"])
def test_a_record_needs_a_name(name: str) -> None:
    house = BuiltHouse()
    said = turned_down(house, Register("customer", {"name": name}))
    assert said == "Give the customer a name, such as it is called in the house."


def test_there_is_no_register_of_that() -> None:
    said = turned_down(BuiltHouse(), Register("hive", {"name": "1"}))
    assert said == (
        "There is no register of hive. There are: house, yard, vessel, drum, equipment, operator, "
        "product, customer, supplier, box, room, check, limit, stock, "
        "shift, order, wording."
    )


def test_one_name_is_one_record() -> None:
    house = BuiltHouse()
    yard = house.yard("Creek")
    house.do(Register("customer", {"name": "A-B Shop"}))
    said = turned_down(house, Register("yard", {"name": "CREEK"}))
    assert said == (f"CREEK is already the name of {yard}. Choose another, or change that record.")
    # Both would go by the key a-b-shop, and the first would be gone without a word.
    for name in ("A B Shop", "A-B Shop"):
        assert turned_down(house, Register("customer", {"name": name})) == (
            f"{name} is already the name of a-b-shop. Choose another, or change that record."
        )
    house.do(Register("customer", {"name": "A.B. Shop"}, key="a-b-shop"))
    assert mark(house, "customer/a-b-shop", "record") == {"name": "A.B. Shop"}


def test_no_customer_is_called_as_the_farm_gate() -> None:
    said = turned_down(BuiltHouse(), Register("customer", {"name": "Gate"}))
    assert said == (
        "Gate is already the name of the farm gate. Choose another, or change that record."
    )


def test_a_code_is_given_by_the_house_never_brought() -> None:
    house = BuiltHouse()
    yard = house.yard("Creek")
    wrong = f"{yard[:-1]}{'2' if yard[-1] != '2' else '3'}"
    refusal = refusal_of(house, Register("yard", {"name": "Hill"}, key=wrong))
    assert (refusal.key, refusal.field) == ("unknown-code", "key")
    assert refusal.text == (
        f"{wrong} is not a code of this house. Was it {yard}? Scan it again, or look it up by "
        "name."
    )
    assert refusal.offers == (yard,)


@pytest.mark.parametrize(
    ("what", "mass", "value", "said"),
    [
        ("product", "net_g", 0, "The net content cannot be 0: type a weight above 0."),
        ("drum", "usual_g", -5, "The usual net weight cannot be -5: type a weight above 0."),
        ("drum", "limit_g", 0, "The most it takes cannot be 0: type a weight above 0."),
        ("vessel", "capacity_g", "big", "The capacity cannot be big: type a weight above 0."),
        ("box", "honey_g", 0, "The usual honey of a box cannot be 0: type a weight above 0."),
        ("drum", "tare_g", -1, "The tare cannot be -1: type a weight, or 0 where there is none."),
    ],
)  # fmt: skip
def test_masses_are_more_than_none(what: str, mass: str, value: str | int, said: str) -> None:
    refusal = refusal_of(BuiltHouse(), Register(what, {"name": "It", mass: value}))
    assert refusal.key == ("not-a-tare" if mass == "tare_g" else "not-above-zero")
    assert (refusal.field, refusal.text) == (mass, said)


def test_a_container_may_weigh_nothing() -> None:
    house = BuiltHouse()
    bag = house.container("Liner", tare_g=0)
    assert mark(house, f"drum/{bag}", "record") == {"name": "Liner", "tare_g": 0}


def test_nothing_feeds_itself_not_even_round_a_corner() -> None:
    house = BuiltHouse()
    line = house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    house.vessel("Tank 2", fed_by="Tank 1")
    sentence = "{} would be fed by itself. Name the line whose honey runs into it, or none."
    for fed_by in ("Line", "Tank 1", "Tank 2"):
        facts = Register("vessel", {"name": "Line", "fed_by": fed_by}, key=line)
        assert turned_down(house, facts) == sentence.format("Line")


def test_what_feeds_a_tank_is_a_vessel() -> None:
    house = BuiltHouse()
    said = turned_down(house, Register("vessel", {"name": "Tank 1", "fed_by": "Line"}))
    assert said == "There is no vessel called Line, nor any other. Register it first."


def test_the_house_keeps_only_settings_it_can_work_with() -> None:
    house = BuiltHouse()
    name = {"name": "Test House"}
    assert turned_down(house, Register("house", {**name, "zone": "Mars/Base"})) == (
        "Mars/Base is not a time zone: type its name, such as Europe/Berlin or America/Regina."
    )
    settings = {
        "margin_ms": "The reach margin",
        "shortfall_permille": "The largest shortfall",
        "jar_margin": "The jar margin",
        "usual_spread_permille": "The usual spread",
    }
    for setting, spoken in settings.items():
        said = turned_down(house, Register("house", {**name, setting: -1}))
        assert said == f"{spoken} cannot be -1: type a whole number, 0 or above."
        said = turned_down(house, Register("house", {**name, setting: "wide"}))
        assert said == f"{spoken} cannot be wide: type a whole number, 0 or above."
    assert turned_down(house, Register("house", {**name, "prefix": "Q7"})) == (
        "Q7 cannot begin a house's codes: choose two or three letters from A to Z."
    )


def test_a_prefix_can_be_taken_later_but_not_left() -> None:
    house = BuiltHouse()
    plain = house.yard("Creek")
    house.do(Register("house", {"name": "Test House", "prefix": "kb"}))
    marked = house.yard("Hill")
    assert marked.startswith("KB-Y26-0002-")
    for yard in (plain, marked):  # codes from before are still read
        house.do(Receive((Line(yard, 10),)))
    for prefix in ("", "QX"):
        said = turned_down(house, Register("house", {"name": "Test House", "prefix": prefix}))
        assert said == (
            "Codes beginning with KB have been given, so the prefix stays: labels that are "
            "printed must still be read."
        )


def test_a_prefix_no_code_has_yet_can_be_changed() -> None:
    house = BuiltHouse()
    for prefix in ("AB", "CD", ""):
        house.do(Register("house", {"name": "Test House", "prefix": prefix}))
    assert house.yard("Creek").startswith("Y26-0001-")


def test_a_key_is_the_name_in_small_letters() -> None:
    assert key_from("Clover 500 g, set") == "clover-500-g-set"
    assert key_from("Löwe & Söhne") == "löwe-söhne"
    assert key_from(" -- ") == ""


@pytest.mark.parametrize(
    ("gtin", "text"),
    [
        (
            "123",
            "123 is not a trade item number (GTIN): type all its 8, 12, 13 or 14 digits.",
        ),
        (
            "2000000123456",
            "2000000123456 is misread: its last digit does not fit the rest. Scan or type it "
            "again.",
        ),
    ],
)
def test_a_products_gtin_is_checked(gtin: str, text: str) -> None:
    house = BuiltHouse()
    assert turned_down(house, Register("product", {"name": "Clover", "gtin": gtin})) == text
    house.do(Register("product", {"name": "Clover", "gtin": "2000000123455"}))


@pytest.mark.parametrize(
    ("record", "usual"), [({"usual_g": 300_000}, "300.0 kg"), ({}, "290.0 kg")]
)
def test_a_container_takes_what_it_usually_holds(record: dict[str, str | int], usual: str) -> None:
    house = BuiltHouse()
    facts = Register("drum", {"name": "Pail", "limit_g": 10_000, **record})
    assert turned_down(house, facts) == (
        f"Pail cannot take 10.0 kg at most and usually hold {usual}. Correct one of the two."
    )
    house.do(Register("drum", {"name": "Pail", "usual_g": 10_000, "limit_g": 10_000}))


def test_a_shift_keeps_its_people_by_their_badges_and_its_hours_as_times_of_day() -> None:
    house = BuiltHouse()
    (ann,) = house.do(Register("operator", {"name": "Ann Reed"})).given
    (bo,) = house.do(Register("operator", {"name": "Bo Hale"})).given
    early = {"name": "Early", "begins": "6.30", "ends": "14", "people": f"bo hale, {ann}, Bo Hale"}
    house.do(Register("shift", early))
    kept = {"name": "Early", "begins": "06:30", "ends": "14:00", "people": f"{bo}, {ann}"}
    assert mark(house, "shift/early", "record") == kept
    wrong = turned_down(house, Register("shift", {"name": "Late", "begins": "noon"}))
    assert wrong == "noon is not a time of day: type hours and minutes, such as 06:30."
    unknown = turned_down(house, Register("shift", {"name": "Late", "people": "Cy"}))
    assert "Cy" in unknown


def test_an_order_is_a_customers_and_has_a_day() -> None:
    house = BuiltHouse()
    house.do(Register("customer", {"name": "Corner shop"}))
    order = {"name": "PO 118", "customer": "corner shop", "due": "30 Jul", "goods": "12 drums"}
    house.do(Register("order", order))
    kept = order | {"customer": "corner-shop", "due": "2026-07-30"}
    assert mark(house, "order/po-118", "record") == kept
    assert "Yew" in turned_down(house, Register("order", order | {"customer": "Yew"}))
    wrong = turned_down(house, Register("order", order | {"due": "soon"}))
    assert "soon" in wrong


def test_coloured_label_stock_on_which_codes_stand_out_little_is_told_of() -> None:
    house = BuiltHouse()
    sizes: dict[str, str | int] = {"paper": "roll", "width_um": 100_000, "height_um": 60_000}
    said = {}
    for colour in ("", "cream", "kraft", "blue"):
        done = house.do(Register("stock", {"name": f"Roll {colour}", "colour": colour, **sizes}))
        said[colour] = [text for _key, text in notes_of(done.entries[-1])]
    assert said == {
        "": [],
        "cream": [],
        "kraft": [
            "On kraft paper black stands out by 35 %, and scanners want 40: print one label and "
            "scan it before the rest, or take white ones. Below 20 % none is printed."
        ],
        "blue": [
            "On blue paper black stands out by 2 %, and scanners want 40: print one label and "
            "scan it before the rest, or take white ones. Below 20 % none is printed."
        ],
    }


def test_a_label_stock_lies_on_its_sheet() -> None:
    house = BuiltHouse()
    sizes = {"paper": "a4", "columns": 2, "width_um": 99_000, "height_um": 38_000}
    house.do(Register("stock", {"name": "Jar sheet", **sizes}))
    assert mark(house, "stock/jar-sheet", "record") == {"name": "Jar sheet", **sizes}
    wide = turned_down(house, Register("stock", {"name": "Wide", **sizes, "columns": 3}))
    assert wide == (
        "3 labels side by side take 297 mm with the left margin and the gaps, and the sheet is "
        "210 mm wide: measure again, or count the columns again."
    )


def test_a_check_is_made_at_an_interval() -> None:
    house = BuiltHouse()
    facts = Register("check", {"name": "Pests", "every": "now and then"})
    assert turned_down(house, facts).startswith("now and then is no interval of a label:")
    house.do(Register("check", {"name": "Pests", "every": "2 weeks"}))
