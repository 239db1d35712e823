"""Rules of markets and grades, read from files: those shipped, and a house's own besides.

A house's own file has the same form; its rules replace those they are about, since who wrote them
has read the text. Every rule says where it is written and of what date. A file with a slip in it
is refused whole.
"""

import tomllib
from collections.abc import Mapping
from decimal import Decimal
from pathlib import Path

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.standards import Given, Mark, Rule, Standard, with_own

NO_RULES_FILE = Sentence(
    "no-rules-file", "There is no file {file} with rules: check its name and folder."
)
NOT_TOML = Sentence(
    "rules-not-toml", "{file} is not written as TOML ({why}): mend it, or leave it out."
)
BAD_RULE = Sentence(
    "bad-rule",
    "In {file}, {where}: {name} has to be {wanted}. Mend it; nothing of the file was used.",
)

_OF_STANDARD = frozenset(
    {"market", "title", "scheme", "order", "source", "as_of", "mark", "note", "rules"}
)
_OF_RULE = frozenset(
    {"property", "unit", "lowest", "highest", "all_of", "any_of", "given", "mark"}
    | {"source", "as_of", "note"}
)
_OF_GIVEN = frozenset({"property", "lowest", "highest"})

Table = Mapping[str, object]


def shipped(folder: Path, own: Path | None = None) -> tuple[Standard, ...]:
    """The standards of all files in a folder, by file name, with a house's own over them.

    Raises:
        Refusal: a file is not there, or not as it should be.
    """
    standards = [one for file in sorted(folder.glob("*.toml")) for one in read_standards(file)]
    mine = read_standards(own, own=True) if own else ()
    return with_own(standards, mine)


def read_standards(file: Path, *, own: bool = False) -> tuple[Standard, ...]:
    """The standards of a file: one table each, with its rules.

    Args:
        own: it is the house's, so its figures are its own, whatever mark they have.

    Raises:
        Refusal: it is not there, or not as it should be.
    """
    try:
        tables = tomllib.loads(file.read_text("utf-8-sig"), parse_float=Decimal)
    except OSError as error:
        raise Refusal(NO_RULES_FILE, field="rules", file=file.name) from error
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise Refusal(NOT_TOML, field="rules", file=file.name, why=str(error)) from error
    return tuple(_Reading(file.name, name, own).standard(table) for name, table in tables.items())


class _Reading:
    """One table of a file on its way to a standard."""

    def __init__(self, file: str, name: str, own: bool) -> None:
        self._file = file
        self._name = name
        self._own = own
        self._where = name

    def standard(self, table: object) -> Standard:
        table = self._table(table, _OF_STANDARD, self._name)
        rules = table.get("rules")
        if not isinstance(rules, list) or not rules:
            raise self._bad("rules", "a list with at least one rule")
        order = table.get("order", 0)
        if not isinstance(order, int) or isinstance(order, bool):
            raise self._bad("order", "a whole number")
        return Standard(
            name=self._name.casefold(),
            market=self._text(table, "market"),
            title=self._text(table, "title"),
            rules=tuple(self._rule(rule, table, at) for at, rule in enumerate(rules, start=1)),
            scheme=self._text(table, "scheme", ""),
            order=order,
            note=self._text(table, "note", ""),
        )

    def _rule(self, rule: object, above: Table, at: int) -> Rule:
        self._where = f"{self._name}, rule {at}"
        rule = self._table(rule, _OF_RULE, "the rule")
        whole = {name: above[name] for name in ("source", "as_of", "mark") if name in above}
        whole.update(rule)
        lowest, highest = (self._number(rule, name) for name in ("lowest", "highest"))
        if lowest is not None and highest is not None and lowest > highest:
            raise self._bad("highest", "no lower than lowest")
        return Rule(
            what=self._text(whole, "property").casefold(),
            unit=self._text(whole, "unit", ""),
            lowest=lowest,
            highest=highest,
            mark=self._mark(whole),
            source=self._text(whole, "source"),
            as_of=self._text(whole, "as_of"),
            all_of=self._kinds(whole, "all_of"),
            any_of=self._kinds(whole, "any_of"),
            given=self._given(whole),
            note=self._text(whole, "note", ""),
        )

    def _given(self, rule: Table) -> Given | None:
        if "given" not in rule:
            return None
        table = self._table(rule["given"], _OF_GIVEN, "given")
        lowest, highest = (self._number(table, name) for name in ("lowest", "highest"))
        if lowest is None and highest is None:
            raise self._bad("given", "a property with lowest, highest or both")
        return Given(self._text(table, "property").casefold(), lowest, highest)

    def _mark(self, rule: Table) -> Mark:
        if self._own:
            return Mark.OWN
        mark = next((one for one in Mark if one.value == rule.get("mark")), None)
        if mark is None or mark is Mark.OWN:
            raise self._bad("mark", "S, S2, C or M")
        return mark

    def _table(self, value: object, known: frozenset[str], field: str) -> Table:
        if not isinstance(value, dict):
            raise self._bad(field, "a table")
        for name in value:
            if name not in known:
                raise self._bad(name, f"one of {', '.join(sorted(known))}")
        return value

    def _text(self, table: Table, field: str, otherwise: str | None = None) -> str:
        value = table.get(field, otherwise)
        if not isinstance(value, str) or (otherwise is None and not value.strip()):
            raise self._bad(field, "a text in quotation marks")
        return value

    def _number(self, table: Table, field: str) -> Decimal | None:
        value = table.get(field)
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int | Decimal):
            raise self._bad(field, "a number")
        number = Decimal(value)
        if not number.is_finite() or number < 0:
            raise self._bad(field, "a number, 0 or more")
        return number

    def _kinds(self, table: Table, field: str) -> frozenset[str]:
        value = table.get(field, [])
        if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
            raise self._bad(field, "a list of kinds of honey")
        return frozenset(one.strip().casefold() for one in value)

    def _bad(self, name: str, wanted: str) -> Refusal:
        shown = {"file": self._file, "where": self._where, "name": name, "wanted": wanted}
        return Refusal(BAD_RULE, field="rules", **shown)
