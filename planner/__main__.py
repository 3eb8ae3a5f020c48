"""Run the command line with `python -m planner`."""

from planner.faces.cli import main

if __name__ == "__main__":
    main()
