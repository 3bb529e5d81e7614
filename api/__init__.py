"""The workshop's server: it keeps what the phones send, judges it with `calc`, and draws the report.

The factory is `api.app.create_app`. Nothing is imported here, so that `python3 -m api` can start on a
machine that has no third-party package yet.
"""
