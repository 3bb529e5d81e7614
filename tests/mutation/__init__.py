"""Deliberate slips in formulas, and the test that catches each, by name."""
