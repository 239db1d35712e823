"""A recall's scope by networkx and its amounts by pandas, over the tables' own rows."""

import networkx
import pandas

from honeyledger.services.recall_rows import RecallCase
from honeyledger.services.store import Store
from tests.support.raw_books import origins, rows

INSIDE = ("pallet", "room", "vessel", "drum", "barrel", "filling", "jars", "store")


def by_pandas(store: Store, start: str) -> dict[str, int]:
    """Scope and amounts of what came of a lot."""
    codes = {code: lot for lot, code in rows(store, "SELECT id, code FROM lot")}
    graph = networkx.DiGraph([(row.parent, row.child) for row in origins(store)])
    graph.add_node(codes[start])
    scope = {codes[start], *networkx.descendants(graph, codes[start])}
    table = pandas.DataFrame(
        rows(store, "SELECT lot, place, grams FROM posting"), columns=["lot", "place", "grams"]
    )
    table = table[table["lot"].isin(scope)]
    table = table.assign(kind=[place.partition("/")[0] for place in table["place"]])
    sums = table.groupby("kind")["grams"].sum()
    by_lot = table[table["kind"] == "difference"].groupby("lot")["grams"].sum()
    return {
        "lots": len(scope),
        "here": int(sum(sums.get(kind, 0) for kind in INSIDE)),
        "sent": int(sums.get("customer", 0) + sums.get("gate", 0)),
        "missing": int(by_lot[by_lot > 0].sum()),
    }


def by_the_program(case: RecallCase) -> dict[str, int]:
    """The same as the case has it."""
    for lot in case.lots:
        parts = (lot.here_g, lot.shipped_g, lot.sampled_g, lot.destroyed_g, lot.other_g)
        assert lot.made_g == sum(parts) + lot.went_on_g + lot.missing_g
    return {
        "lots": len(case.lots),
        "here": case.here_g,
        "sent": case.shipped_g,
        "missing": case.missing_g,
    }
