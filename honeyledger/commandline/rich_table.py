"""Tables on a terminal. Loaded only there, since rich takes longer to load than a trace."""

from collections.abc import Sequence

from rich.console import Console
from rich.table import Table
from rich.text import Text

from honeyledger.commandline.output import Column


def draw(
    columns: Sequence[Column], rows: Sequence[Sequence[str]], console: Console | None = None
) -> None:
    """Draw a table as wide as its figures and codes need; prose takes what is left."""
    console = console or Console(highlight=False, markup=False, emoji=False)
    table = Table(box=None, pad_edge=False, header_style="bold")
    for at, column in enumerate(columns):
        longest = max(len(row[at]) for row in [*rows, [one.title for one in columns]])
        table.add_column(
            Text(column.title),
            justify="right" if column.right else "left",
            no_wrap=not column.wraps,
            min_width=10 if column.wraps else longest,
        )
    for row in rows:
        # As Text, so that "[north]" in a yard's name is no markup.
        table.add_row(*(Text(cell) for cell in row))
    console.print(table, crop=False)
