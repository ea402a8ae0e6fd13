"""`python3 -m app`. Read by any Python since 3.6, so that an old one can say what is needed."""

import sys

NEEDED = (3, 11)

if __name__ == "__main__":
    if sys.version_info < NEEDED:
        sys.stderr.write(
            "Grainfold needs Python %d.%d or newer; this one is %d.%d.\n" % (NEEDED + sys.version_info[:2])
        )
        sys.exit(2)
    from app.setup.start import start_app

    sys.exit(start_app(sys.argv[1:]))
