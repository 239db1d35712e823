"""`honeyledger` as a process: its exit codes, what is on which stream, and that it starts fast."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from honeyledger.__main__ import wiring
from honeyledger.settings import Settings


def _run(folder: Path, *words: str, **more: str) -> subprocess.CompletedProcess[str]:
    own = {"XDG_DATA_HOME": str(folder), "XDG_CONFIG_HOME": str(folder), "HONEYLEDGER_HOUSE": ""}
    env = {**os.environ, **own, **more}
    return subprocess.run(
        [sys.executable, "-m", "honeyledger", *words],
        env=env,
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.fixture
def house(tmp_path: Path) -> Path:
    """A house in the user's own data folder."""
    done = _run(tmp_path, "new", "--name", "Hill House")
    assert done.returncode == 0, done.stderr
    return tmp_path


def test_a_new_house_is_kept_in_the_users_data_folder(house: Path) -> None:
    assert (house / "honeyledger" / "house.honeyledger").is_file()
    done = _run(house, "receive", "Mill Lane", "24")
    assert (done.returncode, done.stdout) == (2, "")
    assert "Mill Lane" in done.stderr
    assert _run(house, "register", "yard", "add", "Mill Lane").returncode == 0
    done = _run(house, "receive", "Mill Lane", "24", "--json")
    answer = json.loads(done.stdout)
    assert done.returncode == 0
    assert answer["lots"][0]["made_g"] == 24 * 14_800
    done = _run(house, "trace", answer["lots"][0]["code"], "--json")
    assert json.loads(done.stdout)["yards"][0]["name"] == "Mill Lane"


def test_the_environment_names_a_house(house: Path) -> None:
    other = str(house / "other.honeyledger")
    assert _run(house, "new", HONEYLEDGER_HOUSE=other).returncode == 0
    assert Path(other).is_file()
    assert _run(house, "audit", HONEYLEDGER_HOUSE=other).returncode == 0


def test_a_house_on_a_server_is_worked_the_same(tmp_path: Path, fresh_postgres_url: str) -> None:
    where = ("--house", fresh_postgres_url)
    assert _run(tmp_path, "new", *where).returncode == 0
    _run(tmp_path, "register", "yard", "add", "Mill Lane", *where)
    done = _run(tmp_path, "receive", "Mill Lane", "24", *where)
    assert done.returncode == 0, done.stderr
    done = _run(tmp_path, "audit", "--json", *where)
    assert done.returncode == 0, done.stdout
    assert all(row["holds"] for row in json.loads(done.stdout)["invariants"])


def test_the_wiring_is_whole() -> None:
    lent = wiring()
    assert lent.house_named("here", Settings()) == "here"
    assert lent.local_zone()
    assert lent.clock_from(5)() >= 5
    assert lent.sample_house().endswith("sample-season.honeyledger")
