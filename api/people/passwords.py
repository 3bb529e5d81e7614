"""Passwords: kept as Argon2id hashes (RFC 9106), refused where they can be guessed."""

import threading

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError
from zxcvbn import zxcvbn

from api.errors import Problem
from api.people.language import retell, tell

SHORTEST = 12
LONGEST = 128
LEAST_SCORE = 3  # zxcvbn: more than 10^8 guesses
LOOKED_AT = 72  # characters that zxcvbn weighs; more only makes a password longer
AT_ONCE = 2  # each hash takes 64 MiB, so a crowd of wrong passwords must queue
WAIT_SECONDS = 2.0

_hasher = PasswordHasher()
_turn = threading.BoundedSemaphore(AT_ONCE)
_nobody = _hasher.hash("nobody has this password")


def hashed(password: str) -> str:
    """What is kept of a password."""
    with _in_turn():
        return _hasher.hash(password)


def matches(kept: str | None, password: str) -> bool:
    """Whether the password is the one that was kept. None, nobody's, takes as long and is never right."""
    with _in_turn():
        try:
            return _hasher.verify(kept or _nobody, password) and kept is not None
        except (VerificationError, InvalidHashError):
            return False


def is_dated(kept: str) -> bool:
    """Whether the hash was made with weaker parameters than today's."""
    return _hasher.check_needs_rehash(kept)


def weakness(password: str, *known: str) -> str | None:
    """Why a password is not taken, or None. `known`: words that a guesser would try, such as names."""
    if not SHORTEST <= len(password) <= LONGEST:
        return tell("password.length", shortest=SHORTEST, longest=LONGEST)
    guessed = zxcvbn(password[:LOOKED_AT], user_inputs=["teepiece", *known])
    if guessed["score"] >= LEAST_SCORE:
        return None
    warning = guessed["feedback"]["warning"]
    return retell(warning, "guess") if warning else tell("password.guessed")


class _in_turn:  # noqa: N801  (reads as a phrase: with _in_turn())
    def __enter__(self) -> None:
        if not _turn.acquire(timeout=WAIT_SECONDS):
            raise Problem(429, "busy", tell("problem.busy"))

    def __exit__(self, *_: object) -> None:
        _turn.release()
