"""A calibration found off."""

from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.calibration import Checked, InDoubt, Read, in_doubt

HOUR = 3_600_000
MAY_BE_OFF = 20


def read(hour: int, of: str, value: int) -> Read[str]:
    return Read(hour * HOUR, of, value)


def check(hour: int, read_as: int) -> Checked:
    """The refractometer against an oil that is known to read 18.0 %."""
    return Checked(hour * HOUR, 1_800, read_as)


def test_every_reading_since_the_last_good_check_is_in_doubt_with_its_corrected_value() -> None:
    checks = [check(1, 1_800), check(10, 1_810), check(30, 1_760)]
    readings = [read(5, "D1", 1_750), read(12, "D2", 1_720), read(29, "D3", 1_780)]
    assert in_doubt(checks, readings, MAY_BE_OFF) == (
        InDoubt(readings[1], 1_760, 10 * HOUR, 30 * HOUR),
        InDoubt(readings[2], 1_820, 10 * HOUR, 30 * HOUR),
    )


def test_never_checked_before_all_are_in_doubt() -> None:
    (found,) = in_doubt([check(30, 1_760)], [read(5, "D1", 1_750)], MAY_BE_OFF)
    assert (found.corrected, found.since_ms) == (1_790, None)


def test_read_on_with_it_after_it_was_found_off_is_in_doubt_until_it_is_right_again() -> None:
    checks = [check(1, 1_800), check(10, 1_760), check(20, 1_800)]
    readings = [read(hour, f"D{hour}", 1_750) for hour in (10, 15, 20, 25)]
    found = in_doubt(checks, readings, MAY_BE_OFF)
    assert [(one.reading.of, one.corrected) for one in found] == [("D10", 1_790), ("D15", 1_790)]


def test_off_by_different_amounts_the_next_check_counts() -> None:
    checks = [check(1, 1_800), check(10, 1_760), check(20, 1_700)]
    found = in_doubt(checks, [read(5, "D1", 1_750), read(15, "D2", 1_750)], MAY_BE_OFF)
    assert [one.corrected for one in found] == [1_790, 1_850]


def test_right_within_what_it_may_be_off_puts_nothing_in_doubt() -> None:
    checks = [check(1, 1_820), check(9, 1_780)]
    assert in_doubt(checks, [read(5, "D1", 1_750)], MAY_BE_OFF) == ()
    assert in_doubt([], [read(5, "D1", 1_750)], MAY_BE_OFF) == ()


MOMENTS = st.integers(0, 40)


@given(
    st.lists(st.tuples(MOMENTS, st.sampled_from([1_700, 1_800, 1_850])), unique_by=lambda c: c[0]),
    st.lists(MOMENTS),
)
def test_a_reading_between_two_good_checks_is_never_in_doubt_and_one_before_a_bad_always(
    checked: list[tuple[int, int]], hours: list[int]
) -> None:
    checks = [check(2 * hour, value) for hour, value in checked]
    readings = [Read(2 * hour * HOUR + 1, str(at), 1_750) for at, hour in enumerate(hours)]
    doubted = {one.reading for one in in_doubt(checks, readings, MAY_BE_OFF)}
    for reading in readings:
        before = max((c for c in checks if c.at_ms <= reading.at_ms), default=None, key=_time)
        after = min((c for c in checks if c.at_ms > reading.at_ms), default=None, key=_time)
        is_bad = any(one is not None and one.read != 1_800 for one in (before, after))
        assert (reading in doubted) is is_bad


def _time(one: Checked) -> int:
    return one.at_ms
