"""The catalogue of a language: what each of the program's texts is in it.

A catalogue is a PO file of `resources/translations/`, named by its language ("es.po"): an open
plain format that translators' tools read and a change to it can be read line by line. An entry
holds for a text wherever it is said; one with a context holds for that place alone, where a word
needs another there. What the window's texts are is for the tests to know, not for this module.
"""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from honeyledger.domain.refusals import Refusal, Sentence

CATALOGUE_UNREADABLE = Sentence(
    "catalogue-unreadable",
    "Line {line} of the translation {name} cannot be read; install Honeyledger again.",
)

FACTS = "facts"
"""The context of words that fill a refusal: what people typed can stand there as well."""

_KEYWORDS = ("msgctxt", "msgid", "msgstr")


@dataclass(frozen=True, slots=True)
class Catalogue:
    """The texts of one language.

    Args:
        texts: by the English text.
        placed: by context and English text, where a place needs another word.
    """

    texts: Mapping[str, str]
    placed: Mapping[tuple[str, str], str]

    def said(self, text: str, context: str = "") -> str | None:
        """The text in this language; None where the catalogue does not have it."""
        if context and (context, text) in self.placed:
            return self.placed[context, text]
        return None if context == FACTS else self.texts.get(text)


NOTHING = Catalogue({}, {})
"""What English needs."""


def read_catalogue(path: Path) -> Catalogue:
    """The catalogue in a PO file.

    Raises:
        Refusal: a line of it is none of such a file.
    """
    texts: dict[str, str] = {}
    placed: dict[tuple[str, str], str] = {}
    for context, text, said in _entries(path):
        if not text or not said:
            continue  # The head of the file, or a text that waits for its translator.
        if context:
            placed[context, text] = said
        else:
            texts[text] = said
    return Catalogue(texts, placed)


def _entries(path: Path) -> Iterator[tuple[str, str, str]]:
    """Context, text and translation of each entry."""
    entry = {"msgctxt": "", "msgid": "", "msgstr": ""}
    last = ""
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if not line or line[0] == "#":
            continue
        word, _, quoted = line.partition(" ")
        if line[0] == '"':
            word, quoted = last, line
        elif word in ("msgctxt", "msgid") and last == "msgstr":
            yield entry["msgctxt"], entry["msgid"], entry["msgstr"]
            entry = {"msgctxt": "", "msgid": "", "msgstr": ""}
        if word not in _KEYWORDS:
            raise Refusal(CATALOGUE_UNREADABLE, line=number, name=path.name)
        try:
            # What is between the quotes is escaped as in JSON: \" \\ \n \t.
            entry[word] += json.loads(quoted)
        except (ValueError, TypeError) as trouble:
            raise Refusal(CATALOGUE_UNREADABLE, line=number, name=path.name) from trouble
        last = word
    if last == "msgstr":
        yield entry["msgctxt"], entry["msgid"], entry["msgstr"]
