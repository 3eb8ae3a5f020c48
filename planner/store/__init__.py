"""Where jobs are kept: revisions that are only ever added to."""
