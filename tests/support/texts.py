"""Every text the window can show, found in the source: for the catalogues and their tests.

A text is a plain literal where it is said: in a wrapper of Qt's translation, in a `Sentence`, in a
`phrase` of the services, or as a word that fills a sentence. What goes around translation is
found, too: a literal with words in it that is given straight to something that shows it.
"""

import ast
import re
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "honeyledger"

WRAPPERS = frozenset({"tr", "_tr", "translated"})
SHOWING = frozenset(
    {
        "setText",
        "setToolTip",
        "setWindowTitle",
        "setAccessibleName",
        "setAccessibleDescription",
        "setPlaceholderText",
        "setHtml",
        "setPlainText",
        "drawText",
        "Message",
        "Column",
        "TablePlan",
        "Ask",
        "Total",
        "caption",
        "heading",
        "add_primary",
        "add_secondary",
        "add_plain",
        "set_heading",
        "set_next_step",
        "name_part",
    }
)
_WORD = re.compile(r"[A-Za-z]{2,}")
_NOUN = re.compile(r"an? [A-Za-z' ]+")
_NO_WORDS = re.compile(r"[a-z0-9_./@-]*|mm|kg|lb|°C|[A-Z][a-z]+\+.*")


@dataclass(frozen=True, slots=True, order=True)
class Text:
    """A text as it is said at one place.

    Args:
        context: Qt's context: the station's, or the class's own.
    """

    text: str
    context: str
    where: str


@cache
def texts() -> Sequence[Text]:
    """Every text of the program that the window can show; read once."""
    found: list[Text] = []
    found += _of_checks()
    for path in sorted(PACKAGE.rglob("*.py")):
        where = path.relative_to(ROOT).as_posix()
        if not where.startswith("honeyledger/commandline/"):
            found += _Finder(where, ast.parse(path.read_text("utf-8"))).texts()
    return tuple(found)


def _of_checks() -> Iterator[Text]:
    """What the checks shipped with the program are called, and what is looked at."""
    for path in sorted((ROOT / "resources" / "checks").glob("*.toml")):
        where = path.relative_to(ROOT).as_posix()
        for check in tomllib.loads(path.read_text("utf-8")).values():
            yield from (Text(check[key], "facts", where) for key in ("name", "look"))


def around() -> list[str]:
    """Texts that go around translation, each with its place."""
    found = []
    for path in sorted((PACKAGE / "desktop").rglob("*.py")):
        where = path.relative_to(ROOT).as_posix()
        tree = ast.parse(path.read_text("utf-8"))
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and _name(node) in SHOWING:
                found += [f"{where}:{node.lineno}: {one}" for one in _plain(node)]
    return found


def _plain(call: ast.Call) -> Iterator[str]:
    """Literals with words in them that a call is given as they are."""
    # The first of a column's or an ask's is its key; so are keywords with names of our own.
    given = call.args[1:] if _name(call) in ("Column", "Ask") else call.args
    for one in given:
        pieces = one.values if isinstance(one, ast.JoinedStr) else [one]
        for piece in pieces:
            text = piece.value if isinstance(piece, ast.Constant) else ""
            if isinstance(text, str) and _WORD.search(text) and not _NO_WORDS.fullmatch(text):
                yield text


class _Finder:
    """The texts of one module."""

    def __init__(self, where: str, tree: ast.Module) -> None:
        self._where = where
        self._tree = tree
        self._contexts = _contexts(where, tree)
        self._docs = set(_docs(tree))

    def texts(self) -> list[Text]:
        return [Text(text, context, self._where) for text, context in self._walk(self._tree, "")]

    def _walk(self, node: ast.AST, owner: str) -> Iterator[tuple[str, str]]:
        if isinstance(node, ast.ClassDef):
            owner = node.name
        if isinstance(node, ast.Call):
            yield from self._call(node, owner)
        is_said = isinstance(node, ast.Constant) and id(node) not in self._docs
        if is_said and isinstance(node.value, str) and _NOUN.fullmatch(node.value):
            yield node.value, "facts"
        for child in ast.iter_child_nodes(node):
            yield from self._walk(child, owner)

    def _call(self, call: ast.Call, owner: str) -> Iterator[tuple[str, str]]:
        name = _name(call)
        if name in WRAPPERS and call.args:
            is_own = isinstance(call.func, ast.Attribute)
            context = owner if is_own else self._contexts.get(name, owner)
            yield from ((one, context) for one in _literals(call.args[0]))
        elif name in ("translate", "N", "QT_TRANSLATE_NOOP") and len(call.args) > 1:
            context = "".join(_literals(call.args[0])) or self._contexts.get("_CONTEXT", "")
            yield from ((one, context) for one in _literals(call.args[1]))
        elif name == "Sentence":
            yield from ((one, "sentences") for one in _literals(call.args[1]))
        elif name == "phrase":
            yield from ((one, "words") for one in _literals(call.args[0]))
        elif name == "Refusal":
            said = [one.value for one in call.keywords if one.arg not in ("field", "offers")]
            words = [one for value in said for one in _literals(value)]
            yield from ((one, "facts") for one in words if _WORD.search(one))


def _name(call: ast.Call) -> str:
    if isinstance(call.func, ast.Attribute):
        return call.func.attr
    return call.func.id if isinstance(call.func, ast.Name) else ""


def _literals(node: ast.expr) -> list[str]:
    """The texts an expression can be: a literal, or one of two."""
    if isinstance(node, ast.IfExp):
        return [*_literals(node.body), *_literals(node.orelse)]
    if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value:
        return [node.value]
    return []


def _docs(tree: ast.Module) -> Iterator[int]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            yield id(node.value)


def _contexts(where: str, tree: ast.Module) -> dict[str, str]:
    """The context of each wrapper a module has or takes from another."""
    found: dict[str, str] = {}
    for node in tree.body:
        if isinstance(node, ast.FunctionDef) and node.name in WRAPPERS:
            found[node.name] = _translates_as(node)
        elif isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
            if node.targets[0].id == "_CONTEXT" and isinstance(node.value, ast.Constant):
                found["_CONTEXT"] = str(node.value.value)
        elif isinstance(node, ast.ImportFrom) and node.module:
            source = ROOT.joinpath(*node.module.split(".")).with_suffix(".py")
            taken = {alias.asname or alias.name: alias.name for alias in node.names}
            wanted = {own: name for own, name in taken.items() if name in WRAPPERS}
            if wanted and source.exists() and source.relative_to(ROOT).as_posix() != where:
                there = _contexts(node.module, ast.parse(source.read_text("utf-8")))
                found.update({own: there.get(name, "") for own, name in wanted.items()})
    return found


def _translates_as(function: ast.FunctionDef) -> str:
    for node in ast.walk(function):
        if isinstance(node, ast.Call) and _name(node) == "translate":
            return "".join(_literals(node.args[0]))
    return ""
