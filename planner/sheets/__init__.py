"""Sheets for people: one plan document told as text or JSON."""
