"""Each hostile text in every field of a job of its own."""

from collections.abc import Iterator

from tests.api.attack import attacked_by, harm_in, structure_of
from tests.api.every_field import filled_with
from tests.api.hostile import HOSTILE
from tests.api.paper import drawn
from tests.full.registry import Row, full_run


@full_run("report-hostile", "Each hostile text in every field of a job, drawn as PDF")
def report_hostile(small: bool) -> Iterator[Row]:
    """Counts addresses asked for, links, actions and scripts, and elements that a text made."""
    texts = HOSTILE[:1] if small else HOSTILE
    quiet = structure_of(drawn(filled_with(["quiet words"])))
    asked, harm, changed = [], [], []
    for text in texts:
        pdf, addresses = attacked_by([text])
        asked += addresses
        harm += harm_in(pdf)
        changed += [text] if structure_of(pdf) != quiet else []
    count = len(texts)
    yield Row(f"addresses asked for by {count} texts", str(len(asked)), "0", not asked)
    yield Row("links, actions, scripts, attachments", ", ".join(harm) or "none", "none", not harm)
    yield Row("texts that made an element", ", ".join(map(repr, changed)) or "none", "none", not changed)
