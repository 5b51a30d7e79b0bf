"""`python -m gaugestack` is the command `gaugestack`."""

from gaugestack.cli.main import main

if __name__ == "__main__":
    main()
