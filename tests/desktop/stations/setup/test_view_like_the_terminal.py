"""The same facts of the set-up in the window and in a terminal give the same digests."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.setup.view import SetupView
from tests.desktop.rig import Rig
from tests.support.terminal import Terminal
from tests.support.tiers import first_plain


class Both:
    """One house, twice: in a window and in a terminal."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        (folder / "window").mkdir()
        (folder / "terminal").mkdir()
        self.window = Rig(qtbot, folder / "window")
        self.window.keys("Ctrl+0")
        copy = folder / "terminal" / "house.honeyledger"
        with self.window.house.store.reading():
            shutil.copyfile(self.window.file, copy)
            for beside in ("-wal", "-shm"):
                part = Path(f"{self.window.file}{beside}")
                if part.exists():
                    shutil.copyfile(part, f"{copy}{beside}")
        self.terminal = Terminal(folder / "terminal")
        assert self.terminal.head() == self.window.head()

    @property
    def view(self) -> SetupView:
        found = self.window.window.stations["setup"]
        assert isinstance(found, SetupView)
        return found

    def save(self, kind: str, **typed: str) -> str:
        """Fill the form of a kind and save it: the command's id."""
        self.view.presenter.turn(kind)
        form = self.view.by_kind[kind]
        form.fill(form.values() | typed)
        self.view.save.click()
        self.window.settle()
        shown = self.view.slot.shown()
        assert shown is None or shown.mark.value != "refused", shown
        return self.window.house.ask(lambda view: view.entries(last=1))[-1].act.command

    def again(self, command: str, *words: str) -> None:
        """Say the same in the terminal at its moment and by its id."""
        self.terminal.now_ms = self.window.now_ms - 60_000
        self.terminal.do(*words, "--station", "dock", "--command", command)
        assert self.terminal.head() == self.window.head()


@pytest.fixture
def both(qtbot: QtBot, tmp_path: Path) -> Iterator[Both]:
    made = Both(qtbot, tmp_path)
    yield made
    made.window.close()


REGISTERS: dict[str, tuple[str, dict[str, str], tuple[str, ...]]] = {
    "house": (
        "house change",
        {
            "producer": "Hill House",
            "web": "https://example.com",
            "country": "GB",
            "place": "Weald",
            "margin_ms": "30",
            "usual_spread_permille": "4,5",
            "shortfall_permille": "10",
            "jar_margin": "12",
        },
        (
            *("--producer", "Hill House", "--web", "https://example.com", "--country", "GB"),
            *("--place", "Weald", "--reach-margin", "30", "--tolerance", "4.5"),
            *("--shortfall", "10", "--jar-margin", "12"),
        ),
    ),
    "operator": (
        "operator add",
        {"name": "Ann Reed", "role": "extracts", "note": "mornings"},
        ("Ann Reed", "--role", "extracts", "--note", "mornings"),
    ),
    "yard": (
        "yard add",
        {
            "name": "Mill Lane",
            "number": "7",
            "colonies": "24",
            "forage": "clover",
            "place": "NE 10",
            "region": "Weald",
            "country": "GB",
            "latitude": "51,5",
            "longitude": "0.1 W",
            "owner": "Bank Bees",
            "organic": "yes",
            "certified": "yes",
            "note": "gate",
        },
        (
            *("Mill Lane", "--number", "7", "--colonies", "24", "--forage", "clover"),
            *("--place", "NE 10", "--region", "Weald", "--country", "GB", "--latitude", "51.5"),
            *("--longitude", "0.1 W", "--owner", "Bank Bees", "--organic", "yes"),
            *("--certified", "yes", "--note", "gate"),
        ),
    ),
    "box": (
        "box add",
        {"name": "jumbo", "honey_g": "31", "tare_g": "9,5", "frames": "10"},
        ("jumbo", "--honey", "31", "--tare", "9.5", "--frames", "10"),
    ),
    "line": ("vessel add", {"name": "Line A"}, ("Line A", "--sort", "line")),
    "tank": (
        "vessel add",
        {"name": "Sump", "sort": "sump", "capacity_g": "400"},
        ("Sump", "--sort", "sump", "--capacity", "400"),
    ),
    "drum": (
        "drum add",
        {"name": "Tote 1", "sort": "tote", "tare_g": "62", "usual_g": "1200", "limit_g": "1400"},
        ("Tote 1", "--sort", "tote", "--tare", "62", "--usual", "1200", "--limit", "1400"),
    ),
    "room": ("room add", {"name": "North", "sort": "store"}, ("North", "--sort", "store")),
    "equipment": (
        "equipment add",
        {"name": "Drum scale", "sort": "scale", "number": "4"},
        ("Drum scale", "--sort", "scale", "--number", "4"),
    ),
    "product": (
        "product add",
        {
            "name": "Summer 340",
            "net_g": "340",
            "keeps_months": "24",
            "crop": "2026",
            "label": "Summer honey",
            "claims_region": "Weald",
            "claims_organic": "yes",
            "us_dual": "yes",
        },
        (
            *("Summer 340", "--net", "340", "--keeps", "24", "--crop", "2026"),
            *("--label", "Summer honey", "--claims-region", "Weald", "--claims-organic", "yes"),
            *("--us-dual", "yes"),
        ),
    ),
    "customer": (
        "customer add",
        {"name": "Corner shop", "place": "High Street"},
        ("Corner shop", "--place", "High Street"),
    ),
    "supplier": (
        "supplier add",
        {"name": "River Bees", "country": "Argentina", "organic": "yes"},
        ("River Bees", "--country", "Argentina", "--organic", "yes"),
    ),
    "shift": (
        "shift add",
        {"name": "Early", "begins": "6", "ends": "14:00"},
        ("Early", "--begins", "6", "--ends", "14:00"),
    ),
    "order": (
        "order add",
        {"name": "PO 118", "customer": "corner-shop", "due": "30 Jul", "goods": "12 drums"},
        *(("PO 118", "--customer", "corner-shop", "--due", "30 Jul", "--goods", "12 drums"),),
    ),
    "stock": (
        "stock add",
        {"name": "Jar sheet", "paper": "a4", "width_um": "63,5", "height_um": "38.1"}
        | {"columns": "3", "rows": "7", "left_um": "7.2", "top_um": "15", "gap_x_um": "2.5"}
        | {"colour": "kraft"},
        (
            *("Jar sheet", "--paper", "a4", "--width", "63.5", "--height", "38.1"),
            *("--columns", "3", "--rows", "7", "--left", "7.2", "--top", "15"),
            *("--gap-across", "2.5", "--gap-down", "0", "--colour", "kraft"),
        ),
    ),
}


