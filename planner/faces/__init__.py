"""What people use: the command line, and later the web."""
