"""What a gauge can tell, what two readings share, and the decision."""

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from calc.uncertainty.decision import Limit, chances, outcome
from calc.uncertainty.gauge import Pressure, difference, read
from calc.uncertainty.propagation import few_points, propagate

DIAL: dict[str, Any] = {"id": "g1", "span_kpa": [0, 400], "class_pct": 1.6, "division_kpa": 10}
SEEDED = settings(max_examples=200, deadline=None, derandomize=True)


def test_no_gauge_is_15_kpa_and_known_as_such() -> None:
    assert 2 * read(50.0, None).uncertainty == pytest.approx(15.0)
    assert not read(50.0, None).known
    assert read(50.0, DIAL).known


def test_a_span_below_nought_counts_whole() -> None:
    """Reference: -1 to +5 bar, class 1 is 0.06 bar."""
    both = read(0.0, {**DIAL, "span_kpa": [-100, 500], "class_pct": 1.0})
    assert both.shared * math.sqrt(3) == pytest.approx(6.0)


def test_a_digital_gauge_goes_by_its_reading() -> None:
    """Reference: 1.05 bar, 0.5 % and 2 digits of 0.01 bar: u_c 0.014861 bar."""
    entry = {
        "id": "d",
        "kind": "digital",
        "accuracy_pct_reading": 0.5,
        "accuracy_counts": 2,
        "resolution_kpa": 1,
    }
    assert read(105.0, entry).uncertainty == pytest.approx(1.4861, abs=5e-4)


@pytest.mark.parametrize("entry", [
    {"id": "g", "span_kpa": [0, 400]}, {"id": "g", "class_pct": 1.6}, {"id": "d", "kind": "digital"},
])  # fmt: skip
def test_a_gauge_that_says_too_little_is_not_known(entry: dict[str, Any]) -> None:
    got = read(50.0, {**entry, "zero_kpa": 2.0})
    assert (got.value, got.known) == (48.0, False)
    assert 2 * got.uncertainty == pytest.approx(15.0)


@SEEDED
@given(st.floats(0, 400), st.floats(0, 400))
def test_differences_of_one_gauge_are_never_worse_than_of_two(first: float, second: float) -> None:
    a, b = read(first, DIAL), read(second, DIAL)
    other = read(second, {**DIAL, "id": "g2"})
    gap, same = difference(a, b)
    assert gap == pytest.approx(first - second)
    assert same <= difference(a, other)[1] == pytest.approx(math.hypot(a.uncertainty, other.uncertainty))
    if abs(gap) <= 100.0:
        assert same == pytest.approx(math.hypot(a.own, b.own)), "near each other the class cancels whole"


def test_pressures_of_no_gauge_share_nothing() -> None:
    a, b = Pressure(10.0, 0.0, 7.5), Pressure(20.0, 0.0, 7.5)
    assert difference(a, b)[1] == pytest.approx(7.5 * math.sqrt(2))


@SEEDED
@given(st.floats(-100, 100), st.floats(1e-6, 50), st.floats(-50, 50), st.floats(0.01, 80))
def test_within_and_outside_never_meet(x: float, u: float, low: float, width: float) -> None:
    limit = Limit(low, low + width)
    seen = chances(x, u, limit)
    said = outcome(x, limit, seen)
    true = float(stats.norm(x, u).cdf(limit.high) - stats.norm(x, u).cdf(limit.low))
    if said == "within":
        assert limit.contains(x)
        assert true >= 0.95 - 1e-9
    if said == "outside":
        assert not limit.contains(x)
        assert true <= 0.05 + 1e-9
    assert outcome(x, limit, seen, may_acquit=False) != "within"


def test_a_limit_narrower_than_the_doubt_can_never_be_met() -> None:
    """Reference 3.3: with T_U - T_L below 2 w no pass is possible."""
    narrow = Limit(69.0, 71.0)
    said = {outcome(x, narrow, chances(x, 4.0, narrow)) for x in range(40, 101)}
    assert said == {"undecided", "outside"}


def test_no_doubt_at_all_is_decided_by_the_ends() -> None:
    limit = Limit(high=5.0)
    assert outcome(5.0, limit, chances(5.0, 0.0, limit)) == "within"
    assert outcome(5.0001, limit, chances(5.0001, 0.0, limit)) == "outside"


def test_propagation_sees_a_bend_that_a_slope_would_miss() -> None:
    """x³ at nought: the slope is nought, the doubt is not."""
    assert propagate(lambda x: x**3, {"x": 0.0}, {"x": 1.0}) == 1.0
    assert propagate(lambda x, y: x + 2 * y, {"x": 0.0, "y": 0.0}, {"x": 3.0, "y": 2.0}) == 5.0


@pytest.mark.parametrize("freedom", [4, 6, 10, 17, 60])
def test_an_error_from_few_points_is_widened_as_student_says(freedom: int) -> None:
    """Student's quantile over the normal one, by scipy (JCGM 100, G.3)."""
    wide = stats.t.ppf(0.975, freedom) / stats.norm.ppf(0.975)
    assert few_points(freedom) == pytest.approx(wide, rel=0.02 if freedom < 6 else 0.006)
