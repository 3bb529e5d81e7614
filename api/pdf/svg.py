"""Small SVG drawings from data: elements as text, every value escaped."""

from xml.sax.saxutils import escape, quoteattr

INK, PAPER, BLUE, VERMILION, PALE = "#16213a", "#ffffff", "#0065a4", "#c24d00", "#dbe6f1"
GREY = "#8a8f9c"  # lines
RULE = "#cfd4de"  # level lines behind a curve
QUIET = "#5d6376"  # words, 5.9 to 1 on white (WCAG 2.2, 1.4.3)


def element(name: str, *content: str, **attributes: str | float) -> str:
    """One element; underscores in attribute names stand for hyphens."""
    pairs = (
        f" {key.rstrip('_').replace('_', '-')}={quoteattr(_text(given))}" for key, given in attributes.items()
    )
    return f"<{name}{''.join(pairs)}>{''.join(content)}</{name}>"


def line(x1: float, y1: float, x2: float, y2: float, **attributes: str | float) -> str:
    """A straight line."""
    return element("line", x1=x1, y1=y1, x2=x2, y2=y2, **attributes)


def text(x: float, y: float, words: str, **attributes: str | float) -> str:
    """Words at a point; `text_anchor` says which end stands there."""
    usual: dict[str, str | float] = {"fill": INK, "font_size": 11}
    return element("text", escape(words), x=x, y=y, **(usual | attributes))


def drawing(width: float, height: float, title: str, *content: str) -> str:
    """A whole drawing with the words that stand for it where it cannot be seen."""
    head = element("title", escape(title))
    return element(
        "svg",
        head,
        *content,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {_text(width)} {_text(height)}",
        width=width,
        height=height,
        font_family="Report",
    )


def _text(given: str | float) -> str:
    return given if isinstance(given, str) else f"{given:.2f}".rstrip("0").rstrip(".")
