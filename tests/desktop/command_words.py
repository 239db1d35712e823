"""Whether a line is a command of the terminal, as it is typed."""

import shlex

import click

from honeyledger.commandline.group import honeyledger


def assert_is_a_command(line: str) -> None:
    """Every word of it is taken: commands, arguments and options; nothing is run."""
    program, *words = shlex.split(line)
    assert program == "honeyledger"
    command: click.Command = honeyledger
    context = click.Context(honeyledger, info_name=program, obj=_Nobody())
    while isinstance(command, click.Group):
        found = command.get_command(context, words[0])
        assert found is not None, f"there is no command {words[0]}: {line}"
        command, words = found, words[1:]
    with command.make_context(str(command.name), words, parent=context):
        pass


class _Nobody:
    """Stands where a command's desk would: options that every command has are noted down."""

    def __init__(self) -> None:
        self.given: dict[str, str] = {}
        self.as_json = False
