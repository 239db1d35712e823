"""The sample's recall, opened and closed, and its drill, at the end of the season."""

from datetime import datetime

from sample_chance import Tables, at

HEADS = [
    *("What", "Case", "Matter", "Lots", "Sort", "Found out", "Risk", "Customer", "How", "Whom"),
    *("Net kg", "Destroyed kg", "Proof", "Result", "Disposal", "Note"),
]
PAILS, DRUMS = (40, 41, 42), (105, 106, 107, 108, 109)
DRILLED = 13
OFFICE = "Nell Varrowby"


def write(tables: Tables) -> None:
    """One case from the call to its end; a rehearsal in the last hour."""
    lots = [*(f"pail {one}" for one in PAILS), *(f"drum {one}" for one in DRUMS)]
    bakery, packer = "Lowfold Bakery", "Corvane Packing"
    rows: tuple[tuple[datetime, str, dict[str, object]], ...] = (
        (
            at(9, 24, 9, 5),
            "opened",
            {
                "matter": "a scrap of black rubber in a pail",
                "lots": " + ".join(lots),
                "sort": "recall",
                "found_out": "a baker rang on 23 Sep 2026; the filling valve's gasket is torn",
                "risk": "soft, under 5 mm; judged with the authority, nobody hurt",
            },
        ),
        (
            at(9, 24, 9, 20),
            "told",
            {"customer": bakery, "how": "phone", "whom": "the head baker", "note": "letter sent"},
        ),
        (
            at(9, 24, 9, 35),
            "told",
            {"customer": packer, "how": "phone", "whom": "goods in", "note": "letter sent"},
        ),
        (
            at(9, 24, 15, 20),
            "answered",
            {
                "customer": bakery,
                "net": 0,
                "destroyed": 54.4,
                "proof": "photographs, signed",
                "note": "the third pail was strained and used before the call",
            },
        ),
        (
            at(9, 25, 10, 10),
            "answered",
            {"customer": packer, "net": 1462.3, "note": "all five drums set aside, unopened"},
        ),
        (
            at(9, 25, 14, 5),
            "closed",
            {
                "result": "gasket changed, and looked at before each run from now on",
                "disposal": "two pails destroyed at the bakery; the packer strains its drums",
            },
        ),
    )
    for when, what, cells in rows:
        tables.add(
            "recalls", when=tables.free(when), by=OFFICE, what=what, case="recall 1", **cells
        )
    _drill(tables)


def _drill(tables: Tables) -> None:
    for when, what, cells in (
        (
            at(9, 25, 15, 18),
            "opened",
            {
                "matter": "drill: a jar off the shelf",
                "lots": f"bottling {DRILLED}",
                "sort": "drill",
            },
        ),
        (
            at(9, 25, 15, 36),
            "closed",
            {
                "result": "two phone numbers",
                "disposal": "put every customer's phone on record before the next one",
            },
        ),
    ):
        tables.add(
            "recalls", when=tables.free(when), by=OFFICE, what=what, case="drill 1", **cells
        )
