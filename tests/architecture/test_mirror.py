"""Every module that holds functions has its tests where one would look, and the reverse."""

import ast
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

# Test folders that do not mirror a package, and what they hold instead.
OF_THEIR_OWN = {
    "architecture": "rules over the whole tree",
    "data": "files that tests read",
    "packaging_checks": "the scripts under packaging/",
    "stories": "whole seasons through many modules",
    "support": "what several tests build with",
}

# Modules whose tests stand elsewhere: where, and why.
TESTED_ELSEWHERE: dict[str, str] = {}


def _modules() -> set[str]:
    return {
        path.relative_to(ROOT / "honeyledger").with_suffix("").as_posix()
        for path in (ROOT / "honeyledger").rglob("*.py")
        if path.name != "__init__.py"
    }


def _says_only(function: ast.FunctionDef | ast.AsyncFunctionDef) -> bool:
    """A protocol's function holds a docstring or `...` and nothing that could be tested."""
    return all(
        isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant)
        for statement in function.body
    )


def _holds_functions(source: str) -> bool:
    return any(
        isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and not _says_only(node)
        for node in ast.walk(ast.parse(source))
    )


@cache
def _with_functions() -> set[str]:
    package = ROOT / "honeyledger"
    return {
        module
        for module in _modules()
        if _holds_functions((package / f"{module}.py").read_text("utf-8"))
    }


def _tests() -> set[Path]:
    return {
        path.relative_to(ROOT / "tests")
        for path in (ROOT / "tests").rglob("test_*.py")
        if path.relative_to(ROOT / "tests").parts[0] not in OF_THEIR_OWN
    }


def _may_test(test: Path) -> set[str]:
    """The modules a test may belong to: test_store_locks.py may hold tests of `store` too."""
    words = test.stem.removeprefix("test_").split("_")
    names = ["_".join(words[:end]) for end in range(1, len(words) + 1)]
    names += [f"__{name}__" for name in names]
    return {(test.parent / name).as_posix() for name in names}


def test_every_module_with_functions_has_its_tests_beside_its_mirror_image() -> None:
    tested = {module for test in _tests() for module in _may_test(test)}
    bare = sorted(_with_functions() - tested - set(TESTED_ELSEWHERE))
    assert not bare, "\n" + "\n".join(
        f"honeyledger/{module}.py holds functions; put their tests in "
        f"{Path('tests', module).parent.as_posix()}/test_{Path(module).name.strip('_')}.py"
        for module in bare
    )


def test_every_test_has_the_module_it_mirrors() -> None:
    modules = _modules()
    stray = sorted(test.as_posix() for test in _tests() if not _may_test(test) & modules)
    assert not stray, "\n" + "\n".join(
        f"tests/{test} mirrors no module; name it after the one it tests, or move it to "
        f"{', '.join(OF_THEIR_OWN)}"
        for test in stray
    )


def test_every_exception_has_a_reason_and_is_still_needed() -> None:
    tested = {module for test in _tests() for module in _may_test(test)}
    needed = _with_functions() - tested
    assert set(TESTED_ELSEWHERE) <= needed, "take out: " + ", ".join(
        set(TESTED_ELSEWHERE) - needed
    )
    assert all(reason.strip() for reason in [*TESTED_ELSEWHERE.values(), *OF_THEIR_OWN.values()])


def test_the_rule_tells_what_needs_a_test() -> None:
    assert {"settings", "assets", "domain/refusals"} <= _modules()
    assert "settings" in _with_functions()
    assert not _holds_functions(
        'class Store(Protocol):\n    def head(self) -> int:\n        """."""'
    )
    assert not _holds_functions("LIMIT_G = 5")
    assert _holds_functions("class Drum:\n    def grams(self) -> int:\n        return 5")
    assert "settings" in _may_test(Path("test_settings.py"))
    assert "persistence/store" in _may_test(Path("persistence/test_store_locks.py"))
    assert "__main__" in _may_test(Path("test_main.py"))
