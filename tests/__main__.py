"""`python3 -m tests`. Read by any Python since 3.6, so that an old one can say what is needed."""

import sys

NEEDED = (3, 11)

if __name__ == "__main__":
    if sys.version_info < NEEDED:
        sys.stderr.write(
            "Grainfold needs Python %d.%d or newer; this one is %d.%d.\n" % (NEEDED + sys.version_info[:2])
        )
        sys.exit(2)
    from tests.runner.start import start_tests

    sys.exit(start_tests(sys.argv[1:]))
