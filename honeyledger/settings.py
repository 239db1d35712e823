"""What this computer remembers for its user: the house, who is working, and how the window looks.

Settings are read once, passed in and written whole. Whatever belongs to the house itself (reach
margin, vessels, operators) is recorded in its ledger and never here.
"""

import json
import os
import re
import tempfile
import tomllib
from dataclasses import dataclass, fields, replace
from pathlib import Path
from typing import Literal

from platformdirs import user_config_path, user_data_path

from honeyledger.domain.refusals import Refusal, Sentence

SETTINGS_UNREADABLE = Sentence(
    "settings-unreadable",
    "The settings file {file} cannot be read ({why}); mend it, or delete it to start with the "
    "program's own settings.",
)
SETTING_UNKNOWN = Sentence(
    "setting-unknown",
    "{name} in {file} is not a setting; mend its name or take the line out. "
    "The settings are {names}.",
)
SETTING_VALUE = Sentence(
    "setting-value",
    "{name} in {file} is {value}; write {allowed}, or take the line out.",
)
SETTINGS_UNWRITABLE = Sentence(
    "settings-unwritable",
    "The settings cannot be written to {file} ({why}); make room or allow writing there, then "
    "try again.",
)

Look = Literal["light", "dark", "system"]
Density = Literal["station", "floor", "desk"]
Scale = Literal["100", "125", "150", "175", "200"]
SCALES: tuple[Scale, ...] = ("100", "125", "150", "175", "200")
"""How large everything in the window can be, in per cent."""

_CHOICES: dict[str, tuple[str, ...]] = {
    "look": ("light", "dark", "system"),
    "density": ("station", "floor", "desk"),
    "scale": SCALES,
}
_LANGUAGE = re.compile(r"system|[a-z]{2,3}")


@dataclass(frozen=True, slots=True)
class Settings:
    """One computer's settings; each has a value that works from the first start.

    Args:
        house: the house's file or its database's address; empty means the one in `data_folder()`.
        operator: the code or name of whoever worked here last; empty means ask.
        station: the name recorded with each entry made here; empty means the computer's own name.
        look: light, dark, or as the system has it.
        density: the size of targets and type: as the station asks, or always floor or desk.
        scale: how large everything in the window is, in per cent.
        tones: whether a scan is answered with a tone.
        backups: the folder backups are written to; empty means beside the other papers.
        language: of the window: the system's where there is a catalogue of it, or its short name.
    """

    house: str = ""
    operator: str = ""
    station: str = ""
    look: Look = "light"
    density: Density = "station"
    scale: Scale = "100"
    tones: bool = True
    backups: str = ""
    language: str = "system"


def settings_file() -> Path:
    """Where this user's settings are kept."""
    return user_config_path("honeyledger", appauthor=False) / "settings.toml"


def printers_file() -> Path:
    """Where it is kept what this computer's printers take and need."""
    return settings_file().with_name("printers.toml")


def data_folder() -> Path:
    """Where this user's house is kept when no other place is named."""
    return user_data_path("honeyledger", appauthor=False)


def read_settings(path: Path) -> Settings:
    """The settings in a file; the program's own where the file or a line of it is absent.

    Raises:
        Refusal: the file is not TOML, names an unknown setting, or gives one a wrong value.
    """
    try:
        written = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except FileNotFoundError:
        return Settings()
    except (OSError, ValueError) as trouble:
        raise Refusal(SETTINGS_UNREADABLE, file=path, why=_reason(trouble)) from trouble
    for name, value in written.items():
        _check(name, value, path)
    return Settings(**written)


def write_settings(settings: Settings, path: Path) -> None:
    """Put the settings in a file, whole or not at all; only its owner may read it.

    The address of a database may hold a password, hence the owner alone.

    Raises:
        Refusal: the disk or the folder does not allow it; what stood there before still does.
    """
    lines = [
        f"{field.name} = {_toml(getattr(settings, field.name))}\n" for field in fields(settings)
    ]
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, beside = tempfile.mkstemp(dir=path.parent, prefix=path.name)
        try:
            with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
                file.writelines(lines)
            Path(beside).replace(path)
        except BaseException:
            Path(beside).unlink(missing_ok=True)
            raise
    except OSError as trouble:
        raise Refusal(SETTINGS_UNWRITABLE, file=path, why=_reason(trouble)) from trouble


def with_setting(settings: Settings, name: str, text: str) -> Settings:
    """The settings with one of them changed to what was typed.

    Raises:
        Refusal: there is no such setting, or it cannot be that.
    """
    value: object = text
    if isinstance(getattr(settings, name, None), bool):
        value = {"true": True, "false": False}.get(text.casefold(), text)
    _check(name, value, settings_file())
    changed: dict[str, object] = {name: value}
    return replace(settings, **changed)  # type: ignore[arg-type] # _check knows its type


def _check(name: str, value: object, path: Path) -> None:
    known = {field.name: field for field in fields(Settings)}
    if name not in known:
        raise Refusal(SETTING_UNKNOWN, field=name, name=name, file=path, names=", ".join(known))
    if name in _CHOICES:
        fits, allowed = value in _CHOICES[name], " or ".join(map(_toml, _CHOICES[name]))
    elif name == "language":
        fits = isinstance(value, str) and _LANGUAGE.fullmatch(value) is not None
        allowed = '"system" or the short name of a language, as "en" or "es"'
    elif isinstance(known[name].default, bool):
        fits, allowed = isinstance(value, bool), "true or false"
    else:
        fits, allowed = isinstance(value, str), "a text in double quotes"
    if not fits:
        raise Refusal(
            SETTING_VALUE, field=name, name=name, file=path, value=_toml(value), allowed=allowed
        )


def _toml(value: object) -> str:
    """A text or truth value in TOML: as in JSON, but the delete character must be escaped."""
    return json.dumps(value, ensure_ascii=False, default=str).replace("\x7f", "\\u007f")


def _reason(trouble: OSError | ValueError) -> str:
    return (trouble.strerror if isinstance(trouble, OSError) else None) or str(trouble)
