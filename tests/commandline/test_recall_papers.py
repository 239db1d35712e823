"""A recall's papers and tables into files, and what is refused."""

import pytest

from tests.support import printing
from tests.support.engines import SITE
from tests.support.sample import SAMPLE, loaded
from tests.support.terminal import Terminal


@pytest.fixture
def sample(terminal: Terminal) -> Terminal:
    terminal.where = SITE.copy(loaded()[0], terminal.folder / SAMPLE)
    # An afternoon of the sample's.
    terminal.now_ms = 1_790_368_800_000
    return terminal


def test_reports_letters_and_tables(sample: Terminal) -> None:
    sample.do("recall", "open", "a treatment too late", "--yard", "Fennimark")
    code = sample.json("recall", "list")["recalls"][0]["code"]
    for what in ("report", "letters"):
        for kind, begins in (("pdf", b"%PDF"), ("csv", b"\xef\xbb\xbfCase")):
            file = sample.folder / f"{what}.{kind}"
            done = sample.json("recall", what, code, "-o", str(file))
            assert done["recall"] == code
            assert file.read_bytes().startswith(begins)
    again = sample.json("recall", "letters", code, "-o", str(sample.folder / "a.pdf"))
    assert again["customers"]
    said = printing.text_of((sample.folder / "a.pdf").read_bytes())
    assert said.count("reprint 1") == again["customers"]
    first = printing.text_of((sample.folder / "report.pdf").read_bytes())
    assert "reprint" not in first
    assert "Printed " in first


def test_nobody_to_write_to(sample: Terminal) -> None:
    fresh = next(row["code"] for row in sample.json("stock") if row["code"].startswith("S"))
    sample.do("recall", "open", "smoke", "--lot", fresh, "--as", "drill")
    code = sample.json("recall", "list")["recalls"][0]["code"]
    assert sample.refused("recall", "letters", code, "-o", str(sample.folder / "l.pdf")) == (
        f"By the books no customer has any of {code}, so there is no letter to print."
    )
