"""A river in words, for a screen reader and for tips: what a picture says, lot by lot."""

from honeyledger.desktop.models.river_graph import RiverGraph, RiverNode


def node_words(node: RiverNode) -> str:
    """A lot with its mass and share."""
    parts = [node.label, node.mass, node.share, *node.details, node.note]
    return ", ".join(part for part in parts if part)


def node_sentence(graph: RiverGraph, key: str) -> str:
    """A lot, what it came from and what it went into."""
    node = graph.node(key)
    labels = {one.key: one.label for one in graph.nodes}
    column = graph.columns[node.column].title
    came = [labels[one.source] for one in graph.ribbons if one.target == key]
    went = [labels[one.target] for one in graph.ribbons if one.source == key]
    words = f"{column}: {node_words(node)}"
    if came:
        words += f". From {', '.join(came)}"
    if went:
        words += f". Into {', '.join(went)}"
    return words + "."


def river_sentences(graph: RiverGraph, most: int = 200) -> list[str]:
    """The river column by column; the table under it has every lot."""
    ordered = sorted(graph.nodes, key=lambda node: (node.column, -node.mass_g))
    return [node_sentence(graph, node.key) for node in ordered[:most]]
