"""Phones: paired by a code, listed with their last sync, shut out when lost. The owner sees all of them."""

from typing import Any

import segno
from flask import flash, redirect, render_template, request, url_for

from api.context import connection, context
from api.errors import Problem
from api.office.pages import Answer, blueprint
from api.people import pairing, session
from api.people.access import OWNER
from api.people.language import tell
from api.store import people, phones
from api.store.people import Person
from api.store.phones import PairedPhone

office_phones = blueprint("office_phones")


@office_phones.get("/phones")
def overview() -> Answer:
    """The phones that one may see, and a button for a new one."""
    return _page()


@office_phones.post("/phones/code")
def code() -> Any:
    """A code for one phone of one person: shown once, on this page."""
    wanted = people.find(connection(), request.form.get("person", ""))
    if wanted is None or wanted.left_at or wanted not in _people():
        raise Problem(404, "no_person", tell("phones.nobody"))
    secret = pairing.new_code(wanted)
    return _page(code=secret, person=wanted, qr=_qr(f"{_origin()}{url_for('door.pair')}#{secret}"))


@office_phones.post("/phones/revoke")
def revoke() -> Any:
    """Shut a phone out."""
    phone = phones.find(connection(), request.form.get("phone", ""))
    if phone is None or phone not in _phones():
        raise Problem(404, "no_phone", tell("phones.none"))
    pairing.revoke(phone)
    flash(tell("phones.revoked", name=phone.name))
    return redirect(url_for("office_phones.overview"))


def _people() -> list[Person]:
    me = session.person()
    everyone = [person for person in people.everyone(connection()) if person.left_at is None]
    return everyone if me and me.role == OWNER else [person for person in everyone if person == me]


def _phones() -> list[PairedPhone]:
    seen = (
        {person.id for person in people.everyone(connection())} if _is_owner() else {p.id for p in _people()}
    )
    return [phone for phone in phones.every(connection()) if phone.person in seen]


def _is_owner() -> bool:
    me = session.person()
    return me is not None and me.role == OWNER


def _origin() -> str:
    address = context().address
    return address.origin if address else request.host_url.rstrip("/")


def _qr(text: str) -> str:
    """A QR code (ISO/IEC 18004) as a picture of data, which the content policy lets in."""
    return segno.make(text, error="m").svg_data_uri(scale=6, border=3, dark="#16213a", light="#ffffff")


def _page(**more: Any) -> Answer:
    names = {person.id: person.name for person in people.everyone(connection())}
    return render_template(
        "office/phones.html",
        phones=_phones(),
        people=_people(),
        names=names,
        origin=_origin(),
        welcome=context().reached.welcome,
        **more,
    )
