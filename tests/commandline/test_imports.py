"""Tables taken in on the terminal: all of a file, or nothing and every reason why."""

from pathlib import Path

import pytest

from tests.support.terminal import Terminal


def _file(terminal: Terminal, *lines: str) -> str:
    path = terminal.folder / "table.csv"
    path.write_text("\n".join(lines) + "\n", "utf-8")
    return str(path)


def test_yards_are_taken_in_once(terminal: Terminal) -> None:
    file = _file(terminal, "Name,Colonies", "Brackle,32", "Mill Lane,31")
    done = terminal.json("import", "yards", file)
    assert (done["rows"], done["again"], len(done["entries"])) == (2, False, 2)
    rows = terminal.json("register", "yard", "list")["yards"]
    assert {row["name"]: row.get("colonies") for row in rows} == {
        "Brackle": 32,
        "Long Field": None,
        "Mill Lane": 31,
    }
    head = terminal.head()
    again = terminal.json("import", "yards", file)
    assert (again["again"], again["entries"]) == (True, [])
    assert terminal.head() == head
    assert "were already so" in terminal.do("import", "yards", file)


def test_receipts_are_taken_in_each_when_it_arrived(terminal: Terminal) -> None:
    file = _file(
        terminal,
        "pallet;arrived;yard;supers;gross kg",
        "1;2026-07-24 07:10;Mill Lane;24;512,5",
        "1;;Long Field;12;",
        "2;2026-07-24 07:20;Long Field;30;",
    )
    path = Path(file)
    path.write_text(path.read_text("utf-8").replace("1;;", "1;2026-07-24 07:10;"), "utf-8")
    done = terminal.json("import", "receipts", file, "--operator", "Ann Reed")
    assert (done["rows"], len(done["entries"])) == (3, 2)
    rows = terminal.json("entries", "--last", "2")["entries"]
    assert [row["happened"][11:16] for row in rows] == ["07:20", "07:10"]
    assert {row["operator"] for row in rows} == {"O26-0001-A"}
    said = terminal.do("import", "receipts", file)
    assert "taken in before" in said


def test_every_bad_cell_is_named_and_nothing_is_written(terminal: Terminal) -> None:
    file = _file(
        terminal,
        "arrived,yard,supers,gross kg",
        "2026-07-24 07:10,Mile Lane,24,512.5",
        "2026-07-24 07:20,Mill Lane,some,1.234",
    )
    said = terminal.refused("import", "receipts", file)
    assert "has 3 things to put right, so nothing of it was taken in" in said
    assert "row 2" in said
    assert "Was it Mill Lane?" in said
    assert "1.234 can mean" in said


def test_a_file_that_is_not_there(terminal: Terminal) -> None:
    nowhere = str(terminal.folder / "none.csv")
    assert f"There is no file {nowhere}." in terminal.refused("import", "yards", nowhere)


@pytest.fixture(scope="module")
def season(tmp_path_factory: pytest.TempPathFactory) -> Terminal:
    """A terminal whose house is the sample season, loaded once."""
    terminal = Terminal(tmp_path_factory.mktemp("season"))
    answer = terminal.json("sample")
    assert answer["house"] == terminal.where
    assert answer["rows"] > 500
    assert answer["entries"] >= answer["rows"] // 2
    return terminal


@pytest.mark.full
def test_the_sample_season_holds_and_is_loaded_once(season: Terminal) -> None:
    head = season.head()
    assert "The sample season is in" in season.do("sample")
    assert season.head() == head
    assert all(row["holds"] for row in season.json("audit")["invariants"])


def test_the_sample_goes_into_a_house_of_its_own(terminal: Terminal) -> None:
    said = terminal.refused("sample")
    assert said == (
        "This house has entries of its own. Load the sample season into a new, empty house."
    )


def test_a_laboratorys_results_are_taken_in(terminal: Terminal, tmp_path: Path) -> None:
    terminal.do("load", terminal.pallet(), "Extractor")
    drum = terminal.drum()
    table = tmp_path / "report.csv"
    table.write_text(f"lot,laboratory,hmf\n{drum},Bench,<5\n", encoding="utf-8")
    assert terminal.do("import", "results", str(table)) == (
        "report.csv: the results of 1 row were kept.\n"
    )
    assert "HMF: <5 mg/kg (Bench" in terminal.do("lot", drum)
