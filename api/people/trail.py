"""Write a deed of the person who asks into the audit trail."""

from api.clock import stamp
from api.context import connection, context
from api.people import session
from api.store import audit
from api.store.people import Person
from api.words import USUAL, text

NOBODY = ("nobody", text(USUAL, "who.nobody"))


def note(did: str, about: str = "", who: Person | None = None, **values: object) -> None:
    """`did` by its name in the catalogue, kept in English; `about` names what it was done to."""
    person = who or session.person()
    doer = (person.id, person.name) if person else NOBODY
    audit.add(connection(), stamp(context().clock()), doer, text(USUAL, did, **values), about)


def note_once(did: str, about: str) -> None:
    """Likewise, where the trail does not say so of that object yet, by whomever."""
    if not audit.says(connection(), text(USUAL, did), about):
        note(did, about)
