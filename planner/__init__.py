"""Plan the build of a worn turbo car engine, with the reason for every figure."""

__version__ = "0.1.0"
