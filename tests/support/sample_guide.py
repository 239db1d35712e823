"""The sample season's guide: a page with names in place of codes, and the rows that it shows.

    (cd /tmp && PYTHONPATH=REPO python -m tests.support.sample_guide)

writes resources/sample/README.md anew from the page beside this module, in which {names} are what
the sample's files call things.
"""

import re
from pathlib import Path
from typing import NamedTuple

from honeyledger.assets import resource
from tests.support.sample import code

PAGE = Path(__file__).with_suffix(".md")
_ROW = re.compile(r"^\| (?P<what>.+) \| `(?P<command>.+)` \| (?P<words>.+) \|$", re.MULTILINE)


class Seen(NamedTuple):
    """What happens, the command that shows it, and the words to look for in its answer."""

    what: str
    command: str
    words: str


def rows() -> list[Seen]:
    """The rows of the page's tables, names in place of codes."""
    return [Seen(**found.groupdict()) for found in _ROW.finditer(PAGE.read_text("utf-8"))]


def filled(text: str) -> str:
    """The text with codes in the place of names."""
    return re.sub(r"\{([^}]+)\}", lambda found: code(found[1]), text)


def guide() -> str:
    """The whole page."""
    return filled(PAGE.read_text("utf-8"))


if __name__ == "__main__":
    resource("sample", "README.md").write_text(guide(), encoding="utf-8")
