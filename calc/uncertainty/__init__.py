"""Doubt of a reading, and the decision that it allows against a limit."""
