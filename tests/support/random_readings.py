"""Random readings: a moisture, what a refractometer shows, a laboratory's result."""

from honeyledger.ledger.verbs.measuring import Measure, Refraction, Reported
from tests.support.random_choice import RandomBooks


class Readings(RandomBooks):
    """What may be read of a lot, a sample or a vessel."""

    def a_reading(self) -> Measure:
        """A moisture, what a refractometer showed, or a result: of a lot, a sample or a vessel."""
        of = self.random.choice((self.lot(), self.lot("X"), self.vessel(full=True)))
        index = Refraction("index", self.random.randint(1_474_000, 1_504_000), 200)
        results = (Reported("hmf", self.random.choice(("<5", "12.4", "not detected"))),)
        facts = (
            Measure(of, moisture=self.random.randint(1500, 2000), instrument="Scale 1"),
            Measure(of, shown=index),
            Measure(of, results=results, laboratory="Bench"),
        )
        return self.random.choice(facts)
