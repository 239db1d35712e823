"""When Python looks for garbage."""

import gc
import weakref
from collections.abc import Iterator

import pytest

from honeyledger import garbage


class Node:
    """Something that holds itself."""

    def __init__(self) -> None:
        self.me = self


@pytest.fixture(autouse=True)
def _as_it_was() -> Iterator[None]:
    before = gc.get_threshold()
    gc.set_threshold(700)
    yield
    gc.set_threshold(*before)
    gc.unfreeze()


def test_none_is_looked_for_while_the_program_loads_and_what_is_loaded_is_left_alone() -> None:
    garbage.is_loading()
    loading = gc.get_threshold()[0]
    kept = Node()
    garbage.is_loaded()
    assert gc.get_threshold()[0] < loading / 10
    assert gc.get_freeze_count() > 0
    assert kept not in gc.get_objects()


def test_where_nothing_was_being_loaded_nothing_is_left_alone() -> None:
    before = gc.get_threshold(), gc.get_freeze_count()
    garbage.is_loaded()
    assert (gc.get_threshold(), gc.get_freeze_count()) == before


def test_what_comes_after_is_still_found() -> None:
    garbage.is_loading()
    garbage.is_loaded()
    gone = weakref.ref(Node())
    gc.collect()
    assert gone() is None
