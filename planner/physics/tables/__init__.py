"""Generated data for the formulas; each file names the script that makes it."""
