"""The server on the workshop's Wi-Fi: HTTPS for phones and office, and a plain page with the certificate."""
