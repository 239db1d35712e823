"""Names say what a thing is, packages hold no code of their own, and no bad habit creeps in."""

import ast
import re
import subprocess
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).resolve().parents[2]

# Places where anything may be put, and where import cycles start.
NO_MODULE_IS_CALLED = frozenset(
    {"base", "common", "general", "helper", "helpers", "manager", "managers", "misc"}
    | {"mixed", "shared", "stuff", "util", "utils", "utilities"}
)


class Habit(NamedTuple):
    """A pattern, the files it is unwelcome in (as the start of their paths), and what to do."""

    pattern: str
    within: tuple[str, ...]
    instead: str


EVERYWHERE = ("",)
PYTHON = ("honeyledger/", "tests/", "packaging/")
HABITS = {
    "unfinished": Habit(
        r"\b(?:TODO|FIXME|XXX|HACK|WIP)\b", EVERYWHERE, "finish it or leave it out"
    ),
    "filler": Habit(
        r"(?i)\b(?:lorem ipsum|foobar|asdf|dummy)\b", EVERYWHERE, "use words of the honey house"
    ),
    "nobody's name": Habit(
        r"(?i)\bhelpers?\b", PYTHON, "say what it does; a thing that only helps has no name yet"
    ),
    "somebody's folder": Habit(
        r"(?<![\w.\-)}\]])/(?:home|root|work|Users)/\w", EVERYWHERE, "name no machine's folders"
    ),
    "a ticket": Habit(
        r"(?i)\b(?:issue|ticket|bug) (?:no\.? ?|#)?\d+\b", EVERYWHERE, "say the reason itself"
    ),
    "waiting": Habit(
        r"(?<!\.)\btime\.sleep\(|\bsleep\(\d|\bqWait\(|\bqtbot\.wait\(",
        ("tests/",),
        "wait for the thing itself, never for time",
    ),
    "a stand-in": Habit(
        r"\bunittest\.mock\b|\bMagicMock\b|\bmocker\b", ("tests/",), "run the real part"
    ),
    "a test that runs nowhere": Habit(
        r"\bpytest\.skip\(|\bimportorskip\(|mark\.skip\b|mark\.xfail\b",
        ("tests/",),
        "mend it, or take it out; skipif with a reason only for another system",
    ),
    "a test that cannot fail": Habit(
        r"\bassert True\b|\bassert 1\b|except Exception: *pass", ("tests/",), "check something"
    ),
}

# This file has to spell out what it looks for.
ITSELF = "tests/architecture/test_names.py"


def _files() -> list[str]:
    """Every file of the project that git knows or would take in."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    return sorted(file for file in set(listed.split("\0")) if file and (ROOT / file).is_file())


@cache
def _texts() -> list[tuple[str, str]]:
    texts = []
    for file in _files():
        content = (ROOT / file).read_bytes()
        if b"\0" not in content and file != ITSELF:
            texts.append((file, content.decode("utf-8")))
    return texts


def _found(habit: Habit, file: str, text: str) -> list[str]:
    if not file.startswith(habit.within) or not re.search(habit.pattern, text):
        return []
    return [
        f"{file}:{number}: {found.group()!r}; {habit.instead}"
        for number, line in enumerate(text.splitlines(), start=1)
        for found in re.finditer(habit.pattern, line)
    ]


def test_the_top_level_is_fixed() -> None:
    allowed = {
        *("README.md", "DEVELOPERS.md", "pyproject.toml", ".gitignore", ".gitattributes"),
        *("honeyledger", "resources", "tests", "packaging", ".ci"),
    }
    assert {file.split("/")[0] for file in _files()} <= allowed


def test_no_module_or_folder_is_a_drawer_for_anything() -> None:
    parts = {
        (file, part)
        for file in _files()
        if file.endswith(".py")
        for part in Path(file).with_suffix("").parts
    }
    drawers = sorted(file for file, part in parts if part in NO_MODULE_IS_CALLED)
    assert not drawers, f"name what they hold: {', '.join(drawers)}"


def test_names_of_modules_are_lower_case_words() -> None:
    odd = [
        file
        for file in _files()
        if file.startswith(PYTHON)
        and file.endswith(".py")
        and "/versions/" not in file
        and not re.fullmatch(r"_{0,2}[a-z][a-z0-9_]*", Path(file).stem)
    ]
    assert not odd


def test_a_package_holds_one_sentence_and_no_code() -> None:
    for file in _files():
        if file.startswith("honeyledger/") and file.endswith("__init__.py"):
            tree = ast.parse((ROOT / file).read_text("utf-8"))
            sentence = ast.get_docstring(tree) or ""
            assert len(tree.body) == 1, f"{file} holds more than its docstring"
            assert re.fullmatch(r"[A-Z][^\n]*\.", sentence), f"{file}: one sentence on one line"


def test_packaging_is_no_package() -> None:
    """Else it would hide the library of that name."""
    assert not [file for file in _files() if file == "packaging/__init__.py"]


@pytest.mark.parametrize("name", HABITS)
def test_no_bad_habit(name: str) -> None:
    found = [line for file, text in _texts() for line in _found(HABITS[name], file, text)]
    assert not found, "\n" + "\n".join(found)


@pytest.mark.parametrize(
    ("name", "line", "is_one"),
    [
        ("unfinished", "x = 1  # TODO mend", True),
        ("unfinished", "todos", False),
        ("filler", 'name = "Foobar"', True),
        ("nobody's name", "def helper():", True),
        ("somebody's folder", 'open("/home/ann/house")', True),
        ("somebody's folder", '(tmp_path / "a/home/b")', False),
        ("a ticket", "# see issue #12", True),
        ("a ticket", "three issues", False),
        ("waiting", "time.sleep(1)", True),
        ("a stand-in", "from unittest.mock import patch", True),
        ("a test that runs nowhere", '    pytest.skip("later")', True),
        ("a test that runs nowhere", '@pytest.mark.skipif(os.name == "nt", reason="x")', False),
        ("a test that cannot fail", "assert True", True),
    ],
)
def test_a_habit_is_told_from_what_is_allowed(name: str, line: str, is_one: bool) -> None:
    assert bool(_found(HABITS[name], "tests/test_it.py", line)) is is_one
