"""Rules for net contents, read from the files shipped: tables of deficiencies and plans.

They are read once; a file with a slip in it is a fault of the program, which a test finds.
"""

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from honeyledger.domain.net_contents import NetRule, Plan, Step
from honeyledger.domain.standards import Mark

USUAL = "average"


@cache
def net_rules(folder: Path) -> tuple[NetRule, ...]:
    """All rules of the files in a folder, those of the average system first."""
    files = sorted(folder.glob("*.toml"))
    return tuple(rule for file in files for rule in read_net_rules(file))


def usual_net_rule(folder: Path, name: str) -> NetRule:
    """The rule a house goes by; the average system where it names none, or none there is."""
    found = {rule.name: rule for rule in net_rules(folder)}
    return found.get(name.strip().casefold(), found[USUAL])


def read_net_rules(file: Path) -> tuple[NetRule, ...]:
    """The rules of a file: one table each."""
    tables: Mapping[str, Any] = tomllib.loads(file.read_text("utf-8"))
    return tuple(_rule(name, table, tables) for name, table in tables.items())


def _rule(name: str, table: Mapping[str, Any], tables: Mapping[str, Any]) -> NetRule:
    of = tables[table["deficiency_of"]] if "deficiency_of" in table else table
    mark = Mark(table["mark"])
    return NetRule(
        name=name,
        title=table["title"],
        market=table["market"],
        source=table["source"],
        as_of=table["as_of"],
        mark=mark,
        deficiency=tuple(
            Step(row.get("upto_g", 0), row.get("mg", 0), row.get("permille", 0))
            for row in of["deficiency"]
        ),
        plans=tuple(
            Plan(
                weigh=row["weigh"],
                may_be_short=row["may_be_short"],
                chance=row["chance"],
                lot_from=row.get("lot_from", 0),
                lot_upto=row.get("lot_upto", 0),
                mark=Mark(row["mark"]) if "mark" in row else mark,
            )
            for row in table["plans"]
        ),
        far_short_times=table["far_short_times"],
        rounds_up=table["rounds_up"],
        note=table.get("note", ""),
    )
