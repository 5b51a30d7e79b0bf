"""The values that an option or argument can take, for the shell's Tab key.

    >>> values(param, given, "stack")       [("inch-81", ""), ..., ("", "yaml")]

An empty value with `yaml` or `any` asks for files.  What a person would have
to measure first, such as a length, is not offered.  Sets are read only for
their bars and sizes; one that is refused has none.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

from gaugestack.errors import GaugestackError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from gaugestack.angles.sine import SineBar
    from gaugestack.blocks import BlockSet

Choices = list[tuple[str, str]]

YAML: Choices = [("", "yaml")]
ANY: Choices = [("", "any")]
WORDS = {
    "--basis": "nominal certified",
    "--for": "compound inspection",
    "--order": "free fixed",
    "--form": "text text40 svg html pdf",
    "--paper": "a3 a4 a5 a6 letter",
    "--views": "plate part",
    "--seat": "flank axis bar-on-flank bar-above-axis",
    "--lies": "flank axis",
    "--scale": "per-foot half included",
    "--along": "slide carriage",
    "--kind": "bar lathe plug bore",
    "--value": "deviation actual wear",
    "--trust": "laboratory-report own-comparison unverified-sheet",
    "kind": "stack angle taper",
    "shell": "bash zsh fish",
}
"""Options and arguments whose values are a few fixed words."""
_YAML_FILES = ("--bars", "file")


def values(param: Any, given: Mapping[str, Any], command: str) -> Choices:  # noqa: ANN401  (typer's own)
    """Return what a parameter of a command can be, beside the values `given` so far."""
    for name in (*param.opts, param.name):
        if name in WORDS:
            return [(word, "") for word in WORDS[name].split()]
    if param.metavar == "FILE":
        return YAML if {*param.opts, param.name} & {*_YAML_FILES} and command != "copy" else ANY
    find = _BY_METAVAR.get((param.metavar or "").strip("[]").removesuffix("..."))
    return find(param, given, command) if find else []


def _sets(_param: object, _given: Mapping[str, Any], command: str) -> Choices:
    """Return the shipped sets that the command reads, and set files."""
    from gaugestack.inventory.shipped import shipped_angle_names, shipped_names  # noqa: PLC0415

    names = shipped_angle_names() if command == "angle-blocks" else shipped_names()
    return [*_plain(names), *YAML]


def _names(param: Any, given: Mapping[str, Any], command: str) -> Choices:  # noqa: ANN401
    """Return the values of a NAME: a taper, a shipped set, a material."""
    if command == "tapers":
        return _tapers(param, given, command)
    if command == "copy":
        return [choice for choice in _sets(param, given, command) if choice not in YAML]
    if command == "schema":
        from gaugestack.cli.schemacommand import SCHEMAS  # noqa: PLC0415

        return _plain(sorted(path.stem for path in SCHEMAS.glob("*.json")))
    if param.opts[0] not in ("--part-material", "--bar-material"):
        return []
    from gaugestack.uncertainty.materials import WORK_MATERIALS  # noqa: PLC0415

    return _plain(row.material for row in WORK_MATERIALS)


def _wear(_param: object, _given: Mapping[str, Any], _command: str) -> Choices:
    """Return where wear blocks can come from."""
    from gaugestack.inventory.shipped import shipped_names  # noqa: PLC0415

    return [*_plain(("own", *(name for name in shipped_names() if "-wear-" in name))), *YAML]


def _tapers(param: Any, given: Mapping[str, Any], _command: str) -> Choices:  # noqa: ANN401
    """Return the next word of the published tapers that begin with the words typed."""
    from gaugestack.angles.published import published_names  # noqa: PLC0415

    typed = tuple(given.get(param.name) or ())
    names = [tuple(name.split()) for name in published_names()]
    follow = [name[len(typed)] for name in names if name[: len(typed)] == typed and len(name) > len(typed)]
    return _plain(dict.fromkeys(follow))


def _card_words(param: Any, given: Mapping[str, Any], command: str) -> Choices:  # noqa: ANN401
    """Return what a set-up's card can be of: only a taper has names."""
    return _tapers(param, given, command) if given.get("kind") == "taper" else []


def _bars(_param: object, given: Mapping[str, Any], _command: str) -> Choices:
    """Return the usual bars and the ones described by the sets and the bar file given."""
    from gaugestack.angles.sine import KNOWN_BARS  # noqa: PLC0415

    described = [bar for _, bars in _chosen_sets(given) for bar in bars]
    return _plain(dict.fromkeys(bar.name for bar in (*KNOWN_BARS, *described, *_bars_of(given.get("bars")))))


def _sizes(_param: object, given: Mapping[str, Any], _command: str) -> Choices:
    """Return the sizes of the sets given, with the serial where that tells pieces apart."""
    found: dict[str, str] = {}
    for block_set, _ in _chosen_sets(given):
        issued = block_set.issued
        for block in issued:
            size = block.engraved.replace(" ", "")
            twins = sum(other.nominal == block.nominal for other in issued) > 1
            found.setdefault(f"{size}#{block.serial}" if twins and block.serial else size, "")
    return list(found.items())


def _events(_param: object, _given: Mapping[str, Any], _command: str) -> Choices:
    """Return the kinds of events."""
    from gaugestack.inventory.events import Kind  # noqa: PLC0415

    return _plain(kind.value.replace(" ", "-") for kind in Kind)


def _code(_param: object, _given: Mapping[str, Any], _command: str) -> Choices:
    """Return the files a card may stand in; its code is read off the card."""
    return ANY


def _plain(words: Iterable[str]) -> Choices:
    """Return words that explain themselves."""
    return [(word, "") for word in words]


def _chosen_sets(given: Mapping[str, Any]) -> list[tuple[BlockSet, tuple[SineBar, ...]]]:
    """Return the sets given so far, else the one the command would take, without those refused."""
    from gaugestack.inventory.setfile import load_set  # noqa: PLC0415
    from gaugestack.inventory.shipped import DEFAULT_SET, find_set  # noqa: PLC0415

    usual = os.environ.get("GAUGESTACK_SET") or (DEFAULT_SET if "sets" in given else "")
    found = []
    for name in given.get("sets") or [given.get("set_") or usual]:
        try:
            path = find_set(name)
            if path.is_file():
                found.append(load_set(path))
        except GaugestackError:
            continue
    return found


def _bars_of(file: str | None) -> tuple[SineBar, ...]:
    """Return the bars of a bar file; one that is no file or refused has none."""
    from gaugestack.inventory.barfile import load_bars  # noqa: PLC0415

    try:
        return load_bars(file) if file and os.path.isfile(file) else ()  # noqa: PTH113  (no device is read)
    except GaugestackError:
        return ()


_BY_METAVAR: dict[str, Callable[[Any, Mapping[str, Any], str], Choices]] = {
    "SET": _sets,
    "NAME": _names,
    "PAIR": _wear,
    "CALLOUT": _tapers,
    "WHAT": _card_words,
    "BAR": _bars,
    "SIZE": _sizes,
    "EVENT": _events,
    "CODE|FILE": _code,
}
