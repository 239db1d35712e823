"""Label rows say what the ledger says, whoever asks for them."""

from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import Treat
from honeyledger.services.labelling import (
    PaperRow,
    Serials,
    label_rows,
    rows_by_kind,
)
from honeyledger.services.papers import (
    INFANT_CAUTION,
    Badge,
    DrumLabel,
    JarLabel,
    PalletTag,
    YardSheetTag,
)
from tests.support.houses import BuiltHouse, refused

ALL = Serials()


def _rows(house: BuiltHouse, code: str, serials: Serials = ALL) -> list[PaperRow]:
    return house.house.ask(lambda view: list(label_rows(view, code, serials)))


def test_a_pallets_tag_names_its_pulls() -> None:
    house = BuiltHouse()
    lines = tuple(Line(house.yard(name), count) for name, count in (("Elm", 24), ("Fen", 12)))
    tag = house.do(Receive(lines, gross_g=800_000, moisture=1850)).given[0]
    (row,) = _rows(house, tag)
    assert isinstance(row, PalletTag)
    assert [(pull.name, pull.supers) for pull in row.pulls] == [("Elm", 24), ("Fen", 12)]
    assert (row.gross_g, row.moisture_hundredths, row.dry_first) == (800_000, 1850, True)
    assert (row.house, row.supers) == ("Test House", 36)
    head = house.house.ask(lambda view: view.head())
    assert row.head == f"{head.entry} {head.digest[:12].upper()}"
    number, digits = row.head.split()
    kept = (int(number), digits.lower())
    assert all(finding.holds for finding in house.store.audit(kept=[kept]))


def test_a_drums_label_has_its_weights_and_readings() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank 1")
    house.load(house.yard("Elm"), 600_000, tank)
    house.container("Drum 7", tare_g=18_000)
    done = house.do(Fill(tank, Weight(gross_g=310_000), container="Drum 7"))
    code = next(code for code in done.codes if code[0] == "D")
    house.do(Measure(code, moisture=1720, colour=440))
    (row,) = _rows(house, code)
    assert isinstance(row, DrumLabel)
    assert (row.net_g, row.gross_g, row.tare_g) == (292_000, 310_000, 18_000)
    assert (row.container, row.colour, row.pfund_tenths) == (
        "Drum 7",
        "Extra Light Amber",
        440,
    )


def test_a_drums_label_has_the_floral_kinds_of_all_that_is_in_it() -> None:
    """The kind with the most first; none where a source does not say what its bees worked."""
    house = BuiltHouse()
    tank = house.vessel("Tank 1")
    for name, forage in (("Elm", "clover"), ("Ash", "canola, clover"), ("Oak", "")):
        house.do(Register("yard", {"name": name, "forage": forage}))
    drums = []
    for name, grams in (("Elm", 300_000), ("Ash", 500_000)):
        house.load(name, grams, tank)
        drums.append(house.do(Fill(tank, Weight(net_g=200_000))).codes[-1])
    lone = house.vessel("Tank 2")
    house.load("Oak", 300_000, lone)
    drums.append(house.do(Fill(lone, Weight(net_g=200_000))).codes[-1])
    rows = [row for code in drums for row in _rows(house, code)]
    assert [row.forage for row in rows if isinstance(row, DrumLabel)] == [
        "clover",
        "canola, clover",
        "",
    ]


def test_a_drum_that_is_held_says_so_on_its_label_until_it_is_free() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank 1")
    pull = house.load(house.yard("Mill Lane"), 400_000, tank)
    drum = house.drum(tank, 200_000)

    def held() -> str:
        (row,) = _rows(house, drum)
        assert isinstance(row, DrumLabel)
        return row.held

    assert held() == ""
    entry = house.do(PutOnHold(pull, "lab result awaited")).entries[-1]
    assert held() == f"{pull}: lab result awaited"
    house.do(Reverse(entry.id, "it was another one"))
    assert held() == ""


def test_a_weight_to_follow_leaves_lines_to_write_on() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank 1")
    house.load(house.yard("Elm"), 600_000, tank)
    code = house.do(Fill(tank, pending=True)).codes[-1]
    (row,) = _rows(house, code)
    assert isinstance(row, DrumLabel)
    assert (row.net_g, row.gross_g) == (None, None)


def _bottled(house: BuiltHouse) -> Code:
    tank = house.vessel("Tank 1")
    house.load(house.yard("Elm"), 600_000, tank)
    house.do(Register("product", {"name": "Clover", "net_g": 500, "keeps_months": 24}))
    code = house.do(ChangeOver(product="Clover", feed=tank)).given[0]
    house.do(Bottle(code, 40))
    lot = parse_code(code)
    assert isinstance(lot, Code)
    return lot


def test_jars_have_a_label_a_serial_with_the_caution_about_infants() -> None:
    house = BuiltHouse()
    lot = _bottled(house)
    rows = _rows(house, str(lot))
    assert [row.code for row in rows] == [str(make_jar_code(lot, n)) for n in range(1, 41)]
    for row in rows:
        assert isinstance(row, JarLabel)
        assert (row.caution, row.net_g, row.product) == (INFANT_CAUTION, 500, "Clover")
        assert row.best_before == "Best before end 2028"
    some = _rows(house, str(lot), Serials(3, 5))
    assert len(some) == 3
    one = _rows(house, str(make_jar_code(lot, 7)))
    assert [row.code for row in one] == [str(make_jar_code(lot, 7))]


def test_serials_a_lot_does_not_have_are_refused() -> None:
    house = BuiltHouse()
    lot = _bottled(house)
    assert refused(lambda: _rows(house, str(lot), Serials(30, 60))) == (
        f"{lot} has serials 1 to 40, not 30 to 60. Choose serials it has."
    )


def test_what_has_no_label_is_refused() -> None:
    house = BuiltHouse()
    pull = house.load(house.yard("Elm"), 600_000, house.vessel("Tank 1"))
    assert refused(lambda: _rows(house, pull)) == (
        f"There is no label for {pull}, a pull: print those of pallets, drums, jars, cases, "
        "samples, yards, vessels, equipment and people."
    )


def test_a_persons_code_prints_a_badge() -> None:
    house = BuiltHouse()
    (code,) = house.do(Register("operator", {"name": "Ann Reed", "role": "extracts"})).given
    assert _rows(house, code) == [Badge(code, "Ann Reed", "Test House", "extracts")]


def test_an_empty_pallet_has_nothing_to_print() -> None:
    house = BuiltHouse()
    _, tag = house.pull(house.yard("Elm"), 600_000)
    house.do(Load(tag, house.vessel("Tank 1")))
    assert refused(lambda: _rows(house, tag)) == (
        f"{tag} is empty now, so there is nothing to print on its tag. Name a pallet with supers."
    )


def test_a_yards_code_is_for_its_gate() -> None:
    house = BuiltHouse()
    code = house.yard("Elm", place="by the old mill")
    (row,) = _rows(house, code)
    assert row == YardSheetTag(code, "Elm", "Test House", "by the old mill")
    assert set(rows_by_kind([row])) == {YardSheetTag}


def test_the_pull_sheet_of_a_treated_yard_says_from_which_day() -> None:
    house = BuiltHouse()
    code = house.yard("Elm")
    house.do(Treat(code, "Pads", first_day="2026-07-20", clear_day="2026-08-20"))
    (row,) = _rows(house, code)
    assert isinstance(row, YardSheetTag)
    assert row.due == (
        "Treated with Pads, not clear until 20 Aug 2026. Follow the label and your local code."
    )
