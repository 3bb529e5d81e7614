"""One report drawn: the page from its template, then WeasyPrint, tagged and with its data attached."""

from functools import cache
from pathlib import Path

import weasyprint
from jinja2 import Environment, PackageLoader, StrictUndefined
from weasyprint.text.fonts import FontConfiguration

from api.context import PROJECT
from api.pdf.fetcher import SCHEME, MemoryFetcher
from api.pdf.page import page
from api.pdf.request import ReportRequest
from api.pdf.words import words_for

VARIANT = "pdf/a-3a"  # tags and attachments in one file; ISO 19005-3, level A
FONTS = {
    "regular.ttf": "AtkinsonHyperlegibleNext_400Regular.ttf",
    "bold.ttf": "AtkinsonHyperlegibleNext_700Bold.ttf",
}
FONT_FOLDER = PROJECT / "pwa/vendor/font"
STYLE = Path(__file__).parent / "templates/report.css"


def render(request: ReportRequest) -> bytes:
    """The PDF; the same request gives the same bytes."""
    fetcher = MemoryFetcher({f"photo-{name}": ("image/jpeg", data) for name, data in request.photos.items()})
    html = weasyprint.HTML(string=_html(request), base_url=f"{SCHEME}:", url_fetcher=fetcher)
    fonts, style = look()
    document = html.render(font_config=fonts, stylesheets=[style], pdf_variant=VARIANT)
    if request.form == "short":
        document = document.copy(document.pages[:1])
    document.metadata.attachments = _attachments(request, fetcher)
    pdf: bytes = document.write_pdf(pdf_variant=VARIANT, pdf_identifier=_identifier(request), pdf_tags=True)
    return pdf


@cache
def look() -> tuple[FontConfiguration, weasyprint.CSS]:
    """Fonts and style sheet, read once a process: they cost a third of a second."""
    files = {name: ("font/ttf", (FONT_FOLDER / file).read_bytes()) for name, file in FONTS.items()}
    fonts = FontConfiguration()
    style = STYLE.read_text("utf-8") + "".join(
        f".w{share} {{ width: {share}%; }}\n" for share in range(1, 101)
    )
    fetcher = MemoryFetcher(files)
    return fonts, weasyprint.CSS(string=style, base_url=f"{SCHEME}:", url_fetcher=fetcher, font_config=fonts)


@cache
def _templates() -> Environment:
    return Environment(
        loader=PackageLoader("api.pdf", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def _html(request: ReportRequest) -> str:
    template = "technical.html" if request.form == "technical" else "customer.html"
    return _templates().get_template(template).render(page(request))


def _attachments(request: ReportRequest, fetcher: MemoryFetcher) -> list[weasyprint.Attachment]:
    words = words_for(request.language)
    texts = {"job.json": request.job, "verdict.json": request.verdict}
    return [
        weasyprint.Attachment(
            string=text,
            name=name,
            description=words.say("attached", name=name.removesuffix(".json")),
            created=request.moment,
            modified=request.moment,
            relationship="Data",
            url_fetcher=fetcher,
        )
        for name, text in texts.items()
    ]


def _identifier(request: ReportRequest) -> bytes:
    return f"{request.job_hash[:40]} {request.form} {request.paper}".encode()
