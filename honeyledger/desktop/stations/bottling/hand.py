"""What is in hand at the filler: the page, the bottling, the form, the jars weighed so far.

It changes with what is typed, scanned and recorded; it asks nobody and tells nobody.
"""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from honeyledger.assets import resource
from honeyledger.desktop.stations.bottling import steps
from honeyledger.desktop.stations.bottling.typed import (
    CHANGE,
    CLOSE,
    LEFT,
    START,
    WEIGH,
    YES,
    AtFiller,
    Kept,
    Typed,
    as_draft,
    change_facts,
    close_facts,
    counter_of,
    from_draft,
    jar_weighed,
    jars_by_mass,
    left_facts,
    start_facts,
)
from honeyledger.domain.codes import JarCode, parse_code
from honeyledger.domain.net_contents import NetCheck, checked
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit
from honeyledger.exchange.net_contents import usual_net_rule
from honeyledger.services.bottling import BottlingSheet
from honeyledger.services.bottling_page import BottlingPage, Wanted, product_in_hand
from honeyledger.services.house import Recorded

DOUBLE_MS = 3000  # the same code again so soon is the scanner's doing, not the crew's


class Hand:
    """The state of the station; `is_another` while one is begun beside those that go on."""

    def __init__(self) -> None:
        self.page: BottlingPage | None = None
        self.typed = Typed()
        self.bottling = ""
        self.is_another = False
        self.command = ""
        self._fillers: dict[str, AtFiller] = {}
        self._scanned, self._scanned_ms = "", 0

    def sheet(self) -> BottlingSheet | None:
        """The bottling in hand."""
        return self.page.sheet if self.page else None

    def filler(self) -> AtFiller:
        """What this computer knows of it beside the ledger."""
        return self._fillers.get(self.bottling, AtFiller())

    def check(self) -> NetCheck | None:
        """What the jars weighed say; None while no bottling is in hand."""
        sheet = self.sheet()
        if sheet is None or self.page is None:
            return None
        rule, weights = (
            usual_net_rule(resource("net_contents"), self.page.net_rule),
            self.filler().weights_mg,
        )
        return checked(rule, sheet.bottling.product.net_g, weights, self.jars_in_all())

    def against(self) -> tuple[Refusal, ...]:
        """What the label of the product in hand would claim, and may not."""
        product = product_in_hand(self.page, self.typed.product) if self.page else None
        return self.page.against.get(product.key, ()) if self.page and product else ()

    def jars_in_all(self) -> int:
        """How many jars the bottling in hand comes to, by the mass of what runs; 0 for none."""
        sheet = self.sheet()
        return jars_by_mass(sheet, self.filler()) if sheet else 0

    def wanted(self) -> Wanted:
        """What the page is asked for; while no start is in hand, whatever is open."""
        typed = self.typed
        is_begun = typed.kind == START and bool(typed.order or typed.feed.strip())
        is_starting = not self.bottling and (self.is_another or is_begun)
        return Wanted(self.bottling, is_starting, typed.order)

    def take_page(self, page: BottlingPage) -> None:
        """The station as it is now; what was in hand may have been closed elsewhere."""
        before, self.page = self.bottling, page
        self.bottling = page.sheet.bottling.code if page.sheet else ""
        if before and self.bottling != before:
            self._fillers.pop(before, None)
            self.typed = steps.after_close(self.typed, "", "")
        self.typed = steps.fitting(self.typed, page, self.filler())

    # Another bottling.

    def next_open(self) -> str:
        """The open bottling after the one in hand, "" for none."""
        codes = [row.code for row in self.page.bottlings] if self.page else []
        at = codes.index(self.bottling) if self.bottling in codes else -1
        return codes[(at + 1) % len(codes)] if codes else ""

    def take_in_hand(self, code: str) -> None:
        """Go on with another bottling; what was typed for the one before goes with it."""
        self.bottling, self.is_another = code, not code
        kind = WEIGH if code else START
        self.typed = replace(steps.after_close(self.typed, "", ""), kind=kind)

    # What is typed.

    def choose(self, kind: str) -> None:
        """Something else happens now."""
        if self.page is not None:
            self.typed = steps.chosen(self.typed, kind, self.page, self.filler())

    def clear(self) -> None:
        """Empty the form, but for what stays the same from one bottling to the next."""
        typed, self.command = self.typed, ""
        self.typed = Typed(kind=typed.kind, case_size=typed.case_size, tare=typed.tare)

    def weigh(self) -> bool:
        """Note the jar on the scale; False where nothing is typed.

        Raises:
            Refusal: it is no weight of such a jar.
        """
        sheet, filler = self.sheet(), self.filler()
        if not self.typed.weight.strip() or sheet is None:
            return False
        net_mg = jar_weighed(self.typed, sheet.bottling.product.net_g)
        weighed = (*filler.weighed, (sheet.bottling.jars, net_mg))
        self._fillers[self.bottling] = replace(filler, weighed=weighed)
        self.typed = replace(self.typed, weight="")
        return True

    def take_back_jar(self) -> bool:
        """The jar weighed last was none; False where there is none, or one is being typed."""
        filler = self.filler()
        if self.typed.kind != WEIGH or self.typed.weight or not filler.weighed:
            return False
        self._fillers[self.bottling] = replace(filler, weighed=filler.weighed[:-1])
        return True

    def facts(self, unit: MassUnit) -> Any:
        """The facts the form says; None where it records nothing.

        Raises:
            Refusal: something in it cannot be read.
        """
        sheet, typed = self.sheet(), self.typed
        if typed.kind == START:
            counter_of(typed)
            return start_facts(typed)
        if typed.kind == LEFT:
            return left_facts(typed, unit)
        if sheet is not None and typed.kind == CHANGE:
            return change_facts(typed, sheet, self.filler())
        if sheet is not None and typed.kind == CLOSE:
            return close_facts(typed, sheet, self.filler())
        return None

    def after(self, typed: Typed, page: BottlingPage, done: Recorded) -> None:
        """This was recorded of the form as it stood then: the next one begins."""
        self.command = ""
        if typed.kind == START:
            self.bottling, self.is_another = next(iter(done.given), ""), False
            self._fillers[self.bottling] = AtFiller(counter=counter_of(typed))
            self.typed = steps.after_start(typed)
        elif typed.kind == CHANGE:
            self.typed = steps.after_change(typed, page)
        elif typed.kind == CLOSE and page.sheet is not None:
            code, feed = page.sheet.bottling.code, page.sheet.feed
            self._fillers.pop(code, None)
            self.bottling = ""
            left_in = feed.code if feed.is_drum and typed.empty != YES else ""
            self.typed = steps.after_close(typed, code, left_in)
        else:
            self.typed = replace(typed, kind=START, lot="", gross="")

    def scan(self, text: str, prefix: str, now_ms: int) -> steps.After | None:
        """What a code means here; None where it means nothing and its card is to open."""
        try:
            code = parse_code(text, prefix)
        except Refusal:
            return None
        lot, serial = (code.lot, code.serial) if isinstance(code, JarCode) else (code, 0)
        if self.page is None:
            return None
        after = steps.scanned(self.page, self.typed, self.filler(), str(lot), serial)
        if after is None:
            return None
        again = str(code) == self._scanned and now_ms - self._scanned_ms <= DOUBLE_MS
        self._scanned, self._scanned_ms = str(code), now_ms
        return replace(after, is_double=again)

    # The draft.

    def command_id(self, new_id: Callable[[], str]) -> str:
        """One id a form, kept with its draft, so that what was recorded is recorded once."""
        self.command = self.command or new_id()
        return self.command

    def draft(self, new_id: Callable[[], str]) -> dict[str, object]:
        """What is kept of it on this computer; nothing where there is nothing to lose."""
        fillers = tuple((code, one) for code, one in self._fillers.items() if one != AtFiller())
        if self.typed == Typed(self.typed.kind) and not fillers:
            return {}
        return as_draft(Kept(self.typed, self.bottling, fillers, self.command_id(new_id)))

    def restore(self, draft: Mapping[str, object]) -> None:
        """Take up what was left, of what is open still, unless somebody types already."""
        if not draft or self.page is None:
            return
        kept = from_draft(draft)
        open_now = {row.code for row in self.page.bottlings}
        for code, filler in kept.fillers:
            if code in open_now:
                self._fillers.setdefault(code, filler)
        if self.typed != steps.fitting(Typed(), self.page, self.filler()):
            return
        if kept.bottling and kept.bottling not in open_now:
            return  # Closed meanwhile: what was typed for it went with it.
        self.typed, self.command, self.bottling = kept.typed, kept.command, kept.bottling
