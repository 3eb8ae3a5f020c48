"""Teardown readings: from a spreadsheet into the job and back, sheets to fill in, and doubts."""
