"""What this computer remembers: shown, and set, from the terminal."""

from dataclasses import fields

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import Column
from honeyledger.settings import Settings, settings_file, with_setting, write_settings


class _OfThisComputer(Asking):
    """A command that asks nothing of a house."""

    shared = (("--json", "", "Answer in JSON, for other programs."),)


@click.group(no_args_is_help=True)
def settings() -> None:
    """What this computer remembers: house, operator, station, look."""


@settings.command("list", cls=_OfThisComputer)
@click.pass_obj
def list_settings(desk: Desk) -> None:
    """Show the settings of this computer.

    \b
    Example: honeyledger settings list
    """
    _show(desk, desk.settings)


@settings.command("set", cls=_OfThisComputer)
@click.argument("name")
@click.argument("value")
@click.pass_obj
def set_setting(desk: Desk, name: str, value: str) -> None:
    """Remember something, such as: set house FILE-or-URL, set operator WHO, set station NAME.

    \b
    Example: honeyledger settings set operator "Ann Reed"
    Undo: set it to what it was; "" forgets it.
    """
    changed = with_setting(desk.settings, name, value)
    write_settings(changed, settings_file())
    _show(desk, changed)


def _show(desk: Desk, shown: Settings) -> None:
    values = {field.name: getattr(shown, field.name) for field in fields(shown)}
    desk.answer_rows(
        {"file": str(settings_file()), "settings": values},
        (Column("setting"), Column("value")),
        [[name, str(value)] for name, value in values.items()],
        "There are no settings.",
    )
