"""How fast and how large: ``python3 -m tests.bench [--only NAME]`` prints one table, and keeps it.

Each part measures medians of one run on one machine and puts the bar beside them. What is compared with
something (pandas, numpy and scipy; a bare csv.reader; bare SQLite; the server) runs a moment apart from it.
The dated table is ``tests/bench/results.md``. Tests run every part in its small form and look at no time.
"""
