"""Write a deed of the person who asks into the audit trail."""

from api.clock import stamp
from api.context import connection, context
from api.people import session
from api.store import audit
from api.store.people import Person

NOBODY = ("nobody", "not signed in")


def note(did: str, about: str = "", who: Person | None = None) -> None:
    """`did` in plain words, past tense; `about` names what it was done to, by its own name or id."""
    person = who or session.person()
    audit.add(
        connection(), stamp(context().clock()), (person.id, person.name) if person else NOBODY, did, about
    )
