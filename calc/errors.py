"""The few named errors that calc raises on purpose; anything else that escapes is a fault of our own."""


class CalcError(Exception):
    """What all named errors of calc have in common."""


class _Placed(CalcError):
    """An error at a place: a JSON Pointer (RFC 6901; "" is the whole) and what is wrong there."""

    def __init__(self, pointer: str, reason: str) -> None:
        super().__init__(pointer, reason)
        self.pointer = pointer
        self.reason = reason

    def __str__(self) -> str:
        return f"{self.pointer}: {self.reason}"


class BrokenDocument(_Placed):
    """A job document that breaks the contract; `pointer` is its first broken place in document order."""


class BrokenPlace(_Placed):
    """An operation at a place that the contract does not know, or with a value that cannot stand there."""


class UnreadableLog(CalcError, ValueError):
    """A log that cannot be read, or a wish about its columns that it cannot meet; the text says why."""


class OutOfRange(CalcError, ValueError):
    """A quantity outside the range in which a formula holds; the text names it, with its unit."""
