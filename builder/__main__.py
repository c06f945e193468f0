"""Lets `python -m builder` do what the command `benchleaf` does."""

from builder.cli import main

if __name__ == "__main__":
    main()
