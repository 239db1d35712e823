"""`honeyledger` itself: its commands, loaded by name when used; what ends how.

Exit codes: 0 done, 1 an invariant failed, 2 refused, with one sentence on standard error and
nothing on standard output.
"""

import importlib
import keyword
import sys
from collections.abc import Iterator, MutableMapping, Sequence
from difflib import get_close_matches
from itertools import groupby
from typing import Any

import click

from honeyledger.commandline.desk import PASSWORD
from honeyledger.commandline.options import EVERYWHERE, RECORDING, shared_options
from honeyledger.commandline.stations import STATIONS
from honeyledger.domain.refusals import BrokenRule, Damage, Refusal

DONE, FAILED, REFUSED, STOPPED = 0, 1, 2, 130


def _attribute(name: str) -> str:
    """The function a command's name stands for."""
    word = name.replace("-", "_")
    return f"{word}_" if keyword.iskeyword(word) else word


class Commands(click.Group):
    """The commands by station; a station's module is loaded when one of them is used."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """All commands, in the order of the work."""
        return [name for station in STATIONS for name in station.commands]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """A command, its module loaded."""
        for station in STATIONS:
            if cmd_name in station.commands:
                module = importlib.import_module(f"honeyledger.commandline.{station.module}")
                command: click.Command = getattr(module, _attribute(cmd_name))
                return command
        return None

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command typed; near ones are offered where there is none such."""
        if args and self.get_command(ctx, args[0]) is None:
            near = get_close_matches(args[0], self.list_commands(ctx), 3)
            asked = f" Was it {' or '.join(near)}?" if near else ""
            raise click.UsageError(
                f"There is no command {args[0]}.{asked} honeyledger --help lists them."
            )
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The commands by station, without loading any."""
        for heading, stations in groupby(STATIONS, key=lambda station: station.heading):
            with formatter.section(heading):
                formatter.write_dl([row for one in stations for row in one.commands.items()])

    def main(  # type: ignore[override]
        self,
        args: Sequence[str] | None = None,
        prog_name: str | None = "honeyledger",
        standalone_mode: bool = True,
        **extra: Any,
    ) -> Any:
        """Run one command; every way it can end has its exit code and its words."""
        code = self._ended(args, prog_name, extra)
        if standalone_mode:
            sys.exit(code)
        return code

    def _ended(
        self, args: Sequence[str] | None, prog_name: str | None, extra: MutableMapping[str, Any]
    ) -> int:
        try:
            result = super().main(args, prog_name, standalone_mode=False, **extra)
            return result if isinstance(result, int) else DONE
        except click.exceptions.NoArgsIsHelpError as asked:
            click.echo(asked.format_message())
            return DONE
        except click.ClickException as wrong:
            return _refuse(_usage(wrong))
        except Refusal as refusal:
            return _refuse(_refused(refusal))
        except click.Abort:
            click.echo("Stopped.", err=True)
            return STOPPED
        except Damage as damage:
            click.echo(f"Stored data is not what was sealed: {damage}. Run the audit.", err=True)
            return FAILED
        except BrokenRule as bug:
            click.echo(
                f"The program would have broken a rule of the ledger, so nothing was written: "
                f"{bug}. Please report this with what you typed.",
                err=True,
            )
            return FAILED
        except SystemExit:
            return DONE  # click leaves so where a reader stops early, as `| head` does
        finally:
            desk = extra.get("obj")
            if desk is not None:
                desk.close()


def _refuse(sentence: str) -> int:
    click.echo(sentence, err=True)
    return REFUSED


def _refused(refusal: Refusal) -> str:
    """The refusal's sentence, with the codes offered where it does not name them itself."""
    missing = [code for code in refusal.offers if code not in refusal.text]
    return f"{refusal.text} Was it {' or '.join(missing)}?" if missing else refusal.text


def _usage(wrong: click.ClickException) -> str:
    """What was typed wrongly, in one line, and where the options are listed."""
    said = " ".join(wrong.format_message().split())
    said = PASSWORD.sub("***", said) if "://" in said else said
    context = getattr(wrong, "ctx", None)
    if context is None or "--help" in said:
        return said
    if not said.endswith(("?", "?)")):
        said = f"{said.removesuffix('.')};"
    return f"{said} {context.command_path} --help shows how."


def all_commands(ctx: click.Context) -> Iterator[tuple[str, click.Command]]:
    """Every command with its words, groups' own commands included."""
    waiting: list[tuple[str, click.Command]] = [("", honeyledger)]
    while waiting:
        words, command = waiting.pop()
        if words:
            yield words, command
        if isinstance(command, click.Group):
            for name in command.list_commands(ctx):
                found = command.get_command(ctx, name)
                assert found is not None
                waiting.append((f"{words} {name}".strip(), found))


honeyledger = Commands(
    "honeyledger",
    help="The ledger of a honey house: every kilogram from the supers on the dock to the jar, "
    "and back to its yards.",
    params=list(shared_options((*EVERYWHERE, *RECORDING))),
    no_args_is_help=True,
    context_settings={"max_content_width": 100, "help_option_names": ["-h", "--help"]},
)
