"""What stands on the inspector's pack."""

from pathlib import Path

from honeyledger.documents.inspection_paper import SHARES, inspection_pdf
from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.services.inspection import inspection
from tests.support import printing
from tests.support.sample import code, sample_house

_WHO = "O26-0001-A"


def test_the_pack_of_a_jar(tmp_path: Path) -> None:
    house = sample_house(tmp_path)
    pack = house.ask(lambda view: inspection(view, SAMPLE_NOW_MS, code("bottling 1"), _WHO))
    house.store.close()
    pdf = inspection_pdf(pack, printing.typefaces(), paper="letter")
    words = " ".join(printing.text_of(pdf).replace("- ", "-").split())
    for said in (
        "For the inspector",
        SHARES,
        "Where its honey is from",
        pack.sources[0].name,
        "What was done in those yards this season",
        "Readings",
        "Vessels washed",
        "Checks and calibrations",
        "What became of it in the house",
        "Complaints about it",
        "Shown by",
    ):
        assert said in words, said
    assert pack.printed.startswith("Printed ")
    assert " by " in pack.printed
    pages = words.count("Page ")
    assert words.count(pack.printed) == words.count(f"Ledger {pack.entries} ") == pages > 1
    assert pdf == inspection_pdf(pack, printing.typefaces(), paper="letter")
