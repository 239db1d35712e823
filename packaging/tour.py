"""Writes a picture of every page of the window on the sample season, and says what is wrong there.

`python3 packaging/tour.py FOLDER` shows every station without a screen, in each of its states, at
each size, light and dark, and every kind of label and paper; `FOLDER dock-refused` or `FOLDER
paper-run-sheet` shows one alone; `--help` names the rest.
"""

import os
import subprocess
import sys

if sys.version_info < (3, 11):
    sys.exit("Honeyledger needs Python 3.11 or newer; start this with such a Python.")

import environment


def main() -> int:
    """Make the environment ready and hand over to the tour; its exit code is this one's."""
    try:
        environment.make_ready("tests")
        environment.make_libraries_ready(screen=False)
    except environment.CannotGoOnError as trouble:
        print(trouble, file=sys.stderr)
        return 1
    paths = [str(environment.ROOT), os.environ.get("PYTHONPATH", "")]
    env = {**os.environ, "PYTHONPATH": os.pathsep.join(path for path in paths if path)}
    tour = [str(environment.venv_python()), "-m", "tests.desktop.tour", *sys.argv[1:]]
    return subprocess.call(tour, env=env)


if __name__ == "__main__":
    sys.exit(main())
