"""Logs: whatever text table an instrument wrote, to one road run. No maker's format is built in."""

from calc.logs.read import read_log

__all__ = ["read_log"]
