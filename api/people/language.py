"""Which language a page speaks: the person's own, else the workshop's, else what the browser asks for."""

from flask import g, has_request_context, request
from markupsafe import Markup

from api import words
from api.context import connection
from api.people import session
from api.store import settings

OF_PEOPLE = "languages"  # the settings that hold each person's own, by their id


def language() -> str:
    """The language of this request; English outside of one."""
    if not has_request_context():
        return words.USUAL
    if "language" not in g:
        g.language = _chosen()
    found: str = g.language
    return found


def of_person(person: str) -> str:
    """The language that the person chose, or empty."""
    return _known(settings.read(connection(), OF_PEOPLE).get(person))


def of_workshop() -> str:
    """The workshop's language, or empty before one was chosen."""
    return _known(settings.read(connection(), "workshop").get("language"))


def asked_for() -> str:
    """The best of our languages by what the browser accepts."""
    return request.accept_languages.best_match(words.LANGUAGES) or words.USUAL


def choose(person: str, chosen: str) -> None:
    """Keep a person's own language; empty for the workshop's."""
    kept = settings.read(connection(), OF_PEOPLE) | {person: chosen}
    settings.write(connection(), OF_PEOPLE, {one: word for one, word in kept.items() if word})
    g.pop("language", None)


def tell(name: str, /, **values: object) -> str:
    """The text of that name in this request's language."""
    return words.text(language(), name, **values)


def tell_marked(name: str, /, **values: object) -> Markup:
    """The same for a page: escaped."""
    return words.marked(language(), name, **values)


def retell(kept: str, *rooms: str) -> str:
    """A sentence that was kept in English, in this request's language."""
    return words.retold(language(), kept, *rooms)


class Later:
    """A text that is looked up when it is shown: a form's words are written down before anybody asks."""

    def __init__(self, name: str, /, **values: object) -> None:
        self.name, self.values = name, values

    def __str__(self) -> str:
        return tell(self.name, **self.values)

    def __mod__(self, values: object) -> str:
        """As WTForms fills the message of a rule."""
        return str(self) % values


def _chosen() -> str:
    person = session.person()
    return (of_person(person.id) if person else "") or of_workshop() or asked_for()


def _known(chosen: object) -> str:
    return chosen if isinstance(chosen, str) and chosen in words.LANGUAGES else ""
