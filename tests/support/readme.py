"""The README's console block, run for real: each `$` line, its output, and how to renew both.

`python -m tests.support.readme` writes what the commands answer today into README.md.
"""

import os
import re
import tempfile
from pathlib import Path

from honeyledger.settings import Settings
from tests.support.terminal import Terminal

README = Path(__file__).resolve().parents[2] / "README.md"
BLOCK = re.compile(r"```console\n(.*?)```", re.S)
SECONDS = re.compile(r"\d+\.\d+ s\b")
HOUSE = "demo.honeyledger"


def commands(block: str) -> list[tuple[str, list[str]]]:
    """Each command of a block with the lines shown under it."""
    found: list[tuple[str, list[str]]] = []
    for line in block.splitlines():
        if line.startswith("$ "):
            found.append((line[2:], []))
        else:
            found[-1][1].append(line)
    return found


def answer(terminal: Terminal, command: str) -> list[str]:
    """What a command of the README answers; a tail such as `| head -4` cuts it."""
    words, _, most = command.partition(" | head -")
    here = terminal.where
    said = terminal.type(*words.replace(HOUSE, here).split()[1:])
    assert said.code == 0, said.err
    lines = [line.rstrip() for line in said.out.replace(here, HOUSE).strip().splitlines()]
    return lines[: int(most)] if most else lines


def block_of(page: str) -> str:
    """The page's one console block."""
    found = BLOCK.search(page)
    assert found is not None
    return found.group(1)


def renewed(page: str, terminal: Terminal) -> str:
    """The page with what its commands answer today."""
    lines = []
    for command, _ in commands(block_of(page)):
        lines += [f"$ {command}", *answer(terminal, command)]
    fresh = "```console\n" + "\n".join(lines) + "\n```"
    return BLOCK.sub(lambda _: fresh, page)


def main() -> None:
    """Renew the README."""
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        terminal = Terminal(Path(folder), Settings())
        README.write_text(renewed(README.read_text("utf-8"), terminal), "utf-8")


if __name__ == "__main__":
    main()
