"""What the office's pages share: a blueprint whose errors are pages too, forms, and the frame around them."""

from typing import Any
from urllib.parse import urlsplit

from flask import Blueprint, Flask, Response, redirect, render_template, request, url_for
from flask_wtf import CSRFProtect
from werkzeug.exceptions import HTTPException

from api.context import connection
from api.errors import Problem
from api.people import access, session, set_up
from api.people.language import language, tell, tell_marked
from api.store import settings
from api.words.english import TEXTS

Answer = Response | str | tuple[str, int]

# The office's menu, in the order of a day's work.
MENU = (
    ("office_jobs.search", "menu.jobs"),
    ("office_gauges.register_page", "menu.gauges"),
    ("office_limits.library", "menu.limits"),
    ("office_prices.prices", "menu.prices"),
    ("office_phones.overview", "menu.phones"),
    ("office_people.overview", "menu.people"),
    ("office_mail.mail", "menu.mail"),
    ("office_backups.overview", "menu.backups"),
    ("office_workshop.workshop", "menu.workshop"),
    ("office_trail.trail", "menu.trail"),
)

_csrf = CSRFProtect()


def blueprint(name: str, prefix: str = "/office") -> Blueprint:
    """A part of the office; what goes wrong in it is told on a page."""
    made = Blueprint(name, __name__, url_prefix=prefix, template_folder="templates")
    made.register_error_handler(Problem, _problem)
    made.register_error_handler(HTTPException, _http)
    made.after_request(_private)
    return made


def register(app: Flask) -> None:
    """Tokens on forms, and the names that every page's frame uses."""
    # The token lasts as long as the session. The Origin is checked for every change: no Referer is needed.
    app.config |= {"WTF_CSRF_TIME_LIMIT": None, "WTF_CSRF_SSL_STRICT": False, "WTF_CSRF_CHECK_DEFAULT": False}
    _csrf.init_app(app)
    app.before_request(_check_token)
    app.context_processor(_frame)


def safe_next(asked: str | None) -> str:
    """An address of ours to go on to; what leads elsewhere leads to the office's first page."""
    parts = urlsplit(asked or "")
    if asked and asked.startswith("/") and not asked.startswith(("//", "/\\")) and not parts.netloc:
        return asked
    return url_for("office_jobs.home")


def _private(response: Response) -> Response:
    """Pages with names on them stay in no cache (OWASP ASVS 5.0, 14.3.2)."""
    response.headers.setdefault("Cache-Control", "no-store")
    return response


# What is uploaded, read with the form's token, so that the limit must be known before the view begins.
LARGE_FORMS = {"office_limits.take_in": 1024 * 1024, "office_backups.take_in": 16 * 1024 * 1024}


def _check_token() -> None:
    if largest := LARGE_FORMS.get(request.endpoint or ""):
        request.max_content_length = largest
    if request.method not in ("GET", "HEAD", "OPTIONS") and not request.path.startswith("/api/"):
        _csrf.protect()


def _frame() -> dict[str, Any]:
    person = session.person()
    menu = [(one, tell(title)) for one, title in MENU if person and person.role in access.rule_of(one).roles]
    return {
        "tell": tell_marked,
        "language": language(),
        "me": person,
        "menu": menu,
        "is_open": session.is_open(),
        "workshop_name": settings.read(connection(), "workshop").get("name", "Teepiece"),
    }


def _problem(problem: Problem) -> Any:
    if problem.status == 401 and request.endpoint != "door.sign_in":
        if set_up.is_needed():
            return redirect(url_for("door.first_run"))
        return redirect(url_for("door.sign_in", next=request.full_path.rstrip("?")))
    return render_template("office/problem.html", says=problem.says), problem.status


def _http(error: HTTPException) -> Any:
    name = f"problem.{error.code}"
    says = tell(name if name in TEXTS else "problem.other")
    return render_template("office/problem.html", says=says), error.code
