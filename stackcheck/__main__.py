"""`python -m stackcheck`, and what the installed command runs."""

import gc

# One answer and out: looking for garbage while the modules load costs more than the garbage.
gc.set_threshold(100_000)

from stackcheck.cli import run

if __name__ == "__main__":
    run()
