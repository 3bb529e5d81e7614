"""Each hostile text in every field of a job of its own."""

from collections.abc import Iterator

from tests.api.attack import QUIET, attacked_by, harm_in, makes_an_element, nested_in
from tests.api.hostile import HOSTILE
from tests.full.registry import Row, full_run


@full_run("report-hostile", "Each hostile text in every field of a job, drawn as PDF")
def report_hostile(small: bool) -> Iterator[Row]:
    """Counts addresses asked for, links, actions and scripts, and elements that a text made."""
    texts = HOSTILE[:1] if small else HOSTILE
    quiet = nested_in(attacked_by([QUIET])[0])
    asked, harm, changed = [], [], []
    for text in texts:
        pdf, addresses = attacked_by([text])
        asked += addresses
        harm += harm_in(pdf)
        changed += [text] if makes_an_element(text) or nested_in(pdf) != quiet else []
    count = len(texts)
    yield Row(f"addresses asked for by {count} texts", str(len(asked)), "0", not asked)
    yield Row("links, actions, scripts, attachments", ", ".join(harm) or "none", "none", not harm)
    yield Row(
        "texts that made an element",
        ", ".join(repr(one[:40]) for one in changed) or "none",
        "none",
        not changed,
    )
