"""From a row's inputs, in the units the source prints, to our result in the unit it prints."""

from tests.published.formulas import actuators, answers, atmosphere, engine, gauges, hoses, leaks, roads
from tests.published.formulas.registry import FORMULAS

ROOMS = (actuators, answers, atmosphere, engine, gauges, hoses, leaks, roads)
__all__ = ["FORMULAS", "ROOMS"]
