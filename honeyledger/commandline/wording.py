"""What a jar's label has to say by the markets its product is for, and what it says."""

from collections.abc import Sequence
from dataclasses import asdict

import click

from honeyledger.assets import resource
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import Column, say, table
from honeyledger.exchange.label_content import shipped_markets
from honeyledger.services.label_content import ContentRow, LabelContent, content_rows
from honeyledger.services.labelling import jar_content

LOCAL_CODE = "Check your local code: what counts is the text in force where the jar is sold."


@click.command(cls=Asking)
@click.argument("code")
@click.pass_obj
def wording(desk: Desk, code: str) -> None:
    """Show what a jar's label has to say, market by market, and what is missing.

    Each line has where it is written, and of what date. What nobody has seen in its source says
    so, and holds no label back.

    \b
    Example: honeyledger wording J26-0001-A
    """
    markets = shipped_markets(resource("labels", "content"))
    content = desk.ask(lambda view: jar_content(view, code, markets))
    rows = content_rows(content)
    value = {
        "product": content.product,
        "markets": [market.name for market in content.markets],
        "unknown_markets": list(content.unknown),
        "lines": [asdict(row) for row in rows],
    }
    desk.answer(value, lambda: _show(content, rows))


def _show(content: LabelContent, rows: Sequence[ContentRow]) -> None:
    columns = [Column(name) for name in ("market", "line", "on the label", "", "source", "of")]
    table(
        columns,
        [[row.market, row.what, row.says, _state(row), row.source, row.as_of] for row in rows],
    )
    for name in content.unknown:
        say(f"No content of labels is on file for {name}: add it with register wording.")
    say(LOCAL_CODE)


def _state(row: ContentRow) -> str:
    if row.lacks:
        return "missing" if row.verified else "missing?"
    return "" if row.verified else "not verified"
