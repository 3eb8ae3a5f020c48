"""Templates of the bench page."""
