"""Styles and scripts of the bench page; htmx is vendored, its hash is checked by a test."""
