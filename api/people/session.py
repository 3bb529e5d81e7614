"""The person behind a request: two cookies, of which the database keeps only hashes.

One names the session; it sits inside Flask's signed cookie, beside the token for forms. The other names a
paired phone and outlives the sessions: after six weeks away the person signs in again, and the phone is
still paired.
"""

import sqlite3
import uuid
from datetime import datetime, timedelta
from http import HTTPStatus
from typing import Any

import flask
from flask import Flask, Response, g, request
from flask.sessions import SecureCookieSessionInterface

from api.clock import moment, stamp
from api.context import connection, context
from api.people.tokens import digest, token
from api.store import people, phones, sessions
from api.store.people import Person
from api.store.phones import PairedPhone
from api.store.sessions import Session

DESK_IDLE, DESK_LONGEST = timedelta(hours=12), timedelta(days=7)
PHONE_IDLE, PHONE_LONGEST = timedelta(days=30), timedelta(days=90)
SEEN_EVERY = timedelta(minutes=1)
PHONE_COOKIE_LASTS = timedelta(days=400)  # the longest that browsers keep one (RFC 6265bis, 5.5)
LONGEST_BROWSER_NAME = 200

# Whoever sits at the machine, as long as it serves loopback alone and no account was opened.
AT_THE_MACHINE = Person("at-the-machine", "at this machine", "owner", "", "", None)


class _Cookies(SecureCookieSessionInterface):
    """Flask's own, its signing key derived once and not at every request."""

    def __init__(self) -> None:
        self._made: dict[str, Any] = {}

    def get_signing_serializer(self, app: Flask) -> Any:
        key = str(app.secret_key)
        if key not in self._made:
            self._made = {key: super().get_signing_serializer(app)}
        return self._made[key]


def register(app: Flask) -> None:
    """Flask's own cookie by the rules for ours (OWASP ASVS 5.0: 3.3.1 to 3.3.4)."""
    app.session_interface = _Cookies()
    app.config |= {
        "SESSION_COOKIE_NAME": _cookie_name(app, "teepiece"),
        "SESSION_COOKIE_SECURE": _is_secure(app),
        "SESSION_COOKIE_HTTPONLY": True,
        "SESSION_COOKIE_SAMESITE": "Strict",
        "SESSION_COOKIE_PATH": "/",
        "PERMANENT_SESSION_LIFETIME": PHONE_LONGEST,
        # A cookie that every answer set again could bring an old session back over a new one.
        "SESSION_REFRESH_EACH_REQUEST": False,
    }
    app.after_request(_note_sync)


def is_open() -> bool:
    """Whether there is no sign-in: on loopback, before the first account."""
    if "is_open" not in g:
        g.is_open = context().address is None and people.is_empty(connection())
    return bool(g.is_open)


def person() -> Person | None:
    """Who asks, or None."""
    if is_open():
        return AT_THE_MACHINE
    found = current()
    who = people.find(connection(), found.person) if found else None
    return who if who and who.left_at is None else None


def phone() -> PairedPhone | None:
    """The paired phone that asks, or None; without sign-in every browser counts as one."""
    if is_open():
        return PairedPhone("at-the-machine", "", "", "", "", None, None)
    if "phone" not in g:
        sent = request.cookies.get(_cookie_name(flask.current_app, "teepiece-phone"))
        found = phones.by_token(connection(), digest(sent)) if sent else None
        g.phone = found if found and found.revoked_at is None else None
    paired: PairedPhone | None = g.phone
    return paired


def current() -> Session | None:
    """The session of this request, if it is still good."""
    if "session" not in g:
        g.session = _current(connection(), context().clock())
    found: Session | None = g.session
    return found


def begin(who: Person, from_phone: PairedPhone | None) -> None:
    """Sign a person in with a new token; what the browser held before is forgotten."""
    end_current()
    now, secret = context().clock(), token()
    sessions.add(
        connection(),
        Session(
            id=str(uuid.uuid4()),
            token_sha256=digest(secret),
            person=who.id,
            phone=from_phone.id if from_phone else None,
            began_at=stamp(now),
            seen_at=stamp(now),
            browser=request.headers.get("User-Agent", "")[:LONGEST_BROWSER_NAME],
        ),
    )
    flask.session["token"] = secret
    flask.session.permanent = True
    g.pop("session", None)
    g.pop("is_open", None)


def end_current() -> None:
    """Sign out here."""
    found = current()
    if found:
        sessions.end(connection(), found.id, found.person)
    flask.session.clear()
    g.session = None


def remember_phone(response: Response, secret: str) -> None:
    """Give a phone the cookie that it stays paired by."""
    app = flask.current_app
    response.set_cookie(
        _cookie_name(app, "teepiece-phone"),
        secret,
        max_age=PHONE_COOKIE_LASTS,
        path="/",
        secure=_is_secure(app),
        httponly=True,
        samesite="Strict",
    )


def is_good(session: Session, now: datetime) -> bool:
    """Whether a session has neither been idle nor lasted too long."""
    idle, longest = (PHONE_IDLE, PHONE_LONGEST) if session.phone else (DESK_IDLE, DESK_LONGEST)
    return now - moment(session.seen_at) < idle and now - moment(session.began_at) < longest


def _note_sync(response: Response) -> Response:
    paired = g.get("phone")
    if paired is not None and request.endpoint == "sync.sync" and response.status_code == HTTPStatus.OK:
        phones.synced(connection(), paired.id, stamp(context().clock()))
    return response


def _current(store: sqlite3.Connection, now: datetime) -> Session | None:
    secret = flask.session.get("token")
    found = sessions.by_token(store, digest(secret)) if isinstance(secret, str) else None
    if found is None:
        return None
    if not is_good(found, now):
        sessions.end(store, found.id, found.person)
        return None
    if now - moment(found.seen_at) >= SEEN_EVERY:
        sessions.see(store, found.id, stamp(now))
    return found


def _is_secure(app: Flask) -> bool:
    return app.extensions["teepiece"].address is not None


def _cookie_name(app: Flask, name: str) -> str:
    """The prefix ties a cookie to this one origin, and needs HTTPS (RFC 6265bis, 4.1.3.2)."""
    return f"__Host-{name}" if _is_secure(app) else name
