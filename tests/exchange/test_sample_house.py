"""The sample season as a house: loaded once, whole or not at all, on its own clock."""

from pathlib import Path

import pytest

from honeyledger import bootstrap
from honeyledger.assets import resource
from honeyledger.exchange.sample_house import open_sample
from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.services.house import House


def _open(where: Path, told: list[int]) -> House:
    return open_sample(
        where,
        resource("sample"),
        bootstrap.open_house,
        bootstrap.clock_from,
        lambda done, _of, _day: told.append(done),
    )


@pytest.mark.long_on_server
def test_it_is_loaded_once_and_goes_on_when_it_was_broken_off(tmp_path: Path) -> None:
    where = tmp_path / "sample.honeyledger"
    told: list[int] = []

    class BrokenOff(Exception):
        pass

    def stop(done: int, _of: int, _day: str) -> None:
        if done > 50:
            raise BrokenOff

    with pytest.raises(BrokenOff):
        open_sample(where, resource("sample"), bootstrap.open_house, bootstrap.clock_from, stop)
    assert not where.exists()
    house = _open(where, told)
    assert told
    assert house.clock() >= SAMPLE_NOW_MS
    head = house.ask(lambda view: view.head())
    house.store.close()
    told.clear()
    again = _open(where, told)
    assert told == []
    assert again.ask(lambda view: view.head()) == head
    again.store.close()
