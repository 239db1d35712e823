"""Finds the files shipped with the program: fonts, market data, label stocks, the sample season.

A wheel and a frozen bundle carry them inside the package; a checkout keeps them beside it.
"""

from pathlib import Path

from honeyledger.domain.refusals import Refusal, Sentence

RESOURCE_MISSING = Sentence(
    "resource-missing",
    "The program's own file {name} is missing; install Honeyledger again.",
)

_PACKAGE = Path(__file__).resolve().parent
_FOLDERS = (_PACKAGE / "_resources", _PACKAGE.parent / "resources")


def resource(*parts: str) -> Path:
    """The path of a shipped file or folder, named by its parts under `resources/`.

    Raises:
        Refusal: the installation is incomplete.
    """
    for folder in _FOLDERS:
        path = folder.joinpath(*parts)
        if path.exists():
            return path
    raise Refusal(RESOURCE_MISSING, name="/".join(parts))
