"""Files of yards and receipts come in whole or not at all, and once."""

from pathlib import Path

import pytest

from honeyledger.assets import resource
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.imports import import_receipts, import_yards
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Said
from tests.support.houses import BuiltHouse

HEADS = "Pallet;Arrived;Yard;Supers;Gross kg;Tare kg;Moisture %\n"
TWO = HEADS + (
    "1;24.07.2026 08:10;Brackle Slough;20;471,5;41;17,4\n"
    "1;24.07.2026 08:10;Oatfell;10;;;\n"
    "2;24.07.2026 08:20;Oatfell;30;;;\n"
)


@pytest.fixture
def house() -> BuiltHouse:
    built = BuiltHouse()
    built.yard("Brackle Slough", colonies=24)
    built.yard("Oatfell", number="9")
    return built


def file(tmp_path: Path, content: str, name: str = "receipts.csv") -> Path:
    path = tmp_path / name
    path.write_text(content, encoding="utf-8")
    return path


def head(house: BuiltHouse) -> int:
    return house.house.ask(lambda view: view.head().entry)


def pulls(house: BuiltHouse) -> list[tuple[str, int, int]]:
    entries = house.house.ask(lambda view: view.entries(["receive"]))
    return [
        (str(lot.attributes["yard"]), int(str(lot.attributes["count"])), lot.made_g)
        for entry in entries
        for lot in entry.lots
    ]


def test_receipts_come_in_each_at_its_own_time(house: BuiltHouse, tmp_path: Path) -> None:
    result = import_receipts(house.house, file(tmp_path, TWO), Said(operator="O26-0001-X"))
    assert result.text == "receipts.csv: received 2 pallets with 60 supers."
    assert (result.rows, result.again) == (3, False)
    assert [code[0] for code in result.codes] == ["G", "S", "S", "G", "S"]
    brackle, oatfell = (
        house.house.ask(lambda view, name=name: view.marked("record", "yard/"))[at].subject[5:]
        for at, name in enumerate(("Brackle Slough", "Oatfell"))
    )
    # 471.5 - 41 - 30 boxes of 6 kg = 250.5 kg, shared by count; the other pallet by its count.
    assert pulls(house) == [
        (brackle, 20, 167_000),
        (oatfell, 10, 83_500),
        (oatfell, 30, 30 * 14_800),
    ]
    entries = house.house.ask(lambda view: view.entries(["receive"]))
    assert [entry.act.happened.at_ms - entries[0].act.happened.at_ms for entry in entries] == [
        0,
        600_000,
    ]
    assert len({entry.act.command for entry in entries}) == 1
    assert [entry.part for entry in entries] == [0, 1]


def test_the_same_file_writes_once(house: BuiltHouse, tmp_path: Path) -> None:
    import_receipts(house.house, file(tmp_path, TWO))
    before = head(house)
    again = import_receipts(house.house, file(tmp_path, TWO))
    assert head(house) == before
    assert again.again
    assert again.text == (
        "receipts.csv: 2 pallets were taken in before, and nothing is new. Nothing was written."
    )
    resaved = TWO.replace("471,5", '"471.50"').replace(";", ",").replace("17,4", "17.4")
    assert import_receipts(house.house, file(tmp_path, "\ufeff" + resaved)).again
    assert head(house) == before


def test_of_a_file_that_has_grown_only_what_is_new_is_written(
    house: BuiltHouse, tmp_path: Path
) -> None:
    import_receipts(house.house, file(tmp_path, TWO))
    before = head(house)
    grown = TWO + "3;24.07.2026 08:30;Oatfell;8;;;\n"
    result = import_receipts(house.house, file(tmp_path, grown))
    assert result.text == (
        "receipts.csv: received 1 pallet with 8 supers; 2 pallets were taken in before."
    )
    assert head(house) == before + 1


