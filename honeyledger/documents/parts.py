"""Parts that several labels share: the code in large type, its QR, named figures."""

from dataclasses import dataclass, replace

from honeyledger.documents.fonts import CODE, STRONG, TEXT, elided
from honeyledger.documents.page import Page
from honeyledger.documents.setting import Block, set_column, set_line, try_column
from honeyledger.documents.stock import Printer, Stock
from honeyledger.documents.symbols import QUIET_MODULES, Symbol, dots_a_module
from honeyledger.domain.units import MassUnit

CAPTION_PT = 8.0
HEAD_POINTS = 6.5
HEAD_ABOVE_EDGE = 2.2
FACT_MM = 11.5
LEAST_FACT_MM = 9.0
_WRITING_LINE_MM = 24.0
_LEAST_FACT_PT = 6.6


@dataclass(frozen=True, slots=True)
class Job:
    """What every label of one print has in common.

    Args:
        page: the page being drawn.
        stock: the label stock.
        printer: the printer it is meant for.
        unit: the house's unit of mass.
    """

    page: Page
    stock: Stock
    printer: Printer
    unit: MassUnit

    @property
    def width(self) -> float:
        """Width of one label, mm."""
        return self.stock.width_mm

    @property
    def height(self) -> float:
        """Height of one label, mm."""
        return self.stock.height_mm

    def head(self, head: str, margin: float) -> None:
        """Draw the ledger's head at the foot, small: a copy of it that nobody can change."""
        if head:
            words = f"Ledger {head}"
            self.page.text(margin, self.height - HEAD_ABOVE_EDGE, words, TEXT, HEAD_POINTS)

    def again(self, again: int, margin: float) -> None:
        """Say small at the foot, right, which reprint it is; nothing on a first print."""
        if again:
            y = self.height - HEAD_ABOVE_EDGE
            self.page.text(self.width - margin, y, again_words(again), STRONG, HEAD_POINTS, 1)

    def cross(self, x: float, y: float, side: float) -> None:
        """Cross a box of this side, its upper left corner at x and y."""
        inset, thick = side * 0.2, side * 0.12
        near, far = inset, side - inset
        self.page.rule(x + near, y + near, x + far, y + far, thick)
        self.page.rule(x + near, y + far, x + far, y + near, thick)

    def line(self, block: Block, x: float, y: float, width: float, align: float = 0.0) -> float:
        """Set one line, capitals' tops at y, as large as the width allows; give its height.

        Raises:
            Refusal: it does not fit at its least size.
        """
        line = set_line(block, width, self.page.typefaces, self.stock.name)
        self.page.text(x, y + line.baseline_mm, line.text, line.face, line.size_pt, align)
        return line.baseline_mm

    def name(self, block: Block, x: float, y: float, width: float) -> None:
        """Set a name as `line` does, but leave out its middle rather than refuse it.

        Codes stand beside every name, so a long one must not stop the work.
        """
        if block.text.strip():
            text = self.page.typefaces.checked(block.text, block.face)
            text = elided(text, block.face, block.least_pt, width)
            self.line(replace(block, text=text), x, y, width)

    def code(self, code: str, x: float, y: float, width: float, size_pt: float) -> float:
        """Set a code as large as the width allows, capitals' tops at y; give its height."""
        block = Block(code, CODE, size_pt, CAPTION_PT)
        line = set_line(block, width, self.page.typefaces, self.stock.name)
        line.draw(self.page, x, y)
        return line.baseline_mm

    def column(
        self, blocks: list[Block], x: float, y: float, width: float, height: float
    ) -> float:
        """Set blocks in a room, upper left corner at x and y; give the height they take."""
        column = set_column(blocks, width, height, self.page.typefaces, self.stock.name)
        column.draw(self.page, x, y)
        return column.height_mm

    def names(self, blocks: list[Block], x: float, y: float, width: float, height: float) -> None:
        """Set names as `column` does, but leave out their middles rather than refuse them."""
        faces = self.page.typefaces
        column = try_column(blocks, width, height, faces)
        # How much some lines hold depends on where they break, so less is tried until it fits.
        for share in (1.0, 0.8, 0.6, 0.5, 0.34):
            if column is not None:
                break
            shorter = [self._shorter(block, width, share) for block in blocks]
            column = try_column(shorter, width, height, faces)
        column = column or set_column(blocks, width, height, faces, self.stock.name)
        column.draw(self.page, x, y)

    def _shorter(self, block: Block, width: float, share: float) -> Block:
        text = self.page.typefaces.checked(block.text, block.face)
        room = width * max(1.0, share * block.most_lines)
        return replace(block, text=elided(text, block.face, block.least_pt, room))

    def symbol(self, symbol: Symbol, x: float, y: float, room: float, most_mm: float) -> float:
        """Draw a QR code with its ink beginning at x and y; give the ink's side.

        Its quiet zone reaches into the margin at the left and above, never over the label's edge.

        Args:
            room: side of the square it may take with its quiet zone.
            most_mm: modules need be no larger than this.
        """
        dots = dots_a_module(symbol, room, self.printer.dots_per_inch, most_mm)
        module = dots * 25.4 / self.printer.dots_per_inch
        quiet = QUIET_MODULES * module
        left, top = max(0.0, x - quiet), max(0.0, y - quiet)
        self.page.symbol(left, top, symbol, dots, self.printer.dots_per_inch)
        return left + quiet + symbol.modules * module - x

    def symbol_mm(self, symbol: Symbol, room: float, most_mm: float) -> float:
        """Side of a symbol's ink in such a room, as `symbol` draws it."""
        dots = dots_a_module(symbol, room, self.printer.dots_per_inch, most_mm)
        return symbol.modules * dots * 25.4 / self.printer.dots_per_inch

    @staticmethod
    def quiet_mm(symbol: Symbol, side: float) -> float:
        """How much stays white beside a symbol that `symbol` gave this side of."""
        return QUIET_MODULES * side / symbol.modules

    def fact(self, fact: tuple[str, str], x: float, y: float, width: float, height: float) -> None:
        """Set a small caption with its value below; no value leaves a line to write on."""
        page = self.page
        caption, value = fact
        self.line(Block(caption, TEXT, CAPTION_PT, 6.6), x, y, width)
        if not value:
            page.rule(x, y + height - 3, x + min(width, _WRITING_LINE_MM), y + height - 3)
            return
        block = Block(value, STRONG, 13, _LEAST_FACT_PT, most_lines=2)
        self.names([block], x, y + 2.6, width, height - 3.3)

    def facts(
        self,
        facts: list[tuple[str, str]],
        y: float,
        left: float,
        columns: int,
        height: float = FACT_MM,
    ) -> float:
        """Set named values in columns over the label's width; give the y below them."""
        room = self.width - 2 * left
        step = room / columns
        for number, fact in enumerate(facts):
            row, column = divmod(number, columns)
            self.fact(fact, left + column * step, y + row * height, step - 3, height)
        return y + -(-len(facts) // columns) * height


def again_words(again: int) -> str:
    """What a label says that was printed before; nothing on a first print."""
    return f"Reprint {again}" if again else ""
