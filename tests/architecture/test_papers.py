"""Whatever goes onto paper passes one of the few modules that put it on record.

What makes a PDF may be imported only where it is recorded that it was printed, and by what such a
place calls.
"""

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "honeyledger"

WRITES = {
    "write_pdf": {"commandline/papers.py"},
    "write_bytes": {"commandline/papers.py", "desktop/printing.py"},
    "into_file": {
        *("desktop/printing.py", "desktop/label_print.py", "desktop/page_print.py"),
        "desktop/stations/setup/station_printers.py",  # the calibration page is of no house
        "desktop/table_care.py",  # tables for other programs
    },
    "sheet_into": {"desktop/printing.py", "desktop/sheets.py"},
    "pdf_of_all": {"desktop/widgets/paper.py", "desktop/page_print.py"},
}
"""What writes a paper, or paints one, and who may name it."""


def _names(source: str, name: str) -> bool:
    return re.search(rf"\b{name}\b", source) is not None


def _around(files: dict[str, str]) -> list[str]:
    """Who names what writes a paper and is not among those who may."""
    return [
        f"{file} names {name}"
        for file, source in files.items()
        for name in WRITES
        if file not in WRITES[name] and _names(source, name)
    ]


def _faces() -> dict[str, str]:
    folders = ("commandline", "desktop")
    return {
        file.relative_to(PACKAGE).as_posix(): file.read_text(encoding="utf-8")
        for folder in folders
        for file in sorted((PACKAGE / folder).rglob("*.py"))
    }


def test_no_paper_goes_around_the_record() -> None:
    assert _around(_faces()) == []


def test_those_who_may_do() -> None:
    files = _faces()
    unused = [
        f"{file} does not name {name}"
        for name, may in WRITES.items()
        for file in may
        if not _names(files[file], name)
    ]
    assert unused == []


def test_a_new_way_around_is_found() -> None:
    spoiled = {"desktop/stations/a.py": "from honeyledger.desktop.printing import into_file\n"}
    assert _around(spoiled) == ["desktop/stations/a.py names into_file"]
