"""The fields of the bottling with what is known already: choices, labels, what counts if blank."""

from dataclasses import dataclass

from honeyledger.desktop.stations.bottling.fields_view import BottlingFields
from honeyledger.desktop.stations.bottling.rows import grams_of, mean_of
from honeyledger.desktop.stations.bottling.typed import (
    CLOSE,
    LEFT,
    NO,
    START,
    YES,
    AtFiller,
    Typed,
    jars_by_mass,
)
from honeyledger.desktop.turns import Making
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.domain.units import format_mass, format_number
from honeyledger.services.bottling import feed_of
from honeyledger.services.bottling_page import BottlingPage


@dataclass(frozen=True, slots=True)
class _Offered:
    """What the fields offer of a page."""

    page: BottlingPage
    nets: tuple[Choice, ...]
    feeds: tuple[Choice, ...]
    drums: tuple[Choice, ...]
    lots: tuple[Choice, ...]


def _offered(page: BottlingPage) -> _Offered:
    feeds = [
        Choice(feed.code, feed.name, format_mass(feed.grams, page.unit, 0)) for feed in page.feeds
    ]
    drums = [one for one, feed in zip(feeds, page.feeds, strict=True) if feed.is_drum]
    lots = [Choice(row.code, row.code, row.product) for row in page.jars]
    known = {choice.key for choice in lots}
    lots += [
        Choice(row.code, row.code, row.product.name)
        for row in page.bottlings
        if row.code not in known
    ]
    nets = [Choice(row.key, row.name, f"{row.net_g} g") for row in page.products]
    return _Offered(page, tuple(nets), tuple(feeds), tuple(drums), tuple(lots))


class KnownFields(BottlingFields):
    """Fields that offer what there is."""

    def make_fields(self) -> Making[None]:
        """Make them, in two pieces."""
        yield from super().make_fields()
        self._offered: _Offered | None = None
        self._beside: _Offered | None = None

    def make_offers(self, page: BottlingPage) -> None:
        """Make what is offered of a page, beside the window; `offer` takes it."""
        self._beside = _offered(page)

    def offer(self, page: BottlingPage | None, typed: Typed) -> None:
        """The choices; what is chosen stays chosen."""
        if page is None:
            return
        # The same page is offered at every step, and a large house has thousands of feeds.
        made = self._offered
        for known in (self._beside, made):
            if known is not None and known.page is page:
                made = known
        if made is None or made.page is not page:
            made = _offered(page)
        self._offered = made
        for field, choices in (
            (self.product, made.nets),
            (self.feed, made.feeds),
            (self.next, made.feeds),
            (self.lot, made.drums if typed.kind == LEFT else made.lots),
        ):
            key = field.key()
            if field.choices() is not choices and field.choices() != choices:
                field.set_choices(choices)
                if key:
                    field.set_key(key)

    def tell(self, page: BottlingPage | None, typed: Typed, filler: AtFiller) -> None:
        """Labels and hints that say what is known already."""
        names = [self._name_of(page, code) for code in typed.order]
        label = self.tr("Filled from: scan it")
        if names and typed.kind == START:
            label = self.tr("{feeds}, then").format(feeds=", ".join(names))
        self.feed.set_label(label)
        self.lot.set_label(self.tr("Drum") if typed.kind == LEFT else self.tr("Jar lot"))
        sheet = page.sheet if page else None
        if sheet is None or page is None:
            return
        self._say_empty(typed.kind, sheet.feed.name)
        mean = grams_of(mean_of(sheet, filler))
        self.mean.set_label(self.tr("Mean, else {mean}").format(mean=mean))
        counter = self.tr("Counter now")
        if typed.empty == YES:
            by_mass = filler.counter + jars_by_mass(sheet, filler)
            counter = self.tr("Counter, else ≈ {n}").format(n=format_number(by_mass))
        self.jars.set_label(counter)

    def _say_empty(self, kind: str, feed: str) -> None:
        """Whether it ran empty; at the end, what is left in it."""
        label = self.tr("{feed} ran empty").format(feed=feed)
        choices = [Choice(YES, self.tr("yes")), Choice(NO, self.tr("no"))]
        if kind == CLOSE:
            label = self.tr("Left in {feed}").format(feed=feed)
            choices = [Choice(NO, self.tr("the rest")), Choice(YES, self.tr("nothing"))]
        if [button.choice for button in self.empty.buttons()] != choices:
            key = self.empty.key()
            self.empty.set_choices(choices)
            self.empty.set_key(key)
        self.empty.set_label(label)

    def _name_of(self, page: BottlingPage | None, code: str) -> str:
        feed = feed_of(page.feeds, code) if page else None
        return feed.name if feed else code
