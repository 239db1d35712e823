"""The language of the window: which there are, which is worn, and the program's texts in it.

Only what is shown is translated. The ledger, the terminal and every file keep to English, so that
one house is one house in all languages; what people typed is never translated.
"""

import re
from collections.abc import Sequence
from pathlib import Path
from string import Formatter
from typing import Final

from PySide6.QtCore import (
    QByteArray,
    QCoreApplication,
    QLibraryInfo,
    QLocale,
    QObject,
    QTranslator,
)

from honeyledger.assets import resource
from honeyledger.desktop.catalogue import FACTS, NOTHING, Catalogue, read_catalogue
from honeyledger.desktop.sealed_words import sealed_words
from honeyledger.domain.phrases import Phrase
from honeyledger.domain.refusals import Refusal, sentence_of
from honeyledger.ledger.entry import Entry
from honeyledger.services.house import notes_of

ENGLISH: Final = "en"
SYSTEM: Final = "system"
FOLDER = "translations"
_SENTENCES, _WORDS = "sentences", "words"
# A day is taken whole, since it has spaces in it as the words around it do.
_DAY = r"\d{1,2} [A-Z][a-z]{2} \d{4}(?: \d\d:\d\d)?"
_worn: list[QTranslator] = []
_worn_name = [ENGLISH]


class Translator(QTranslator):
    """Gives Qt the texts of a catalogue."""

    def __init__(self, catalogue: Catalogue, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.catalogue = catalogue

    def isEmpty(self) -> bool:  # Qt's name
        """Never: Qt does not ask an empty one."""
        return False

    def translate(  # type: ignore[override] # None is Qt's null text: another one may know it
        self,
        context: str,
        sourceText: str,  # Qt's name
        disambiguation: bytes | bytearray | memoryview | QByteArray | None = None,
        n: int = -1,
    ) -> str | None:
        """The text in the catalogue's language; None where it has none."""
        del disambiguation, n
        return self.catalogue.said(sourceText, context)


def languages() -> tuple[str, ...]:
    """The languages the window can be in: English, and those with a catalogue."""
    return (ENGLISH, *sorted(path.stem for path in resource(FOLDER).glob("*.po")))


def chosen(language: str) -> str:
    """The language a setting asks for; the system's where there is a catalogue, else English."""
    known = languages()
    wanted = [language] if language != SYSTEM else QLocale.system().uiLanguages()
    for one in wanted:
        short = one.partition("-")[0].partition("_")[0]
        if short in known:
            return short
    return ENGLISH


def wear(app: QCoreApplication, language: str) -> None:
    """Put the application's texts in the language a setting asks for."""
    take_off(app)
    short = _worn_name[0] = chosen(language)
    if short == ENGLISH:
        return
    # Qt's own dialogs, for files and printers; ours is asked first.
    of_qt = QTranslator()
    if of_qt.load(f"qtbase_{short}", QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)):
        _worn.append(of_qt)
    _worn.append(Translator(catalogue_of(short)))
    for one in _worn:
        app.installTranslator(one)


def take_off(app: QCoreApplication) -> None:
    """Let go of the application's translators: they do not outlive it."""
    for old in _worn:
        app.removeTranslator(old)
    _worn.clear()
    _worn_name[0] = ENGLISH


def worn() -> str:
    """The short name of the language in use."""
    return _worn_name[0]


def catalogue_of(language: str) -> Catalogue:
    """The texts of a language by its short name."""
    return NOTHING if language == ENGLISH else read_catalogue(resource(FOLDER, f"{language}.po"))


def refusal_words(refusal: Refusal) -> str:
    """What a refusal says, in the language in use: its sentence first, then what fills it."""
    template = QCoreApplication.translate(_SENTENCES, refusal.sentence.text)
    if not _worn:
        return refusal.text
    return template.format(**{name: _fact(value) for name, value in refusal.facts.items()})


def say(text: str) -> str:
    """A text of a row in the language in use: a phrase of the program, or text of the ledger."""
    if not _worn:
        return text
    if not isinstance(text, Phrase):
        return sealed_words(text)
    template = QCoreApplication.translate(_WORDS, text.template)
    if not text.facts:
        return template
    return template.format(**{name: _filled(value) for name, value in text.facts.items()})


def note_words(key: str, text: str) -> str:
    """A note the ledger made with an entry, in the language in use; its text knows its facts."""
    sentence = sentence_of(key)
    if sentence is None or not _worn:
        return text
    template = QCoreApplication.translate(_SENTENCES, sentence.text)
    facts = facts_in(sentence.text, text)
    if facts is None:
        return text
    return template.format(**{name: _fact(value) for name, value in facts.items()})


def first_note(entries: Sequence[Entry]) -> str:
    """The first thing the ledger says to what was recorded; "" for nothing."""
    notes = [note_words(key, text) for entry in entries for key, text in notes_of(entry)]
    return notes[0] if notes else ""


def facts_in(template: str, text: str) -> dict[str, str] | None:
    """What filled the places of a template; None where the text was not made of it."""
    seen: set[str] = set()
    pattern = ""
    for plain, name, _spec, _conversion in Formatter().parse(template):
        pattern += re.escape(plain)
        if name is not None:
            pattern += f"(?P={name})" if name in seen else f"(?P<{name}>{_DAY}|.*?)"
            seen.add(name)
    found = re.fullmatch(pattern, text, re.DOTALL)
    return found.groupdict() if found else None


def _fact(value: object) -> object:
    """What fills a refusal: a word of the program is said in the language in use."""
    if isinstance(value, Phrase):
        template = QCoreApplication.translate(_WORDS, value.template)
        return template.format(**{name: _fact(one) for name, one in value.facts.items()})
    return sealed_words(fact_word(value)) if isinstance(value, str) else value


def fact_word(text: str) -> str:
    """A word of the program that is kept by its English name: a kind of tank, of label."""
    return QCoreApplication.translate(FACTS, text)


def _filled(value: object) -> object:
    """What fills a phrase: all text is said again."""
    return say(value) if isinstance(value, str) else value


def language_name(language: str) -> str:
    """What a language calls itself."""
    if language == ENGLISH:
        return "English"
    # Without its country: there is one catalogue for all who speak it.
    return QLocale(language).nativeLanguageName().partition(" ")[0].capitalize()


def guide_folder(assets: Path) -> Path:
    """Where the guide's pages in the language in use are; the English ones where it has none."""
    own = assets / "guide" / worn()
    return own if own.is_dir() else assets / "guide"
