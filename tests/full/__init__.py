"""Runs too long for every change: ``python3 -m tests full [--only NAME] [--small]``.

A room registers its own in a file ``full_<anything>.py`` beside its tests:

    @full_run("coverage", "the expanded interval covers the true value")
    def coverage(small: bool) -> Iterator[Row]:
        yield Row("actuator_start", "96.1 %", "at least 94.5 %", holds=True)

``small`` is what the tests of every change run. The dated table is kept in ``tests/full/results.md``.
"""
