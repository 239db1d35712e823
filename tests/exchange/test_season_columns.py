"""The sample's tables hold the columns that are read, and units become whole ones."""

import csv

import pytest

from honeyledger.assets import resource
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.delimited import Column, split_head
from honeyledger.exchange.mapping import Setting
from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.exchange.season_columns import house_columns, logs, registers

SETTING = Setting("America/Winnipeg", SAMPLE_NOW_MS)
TABLES = {
    "house": house_columns(SETTING),
    **{file: columns for file, (_, columns) in registers(SETTING).items()},
    **logs(SETTING),
}


def column(file: str, name: str) -> Column:
    return next(one for one in TABLES[file] if one.name == name)


def test_there_is_a_table_for_every_file_and_a_file_for_every_table() -> None:
    assert {path.stem for path in resource("sample").glob("*.csv")} == set(TABLES)


@pytest.mark.parametrize("file", sorted(TABLES))
def test_every_head_of_a_file_is_known(file: str) -> None:
    with resource("sample", f"{file}.csv").open(encoding="utf-8", newline="") as table:
        heads = [split_head(head)[0] for head in next(csv.reader(table))]
    known = {head for one in TABLES[file] for head in one.heads}
    assert set(heads) <= known
    assert len(heads) == len(set(heads))


@pytest.mark.parametrize(
    ("file", "name", "text", "value"),
    [
        ("house", "margin_ms", "60", 3_600_000),
        ("floor", "about_ms", "240", 14_400_000),
        ("bottling", "mean_net_mg", "502.4", 502_400),
        ("boxes", "honey_g", "14.8", 14_800),
        ("products", "net_g", "0.25", 250),
        ("drums", "to_follow", "yes", True),
        ("readings", "colour", "34", 340),
    ],
)
def test_cells_become_whole_units(file: str, name: str, text: str, value: object) -> None:
    assert column(file, name).read(text, "") == value


def test_a_time_that_is_no_number_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        column("house", "margin_ms").read("an hour", "min")
    assert refused.value.text == (
        "an hour is not a whole number: type a number of minutes, such as 24."
    )
