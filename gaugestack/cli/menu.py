"""A group that imports and builds a command only when it is named.

    app = typer.Typer(cls=menu({"stack": Page("maincommands"), "set": Page("setcommands", SET)}))

A command line names one command, and building the options of all the others
takes as long as a short answer does.  Help and suggestions still see every name.

Values of a command line are texts as they stand.  Some versions of typer hand
each of them, even one that was not given, to a validator whose import takes
longer than most answers; here only what must be converted goes there.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from importlib import import_module
from typing import TYPE_CHECKING, Any

import typer
from typer.core import TyperCommand, TyperGroup
from typer.main import get_command, get_command_name, get_group

if TYPE_CHECKING:
    from collections.abc import Callable

LONGEST_SUMMARY = 300
_TEXTS = (str, list[str], tuple[str, str])
_COUNT = re.compile("[0-9]{1,9}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """A group of commands: what it is for, and the module of cli/ that holds each command."""

    help: str
    pages: Mapping[str, str]


Page = str | Group
"""The module of cli/ whose `app` holds the command, or a group."""


class _Plain(TyperCommand):
    """A command whose texts are taken as typed."""

    def get_params(self, ctx: Any) -> list[Any]:  # noqa: ANN401  (typer's own, under a name that changes)
        """Return the parameters, none of which converts a text."""
        return [_called_plainly(_taken_as_typed(param)) for param in super().get_params(ctx)]

    def get_help_option(self, ctx: Any) -> Any:  # noqa: ANN401  (typer's own)
        """Return the option that shows the help."""
        return _shown_as_an_answer(super().get_help_option(ctx))

    def get_short_help_str(self, limit: int = LONGEST_SUMMARY) -> str:  # noqa: ARG002  (the menu wraps it)
        """Return the first sentence of the help, whole."""
        return str(super().get_short_help_str(LONGEST_SUMMARY))

    def format_epilog(self, ctx: Any, formatter: Any) -> None:  # noqa: ANN401, ARG002  (typer's own)
        """Write the example in lines that can be copied as they stand."""
        if self.epilog:
            formatter.write_paragraph()
            formatter.write("".join(f"{line}\n" for line in _copyable(self.epilog, formatter.width)))


class _Menu(TyperGroup):
    """A group whose commands are built when they are asked for."""

    pages: Mapping[str, Page]

    def __init__(self, **attributes: Any) -> None:  # noqa: ANN401  (passed on to typer as they are)
        """Hold every name, and no command yet."""
        super().__init__(**attributes)
        self.commands: Any = _Shelf(self.pages)

    def list_commands(self, ctx: Any) -> list[str]:  # noqa: ANN401, ARG002  (typer's own)
        """Return the names in the order of the pages."""
        return list(self.pages)

    def get_params(self, ctx: Any) -> list[Any]:  # noqa: ANN401  (typer's own)
        """Return the parameters, none of which converts a text."""
        return [_taken_as_typed(param) for param in super().get_params(ctx)]

    def get_help_option(self, ctx: Any) -> Any:  # noqa: ANN401  (typer's own)
        """Return the option that shows the help."""
        return _shown_as_an_answer(super().get_help_option(ctx))


class _Shelf(Mapping[str, Any]):
    """Commands by name; each is imported and built when it is first taken."""

    def __init__(self, pages: Mapping[str, Page]) -> None:
        """Remember where each command is."""
        self._pages = pages
        self._built: dict[str, Any] = {}

    def __getitem__(self, name: str) -> Any:  # noqa: ANN401  (a command of typer's)
        """Return a command.  Raises KeyError."""
        if name not in self._built:
            page = self._pages[name]
            self._built[name] = _group(name, page) if isinstance(page, Group) else _command(name, page)
        return self._built[name]

    def __iter__(self) -> Iterator[str]:
        """Yield the names."""
        return iter(self._pages)

    def __len__(self) -> int:
        """Return how many commands there are."""
        return len(self._pages)


def menu(pages: Mapping[str, Page]) -> type[TyperGroup]:
    """Return the class of a group with these commands."""
    return type("Menu", (_Menu,), {"pages": pages})


def _group(name: str, group: Group) -> Any:  # noqa: ANN401  (a group of typer's)
    """Return a group, none of its commands built."""
    app = typer.Typer(
        name=name, cls=menu(group.pages), no_args_is_help=True, rich_markup_mode=None, help=group.help
    )
    return get_group(app)


def _command(name: str, module: str) -> Any:  # noqa: ANN401  (a command of typer's)
    """Return the command of a name in a module of cli/, alone.  Raises KeyError where it is not there."""
    held = import_module(f"gaugestack.cli.{module}").app.registered_commands
    infos = {info.name or get_command_name(info.callback.__name__): info for info in held}
    alone = typer.Typer(add_completion=False, rich_markup_mode=None, pretty_exceptions_enable=False)
    alone.command(name, cls=_Plain, epilog=infos[name].epilog)(infos[name].callback)
    return get_command(alone)


def _shown_as_an_answer(option: Any) -> Any:  # noqa: ANN401  (an option of typer's)
    """Return the option of the help, which ends as answers do where stdout is full or its reader gone."""
    if option:
        option.callback = _show_help
    return option


def _show_help(ctx: Any, _option: Any, value: Any) -> None:  # noqa: ANN401  (typer's own)
    """Print the help and leave, where it is asked for."""
    if value and not ctx.resilient_parsing:
        from gaugestack.cli.terminal import emit  # noqa: PLC0415

        emit(f"{ctx.get_help()}\n")
        ctx.exit()


def _copyable(example: str, width: int) -> Iterator[str]:
    """Yield an example in lines of at most `width`, broken before an option and nowhere else."""
    line = " "
    for part in re.split(" (?=--)", example):
        if len(line) + len(part) + 3 > width and line.strip():
            yield f"{line} \\"
            line = "     "
        line += f" {part}"
    yield line


def _called_plainly(param: Any) -> Any:  # noqa: ANN401  (a parameter of typer's)
    """Return the parameter; an argument is called by its name alone, whatever kind of value it takes."""
    if param.param_type_name == "argument" and param.metavar:
        name = param.metavar.strip("[]").removesuffix("...") + ("..." if param.nargs != 1 else "")
        param.get_usage_pieces = lambda _: [name if param.required else f"[{name}]"]
        param.display_type_rich = lambda **_: ""
    return param


def _taken_as_typed(param: Any) -> Any:  # noqa: ANN401  (a parameter of typer's)
    """Return the parameter, which from now on converts only what is no text, no flag and no default."""
    descriptor = getattr(param, "type_descriptor", None)  # only those versions of typer have a validator
    if descriptor and "process_value" not in vars(param):
        param.process_value = partial(_processed, param, param.process_value, descriptor.annotation)
    return param


def _processed(
    param: Any,  # noqa: ANN401  (a parameter of typer's)
    convert: Callable[[Any, Any], Any],
    kind: object,
    ctx: Any,  # noqa: ANN401  (a context of typer's)
    value: Any,  # noqa: ANN401  (what the parser found)
) -> Any:  # noqa: ANN401
    """Return the value a command gets: texts and plain counts are ready, anything else goes to `convert`."""
    if kind is int and isinstance(value, str) and _COUNT.fullmatch(value):
        value, ready = int(value), True
    else:
        ready = value is None or value is param.default or (kind in _TEXTS and bool(value))
    missing = param.required and value is None and not ctx.resilient_parsing
    if missing or not ready:
        return convert(ctx, value)
    return value if param.callback is None else param.callback(ctx, param, value)
