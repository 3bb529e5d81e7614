"""The table of access: which address is for whom, and the check before every request.

An address that is not in the table is for the owner alone; `tests/security` holds the table against every
address that the server has.
"""

from dataclasses import dataclass

from flask import request

from api.errors import Problem
from api.people import session
from api.people.language import tell

OWNER, TECHNICIAN, OFFICE = "owner", "technician", "office"
ROLES = (OWNER, TECHNICIAN, OFFICE)


@dataclass(frozen=True)
class Rule:
    """Who may use an address; `phone`: only from a paired phone, since it hands in work."""

    roles: frozenset[str]
    public: bool = False
    phone: bool = False


PUBLIC = Rule(frozenset(), public=True)
EVERYONE = Rule(frozenset(ROLES))
PHONES = Rule(frozenset(ROLES), phone=True)
DESK = Rule(frozenset({OWNER, OFFICE}))
OWNERS = Rule(frozenset({OWNER}))

RULES = {
    # The app's files hold no data; a phone must be able to load them before anybody has signed in.
    "phone.health": PUBLIC,
    "phone.release_script": PUBLIC,
    "phone.engine_zip": PUBLIC,
    "phone.file": PUBLIC,
    "description.openapi": PUBLIC,
    "door.style": PUBLIC,
    "door.sign_in": PUBLIC,
    "door.pair": PUBLIC,
    "door.first_run": PUBLIC,
    "door.sign_out": EVERYONE,
    "own.who": EVERYONE,
    "own.workshop": EVERYONE,
    "sync.sync": PHONES,
    "blobs.keep": PHONES,
    "blobs.fetch": EVERYONE,
    "jobs.overview": EVERYONE,
    "jobs.document": EVERYONE,
    "jobs.receipt": EVERYONE,
    "jobs.verdict": EVERYONE,
    "reports.report_pdf": EVERYONE,
    "reports.given_out": EVERYONE,
    "reports.earlier": EVERYONE,
    "history.of_car": EVERYONE,
    "deliveries.of_job": EVERYONE,
    "sync.standing": EVERYONE,
    "sync.whole_job": PHONES,
    "sync.take_in": DESK,
    "desk.overview": EVERYONE,
    "desk.job_page": EVERYONE,
    "desk.photo": EVERYONE,
    "desk.check": EVERYONE,
    "desk.style": PUBLIC,
    "office_jobs.home": EVERYONE,
    "office_jobs.search": EVERYONE,
    "office_jobs.job": EVERYONE,
    "office_own.account": EVERYONE,
    "office_own.end_session": EVERYONE,
    "office_phones.overview": EVERYONE,
    "office_phones.code": EVERYONE,
    "office_phones.revoke": EVERYONE,
    "office_gauges.register_page": EVERYONE,
    "office_gauges.gauge": EVERYONE,
    "office_gauges.retire": EVERYONE,
    "office_limits.library": EVERYONE,
    "office_limits.limit": EVERYONE,
    "office_limits.remove": DESK,
    "office_limits.export": DESK,
    "office_limits.take_in": DESK,
    "office_prices.prices": DESK,
    "office_prices.price": DESK,
    "office_prices.remove": DESK,
    "office_customers.found": DESK,
    "office_customers.export": DESK,
    "office_customers.erase": OWNERS,
    "office_people.overview": OWNERS,
    "office_people.person": OWNERS,
    "office_people.end_session": OWNERS,
    "office_mail.mail": OWNERS,
    "office_mail.test": OWNERS,
    "office_mail.letters": DESK,
    "office_mail.bounced": DESK,
    "office_backups.overview": DESK,
    "office_backups.make": DESK,
    "office_backups.take_in": DESK,
    "office_workshop.workshop": OWNERS,
    "office_judging.show": OWNERS,
    "office_trail.trail": OWNERS,
}


def rule_of(endpoint: str) -> Rule:
    """The rule of an address; what nobody has thought of is the owner's."""
    return RULES.get(endpoint, OWNERS)


def may(endpoint: str) -> bool:
    """Whether the person who asks may use that address too."""
    person = session.person()
    return person is not None and person.role in rule_of(endpoint).roles


def check() -> None:
    """Refuse whoever may not use the address that is asked for."""
    if request.endpoint is None:
        return
    rule = rule_of(request.endpoint)
    if rule.public:
        return
    person = session.person()
    if person is None:
        raise Problem(401, "sign_in", tell("problem.sign_in"))
    if person.role not in rule.roles:
        raise Problem(403, "not_for_you", tell("problem.not_for_you"))
    if rule.phone and session.phone() is None:
        raise Problem(403, "not_paired", tell("problem.not_paired"))
