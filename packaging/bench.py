"""Times traces, recording and the audit against a hand-written floor and against networkx.

`python3 packaging/bench.py` makes seasons from a seed through the real ledger and times every row
in one run, on SQLite and PostgreSQL; `-o FOLDER` writes bench.md and bench.json there. `--help`
names the rest; `--colonies 80000 --seasons 20` is the largest house it is meant for.
"""

import os
import subprocess
import sys

if sys.version_info < (3, 11):
    sys.exit("Honeyledger needs Python 3.11 or newer; start this with such a Python.")

import environment


def main() -> int:
    """Make the environment ready and hand over to the bench; its exit code is this one's."""
    try:
        environment.make_ready("tests")
    except environment.CannotGoOnError as trouble:
        print(trouble, file=sys.stderr)
        return 1
    paths = [str(environment.ROOT), os.environ.get("PYTHONPATH", "")]
    env = {**os.environ, "PYTHONPATH": os.pathsep.join(path for path in paths if path)}
    bench = [str(environment.venv_python()), "-m", "tests.bench", *sys.argv[1:]]
    return subprocess.call(bench, env=env)


if __name__ == "__main__":
    sys.exit(main())
