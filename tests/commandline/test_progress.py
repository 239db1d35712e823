"""How far long work is."""

import io
import signal
import sys

import pytest

from honeyledger.commandline.progress import bar, line_of, stoppable


def test_a_line_says_how_far_and_where() -> None:
    assert line_of("checking", 1, 4, "24 Jul 2026") == (
        "checking [######------------------] 1/4 24 Jul 2026"
    )
    assert line_of("checking", 4, 4) == f"checking [{'#' * 24}] 4/4"
    assert line_of("checking", 0, 0) == f"checking [{'-' * 24}] 0/0"


class _Screen(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_it_is_drawn_over_and_wiped_on_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = _Screen()
    monkeypatch.setattr(sys, "stderr", screen)
    with bar("loading") as step:
        step(1, 2, "a long word")
        step(2, 2)
    first, second, wiped = screen.getvalue().split("\r")[1:4]
    assert first.endswith("1/2 a long word")
    assert second.rstrip().endswith("2/2")
    assert wiped.strip() == ""
    assert len(first) == len(second) == len(wiped)


def test_nothing_is_written_elsewhere(capsys: pytest.CaptureFixture[str]) -> None:
    with bar("loading") as step:
        step(1, 2, "here")
    assert capsys.readouterr() == ("", "")


def test_ctrl_c_is_enough_and_a_second_one_ends_it() -> None:
    before = signal.getsignal(signal.SIGINT)
    with stoppable() as enough:
        assert not enough.is_set()
        signal.raise_signal(signal.SIGINT)
        assert enough.is_set()
        with pytest.raises(KeyboardInterrupt):
            signal.raise_signal(signal.SIGINT)
    assert signal.getsignal(signal.SIGINT) is before
