"""How many jars a weight of honey fills, and how much honey so many jars take: plain division."""

from dataclasses import dataclass

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass

NO_NET = Sentence("jar-without-net", "Type what a jar holds: a weight above 0.")
MORE_THAN_ALL = Sentence(
    "loses-more-than-all", "Of {there} no more than that can be lost. Correct one of the two."
)


@dataclass(frozen=True, slots=True)
class JarCount:
    """Whole jars, and what is left when they are full."""

    jars: int
    left_g: int


def jars_from(mass_g: int, net_g: int, over_mg: int = 0, lost_g: int = 0) -> JarCount:
    """The whole jars a weight fills.

    Args:
        over_mg: how much more than its net a jar is filled with, in the mean.
        lost_g: what stays in the feed, the pipe and the filler.

    Raises:
        Refusal: a jar holds nothing, or more is lost than there is.
    """
    if net_g <= 0:
        raise Refusal(NO_NET, field="net")
    if lost_g > mass_g:
        raise Refusal(MORE_THAN_ALL, field="lost", there=format_mass(mass_g))
    there_mg, each_mg = (mass_g - lost_g) * 1_000, net_g * 1_000 + over_mg
    jars = there_mg // each_mg
    return JarCount(jars, (there_mg - jars * each_mg) // 1_000)
