"""The plain-HTTP page: the authority's certificate, its fingerprint, and how a phone comes to trust it."""

from functools import partial

import segno
from flask import Flask, Response, render_template, request

from api import words
from api.serve.page import Welcome

POLICY = "default-src 'none'; style-src 'self'; img-src 'self' data:; frame-ancestors 'none'; base-uri 'none'"


def create_welcome(welcome: Welcome) -> Flask:
    """The page's own small application: it knows the certificate and nothing else of the workshop."""
    app = Flask("api.serve", static_folder="static", static_url_path="/style")

    @app.get("/")
    def page() -> str:
        code = segno.make(welcome.pairing, error="m")
        picture = code.svg_data_uri(scale=5, border=3, dark="#16213a", light="#ffffff")
        language = request.accept_languages.best_match(words.LANGUAGES) or words.USUAL
        tell = partial(words.marked, language)
        return render_template("welcome.html", welcome=welcome, picture=picture, language=language, tell=tell)

    @app.get("/authority.crt")
    def authority() -> Response:
        response = Response(welcome.der, mimetype="application/x-x509-ca-cert")
        response.headers["Content-Disposition"] = 'attachment; filename="teepiece-workshop.crt"'
        return response

    @app.after_request
    def headers(response: Response) -> Response:
        response.headers["Content-Security-Policy"] = POLICY
        response.headers["X-Content-Type-Options"] = "nosniff"
        response.headers["Cache-Control"] = "no-store"
        return response

    return app
