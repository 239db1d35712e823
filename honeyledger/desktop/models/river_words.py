"""A river in words, for a screen reader and for tips: what a picture says, lot by lot."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.river_graph import RiverGraph, RiverNode

_Ends = Mapping[str, Sequence[str]]
_MOST_NAMED = 12


def _tr(text: str) -> str:
    return QCoreApplication.translate("river", text)


def node_words(node: RiverNode) -> str:
    """A lot with its mass and share."""
    parts = [node.label, node.mass, node.share, *node.details, node.note]
    return ", ".join(part for part in parts if part)


def node_sentence(graph: RiverGraph, key: str) -> str:
    """A lot, what it came from and what it went into."""
    return _sentence(graph, graph.node(key), _came(graph), _went(graph), _labels(graph))


def river_sentences(graph: RiverGraph, most: int = 200) -> list[str]:
    """The river column by column; the table under it has every lot."""
    ordered = sorted(graph.nodes, key=lambda node: (node.column, -node.mass_g))
    came, went, labels = _came(graph), _went(graph), _labels(graph)
    return [_sentence(graph, node, came, went, labels) for node in ordered[:most]]


def _sentence(
    graph: RiverGraph, node: RiverNode, came: _Ends, went: _Ends, labels: Mapping[str, str]
) -> str:
    words = f"{graph.columns[node.column].title}: {node_words(node)}"
    if node.key in came:
        words += ". " + _tr("From {lots}").format(lots=_listed(came[node.key], labels))
    if node.key in went:
        words += ". " + _tr("Into {lots}").format(lots=_listed(went[node.key], labels))
    return words + "."


def _listed(keys: Sequence[str], labels: Mapping[str, str]) -> str:
    """The labels of the largest, and how many more there are."""
    words = ", ".join(labels[key] for key in keys[:_MOST_NAMED])
    if len(keys) <= _MOST_NAMED:
        return words
    return _tr("{lots} and {n} more").format(lots=words, n=len(keys) - _MOST_NAMED)


def _labels(graph: RiverGraph) -> dict[str, str]:
    return {node.key: node.label for node in graph.nodes}


def _came(graph: RiverGraph) -> _Ends:
    ends: dict[str, list[str]] = {}
    for ribbon in sorted(graph.links, key=lambda one: -one.mass_g):
        ends.setdefault(ribbon.target, []).append(ribbon.source)
    return ends


def _went(graph: RiverGraph) -> _Ends:
    ends: dict[str, list[str]] = {}
    for ribbon in sorted(graph.links, key=lambda one: -one.mass_g):
        ends.setdefault(ribbon.source, []).append(ribbon.target)
    return ends
