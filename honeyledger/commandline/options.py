"""The options every command has, and those every recording command has besides.

They may stand before the command or behind it; what stands behind it counts.
"""

import re
from collections.abc import Sequence
from typing import Any

import click

from honeyledger.commandline.desk import Desk

# name, metavar, help; those without a metavar are switches.
EVERYWHERE = (
    ("--house", "FILE-or-URL", "The house's file, or its PostgreSQL address."),
    ("--json", "", "Answer in JSON, for other programs."),
)
WEIGHING = (("--unit", "kg|lb", "Unit of weights typed without one; else the house's own."),)
RECORDING = (
    *WEIGHING,
    ("--operator", "WHO", "Who does it: code or name."),
    ("--station", "NAME", "Where it is typed; else this computer's name."),
    ("--at", "TIME", "When it happened, such as 24 Jul 2026 14:30; else now."),
    ("--run", "CODE", "The open run it is of, or none; else the one open there."),
    ("--unsure", "MIN", "How many minutes the time may be off, either way."),
    ("--command", "ID", "An id of your own: a second try with it writes nothing again."),
)
_BELOW_ZERO = re.compile("^-(?=[0-9.,])")
_HEADING = "For every command"


def _keep(ctx: click.Context, param: click.Parameter, value: Any) -> None:
    """Hand an option to the desk; a switch that was not set is no answer."""
    if value is None or value is False or ctx.resilient_parsing:
        return
    desk = ctx.find_object(Desk)
    assert desk is not None
    if param.name == "json":
        desk.as_json = True
    else:
        desk.given[str(param.name)] = str(value)


def shared_options(rows: Sequence[tuple[str, str, str]]) -> list[click.Option]:
    """These options, as click takes them."""
    options = []
    for name, metavar, help_text in rows:
        kind: Any = None
        if name == "--unit":
            kind = click.Choice(["kg", "lb"])
        options.append(
            click.Option(
                [name],
                metavar=metavar or None,
                is_flag=not metavar,
                type=kind,
                help=help_text,
                expose_value=False,
                callback=_keep,
                default=None,
            )
        )
    return options


class Asking(click.Command):
    """A command that answers a question."""

    shared: Sequence[tuple[str, str, str]] = (*EVERYWHERE, *WEIGHING)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.params.extend(shared_options(self.shared))

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """A figure below zero is no option: it is for the parser of figures to refuse."""
        return super().parse_args(ctx, [_BELOW_ZERO.sub("\u2212", word) for word in args])

    def invoke(self, ctx: click.Context) -> Any:
        """Answer it; a time that was said and is none is refused here, too."""
        desk = ctx.find_object(Desk)
        assert desk is not None
        if type(self).invoke is Asking.invoke and self.shared[:1] == EVERYWHERE[:1]:
            desk.check_time()
        return super().invoke(ctx)

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Its own options first, then those that every command has."""
        names = {name for name, _, _ in self.shared}
        own: list[tuple[str, str]] = []
        shared: list[tuple[str, str]] = []
        for param in self.get_params(ctx):
            record = param.get_help_record(ctx)
            if record is not None:
                (shared if names & set(param.opts) else own).append(record)
        with formatter.section("Options"):
            formatter.write_dl(own)
        with formatter.section(_HEADING):
            formatter.write_dl(shared)


class Printing(Asking):
    """A command that answers a question; what it prints is put on record by whom."""

    shared = (*EVERYWHERE, *RECORDING[:3])


class Recording(Asking):
    """A command that records something that happened; it says where the house stands badly."""

    shared = (*EVERYWHERE, *RECORDING)

    def invoke(self, ctx: click.Context) -> Any:
        """Do it, and then warn of a network drive or a folder that a sync program copies."""
        result = super().invoke(ctx)
        desk = ctx.find_object(Desk)
        assert desk is not None
        desk.warn()
        return result
