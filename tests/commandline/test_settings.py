"""Settings on the terminal."""

from pathlib import Path

import pytest

from honeyledger.settings import Settings, read_settings, settings_file
from tests.support.terminal import Terminal


@pytest.fixture(autouse=True)
def _own_settings(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    for name in ("XDG_CONFIG_HOME", "LOCALAPPDATA", "HOME"):
        monkeypatch.setenv(name, str(tmp_path / "user"))


def test_a_setting_is_remembered(bare: Terminal) -> None:
    answer = bare.json("settings", "set", "station", "dock [2]")
    assert answer["file"] == str(settings_file())
    assert answer["settings"]["station"] == "dock [2]"
    bare.settings = read_settings(settings_file())
    assert bare.settings == Settings(station="dock [2]")
    bare.do("settings", "set", "tones", "false")
    assert read_settings(settings_file()) == Settings(station="dock [2]", tones=False)
    assert "dock [2]" in bare.do("settings", "list")


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("colour", "amber", "colour in "),
        ("look", "amber", 'write "light" or "dark" or "system"'),
        ("tones", "loud", "write true or false"),
    ],
)
def test_what_cannot_be_set(bare: Terminal, name: str, value: str, said: str) -> None:
    assert said in bare.refused("settings", "set", name, value)
    assert not settings_file().exists()
