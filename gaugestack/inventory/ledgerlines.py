"""The lines of a ledger: a record to its line, and what a torn line looks like.

    - {format: 1, ledger of: "Bench set"}
    - {n: 1, on: 2026-02-03, event: lent, size: "0.105 in", to: "Ola", written: 2026-02-03T09:15:00}

One line a record, keys in one order, texts in double quotes: what we write is
YAML that also stands on its own line by line.

A line is torn, and not nonsense, when it is the beginning of a record that
was never finished: the number the next record carries, keys of ours in our
order, no closing brace; zero bytes may follow it (a disk that lost power).
Whatever was acknowledged ends in a brace and has used up its number, so no
acknowledged record can pass for a torn line, nor can nonsense.
"""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING

from gaugestack.inventory.events import MEASURED
from gaugestack.lengths import Unit, engraved_text, exact_text, small_text

if TYPE_CHECKING:
    from gaugestack.inventory.events import Event, Record
    from gaugestack.lengths import Length

MOST_RECORDS = 999_999
HEAD_KEYS = ("format", "ledger of")
KEYS = (
    "n", "on", "event", "size", "serial", "wear", "record", "to", "back", "job", "why", "deviation",
    "variation", "uncertainty", "trust", "source", "written",
)  # fmt: skip
_QUOTED = r'"(?:[^"\\]|\\.)*"'
_PLAIN = r'[^\s",{}\\][^",{}\\]*'
_PAIR = re.compile(rf"([a-z]+): ({_QUOTED}|{_PLAIN})(?:, |\}}$)")
_TORN = re.compile(
    rf"(?P<whole>(?:[a-z]+: (?:{_QUOTED}|{_PLAIN}), )*)"
    rf'(?P<key>[a-z]*)(?P<rest>:(?: (?:{_QUOTED},?|"(?:[^"\\]|\\.)*\\?|(?:{_PLAIN}),?)?)?)?'
)
_TORN_NAME = re.compile(r'(?:[^"\\]|\\.)*(?:\\|")?')
_BEGIN = "- {"
_HEAD_BEGIN = '- {format: 1, ledger of: "'


def head_line(name: str) -> str:
    """Return the first line of the ledger of the set `name`, with its newline."""
    return f"- {{format: 1, ledger of: {_quote(name)}}}\n"


def line_of(record: Record) -> str:
    """Return the line of a record, with its newline."""
    texts = {
        "n": str(record.n),
        **_texts(record.event),
        "written": record.written.isoformat(timespec="seconds"),
    }
    return f"- {{{', '.join(f'{key}: {texts[key]}' for key in KEYS if texts.get(key))}}}\n"


def plain_texts(line: str) -> dict[str, str] | None:
    """Return the texts of a line that seems to be written as we write it; None for any other line.

    Quick: a line with a backslash, a character that cannot be seen or a key
    twice is left to the reader that knows places.  Only where the record made
    of the texts gives this very line again were they read right.
    """
    if not line.isprintable() or "\\" in line:
        return None
    pairs = _PAIR.findall(line, len(_BEGIN))
    if f"- {{{', '.join(f'{key}: {text}' for key, text in pairs)}}}" != line:
        return None
    texts = {key: text[1:-1] if text[0] == '"' else text for key, text in pairs}
    return texts if len(texts) == len(pairs) else None


def decoded(raw: bytes) -> str | None:
    """Return a line as text, None where it is not UTF-8.

    A character cut in half at the end, which a torn line may have, reads as
    the replacement character.
    """
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        kept = raw.rstrip(b"\0")
        half = error.start >= len(kept) - 3 and _is_half(kept[error.start :])
        return f"{kept[: error.start].decode('utf-8')}\N{REPLACEMENT CHARACTER}" if half else None


def is_torn_record(line: str, number: int) -> bool:
    """Return whether a line is the unfinished beginning of the record `number`."""
    line = line.rstrip("\0")
    begin = f"{_BEGIN}n: {number},"
    if len(line) <= len(begin):
        return begin.startswith(line)
    match = _TORN.fullmatch(line, len(_BEGIN)) if line.startswith(begin) else None
    if match is None:
        return False
    whole = [key for key, _ in _PAIR.findall(match["whole"])]
    order = iter(KEYS)
    if not all(key in order for key in whole):
        return False
    return any(key == match["key"] if match["rest"] else key.startswith(match["key"]) for key in order)


def is_torn_head(line: str) -> bool:
    """Return whether a line is the unfinished beginning of the first line of a ledger."""
    line = line.rstrip("\0")
    if len(line) <= len(_HEAD_BEGIN):
        return _HEAD_BEGIN.startswith(line)
    return (
        line.startswith(_HEAD_BEGIN)
        and re.fullmatch(r'(?:[^"\\]|\\.)*\\?"?', line[len(_HEAD_BEGIN) :]) is not None
    )


def _is_half(tail: bytes) -> bool:
    """Return whether bytes are the beginning of one character of UTF-8."""
    try:
        tail.decode("utf-8")
    except UnicodeDecodeError as error:
        return error.start == 0 and error.end == len(tail) and error.reason == "unexpected end of data"
    return False


def deviation_text(deviation: Length, unit: Unit) -> str:
    """Return a signed deviation exactly: in µin or µm where its decimals end there soon, else in mm."""
    for places in range(7):
        if deviation * 10**places % unit.small_picometres == 0:
            return small_text(deviation, unit, places)
    return exact_text(deviation, Unit.MILLIMETRE)


def _texts(event: Event) -> dict[str, str]:
    """Return the values of an event as they are written; nothing for what it does not say."""
    lengths = {
        key: deviation_text(length, event.unit) if key == "deviation" else _unsigned(length, event.unit)
        for key in MEASURED
        if (length := getattr(event, key)) is not None
    }
    return {
        "on": event.on.isoformat(),
        "event": event.kind.value,
        "size": _quote(engraved_text(event.size, event.unit)),
        "wear": "true" if event.wear else "",
        "record": "" if event.record is None else str(event.record),
        "back": event.back.isoformat() if event.back else "",
        **{key: _quote(text) for key, text in lengths.items()},
        **{
            key: _quote(text)
            for key in ("serial", "to", "job", "why", "trust", "source")
            if (text := getattr(event, key))
        },
    }


def _unsigned(length: Length, unit: Unit) -> str:
    """Return a length that has no direction, without its plus sign."""
    return deviation_text(length, unit).removeprefix("+")


def _quote(text: str) -> str:
    """Return a text in double quotes, as both JSON and YAML read it."""
    return json.dumps(text, ensure_ascii=False)
