"""Small forms as data: what each asks, which code a scan gives it, the facts it says.

A station that does many small things (weigh, move, hold ...) declares them here, and one panel
shows them all. A field gives back what was typed; what it means is for the parsers of the domain.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from enum import Enum
from typing import Any

from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit
from honeyledger.services.house import Recorded

SEPARATOR = ", "
AT = "@"  # between a refused field and the code of the line it stands in


class Typing(Enum):
    """How an answer is typed."""

    TEXT = "text"
    CHOICE = "choice"
    FREE = "free"  # one of the choices, or anything else
    COUNT = "count"
    MASS = "mass"
    DAY = "day"
    BUTTONS = "buttons"


@dataclass(frozen=True, slots=True)
class Ask:
    """One thing that is asked.

    Args:
        key: its own name in its form.
        label: what stands above the field.
        unit: inside at the right; of a mass, the house's own where none is given.
        offers: which list of the station it chooses from.
        buttons: key and word of each, where it is asked by buttons.
        usual: what it begins as.
        part: its part of the row's width.
        many: several codes with commas between them; a scan adds one.
        in_row: how many of its buttons stand side by side at most; 0 for all of them.
        shown: whether it is asked now, by what is typed and the page; None: always.
    """

    key: str
    label: str
    typing: Typing = Typing.TEXT
    unit: str = ""
    offers: str = ""
    buttons: tuple[tuple[str, str], ...] = ()
    usual: str = ""
    part: int = 1
    many: bool = False
    in_row: int = 0
    shown: "Callable[[FormTyped, Reading], bool] | None" = None


@dataclass(frozen=True, slots=True)
class LineTyped:
    """What is typed of one lot of a list: its code and its answers."""

    code: str
    values: Mapping[str, str] = field(default_factory=dict)

    def text(self, key: str) -> str:
        """An answer, without blanks around it."""
        return self.values.get(key, "").strip()


@dataclass(frozen=True, slots=True)
class FormTyped:
    """One form as typed: its answers, and its lines where it has some."""

    values: Mapping[str, str] = field(default_factory=dict)
    lines: tuple[LineTyped, ...] = ()

    def text(self, key: str) -> str:
        """An answer, without blanks around it."""
        return self.values.get(key, "").strip()

    def codes(self, key: str) -> tuple[str, ...]:
        """The codes of an answer that has several, each once."""
        parts = self.text(key).replace(";", ",").split(",")
        return tuple(dict.fromkeys(part.strip() for part in parts if part.strip()))

    def with_value(self, key: str, text: str) -> "FormTyped":
        """The form with another answer."""
        return replace(self, values={**self.values, key: text})


@dataclass(frozen=True, slots=True)
class Reading:
    """What a form is read by: the house's unit, its day, and the station's page."""

    unit: MassUnit
    today: date
    page: Any = None


@dataclass(frozen=True, slots=True)
class FormSpec:
    """One small form.

    Args:
        key, title: its name, and the word on the button that chooses it.
        step: the next step, said while there is nothing else to say.
        button: what the button says that records it.
        rows: what is asked, row by row.
        facts: the facts it says, all recorded as one command.
        done: the sentence after recording.
        scan: the answer that a scanned code gives; with lines, the code becomes one.
        line: what is asked of each lot of a list; () where there is no list.
        fields: the answer a refused fact is about, by the fact's field, where they differ.
        grave: whether its button stands apart.
    """

    key: str
    title: str
    step: str
    button: str
    rows: tuple[tuple[Ask, ...], ...]
    facts: Callable[[FormTyped, Reading], Sequence[Any]]
    done: Callable[[FormTyped, Recorded, Reading], str]
    scan: str = ""
    line: tuple[Ask, ...] = ()
    fields: Mapping[str, str] = field(default_factory=dict)
    grave: bool = False

    def asks(self) -> tuple[Ask, ...]:
        """All that is asked, but of the lines."""
        return tuple(ask for row in self.rows for ask in row)

    def begins(self) -> FormTyped:
        """The form with nothing typed."""
        return FormTyped({ask.key: ask.usual for ask in self.asks() if ask.usual})

    def is_begun(self, typed: FormTyped) -> bool:
        """Whether there is anything to lose."""
        usual = self.begins().values
        return bool(typed.lines) or any(
            text.strip() and text != usual.get(key, "") for key, text in typed.values.items()
        )


def with_scan(spec: FormSpec, typed: FormTyped, code: str) -> FormTyped:
    """The form after a code was scanned; twice is once."""
    if spec.line:
        if any(line.code == code for line in typed.lines):
            return typed
        return replace(typed, lines=(*typed.lines, LineTyped(code)))
    ask = next(one for one in spec.asks() if one.key == spec.scan)
    if not ask.many:
        return typed.with_value(spec.scan, code)
    codes = dict.fromkeys((*typed.codes(spec.scan), code))
    return typed.with_value(spec.scan, SEPARATOR.join(codes))


def without_line(typed: FormTyped, code: str) -> FormTyped:
    """The form without a lot of its list."""
    return replace(typed, lines=tuple(line for line in typed.lines if line.code != code))


def field_of(spec: FormSpec, refusal: Refusal) -> tuple[str, str]:
    """The answer a refusal is about, and the code of its line where it stands in one."""
    name, _, code = refusal.field.partition(AT)
    return spec.fields.get(name, name), code


def as_draft(typed: FormTyped, command: str) -> dict[str, object]:
    """A form as a draft keeps it, with the id under which it will be recorded."""
    return {
        "command": command,
        "values": dict(typed.values),
        "lines": [{"code": line.code, "values": dict(line.values)} for line in typed.lines],
    }


def from_draft(kept: object) -> tuple[FormTyped, str]:
    """What a draft kept; what cannot be read stays empty."""
    if not isinstance(kept, Mapping):
        return FormTyped(), ""
    rows = kept.get("lines", ())
    lines = tuple(
        LineTyped(str(row.get("code", "")), _texts(row.get("values")))
        for row in (rows if isinstance(rows, list) else ())
        if isinstance(row, Mapping) and row.get("code")
    )
    return FormTyped(_texts(kept.get("values")), lines), str(kept.get("command", ""))


def _texts(kept: object) -> dict[str, str]:
    if not isinstance(kept, Mapping):
        return {}
    return {str(key): text for key, text in kept.items() if isinstance(text, str)}
