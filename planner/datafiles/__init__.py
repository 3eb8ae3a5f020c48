"""Read YAML with the file, line and column of every value kept."""
