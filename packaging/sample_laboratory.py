"""The sample season's laboratory book: what was sent away, what came back, and the instruments.

Results are common practice, no source: an invented laboratory found them in invented honey.
"""

import sample_house as house
from sample_chance import Tables, at
from sample_floor import SHOWN
from sample_rooms import LAST_GOOD, LOW_FOUND

BENCH = "Prairie Bench"
HEADS = [
    *("What", "Lot", "Moisture %", "Instrument", "Known", "Read", "Against", "Laboratory"),
    *("Report", "Sampled", "Optical density", "Conductivity", "HMF", "Diastase", "Free acid"),
    *("Fructose and glucose", "Sucrose", "Insolubles", "Yeast"),
]


def write(tables: Tables) -> None:
    """Calibrations by a standard oil, results of a drum, of jars, and of three drums together."""
    for when, instrument, read in (
        (LAST_GOOD, "Refractometer 2", "18.0"),
        (LOW_FOUND, "Refractometer 2", "17.6"),
        (LOW_FOUND + 4 * SHOWN, "Refractometer 1", "18.0"),
        (LOW_FOUND + 90 * SHOWN, "Refractometer 2", "18.0"),
    ):
        cells: dict[str, object] = {"what": "calibrated", "instrument": instrument}
        tables.add(
            "laboratory",
            when=tables.free(when + SHOWN),
            by="Cass Doverling",
            known="18.0",
            read=read,
            against="oil 18.0",
            **cells,
        )
    for when, lot, report, sampled, results in RESULTS:
        cells = {"what": "result", "laboratory": BENCH, "report": report, "sampled": sampled}
        tables.add(
            "laboratory",
            when=tables.free(when),
            by="Cass Doverling",
            lot=lot,
            **cells,
            **results,
        )


RESULTS: tuple[tuple[object, str, str, str, dict[str, object]], ...] = (
    (
        at(9, 9, 13, 50),
        "drum 74",
        "26-0118",
        "2026-08-25",
        {
            "hmf": "3.1",
            "diastase": "18.6",
            "conductivity": "0.19",
            "free_acid": "14.2",
            "fructose_and_glucose": "71.4",
            "sucrose": "1.2",
            "insolubles": "0.02",
            "yeast": "<10",
        },
    ),
    (
        at(9, 10, 9, 20),
        "bottling 9",
        "26-0124",
        "2026-08-28",
        {"hmf": "6.4", "diastase": "16.9", "insolubles": "not detected (<0.01)"},
    ),
    (
        at(9, 23, 10, 5),
        f"sample for {house.REFUSER}",
        "26-0139",
        "2026-09-18",
        {"hmf": "<5", "diastase": "15.2", "conductivity": "0.84", "yeast": "620"},
    ),
)
