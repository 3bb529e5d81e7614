"""Formulas, one topic a file. SI inside; every pressure is absolute in pascal unless its name says gauge."""
