"""The bench page: a job on a local web page, for the counter and for the machine."""
