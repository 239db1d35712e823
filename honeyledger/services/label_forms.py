"""Other labels of the same thing: a sticker of a drum, front, back and lid seal of a jar.

They say what the whole label says, or a part of it, so that no two say different things.
"""

from collections.abc import Iterable
from dataclasses import dataclass, fields
from typing import ClassVar, TypeVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.services.papers import DrumLabel, JarLabel

NO_SUCH_FORM = Sentence(
    "no-such-form-of-label",
    "{code} has no {form}: leave --as out, or choose of {forms} for drums and jars.",
)
DRUM_STICKER, JAR_FRONT, JAR_BACK, LID_SEAL = (
    *("drum sticker", "jar front", "jar back", "lid seal"),
)


@dataclass(frozen=True, slots=True)
class PlainTag:
    """A tag with a code, a name and some facts.

    Args:
        code: what is scanned.
        sort: what it is, such as "tank" or "sample".
        name: what people call it.
        house: the honey house's name.
        facts: named values; one without a value leaves a line to write on.
        again: which print of it this is, after the first.
    """

    label: ClassVar[str] = ""
    code: str
    sort: str
    name: str
    house: str
    facts: tuple[tuple[str, str], ...] = ()
    uri: str = ""
    again: int = 0


@dataclass(frozen=True, slots=True)
class VesselLabel(PlainTag):
    """On a tank, sump or line: drums are filled from it, honey is drawn from it by its code."""

    label: ClassVar[str] = "vessel label"


@dataclass(frozen=True, slots=True)
class EquipmentTag(PlainTag):
    """On a scale, a refractometer, a sieve: its checks are found by its code."""

    label: ClassVar[str] = "equipment tag"


@dataclass(frozen=True, slots=True)
class SampleLabel(PlainTag):
    """On a sample pot."""

    label: ClassVar[str] = "sample pot label"


@dataclass(frozen=True, slots=True)
class DrumSticker(DrumLabel):
    """A small one for the lid, beside the large label on the side."""

    label: ClassVar[str] = DRUM_STICKER


@dataclass(frozen=True, slots=True)
class JarFront(JarLabel):
    """Name, grade, net content and origin: the main field of view."""

    label: ClassVar[str] = JAR_FRONT


@dataclass(frozen=True, slots=True)
class JarBack(JarLabel):
    """All the rest, with this very jar's code."""

    label: ClassVar[str] = JAR_BACK


@dataclass(frozen=True, slots=True)
class LidSeal(JarLabel):
    """A strip over the lid that tears when the jar is opened, with the jar's serial."""

    label: ClassVar[str] = LID_SEAL


FORMS: dict[str, tuple[type, type]] = {
    DRUM_STICKER: (DrumLabel, DrumSticker),
    JAR_FRONT: (JarLabel, JarFront),
    JAR_BACK: (JarLabel, JarBack),
    LID_SEAL: (JarLabel, LidSeal),
}
_Row = TypeVar("_Row")


def in_form(rows: Iterable[_Row], form: str) -> list[_Row]:
    """The same rows as another label of theirs; as they are where none is named.

    Raises:
        Refusal: there is no such label of these.
    """
    if not form:
        return list(rows)
    before, after = FORMS.get(form, (type(None), type(None)))
    made: list[_Row] = []
    for row in rows:
        if type(row) is not before:
            code = getattr(row, "code", "")
            raise Refusal(NO_SUCH_FORM, field="form", code=code, form=form, forms=", ".join(FORMS))
        made.append(after(**{one.name: getattr(row, one.name) for one in fields(row)}))  # type: ignore[arg-type]
    return made
