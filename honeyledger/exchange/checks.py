"""The list of checks that comes with the program, read from files; a house adds its own to it.

A file with a slip in it is refused whole, with where the slip is.
"""

import tomllib
from collections.abc import Mapping
from pathlib import Path

from honeyledger.domain.checks import ListedCheck
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.withholding import parse_interval
from honeyledger.exchange.standards import BAD_RULE, NO_RULES_FILE, NOT_TOML

_FACTS = ("name", "look", "every", "source")
_MORE = ("sort",)


def shipped_checks(folder: Path) -> tuple[ListedCheck, ...]:
    """The checks of all files in a folder, in their order.

    Raises:
        Refusal: a file is not as it should be.
    """
    return tuple(one for file in sorted(folder.glob("*.toml")) for one in read_checks(file))


def read_checks(file: Path) -> tuple[ListedCheck, ...]:
    """The checks of a file, one table each.

    Raises:
        Refusal: it is not there, or not as it should be.
    """
    try:
        tables = tomllib.loads(file.read_text("utf-8-sig"))
    except OSError as error:
        raise Refusal(NO_RULES_FILE, field="checks", file=file.name) from error
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise Refusal(NOT_TOML, field="checks", file=file.name, why=str(error)) from error
    return tuple(_check(file.name, key, table) for key, table in tables.items())


def _check(file: str, key: str, table: object) -> ListedCheck:
    if not isinstance(table, Mapping):
        raise _bad(file, key, key, "a table")
    for name in table:
        if name not in (*_FACTS, *_MORE):
            raise _bad(file, key, str(name), f"one of {', '.join((*_FACTS, *_MORE))}")
    said = {name: table.get(name, "" if name in _MORE else None) for name in (*_FACTS, *_MORE)}
    for name, value in said.items():
        if not isinstance(value, str) or (name in _FACTS and not value.strip()):
            raise _bad(file, key, name, "a text in quotation marks")
    try:
        every = parse_interval(str(said["every"]))
    except Refusal as refusal:
        raise _bad(file, key, "every", "an interval, such as 2 weeks") from refusal
    name, look, source, sort = (str(said[one]) for one in ("name", "look", "source", "sort"))
    return ListedCheck(key.casefold(), name, look, every, sort.casefold(), source)


def _bad(file: str, where: str, name: str, wanted: str) -> Refusal:
    return Refusal(BAD_RULE, field="checks", file=file, where=where, name=name, wanted=wanted)
