"""Air and honey in balance."""

import pytest

from honeyledger.domain.air import (
    BALANCE,
    balance_humidity,
    balance_moisture,
    told_air,
    told_balance,
    what_air_does,
)
from honeyledger.domain.refusals import Refusal


# Martin 1939 after White, clover honey, at foodiran.net (S2): 16.1 % at 52, 17.4 % at 58,
# 21.5 % at 66, 28.9 % at 76, 33.9 % at 81 % relative humidity; between them straight lines.
@pytest.mark.parametrize(
    ("moisture", "humidity"),
    [(1_610, 5_200), (1_740, 5_800), (2_150, 6_600), (2_890, 7_600), (3_390, 8_100)],
)
def test_the_table_is_met_both_ways(moisture: int, humidity: int) -> None:
    assert balance_humidity(moisture) == humidity
    assert balance_moisture(humidity) == moisture


def test_between_its_rows_lines_are_straight() -> None:
    # Computed, C: 58 + 8 * (17.8 - 17.4) / (21.5 - 17.4) = 58.78 % humidity.
    assert balance_humidity(1_780) == 5_878
    assert balance_moisture(5_500) == 1_675
    found = [balance_humidity(moisture) or 0 for moisture in range(1_610, 3_391)]
    assert found == sorted(found)


def test_beyond_the_table_nothing_is_made_up() -> None:
    for moisture in (1_609, 3_391):
        assert balance_humidity(moisture) is None
    for humidity in (5_199, 8_101, 0):
        assert balance_moisture(humidity) is None
    assert what_air_does(1_600, 5_200) == "wets"
    assert what_air_does(1_600, 5_100) == ""
    assert what_air_does(3_400, 8_100) == "dries"
    assert what_air_does(3_400, 8_200) == ""


@pytest.mark.parametrize(
    ("moisture", "humidity", "field"),
    [
        *((1_600, 5_190, "humidity"), (3_400, 8_110, "humidity"), (3_400, 0, "")),
        *((1_500, 5_200, ""), (1_600, 5_100, "humidity")),
    ],
)
def test_what_a_person_typed_is_refused_where_nothing_is_known(
    moisture: int, humidity: int, field: str
) -> None:
    if not field:
        assert told_air(moisture, humidity) == what_air_does(moisture, humidity)
        return
    with pytest.raises(Refusal) as refused:
        told_air(moisture, humidity)
    assert refused.value.field == field
    assert refused.value.text.endswith(
        "is outside the table, 16.1 % to 33.9 % water and 52.0 % to 81.0 % humidity: read both "
        "again."
    )


def test_air_to_dry_in_is_refused_beyond_the_table_unless_its_end_says_enough() -> None:
    assert told_balance(1_800, 5_800) == 1_740
    assert told_balance(1_610, 5_199) is None
    for target, humidity in ((1_609, 5_199), (1_800, 8_101)):
        with pytest.raises(Refusal, match="is outside the table"):
            told_balance(target, humidity)


def test_dry_air_dries_damp_air_wets_and_near_the_balance_nobody_can_tell() -> None:
    assert what_air_does(1_900, 4_500) == "dries"
    assert what_air_does(1_740, 6_200) == "wets"
    for humidity in (5_700, 5_800, 5_900):
        assert what_air_does(1_740, humidity) == "holds"
    assert BALANCE[0] == (1_610, 5_200)


def test_another_table_agrees_about_as_well_as_such_tables_do() -> None:
    # Crane's round numbers, values from memory, M: 60 % humidity is 18.3, 65 % is 20.9 % of water.
    for humidity, moisture in ((6_000, 1_830), (6_500, 2_090)):
        assert balance_moisture(humidity) == pytest.approx(moisture, abs=60)
