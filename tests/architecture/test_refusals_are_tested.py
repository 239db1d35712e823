"""Every sentence the program can refuse with is said in a test, word for word."""

import ast
import re
from functools import cache
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
FEWEST_WORDS = 3  # of a sentence's fixed words in a row, so that a test that has them means it

_PLACE = re.compile(r"\{[^{}]*\}")


class Said(NamedTuple):
    """A sentence as it is written down in a module."""

    name: str
    key: str
    text: str
    where: str


@cache
def _sentences() -> list[Said]:
    found = []
    for path in sorted((ROOT / "honeyledger").rglob("*.py")):
        where = path.relative_to(ROOT).as_posix()
        found += [Said(*part, where) for part in _written_in(path.read_text("utf-8"))]
    return found


def _written_in(source: str) -> list[tuple[str, str, str]]:
    """Name, key and text of every constant made by `Sentence(...)`."""
    found = []
    for node in ast.parse(source).body:
        if not (isinstance(node, ast.Assign) and isinstance(node.value, ast.Call)):
            continue
        call = node.value
        if isinstance(call.func, ast.Name) and call.func.id == "Sentence":
            key, text = (ast.literal_eval(part) for part in call.args)
            (target,) = node.targets
            assert isinstance(target, ast.Name)
            found.append((target.id, key, text))
    return found


def _words_tested() -> str:
    """All strings in the tests, f-strings with their places as gaps."""
    texts = []
    for path in sorted((ROOT / "tests").rglob("test_*.py")):
        texts += list(_strings(ast.parse(path.read_text("utf-8"))))
    return "\n".join(texts)


def _strings(tree: ast.AST) -> list[str]:
    texts = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            texts.append(node.value)
        elif isinstance(node, ast.JoinedStr):
            texts.append("".join(_part(part) for part in node.values))
    return texts


def _part(part: ast.expr) -> str:
    return str(part.value) if isinstance(part, ast.Constant) else "\0"


def _fixed_parts(text: str) -> list[str]:
    """The stretches between a sentence's places that are long enough to know it by."""
    parts = [part.strip(" .,:;()") for part in _PLACE.split(text)]
    kept = [part for part in parts if len(part.split()) >= FEWEST_WORDS]
    return kept or [max(parts, key=len)]


def test_every_sentence_is_said_in_a_test_word_for_word() -> None:
    tested = _words_tested()
    bare = [
        f"{said.where}: {said.name} ({said.key}): no test says {part!r}"
        for said in _sentences()
        for part in _fixed_parts(said.text)
        if part not in tested
    ]
    assert not bare, "\n" + "\n".join(bare)


def test_one_key_is_one_sentence() -> None:
    by_key: dict[str, set[str]] = {}
    for said in _sentences():
        by_key.setdefault(said.key, set()).add(said.where)
    assert {key: places for key, places in by_key.items() if len(places) > 1} == {}


def test_every_sentence_can_be_said() -> None:
    """A constant that is only made and imported, and never handed on, is no sentence of ours."""
    used = {
        node.id if isinstance(node, ast.Name) else node.attr
        for path in (ROOT / "honeyledger").rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, (ast.Name, ast.Attribute)) and isinstance(node.ctx, ast.Load)
    }
    assert [said for said in _sentences() if said.name not in used] == []


def test_the_rule_knows_a_sentence_by_its_fixed_words() -> None:
    source = 'NO_RUN = Sentence("no-run", "Say which run to close.")\nLIMIT = 5\n'
    assert _written_in(source) == [("NO_RUN", "no-run", "Say which run to close.")]
    assert _fixed_parts("{code} is on hold through {target}: {reason}. Put it aside.") == [
        "is on hold through",
        "Put it aside",
    ]
    assert _fixed_parts("{code} twice") == ["twice"]
    tree = ast.parse("said = f\"{code} is on hold through {target}.\" 'plain'")
    assert "\0 is on hold through \0.plain" in _strings(tree)
