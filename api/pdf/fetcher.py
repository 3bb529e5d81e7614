"""The only files that a report can reach: those handed to it, by a scheme of our own."""

from weasyprint.urls import URLFetcher, URLFetcherResponse

SCHEME = "teepiece"


class ForeignAddressError(ValueError):
    """Something in the report asked for an address that is not ours."""


class MemoryFetcher(URLFetcher):  # type: ignore[misc]
    """Gives out files from memory; knows no network, no disk and no `data:`."""

    def __init__(self, files: dict[str, tuple[str, bytes]]) -> None:
        super().__init__(allowed_protocols=(SCHEME,), allow_redirects=False, fail_on_errors=True)
        self._files = files

    def fetch(self, url: str, headers: dict[str, str] | None = None) -> URLFetcherResponse:
        """The file of that address, by name and not by path."""
        scheme, _, name = url.partition(":")
        if scheme != SCHEME or name not in self._files:
            raise ForeignAddressError(url)
        kind, data = self._files[name]
        return URLFetcherResponse(url, data, {"Content-Type": kind})
