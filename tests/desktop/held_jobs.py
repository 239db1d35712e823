"""Lanes of which the one for questions runs a task when a test says so, and not before."""

from collections.abc import Callable, Hashable
from functools import partial
from typing import Any, TypeVar

from honeyledger.desktop.jobs import Jobs, Outcome, Ticket

T = TypeVar("T")


class HeldJobs(Jobs):
    """While `holds`, questions wait; each is asked, in its own lane, when it is let go."""

    def __init__(self) -> None:
        super().__init__()
        self.holds = False
        self.waiting: list[Callable[[], Any]] = []

    def read(
        self,
        task: Callable[[], T],
        then: Callable[[Outcome[T]], None],
        *,
        about: Hashable = None,
    ) -> Ticket:
        """Keep the question; where nothing is held it is asked as ever."""
        ask = partial(super().read, task, then, about=about)
        if not self.holds:
            return ask()
        self.waiting.append(ask)
        return Ticket(0, about)

    def let_one_go(self) -> None:
        """The oldest question is asked."""
        self.waiting.pop(0)()
