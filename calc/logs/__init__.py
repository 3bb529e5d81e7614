"""Logs: whatever text table an instrument wrote, to one road run. No maker's format is built in."""

from calc.logs.of_job import LogReader, log_facts, log_names, with_logs
from calc.logs.read import read_log

__all__ = ["LogReader", "log_facts", "log_names", "read_log", "with_logs"]
