"""The list of checks as it is shipped, and files with a slip in them."""

from pathlib import Path

import pytest

from honeyledger.assets import resource
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.checks import read_checks, shipped_checks

WANTED = [
    *("sanitation", "hands", "sieve", "magnet", "scale", "thermometer", "refractometer", "glass"),
    *("pests", "water", "chemicals", "training", "visitors", "suppliers", "allergens"),
]


def test_the_list_that_is_shipped_says_of_each_where_its_interval_is_from() -> None:
    found = shipped_checks(resource("checks"))
    assert [one.key for one in found] == WANTED
    assert {one.sort for one in found} == {
        *("", "sieve", "magnet", "scale", "thermometer", "refractometer")
    }
    assert {one.source for one in found} == {"common practice, no source"}
    assert all(one.look.endswith(".") for one in found)
    assert len({one.name for one in found}) == len(found)


def _file(folder: Path, text: str) -> Path:
    file = folder / "own.toml"
    file.write_text(text, "utf-8")
    return file


GOOD = '[pests]\nname = "Pests"\nlook = "Look."\nevery = "1 week"\nsource = "our plan"\n'


def test_a_file_of_the_same_form_is_read(tmp_path: Path) -> None:
    (one,) = read_checks(_file(tmp_path, GOOD))
    assert (one.key, one.source, one.sort) == ("pests", "our plan", "")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (GOOD.replace("1 week", "often"), "every has to be an interval, such as 2 weeks"),
        (GOOD.replace('"Look."', "7"), "look has to be a text in quotation marks"),
        (GOOD.replace("look", "looks"), "looks has to be one of name, look, every, source, sort"),
        ("pests = 7", "pests has to be a table"),
    ],
)
def test_a_slip_is_told_with_its_place(tmp_path: Path, text: str, said: str) -> None:
    with pytest.raises(Refusal) as refused:
        read_checks(_file(tmp_path, text))
    assert refused.value.text == (
        f"In own.toml, pests: {said}. Mend it; nothing of the file was used."
    )


def test_a_file_that_is_none(tmp_path: Path) -> None:
    with pytest.raises(Refusal, match="not written as TOML"):
        read_checks(_file(tmp_path, "[pests"))
    with pytest.raises(Refusal, match="There is no file other"):
        read_checks(tmp_path / "other.toml")
