"""Half-filled forms, kept in small files so that typing outlives a crash.

A draft is text as it was typed and means nothing until it is recorded. A draft that cannot be
read is no draft; one that cannot be written is no reason to stop anybody's work.
"""

import json
import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from honeyledger.desktop.jobs import Jobs, Outcome


@dataclass(frozen=True, slots=True)
class Drafts:
    """The folder of one person's drafts."""

    folder: Path

    def read(self, name: str) -> Mapping[str, object]:
        """A draft, or nothing."""
        try:
            kept = json.loads(self._file(name).read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return {}
        return kept if isinstance(kept, dict) else {}

    def keep(self, name: str, draft: Mapping[str, object]) -> None:
        """Keep a draft in the place of the one before; an empty one is thrown away."""
        file = self._file(name)
        try:
            if not draft:
                file.unlink(missing_ok=True)
                return
            self.folder.mkdir(parents=True, exist_ok=True)
            part = file.with_suffix(".part")
            with part.open("w", encoding="utf-8") as out:
                json.dump(draft, out, ensure_ascii=False)
                out.flush()
                os.fsync(out.fileno())
            part.replace(file)
        except OSError:
            return

    def _file(self, name: str) -> Path:
        return self.folder / f"{name}.json"


class DraftKeeper:
    """Keeps one form's draft in the work lane, one writing at a time, the newest one last."""

    def __init__(self, drafts: Drafts, jobs: Jobs) -> None:
        self._drafts, self._jobs = drafts, jobs
        self._waiting: Mapping[str, object] | None = None
        self._writing = False
        self.name = ""

    def read(self, then: Callable[[Mapping[str, Any]], None]) -> None:
        """Ask for the draft that was left."""
        name = self.name

        def answered(outcome: Outcome[Mapping[str, object]]) -> None:
            then(outcome.value or {})

        self._jobs.work(lambda _report: self._drafts.read(name), answered)

    def keep(self, draft: Mapping[str, object] | None) -> None:
        """Keep this draft soon; an empty one is thrown away.

        None is that of a page which is not made yet: what was left before stays.
        """
        if not self.name or draft is None:
            return
        self._waiting = draft
        if not self._writing:
            self._write()

    def keep_now(self, draft: Mapping[str, object] | None) -> None:
        """Keep this draft before going on: the window closes. See `keep`."""
        if self.name and draft is not None:
            self._drafts.keep(self.name, draft)

    def _write(self) -> None:
        if self._waiting is None:
            return
        name, draft = self.name, self._waiting
        self._writing, self._waiting = True, None
        self._jobs.work(lambda _report: self._drafts.keep(name, draft), self._written)

    def _written(self, _outcome: Outcome[None]) -> None:
        self._writing = False
        self._write()
