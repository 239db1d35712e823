"""The pages people read say what the program does today."""

import importlib
import re
from collections.abc import Iterator
from pathlib import Path

import click

ROOT = Path(__file__).resolve().parents[2]


def _page(name: str) -> str:
    return (ROOT / name).read_text("utf-8")


def _section(page: str, title: str) -> str:
    """What stands under a heading, down to the next one of its own or a higher rank."""
    found = re.search(
        rf"^(#+) (?:\d+\. )?{title}[^\n]*\n(.*?)(?=^(?!\1#)#+ |\Z)", page, re.M | re.S | re.I
    )
    assert found, f"DEVELOPERS.md has no section {title!r}"
    return found.group(2)


def _commands(command: click.Command, path: str = "") -> Iterator[tuple[str, click.Command]]:
    """Every command a person can see, with its words ("run open")."""
    if not isinstance(command, click.Group):
        return
    context = click.Context(command)
    for name in command.list_commands(context):
        part = command.get_command(context, name)
        assert part is not None, f"{name} is listed but cannot be loaded"
        if not part.hidden:
            words = f"{path} {name}".strip()
            yield words, part
            yield from _commands(part, words)


def _program() -> click.Group:
    """The whole command line; the module is loaded by name, as the program does."""
    module = importlib.import_module("honeyledger.commandline.group")
    groups = [value for value in vars(module).values() if isinstance(value, click.Group)]
    assert len(groups) == 1, "honeyledger.commandline.group holds the one group of all commands"
    return groups[0]


def test_the_code_map_names_every_package_and_no_other() -> None:
    named = set(
        re.findall(
            r"`(?:honeyledger/)?([a-z_/]+?)/`", _section(_page("DEVELOPERS.md"), "Code map")
        )
    )
    packages = {
        path.parent.relative_to(ROOT / "honeyledger").as_posix()
        for path in (ROOT / "honeyledger").rglob("__init__.py")
    } - {"."}
    beside = {"resources", "packaging", "tests", "honeyledger"}
    top = {package for package in packages if "/" not in package}
    assert top <= named, f"the code map leaves out {sorted(top - named)}"
    gone = {name for name in named - packages - beside if not (ROOT / name).is_dir()}
    assert not gone, f"the code map names what is not there: {sorted(gone)}"


def test_every_file_named_in_the_pages_exists() -> None:
    for page in ("README.md", "DEVELOPERS.md"):
        named = set(
            re.findall(r"`((?:honeyledger|tests|packaging|resources|\.ci)/[\w./-]+)`", _page(page))
        )
        gone = sorted(name for name in named if not (ROOT / name).exists())
        assert not gone, f"{page} names what is not there: {gone}"


def test_every_command_says_what_it_does() -> None:
    silent = [
        words for words, command in _commands(_program()) if not (command.help or "").strip()
    ]
    assert not silent, f"these commands have no help: {silent}"


def test_every_command_is_in_the_readme_or_the_help() -> None:
    program = _program()
    told = program.get_help(click.Context(program, info_name="honeyledger")) + _page("README.md")
    unseen = [
        words
        for words, _ in _commands(program)
        if " " not in words and not re.search(rf"(?<![\w-]){re.escape(words)}(?![\w-])", told)
    ]
    assert not unseen, f"neither the help nor the README tells of {unseen}"


def test_every_command_in_the_pages_exists() -> None:
    words = {command for command, _ in _commands(_program())}
    firsts = {command.split()[0] for command in words}
    for page in ("README.md", "DEVELOPERS.md"):
        used = set(
            re.findall(
                r"(?:^|[`$ ])honeyledger (?:--[a-z]+ \S+ )*([a-z][a-z-]+)(?=[ `\n])(?! ?=)",
                "\n".join(re.findall(r"```.*?```|`[^`\n]+`", _page(page), re.S)),
                re.M,
            )
        )
        gone = sorted(used - firsts)
        assert not gone, f"{page} uses commands that do not exist: {gone}"