@pytest.mark.parametrize("kind", first_plain(REGISTERS, 4))
def test_a_record_is_the_same_entry_from_both_faces(both: Both, kind: str) -> None:
    command, typed, words = REGISTERS[kind]
    if kind == "order":
        done = both.save("customer", name="Corner shop")
        both.again(done, "register", "customer", "add", "Corner shop")
    done = both.save(kind, **typed)
    both.again(done, "register", *command.split(), *words)


def test_every_register_is_tried() -> None:
    assert {row[0].split()[0] for row in REGISTERS.values()} == {
        *("house", "operator", "yard", "box", "vessel", "drum", "room", "equipment"),
        *("product", "customer", "supplier", "shift", "order", "stock"),
    }


def test_a_changed_record_is_the_same_entry_from_both_faces(both: Both) -> None:
    values = both.view.presenter.page
    assert values is not None
    both.view.presenter.turn("box")
    known = both.view.presenter.values_of("deep")
    assert known is not None
    done = both.save("box", **(known | {"honey_g": "28"}))
    both.again(done, "register", "box", "change", "deep", "--honey", "28")


def test_a_check_is_the_same_entry_from_both_faces(both: Both) -> None:
    done = both.save("equipment", name="Drum scale")
    both.again(done, "register", "equipment", "add", "Drum scale")
    done = both.save("check", equipment="Drum scale", what="20 kg", value="19.6 kg", result="off")
    code = both.view.presenter.page and both.view.presenter.page.registers["equipment"][0].key
    both.again(done, "check", str(code), "20 kg", "--value", "19.6 kg", "--result", "off")


def test_packaging_is_the_same_entry_from_both_faces(both: Both) -> None:
    done = both.save("supplier", name="Glass Works")
    both.again(done, "register", "supplier", "add", "Glass Works")
    done = both.save(
        "supply",
        supplier="Glass Works",
        name="Jars 500 g",
        count="5 760",
        supplier_lot="7718",
        best_before="24 Jul 2027",
    )
    both.again(
        *(done, "supply", "glass-works", "Jars 500 g", "--count", "5760"),
        *("--supplier-lot", "7718", "--best-before", "2027-07-24"),
    )


def test_a_table_of_yards_is_the_same_entries_from_both_faces(both: Both, tmp_path: Path) -> None:
    file = tmp_path / "yards.csv"
    file.write_text("name,colonies\nMill Lane,30\nHigh Wood,20\n")
    both.save("table", what="yards", file=str(file))
    both.terminal.now_ms = both.window.now_ms - 60_000
    both.terminal.do("import", "yards", str(file), "--station", "dock")
    assert both.terminal.head() == both.window.head()
