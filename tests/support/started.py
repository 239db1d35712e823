"""Processes as they are started by what is done beside this one."""

import subprocess
from collections.abc import Callable

import pytest


class Started:
    """All that are started from now on; `meddle` may do something to each."""

    def __init__(
        self,
        monkeypatch: pytest.MonkeyPatch,
        meddle: Callable[["subprocess.Popen[bytes]"], None] = lambda _: None,
    ) -> None:
        self._meddle = meddle
        self._popen = subprocess.Popen
        self.all: list[subprocess.Popen[bytes]] = []
        monkeypatch.setattr(subprocess, "Popen", self)

    def __call__(self, *given: object, **named: object) -> "subprocess.Popen[bytes]":
        process = self._popen(*given, **named)  # type: ignore[call-overload]
        self.all.append(process)
        self._meddle(process)
        return process  # type: ignore[no-any-return]
