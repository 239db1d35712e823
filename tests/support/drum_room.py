"""The drum room of the simulated house: drums filled, topped up, bunged, poured and weighed."""

from collections.abc import Callable

from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.drums import Bung, Fill, Reweigh, Weight
from honeyledger.ledger.verbs.quality import Sample
from tests.support.houses import MINUTE_MS
from tests.support.physics import Content, Drum, Spot, Vessel, weight
from tests.support.workdays import DAY_MS, DRUM_G, Floor

LOOKED_AT = "looked at"


class DrumRoom(Floor):
    """Deeds with drums, barrels and samples."""

    def fill_drum(self) -> None:
        """Honey from a tank, or from a line that feeds none, goes into an empty drum."""
        source = self._full_vessel()
        drum = self._empty_drum()
        if source is None or drum is None:
            return
        bung = not drum.container or self.chance(0.8)
        self._fill(source, drum, bung=bung, top_up=False)

    def top_up(self) -> None:
        """Honey goes on top of what is in a drum, bunged or waiting."""
        waiting = [one for one in self._drums_with_honey() if one.container]
        drum = self.pick([one for one in waiting if one.total_g < DRUM_G])
        source = self._full_vessel()
        if drum is None or source is None:
            return
        self._fill(source, drum, bung=drum.bunged or self.chance(0.7), top_up=drum.bunged)

    def _full_vessel(self) -> Vessel | None:
        lines = [line for line in self.world.lines if not line.tanks]
        choice = [*lines, *self.world.tanks]
        return self.pick([one for one in choice if one.total_g > 15_000])

    def _empty_drum(self) -> Drum | None:
        if self.chance(0.35):
            drum = Drum()
            self.world.drums.append(drum)
            return drum
        here = [one for one in self.world.drums if one.container and not one.gone]
        drum = self.pick([one for one in here if one.total_g < 1])
        if drum is not None and self.chance(0.4):
            drum.wash()
        return drum

    def _drums_with_honey(self) -> list[Drum]:
        return [one for one in self.world.drums if not one.gone and one.total_g > 1_000]

    def _fill(self, source: Vessel, drum: Drum, *, bung: bool, top_up: bool) -> None:
        washed, was_empty = drum.washed, drum.total_g < 1
        honey = source.draw(self.random.uniform(0.4, 0.7) * DRUM_G)
        content = drum.fill(honey, bung=bung)
        pending = bung and not top_up and self.chance(0.1)
        net_g = int(weight(honey) * self.random.uniform(0.99, 1.01))
        written = self._written_source(source, content) if bung else source
        facts = Fill(
            written.code,
            Weight() if pending else Weight(net_g=net_g),
            container=drum.container,
            pending=pending,
            bung=bung,
            top_up=top_up,
            washed=washed,
            despite_hold=LOOKED_AT,
        )
        done = None
        if bung:
            done = self.label(self.world.watch("drum", content), drum)
        note = self.note("drums", {drum, source}, lambda: facts, done=done, in_order=not bung)
        note.was_empty = was_empty

    def _written_source(self, source: Vessel, content: Content) -> Vessel:
        """The right tank, or now and then a wrong one that is amended later."""
        if not self.chance(self.habits.mistakes / 2):
            return source
        note = self.note(
            "drums",
            {content},
            lambda: (
                Amend(content.code, "wrong tank", source=source.code) if content.code else None
            ),
        )
        note.due_ms += self.random.choice((0, 1, 2)) * DAY_MS + 5 * 60 * MINUTE_MS
        note.typed_ms = note.unsure_ms = 0
        note.keys = frozenset({content, *self.world.drums})
        return self.random.choice(self.world.tanks)

    def bung(self) -> None:
        """A waiting drum is closed."""
        drum = self.pick([one for one in self._drums_with_honey() if not one.bunged])
        if drum is None:
            return
        drum.bunged = True
        content = Content(drum.spot.sources)
        drum.content = content
        self.world.watch("drum", content)
        self.note(
            "drums",
            {drum},
            lambda: Bung(drum.container),
            done=self.label(content, drum),
            in_order=True,
        )

    def pour(self) -> None:
        """A drum is poured into a tank, all of it or a part."""
        drum = self.pick(self._drums_with_honey())
        if drum is None:
            return
        into = self._somewhere()
        whole = self.chance(0.7)
        honey = drum.spot.drain() if whole else drum.spot.draw(drum.total_g / 2)
        into.pour(honey)
        net_g = max(1, int(weight(honey)))
        label = drum.code_on()

        def facts() -> Fill | None:
            source = drum.container or label()
            if not source:
                return None
            grams = Weight() if whole else Weight(net_g=net_g)
            return Fill(source, grams, into=into.code, whole=whole, despite_hold=LOOKED_AT)

        self.note("drums", {drum, into}, facts).net_g = net_g
        if whole and not drum.container:
            self.world.drums.remove(drum)

    def _somewhere(self) -> Vessel:
        if self.chance(0.7):
            return self.world.bottling_tank
        return self.random.choice(self.world.vessels)

    def transfer(self) -> None:
        """Honey goes from a tank to another, by a weighed amount."""
        source = self._full_vessel()
        into = self._somewhere()
        if source is None or into is source:
            return
        honey = source.draw(self.random.uniform(0.3, 0.9) * source.total_g)
        into.pour(honey)
        facts = Fill(
            source.code, Weight(net_g=int(weight(honey))), into=into.code, despite_hold=LOOKED_AT
        )
        self.note("bottling", {source, into}, lambda: facts)

    def drain_barrel(self) -> None:
        """Honey drained from cappings goes back in."""
        if not self.world.barrels:
            return
        content, spot = self.world.barrels.pop()
        into = self._somewhere()
        honey = spot.draw(spot.total_g / 2)
        into.pour(honey)
        net_g = int(weight(honey))

        def facts() -> Fill | None:
            if not content.code:
                return None
            return Fill(content.code, Weight(net_g=net_g), into=into.code, despite_hold=LOOKED_AT)

        self.note("cappings", {content, into}, facts)

    def buy(self) -> None:
        """A drum of bought-in honey comes, now and then in a container of the house."""
        drum = self._empty_drum()
        if drum is None:
            return
        supplier = self.random.choice(self.world.suppliers)
        content = self.world.watch("bought-in drum", drum.fill({supplier: 50_000.0}, bung=True))
        papers = {"supplier_lot": "7", "country": "AR", "certificate": "C 31"}
        facts = Purchase(supplier, Weight(net_g=50_000), container=drum.container, **papers)
        note = self.note("drums", {drum}, lambda: facts, done=self.label(content, drum))
        note.was_empty, note.typed_ms, note.unsure_ms = True, 0, 0
        self.crew.write(note, self.now_ms)

    def weigh_again(self) -> None:
        """A drum is put on the scale again."""
        drum = self.pick([one for one in self._drums_with_honey() if one.bunged])
        if drum is not None:
            net_g = int(drum.total_g)
            code, label = drum.container, drum.code_on()
            self.note("drums", {drum}, lambda: Reweigh(code or label(), Weight(net_g=net_g)))

    def sample(self) -> None:
        """A sample is taken from a drum or a tank."""
        if self.chance(0.5):
            drum = self.pick([one for one in self._drums_with_honey() if one.bunged])
            if drum is not None:
                drum.spot.draw(200)
                self._sample(drum.spot, drum.code_on(), {drum})
            return
        vessel = self.pick([one for one in self.world.vessels if one.total_g > 2_000])
        if vessel is not None:
            taken = Spot()
            taken.pour(vessel.draw(200))
            self._sample(taken, lambda: vessel.code, {vessel})

    def _sample(self, spot: Spot, code: Callable[[], str], keys: set[object]) -> None:
        content = self.world.watch("sample", Content(spot.sources))

        def facts() -> Sample | None:
            return Sample((code(),), 200) if code() else None

        self.note("drums", keys, facts, done=self.label(content))
