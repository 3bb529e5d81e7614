"""A report whose every text is hostile, and what harm can be seen in it."""

import pikepdf
import pytest

from api.pdf.fetcher import MemoryFetcher
from tests.api.every_field import filled_with
from tests.api.paper import drawn, opened, tagged

STRUCTURE = ("/Figure", "/H1", "/H2", "/H3", "/Link")  # a long table is one more element on each page


def attacked_by(texts: list[str], form: str = "technical") -> tuple[bytes, list[str]]:
    """The report of a job full of these texts, and the addresses that were asked for while it was drawn."""
    asked: list[str] = []
    fetch = MemoryFetcher.fetch

    def noted(self: MemoryFetcher, url: str, *rest: object, **more: object) -> object:
        asked.append(url)
        return fetch(self, url, *rest, **more)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(MemoryFetcher, "fetch", noted)
        return drawn(filled_with(texts), form=form), asked


def structure_of(pdf: bytes) -> list[int]:
    """How many elements of each kind the structure tree has."""
    with opened(pdf) as read:
        found = [str(node.S) for node in tagged(read)]
    return [found.count(kind) for kind in STRUCTURE]


def harm_in(pdf: bytes) -> list[str]:
    """What no report of ours has: links, actions, scripts, strange attachments."""
    with opened(pdf) as read:
        seen = {
            "a link or a form field": any("/Annots" in page for page in read.pages),
            "an action": "/OpenAction" in read.Root or "/AA" in read.Root,
            "a script": "/JavaScript" in read.Root.get("/Names", {}),
            "a strange attachment": set(read.attachments) != {"job.json", "verdict.json"},
            "a launch": any(_launches(one) for one in read.objects),
        }
    return [what for what, is_there in seen.items() if is_there]


def _launches(thing: pikepdf.Object) -> bool:
    return isinstance(thing, pikepdf.Dictionary) and thing.get("/S") in (
        pikepdf.Name.JavaScript,
        pikepdf.Name.Launch,
        pikepdf.Name.URI,
    )
