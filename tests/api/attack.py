"""A report whose every text is hostile, and what harm can be seen in it."""

from functools import cache
from itertools import chain

import pikepdf
import pytest

from api.pdf import render
from api.pdf.fetcher import MemoryFetcher
from tests.api.every_field import filled_with
from tests.api.paper import opened, rendered, request_for, tagged
from tests.api.skeleton import Tag, made_of

QUIET = "quiet words"
AS_LONG_AS_A_PAGE = 200


def attacked_by(texts: list[str], form: str = "technical") -> tuple[bytes, list[str]]:
    """The report of a job full of these texts, and the addresses that were asked for while it was drawn."""
    asked: list[str] = []
    fetch = MemoryFetcher.fetch

    def noted(self: MemoryFetcher, url: str, *rest: object, **more: object) -> object:
        asked.append(url)
        return fetch(self, url, *rest, **more)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(MemoryFetcher, "fetch", noted)
        return rendered(request_for(filled_with(texts), form=form)), asked


def makes_an_element(text: str, form: str = "technical") -> bool:
    """Whether the page that a report is set from is made of anything else when all its texts are this one.

    Compared element by element, in order. Where a text is as long as a page, only what is there counts: two
    halves of a list are parted by their lines.
    """
    hostile, quiet = page_of(text, form), page_of(QUIET, form)
    if len(text) >= AS_LONG_AS_A_PAGE:
        return sorted(chain(*hostile)) != sorted(chain(*quiet))
    return hostile != quiet


@cache
def page_of(text: str, form: str) -> list[tuple[Tag, ...]]:
    """What the page is made of whose every text is this one."""
    return made_of(render._html(request_for(filled_with([text]), form=form)))


def nested_in(pdf: bytes) -> set[tuple[str, str]]:
    """What lies in what in the structure tree; how often is a matter of where the pages end."""
    with opened(pdf) as read:
        return {(str(node.P.get("/S", "")), str(node.S)) for node in tagged(read) if "/P" in node}


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
