"""No module, class or function grows past what one person can hold in mind."""

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

# The limits are house rules ("Sizes" in DEVELOPERS.md); common practice, no source.
MODULE_LINES = 400
CLASS_LINES = 250
FUNCTION_LINES = 70
PARAMETERS = 7
NESTING = 4

# What may stand over a limit ("file: class or function", or the file alone), and why.
EXCEPTIONS: dict[str, str] = {}

_BLOCKS = (ast.If, ast.For, ast.While, ast.With, ast.Try, ast.TryStar, ast.Match)
_FUNCTIONS = (ast.FunctionDef, ast.AsyncFunctionDef)
Function = ast.FunctionDef | ast.AsyncFunctionDef
Finding = tuple[str, str]


def _lines(node: ast.ClassDef | Function) -> int:
    return (node.end_lineno or node.lineno) - node.lineno + 1


def _parameters(function: Function) -> int:
    given = function.args
    named = [*given.posonlyargs, *given.args, *given.kwonlyargs]
    count = len(named) + bool(given.vararg) + bool(given.kwarg)
    return count - (bool(named) and named[0].arg in ("self", "cls"))


def _is_command(function: Function) -> bool:
    """A command's parameters are its options: click fills them by name, nobody writes the call."""
    return any(
        isinstance(decorator, ast.Call)
        and isinstance(decorator.func, ast.Attribute)
        and decorator.func.attr in ("command", "option", "argument")
        for decorator in function.decorator_list
    )


def _statements(node: ast.AST) -> Iterator[ast.AST]:
    """What stands in a block: all else of a module is many times as much, and holds no block."""
    for name in ("body", "handlers", "cases", "orelse", "finalbody"):
        children = getattr(node, name, ())
        if isinstance(children, list):
            yield from children


def _depth(node: ast.AST, depth: int = 0) -> int:
    """How many blocks stand in one another; an elif goes on its if, a function starts anew."""
    deepest = depth
    for child in _statements(node):
        if isinstance(child, (*_FUNCTIONS, ast.ClassDef)):
            continue
        is_elif = (
            isinstance(node, ast.If)
            and isinstance(child, ast.If)
            and child in node.orelse
            and child.col_offset == node.col_offset
        )
        is_deeper = isinstance(child, _BLOCKS) and not is_elif
        deepest = max(deepest, _depth(child, depth + is_deeper))
    return deepest


def _named(node: ast.AST, within: str = "") -> Iterator[tuple[str, ast.ClassDef | Function]]:
    for child in _statements(node):
        if isinstance(child, (*_FUNCTIONS, ast.ClassDef)):
            name = f"{within}{child.name}"
            yield name, child
            yield from _named(child, f"{name}.")
        else:
            yield from _named(child, within)


def findings(file: str, source: str) -> Iterator[Finding]:
    """Whatever in a source is over a limit: its name, and a message with file and line."""
    length = len(source.splitlines())
    if length > MODULE_LINES:
        yield file, f"{file}:1: {length} lines; a module has at most {MODULE_LINES}"
    for name, node in _named(ast.parse(source)):
        where, key = f"{file}:{node.lineno}: {name}", f"{file}: {name}"
        if isinstance(node, ast.ClassDef):
            if _lines(node) > CLASS_LINES:
                yield key, f"{where} has {_lines(node)} lines; a class has at most {CLASS_LINES}"
            continue
        if _lines(node) > FUNCTION_LINES:
            yield key, f"{where} has {_lines(node)} lines; a function has at most {FUNCTION_LINES}"
        if _parameters(node) > PARAMETERS and not _is_command(node):
            yield (
                key,
                f"{where} takes {_parameters(node)} parameters; at most {PARAMETERS}, "
                "then a frozen dataclass",
            )
        if _depth(node) > NESTING:
            yield key, f"{where} nests {_depth(node)} blocks; at most {NESTING}"


@cache
def _all_findings() -> list[Finding]:
    return [
        finding
        for folder in ("honeyledger", "tests", "packaging")
        for path in sorted((ROOT / folder).rglob("*.py"))
        for finding in findings(path.relative_to(ROOT).as_posix(), path.read_text("utf-8"))
    ]


def test_nothing_is_too_long_too_wide_or_too_deep() -> None:
    over = [message for key, message in _all_findings() if key not in EXCEPTIONS]
    assert not over, "\n" + "\n".join(over)


def test_every_exception_has_a_reason_and_is_still_needed() -> None:
    needed = {key for key, _ in _all_findings()}
    assert set(EXCEPTIONS) <= needed, "take out: " + ", ".join(set(EXCEPTIONS) - needed)
    assert all(reason.strip() for reason in EXCEPTIONS.values())


def _found(source: str) -> list[str]:
    return [message for _, message in findings("drum.py", source)]


def test_a_long_module_is_found() -> None:
    assert not _found("\n" * MODULE_LINES)
    assert _found("\n" * (MODULE_LINES + 1)) == ["drum.py:1: 401 lines; a module has at most 400"]


def test_a_long_class_and_function_are_found() -> None:
    body = "    x = 1\n"
    assert not _found("class A:\n" + body * 249 + "def f():\n" + body * 69)
    assert _found("class A:\n" + body * 250 + "def f():\n" + body * 70) == [
        "drum.py:1: A has 251 lines; a class has at most 250",
        "drum.py:252: f has 71 lines; a function has at most 70",
    ]


def test_too_many_parameters_are_found_but_not_in_a_command() -> None:
    wide = "def f(self, a, b, c, d, e, *f, g{}): pass\n"
    assert not _found(wide.format(""))
    assert _found(wide.format(", h")) == [
        "drum.py:1: f takes 8 parameters; at most 7, then a frozen dataclass"
    ]
    assert not _found("@click.command()\n" + wide.format(", h"))


def test_deep_nesting_is_found_and_an_elif_is_not_deeper() -> None:
    four = "def f():\n" + "".join(f"{'  ' * i}if {i}:\n" for i in range(1, 5)) + "          pass\n"
    assert not _found(four + "        elif 5:\n          pass\n")
    assert _found(four.replace("pass", "while 5: pass")) == [
        "drum.py:1: f nests 5 blocks; at most 4"
    ]
