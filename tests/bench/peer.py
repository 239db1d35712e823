"""The peer: the same trace with networkx, over a graph loaded from the same file.

Run as a program (`python -m tests.bench.peer FILE CODE`) it loads and answers once, for timing a
fresh process.
"""

import json
import sqlite3
import sys
from collections import defaultdict
from math import fsum
from pathlib import Path

import networkx as nx

from honeyledger.persistence.short import written

EDGES = """
SELECT o.parent, o.child, o.grams FROM origin o
WHERE NOT EXISTS (SELECT 1 FROM void_origin v WHERE v.entry = o.entry AND v.line = o.line)
"""
SOURCES = """
SELECT h.lot, h.place, -h.grams FROM holding h JOIN lot ON lot.id = h.lot
WHERE h.side = 1 AND lot.kind IN ('S', 'P')
"""


class Peer:
    """The whole ledger's lots as one graph in memory."""

    def __init__(self, path: Path) -> None:
        source = sqlite3.connect(f"file:{path}?mode=ro", uri=True)
        self.graph = nx.DiGraph()
        self.ids: dict[str, int] = {}
        for lot, code, made_g in source.execute("SELECT id, code, made_g FROM lot"):
            self.graph.add_node(lot, made_g=made_g)
            self.ids[code] = lot
        for parent, child, grams in source.execute(EDGES):
            known = self.graph.get_edge_data(parent, child)
            self.graph.add_edge(parent, child, grams=grams + (known["grams"] if known else 0))
        self.sources: dict[int, list[tuple[str, int]]] = defaultdict(list)
        for lot, place, net_g in source.execute(SOURCES):
            self.sources[lot].append((written(place).partition("/")[2], net_g))
        source.close()

    def back(self, code: str) -> dict[str, float]:
        """Shares by code of the first ancestors.

        Lots are gone through by id, which is quicker than sorting, and rows of 0 g may run in a
        circle, which no sort survives.
        """
        start = self.ids[code]
        parts: dict[int, list[float]] = defaultdict(list)
        parts[start].append(1.0)
        shares: dict[int, float] = {}
        for lot in sorted({start, *nx.ancestors(self.graph, start)}, reverse=True):
            share = shares[lot] = fsum(parts.get(lot, ()))
            made_g = self.graph.nodes[lot]["made_g"]
            for parent, edge in self.graph.pred[lot].items():
                if edge["grams"]:
                    parts[parent].append(share * edge["grams"] / made_g)
        return self._yards(shares)

    def _yards(self, shares: dict[int, float]) -> dict[str, float]:
        sums: dict[str, list[float]] = defaultdict(list)
        for lot, share in shares.items():
            places = self.sources.get(lot, ())
            total_g = sum(net_g for _, net_g in places)
            for place, net_g in places:
                sums[place].append(share * net_g / total_g)
        return {place: fsum(parts) for place, parts in sums.items()}

    def forward(self, code: str) -> dict[int, float]:
        """The part of each lot reached that is the traced one."""
        start = self.ids[code]
        parts = {start: 1.0}
        for lot in sorted(nx.descendants(self.graph, start)):
            made_g = self.graph.nodes[lot]["made_g"]
            came = [
                parts.get(parent, 0.0) * edge["grams"]
                for parent, edge in self.graph.pred[lot].items()
            ]
            parts[lot] = fsum(came) / made_g
        return parts


if __name__ == "__main__":
    print(json.dumps(Peer(Path(sys.argv[1])).back(sys.argv[2])))  # noqa: T201
