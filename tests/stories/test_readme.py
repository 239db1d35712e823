"""What the README shows is what the commands answer."""

from pathlib import Path

import pytest

from tests.support.readme import README, SECONDS, answer, block_of, commands
from tests.support.terminal import Terminal


@pytest.mark.long_on_server
def test_the_readme_shows_what_the_commands_answer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    terminal = Terminal(tmp_path)
    shown = commands(block_of(README.read_text("utf-8")))
    assert len(shown) >= 6
    for command, lines in shown:
        told = [SECONDS.sub("N s", line) for line in answer(terminal, command)]
        assert [SECONDS.sub("N s", line) for line in lines] == told, command
