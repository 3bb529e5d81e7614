"""A page without its words: what it is made of, to be compared with the same page full of other words."""

import html.parser

Tag = tuple[str, ...]


class Skeleton(html.parser.HTMLParser):
    """A page without its words: tags in order, with the names of their attributes.

    `parts` holds each section's tags in their order, and the page's own without its sections.
    """

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[Tag] = []
        self.parts: list[tuple[Tag, ...]] = []
        self._open: list[list[Tag]] = [[]]
        self.feed(page)
        self.parts += map(tuple, self._open)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "section":
            self._open.append([])
        self._note((tag, *(name for name, _ in attrs)))

    def handle_endtag(self, tag: str) -> None:
        self._note((f"/{tag}",))
        if tag == "section" and len(self._open) > 1:
            self.parts.append(tuple(self._open.pop()))

    def handle_comment(self, data: str) -> None:
        self._note(("comment",))

    def handle_pi(self, data: str) -> None:
        self._note(("instruction",))

    def unknown_decl(self, data: str) -> None:
        self._note(("declaration",))

    def _note(self, tag: Tag) -> None:
        self.tags.append(tag)
        self._open[-1].append(tag)


def made_of(page: str) -> list[tuple[Tag, ...]]:
    """What a page is made of, tag by tag; whole sections are laid into columns by how long they are."""
    return sorted(Skeleton(page).parts)
