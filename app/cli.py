"""The command line: what the words after `python3 -m app` (or `grainfold`) ask for.

Loads nothing beyond the standard library until it knows what is wanted.
"""

import argparse
import os
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NoReturn

from app.setup import speech
from app.setup.speech import tr
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

EXPORT_HELP = (
    "FILE's ending says what is written: .json plan, .csv cut list, .pdf plan set,\n"
    ".svg .dxf .png drawing, .glb model, .webp turntable. With --show, .png is a picture of the\n"
    "shelves as they will be. A folder that is there takes all but pictures, named after the project.\n"
    "A wrong name after --pages lists the names there are.\n"
    "Exit code 0: written. 1: written, and the plan has errors (listed on stderr).\n"
    "2: the project cannot be used or FILE cannot be written; nothing is written."
)


class Parser(argparse.ArgumentParser):
    """An argument parser whose errors are one line, and whose help speaks the language of `speech`."""

    def error(self, message: str) -> NoReturn:
        self.exit(2, f"grainfold: {' '.join(message.split())}; see grainfold --help\n")


class Form(argparse.RawDescriptionHelpFormatter):
    """How help is set."""

    def add_usage(
        self,
        usage: str | None,
        actions: Iterable[argparse.Action],
        groups: Iterable[argparse._MutuallyExclusiveGroup],
        prefix: str | None = None,
    ) -> None:
        super().add_usage(usage, actions, groups, tr("usage: ") if prefix is None else prefix)


def _new_parser(epilog: str) -> tuple[Parser, argparse._ArgumentGroup, argparse._ArgumentGroup]:
    """The parser, with its groups of words in their places and of options."""
    parser = Parser(
        prog="grainfold", usage=USAGE, epilog=epilog, allow_abbrev=False, formatter_class=Form, add_help=False
    )
    places = parser.add_argument_group(tr("words in their places"))
    options = parser.add_argument_group(tr("options"))
    options.add_argument("-h", "--help", action="help", help=tr("say this"))
    return parser, places, options


def _window_parser() -> Parser:
    parser, places, options = _new_parser(
        tr("Without FILE a demo project is opened. For export see: grainfold export --help")
    )
    places.add_argument("file", metavar="FILE", nargs="?", type=Path, help=tr("project to open (.grainfold)"))
    options.add_argument("--language", choices=LANGUAGES, help=tr("language of the window; by default as chosen in it"))
    options.add_argument(
        "--version", action="version", version=f"grainfold {__version__}", help=tr("say which version this is")
    )
    parser.set_defaults(command="window")
    return parser


def _export_parser() -> Parser:
    parser, places, options = _new_parser(tr(EXPORT_HELP))
    places.add_argument("project", metavar="PROJECT", type=Path, help=tr("project to export (.grainfold)"))
    add = options.add_argument
    add("--to", metavar="FILE", required=True, type=Path, help=tr("file to write"))
    add("--drawing", metavar="NAME", help=tr("drawing to write, if not the sheets"))
    add("--paper", choices=PAPERS, help=tr("paper of the .pdf; by default the project's units choose"))
    add("--pages", metavar="NAMES", help=tr("pages of the .pdf by name, commas between; by default all"))
    add("--units", choices=UNITS, help=tr("units of numbers for people; by default the project's"))
    add("--language", choices=LANGUAGES, help=tr("language of what is written; by default English"))
    add("--show", metavar="WHAT", help=tr("for .png .webp .glb: wall for all shelves on it, or a shelf's name"))
    add("--finish", choices=FINISHES, help=tr("of the wood in a picture or model; by default raw"))
    add("--pixels", metavar="SIZE", help=tr("of a picture, like 1920x1080"))
    add("--clear", action="store_true", help=tr("a picture with nothing behind the shelves but their shadow"))
    parser.set_defaults(command="export")
    return parser


def parse(arguments: Sequence[str]) -> argparse.Namespace:
    """What `arguments` (without the program's name) ask for.

    `command` is "window" (with `file`) or "export" (with `project`, `to`, `drawing`, `paper`, `pages`,
    `units`, `language`, `show`, `finish`, `pixels`, `clear`). `--language` names it in the surroundings, before
    anything that has texts is loaded.
    Raises SystemExit: 0 after --help and --version, 2 after one line on stderr for a usage error.
    """
    if {"-h", "--help"} & set(arguments):
        speech.speak(arguments)
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
