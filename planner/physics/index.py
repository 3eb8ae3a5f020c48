"""Which module holds each formula, so that a plan imports only what its rules name.

A test compares this list with the register and prints the lines to change.
"""

WHERE: dict[str, str] = {}
