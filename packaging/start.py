"""Starts Honeyledger from a checkout, on a machine that has only Python.

`python3 packaging/start.py` opens the window on the sample season; without a screen, or with
`--terminal`, it runs the main job on the sample season in the terminal.
"""

import os
import subprocess
import sys

if sys.version_info < (3, 11):
    sys.exit("Honeyledger needs Python 3.11 or newer; start this with such a Python.")

import environment


def _command(arguments: list[str]) -> list[str]:
    environment.make_ready()
    if "--terminal" in arguments:
        return ["tour"]
    if not environment.has_screen():
        environment.say(
            "There is no screen here, so the main job runs in the terminal, on the sample season."
        )
        return ["tour"]
    environment.make_libraries_ready(screen=True)
    environment.say("opening the window on the sample season")
    return ["window", "--sample"]


def main() -> int:
    """Make what is missing and hand over to the program; its exit code is this one's."""
    try:
        command = _command(sys.argv[1:])
    except environment.CannotGoOnError as trouble:
        print(trouble, file=sys.stderr)
        return 1
    program = [str(environment.venv_python()), "-m", "honeyledger", *command]
    if os.name == "nt":
        return subprocess.call(program)
    sys.stdout.flush()
    os.execv(program[0], program)


if __name__ == "__main__":
    sys.exit(main())