@pytest.mark.parametrize(
    ("was", "now"), [("Oatfell;30", "Oatfell;31"), ("Oatfell;30", "Brackle Slough;30")]
)
def test_a_row_put_right_is_no_second_pallet(
    house: BuiltHouse, tmp_path: Path, was: str, now: str
) -> None:
    first = import_receipts(house.house, file(tmp_path, TWO))
    assert first.recorded is not None
    entry = first.recorded.entries[1].id
    before = head(house)
    right = TWO.replace(was, now)
    with pytest.raises(Refusal) as refused:
        import_receipts(house.house, file(tmp_path, right))
    assert refused.value.text == (
        f"receipts.csv, row 4, Arrived: this pallet differs from entry {entry}, taken in before "
        "for the same time: reverse that entry first. If this is another pallet, keep the row of "
        "that one in the file as well."
    )
    assert head(house) == before
    more = TWO + f"3;24.07.2026 08:20;{now};;;\n"
    assert import_receipts(house.house, file(tmp_path, more)).text.startswith(
        "receipts.csv: received 1 pallet"
    )
    house.do(Reverse(head(house), "the row was wrong"))
    house.do(Reverse(entry, "the row was wrong"))
    assert import_receipts(house.house, file(tmp_path, right)).text == (
        f"receipts.csv: received 1 pallet with {now[-2:]} supers; 1 pallet was taken in before."
    )


def test_a_pallet_typed_at_the_dock_is_not_taken_for_one_of_the_file(
    house: BuiltHouse, tmp_path: Path
) -> None:
    house.do(Receive((Line("Oatfell", 12),)), at_min=0)
    rows = "Arrived,Yard,Supers\n2026-07-24 08:40,Oatfell,30\n"
    assert import_receipts(house.house, file(tmp_path, rows)).recorded is not None


def test_what_was_reversed_may_come_in_again(house: BuiltHouse, tmp_path: Path) -> None:
    first = import_receipts(house.house, file(tmp_path, TWO))
    assert first.recorded is not None
    house.do(Reverse(first.recorded.entries[1].id, "the wrong file"))
    again = import_receipts(house.house, file(tmp_path, TWO))
    assert again.text == (
        "receipts.csv: received 1 pallet with 30 supers; 1 pallet was taken in before."
    )
    assert import_receipts(house.house, file(tmp_path, TWO)).again


def test_two_pallets_alike_in_one_file_are_two(house: BuiltHouse, tmp_path: Path) -> None:
    twins = "Arrived,Yard,Supers\n" + "2026-07-24 08:10,Oatfell,30\n" * 2
    import_receipts(house.house, file(tmp_path, twins))
    assert len(pulls(house)) == 2
    assert import_receipts(house.house, file(tmp_path, twins)).again


def test_one_bad_row_and_nothing_is_written(house: BuiltHouse, tmp_path: Path) -> None:
    before = head(house)
    bad = TWO + "3;24.07.2026 08:30;Otfell;8;;;\n4;24.07.2026 08:35;Oatfell;none;;;\n"
    with pytest.raises(Refusal) as refused:
        import_receipts(house.house, file(tmp_path, bad))
    assert refused.value.text.splitlines() == [
        "receipts.csv has 2 things to put right, so nothing of it was taken in.",
        "receipts.csv, row 5, Yard: there is no yard Otfell yet. Was it Oatfell? Register it "
        "first, or correct it.",
        "receipts.csv, row 6, Supers: none is not a whole number: type a number of supers, such "
        "as 24.",
    ]
    assert head(house) == before


def test_what_the_dock_refuses_is_named_by_its_row(house: BuiltHouse, tmp_path: Path) -> None:
    before = head(house)
    bad = TWO + "3;24.07.2026 08:30;Oatfell;30;100;41;\n4;24.07.2026 08:31;Oatfell;30;;;31\n"
    with pytest.raises(Refusal) as refused:
        import_receipts(house.house, file(tmp_path, bad))
    told = refused.value.text.splitlines()
    assert told[1].startswith(
        "receipts.csv, row 5, Gross kg: Gross 100.0 kg is not above the tare"
    )
    assert told[2].startswith("receipts.csv, row 6, Moisture %: 31.0 % is not a honey's moisture")
    assert head(house) == before


def test_all_columns_that_lack_are_named(house: BuiltHouse, tmp_path: Path) -> None:
    with pytest.raises(Refusal) as refused:
        import_receipts(house.house, file(tmp_path, "Pallet,Yard\n1,Oatfell\n"))
    assert refused.value.text == (
        "receipts.csv has no column “arrived” and no column “supers”: name them in the first row. "
        "Also known: pallet, yard, pulled, crew, sheet, box, gross, tare, condition, moisture, "
        "owner."
    )


