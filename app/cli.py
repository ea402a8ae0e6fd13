"""The command line: what the words after `python3 -m app` (or `grainfold`) ask for.

Loads nothing beyond the standard library until it knows what is wanted.
"""

import argparse
import os
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn

from core import LANGUAGE, LANGUAGES, __version__

PAPERS = ("letter", "a4", "tabloid", "a3")
UNITS = {"inch": "in", "mm": "mm"}
FINISHES = ("raw", "oiled")

USAGE = """grainfold [FILE] [--language en|de]
       grainfold export PROJECT --to FILE [--drawing NAME]
                 [--pages NAME,NAME] [--paper letter|a4|tabloid|a3] [--units inch|mm]
                 [--language en|de]
                 [--show wall|SHELF] [--finish raw|oiled] [--pixels WIDTHxHEIGHT] [--clear]
       grainfold --help | --version"""

EXPORT_HELP = """FILE's ending says what is written: .json plan, .csv cut list, .pdf plan set,
.svg .dxf .png drawing, .glb model, .webp turntable. With --show, .png is a picture of the
shelves as they will be. A folder that is there takes all but pictures, named after the project.
A wrong name after --pages lists the names there are.
Exit code 0: written. 1: written, and the plan has errors (listed on stderr).
2: the project cannot be used or FILE cannot be written; nothing is written."""


class Parser(argparse.ArgumentParser):
    """An argument parser whose errors are one line."""

    def error(self, message: str) -> NoReturn:
        self.exit(2, f"grainfold: {' '.join(message.split())}; see grainfold --help\n")


def _new_parser(epilog: str) -> Parser:
    return Parser(
        prog="grainfold",
        usage=USAGE,
        epilog=epilog,
        allow_abbrev=False,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )


def _window_parser() -> Parser:
    parser = _new_parser("Without FILE a demo project is opened. For export see: grainfold export --help")
    parser.add_argument("file", metavar="FILE", nargs="?", type=Path, help="project to open (.grainfold)")
    parser.add_argument("--language", choices=LANGUAGES, help="language of the window; by default as chosen in it")
    parser.add_argument("--version", action="version", version=f"grainfold {__version__}")
    parser.set_defaults(command="window")
    return parser


def _export_parser() -> Parser:
    parser = _new_parser(EXPORT_HELP)
    parser.add_argument("project", metavar="PROJECT", type=Path, help="project to export (.grainfold)")
    parser.add_argument("--to", metavar="FILE", required=True, type=Path, help="file to write")
    parser.add_argument("--drawing", metavar="NAME", help="drawing to write, if not the sheets")
    parser.add_argument("--paper", choices=PAPERS, help="paper of the .pdf; by default the project's units choose")
    parser.add_argument("--pages", metavar="NAMES", help="pages of the .pdf by name, commas between; by default all")
    parser.add_argument("--units", choices=UNITS, help="units of numbers for people; by default the project's")
    parser.add_argument("--language", choices=LANGUAGES, help="language of what is written; by default English")
    parser.add_argument(
        "--show", metavar="WHAT", help="for .png .webp .glb: wall for all shelves on it, or a shelf's name"
    )
    parser.add_argument("--finish", choices=FINISHES, help="of the wood in a picture or model; by default raw")
    parser.add_argument("--pixels", metavar="SIZE", help="of a picture, like 1920x1080")
    parser.add_argument(
        "--clear", action="store_true", help="a picture with nothing behind the shelves but their shadow"
    )
    parser.set_defaults(command="export")
    return parser


def parse(arguments: Sequence[str]) -> argparse.Namespace:
    """What `arguments` (without the program's name) ask for.

    `command` is "window" (with `file`) or "export" (with `project`, `to`, `drawing`, `paper`, `pages`,
    `units`, `language`, `show`, `finish`, `pixels`, `clear`). `--language` names it in the surroundings, before
    anything that has texts is loaded.
    Raises SystemExit: 0 after --help and --version, 2 after one line on stderr for a usage error.
    """
    if arguments and arguments[0] == "export":
        return _export_parser().parse_args(arguments[1:])
    return _window_parser().parse_args(arguments)


def main(arguments: Sequence[str] | None = None) -> int:
    """Do what `arguments` (by default the process's own) ask for; returns the exit code."""
    if arguments is None:
        import sys

        arguments = sys.argv[1:]
    asked = parse(arguments)
    if asked.language:
        os.environ[LANGUAGE] = asked.language
    if asked.command == "export":
        from app import export_command

        wish = export_command.Wish(
            asked.drawing, asked.paper, asked.pages, asked.units, asked.show, asked.finish, asked.pixels, asked.clear
        )
        return export_command.run_wish(asked.project, asked.to, wish)
    from app import window

    return window.run(asked.file)
