"""The office: server-rendered pages for a wide screen, and the doors that people come in by."""

from api.office.backups import office_backups
from api.office.customers import office_customers
from api.office.door import door
from api.office.gauges import office_gauges
from api.office.jobs import office_jobs
from api.office.judging import office_judging
from api.office.limits import office_limits
from api.office.mail import office_mail
from api.office.own import office_own
from api.office.people import office_people
from api.office.phones import office_phones
from api.office.prices import office_prices
from api.office.trail import office_trail
from api.office.workshop import office_workshop

BLUEPRINTS = (
    door,
    office_jobs,
    office_gauges,
    office_limits,
    office_prices,
    office_phones,
    office_people,
    office_mail,
    office_backups,
    office_workshop,
    office_judging,
    office_customers,
    office_trail,
    office_own,
)