def test_columns_and_rows_that_are_wrong_are_told_at_once(
    house: BuiltHouse, tmp_path: Path
) -> None:
    table = "Yard;Date;Count;Gross\nOatfell;24.07.2026;x;500\nNowhere;24.07.2026;10;500\n"
    with pytest.raises(Refusal) as refused:
        import_receipts(house.house, file(tmp_path, table))
    assert refused.value.text == (
        "receipts.csv has 4 things to put right, so nothing of it was taken in.\n"
        "receipts.csv has a column “Date”: is it “arrived” or “pulled”? Name it so, or take it "
        "out.\n"
        "receipts.csv has no column “arrived”: name it in the first row. Also known: pallet, "
        "yard, pulled, crew, supers, sheet, box, gross, tare, condition, moisture, owner.\n"
        "receipts.csv, row 2, Count: x is not a whole number: type a number of supers, such as "
        "24.\n"
        "receipts.csv, row 3, Yard: there is no yard Nowhere yet. Register it first, or correct "
        "it."
    )


def test_a_file_with_heads_only_says_so(house: BuiltHouse, tmp_path: Path) -> None:
    result = import_receipts(house.house, file(tmp_path, HEADS))
    assert result.text == "receipts.csv has no rows under its first one: nothing was written."
    assert import_yards(house.house, file(tmp_path, "Yard\n")).recorded is None


def test_yards_come_in_and_are_changed_where_the_file_differs(
    house: BuiltHouse, tmp_path: Path
) -> None:
    table = "Yard,Colonies,Number\nBrackle Slough,30,\nOatfell,,9\nPikestaff,28,12\n"
    result = import_yards(house.house, file(tmp_path, table, "yards.csv"))
    assert result.text == "yards.csv: 1 new yard, 1 changed."
    records = {
        mark.value["name"]: mark.value  # type: ignore[index, call-overload]
        for mark in house.house.ask(lambda view: view.marked("record", "yard/"))
    }
    assert records["Brackle Slough"]["colonies"] == 30
    assert records["Oatfell"] == {"name": "Oatfell", "number": "9"}
    assert records["Pikestaff"] == {"name": "Pikestaff", "number": "12", "colonies": 28}
    before = head(house)
    again = import_yards(house.house, file(tmp_path, table, "yards.csv"))
    assert (again.again, again.text) == (True, "yards.csv: all 3 yards were already so.")
    assert head(house) == before


def test_a_yard_can_be_changed_there_and_back_again(house: BuiltHouse, tmp_path: Path) -> None:
    for colonies in (30, 24, 30, 24):
        table = f"Yard,Colonies\nBrackle Slough,{colonies}\n"
        result = import_yards(house.house, file(tmp_path, table, "yards.csv"))
        assert result.text == "yards.csv: 0 new yards, 1 changed."


def test_a_bad_yard_and_none_is_registered(house: BuiltHouse, tmp_path: Path) -> None:
    before = head(house)
    table = "Yard,Colonies\nPikestaff,28\nVetchling,many\n"
    with pytest.raises(Refusal) as refused:
        import_yards(house.house, file(tmp_path, table, "yards.csv"))
    assert refused.value.text == (
        "yards.csv, row 3, Colonies: many is not a whole number: type a number of colonies, such "
        "as 24."
    )
    assert head(house) == before


def test_the_sample_seasons_own_tables_come_in(tmp_path: Path) -> None:
    house = BuiltHouse()
    house.now_ms += 70 * 86_400_000  # the sample's season is over
    for box in ("deep", "shallow"):
        house.do(Register("box", {"name": box, "honey_g": 10_000, "tare_g": 5_000}))
    yards = import_yards(house.house, resource("sample", "yards.csv"))
    assert yards.text == "yards.csv: 40 new yards, 0 changed."
    receipts = import_receipts(house.house, resource("sample", "receipts.csv"))
    assert receipts.recorded is not None
    assert len(receipts.recorded.entries) == 107
    assert import_receipts(house.house, resource("sample", "receipts.csv")).again
