"""Every model that Qt's views read is put through Qt's own test of models."""

import ast
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def _bases(node: ast.ClassDef) -> set[str]:
    names = set()
    for base in node.bases:
        whole = base.value if isinstance(base, ast.Subscript) else base
        names.add(whole.attr if isinstance(whole, ast.Attribute) else ast.unparse(whole))
    return names


def _is_qt_model(name: str) -> bool:
    is_model = name.startswith("Q") and name.endswith("Model")
    return (is_model and "Selection" not in name) or name.endswith("ProxyModel")


def models(sources: Iterator[str]) -> set[str]:
    """The names of all classes that are models of Qt's, or come of one that is."""
    classes = [
        node
        for source in sources
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.ClassDef)
    ]
    found: set[str] = set()
    while True:
        more = {
            node.name
            for node in classes
            if any(_is_qt_model(base) or base in found for base in _bases(node))
        }
        if more <= found:
            return found
        found |= more


def _sources(folder: str, pattern: str = "*.py") -> Iterator[str]:
    return (path.read_text("utf-8") for path in sorted((ROOT / folder).rglob(pattern)))


def test_every_model_has_a_model_test() -> None:
    tests = [text for text in _sources("tests", "test_*.py") if "qtmodeltester.check(" in text]
    made = models(_sources("honeyledger"))
    assert {"RowsModel", "ChoicesModel"} <= made
    bare = sorted(name for name in made if not any(f"{name}(" in text for text in tests))
    assert not bare, f"{', '.join(bare)}: no test puts it through qtmodeltester.check"


def test_no_model_stands_between_a_view_and_its_rows() -> None:
    """A proxy of Python would be asked for every cell twice."""
    assert not [text for text in _sources("honeyledger") if "ProxyModel" in text]


def test_a_model_is_known_as_one() -> None:
    lines = (
        "class A(QAbstractTableModel, Generic[Row]): ...",
        "class B(A[int]): ...",
        "class C(QtCore.QAbstractListModel): ...",
        "class D(QItemSelectionModel): ...",
        "class E(QWidget): ...",
    )
    assert models(iter(lines)) == {"A", "B", "C"}
