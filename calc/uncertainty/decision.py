"""Is the true value inside the limit? The decision rule of every check.

[JCGM106] JCGM 106:2012, The role of measurement uncertainty in conformity assessment, clause 7.
[ISO14253] ISO 14253-1:2017, decision rules for verifying conformity or nonconformity (95 %).
Clause numbers from memory.
"""

from dataclasses import dataclass
from math import erfc, sqrt

CONFIDENCE = 0.95


@dataclass(frozen=True, slots=True)
class Limit:
    """A permitted range, either end open. Same unit and sign as the value it judges."""

    low: float | None = None
    high: float | None = None

    @property
    def middle(self) -> float | None:
        """Half way between both ends, or None where one end is open."""
        if self.low is None or self.high is None:
            return None
        return (self.low + self.high) / 2.0

    def contains(self, value: float) -> bool:
        """Whether the value lies inside, the ends included."""
        return (self.low is None or value >= self.low) and (self.high is None or value <= self.high)

    def nearest_end(self, value: float) -> float | None:
        """The end of the range that lies nearest to the value."""
        ends = [end for end in (self.low, self.high) if end is not None]
        return min(ends, key=lambda end: abs(end - value)) if ends else None


@dataclass(frozen=True, slots=True)
class Chances:
    """Probabilities that the true value lies below, inside and above the limit. They sum to 1."""

    low: float
    inside: float
    high: float


def normal_cdf(z: float) -> float:
    """Φ(z) of the standard normal distribution."""
    return 0.5 * erfc(-z / sqrt(2.0))


def chances(value: float, standard_uncertainty: float, limit: Limit) -> Chances:
    """Probabilities of the true value below, inside and above a limit, with no prior knowledge.

    P(inside) = Φ((T_high − x) / u) − Φ((T_low − x) / u)

    Parameters
    ----------
    value : float
        The reading x. [any unit]
    standard_uncertainty : float
        Its standard uncertainty u, 0 or more. [same unit]
    limit : Limit
        The permitted range. [same unit]

    Returns
    -------
    Chances

    Examples
    --------
    A limit of 0.65 to 0.80 bar, 0.70 bar read with u = 0.02 bar:

    >>> round(chances(0.70, 0.02, Limit(0.65, 0.80)).inside, 6)
    0.99379

    References
    ----------
    [JCGM106], clause 7.
    """
    below = 0.0 if limit.low is None else _share_below(value, standard_uncertainty, limit.low)
    above = 0.0 if limit.high is None else _share_below(-value, standard_uncertainty, -limit.high)
    return Chances(below, max(0.0, 1.0 - below - above), above)


def _share_below(value: float, standard_uncertainty: float, end: float) -> float:
    if standard_uncertainty <= 0.0:
        return 1.0 if value < end else 0.0
    return normal_cdf((end - value) / standard_uncertainty)


def outcome(value: float, limit: Limit, seen: Chances, *, may_acquit: bool = True) -> str:
    """`within`, `outside` or `undecided` at 95 % confidence.

    Parameters
    ----------
    value : float
        The reading. [any unit]
    limit : Limit
        The permitted range. [same unit]
    seen : Chances
        What `chances` gave for this reading.
    may_acquit : bool
        False for a reading whose doubt is only assumed: it may accuse, never clear. [-]

    References
    ----------
    [JCGM106], [ISO14253].
    """
    inside = limit.contains(value)
    if inside and may_acquit and seen.inside >= CONFIDENCE:
        return "within"
    if not inside and seen.inside <= 1.0 - CONFIDENCE:
        return "outside"
    return "undecided"
