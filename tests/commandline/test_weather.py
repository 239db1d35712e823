"""The weather of a day, typed."""

from tests.support.terminal import Terminal


def test_a_day_with_its_highest_in_either_degrees(terminal: Terminal) -> None:
    terminal.do("weather", "heat", "--yard", "Mill Lane", "--high", "95 F", "--note", "flow ends")
    (note,) = terminal.json("yields")["weather"]
    assert (note["sort"], note["yard"], note["high"]) == ("heat", "Mill Lane", 350)
    assert "sleet is no weather here" in terminal.refused("weather", "sleet")
