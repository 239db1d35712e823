"""Lends another environment the packages that Honeyledger declares for its run, and no others.

Run by the development environment's Python. The wheel is then tried with real dependencies at
once and offline, and a package that is used but not declared is missing there, as it would be for
a user.
"""

import shutil
import sys
from importlib.metadata import distribution
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name


def needed(name: str, extras: frozenset[str] = frozenset()) -> set[str]:
    """The names of all distributions that a distribution's run needs, its own left out."""
    found: dict[str, frozenset[str]] = {}
    waiting = [(name, extras)]
    while waiting:
        wanted, extras = waiting.pop()
        for line in distribution(wanted).requires or []:
            requirement = Requirement(line)
            settings = [{"extra": extra} for extra in ("", *sorted(extras))]
            marker = requirement.marker
            if marker and not any(marker.evaluate(setting) for setting in settings):
                continue
            child, more = canonicalize_name(requirement.name), frozenset(requirement.extras)
            if child not in found or not more <= found[child]:
                found[child] = found.get(child, frozenset()) | more
                waiting.append((child, found[child]))
    return set(found) - {canonicalize_name(name)}


def lend(name: str, folder: Path) -> None:
    """Link (or, where links are not allowed, copy) one distribution's files into a folder."""
    lent = distribution(name)
    tops = {
        file.parts[0] for file in lent.files or [] if file.parts[0] not in ("..", "__pycache__")
    }
    for top in sorted(tops):
        source, target = Path(str(lent.locate_file(top))), folder / top
        if target.exists() or not source.exists():
            continue
        try:
            target.symlink_to(source, target_is_directory=source.is_dir())
        except OSError:
            if source.is_dir():
                shutil.copytree(source, target)
            else:
                shutil.copy2(source, target)


if __name__ == "__main__":
    for each in sorted(needed("honeyledger")):
        lend(each, Path(sys.argv[1]))
