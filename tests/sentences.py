"""Every sentence that a verdict can say: `python3 -m tests.sentences [LANGUAGE]` prints the catalogue."""

import sys
from collections.abc import Iterator

from calc.words.sentences import LANGUAGES


def listed(part: object, name: str = "") -> Iterator[str]:
    """Lines of a catalogue entry, each with the name it has there."""
    if isinstance(part, str):
        yield f"{name}: {part}"
    elif isinstance(part, dict):
        for key, value in part.items():
            yield from listed(value, f"{name}.{key}")
    elif hasattr(part, "_asdict"):
        yield from listed(part._asdict(), name)


def main(language: str = "en") -> int:
    """Print the catalogue of a language; 2 for one that has none."""
    if language not in LANGUAGES:
        print(f"No catalogue for {language}; there is {', '.join(LANGUAGES)}.", file=sys.stderr)
        return 2
    words = LANGUAGES[language]
    for name in (name for name in vars(words) if name.isupper()):
        print("\n".join(listed(getattr(words, name), name)))
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:2]))
