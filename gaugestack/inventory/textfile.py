"""A file's text, or a plain sentence why it cannot be had.

    text = read_text_file(Path("bench.yaml"))

The first door of every file the user gives us: UTF-8 text of at most 1 MiB.
Does not know what the text means.
"""

from __future__ import annotations

from pathlib import Path

from gaugestack.errors import RefusedFile

LARGEST_FILE = 1 << 20
"""1 MiB: a set of a thousand pieces written one by one is a tenth of it."""
_SAVE_AS = "save it as plain UTF-8 text"


def read_text_file(path: Path | str) -> str:
    """Return the text of a file, without a byte order mark.

    Raises RefusedFile when the file is missing, no file, closed to us, too
    large, binary, not UTF-8 or empty.
    """
    return text_of_bytes(_read_bytes(path, str(path)), file=str(path))


def text_of_bytes(data: bytes, *, file: str) -> str:
    """Return the text of what was read from `file`, at most one byte more than allowed; raises likewise."""
    if len(data) > LARGEST_FILE:
        raise RefusedFile.whole(file, "the file is larger than 1 MiB", hint="is it the file that was meant?")
    if b"\0" in data:
        raise RefusedFile.whole(file, "this is a binary file (or UTF-16), not UTF-8 text", hint=_SAVE_AS)
    text = _decode(data, file)
    if not text.strip():
        raise RefusedFile.whole(file, "the file is empty")
    return text


def _read_bytes(path: Path | str, name: str) -> bytes:
    """Return the file's bytes, one more than allowed at most."""
    try:
        with Path(path).open("rb") as file:
            return file.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        raise RefusedFile.whole(name, "there is no such file") from None
    except IsADirectoryError:
        raise RefusedFile.whole(name, "this is a directory, not a file") from None
    except PermissionError:
        raise RefusedFile.whole(name, "you have no permission to read this file") from None
    except OSError as error:
        raise RefusedFile.whole(name, f"the file cannot be read: {error.strerror or error}") from None
    except ValueError:
        raise RefusedFile.whole(name, "this cannot be the name of a file") from None


def _decode(data: bytes, name: str) -> str:
    """Return the bytes as text; a refusal names the first wrong byte and its line."""
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        sentence = (
            f"not UTF-8 text: byte {error.start + 1}, in line {line}, is 0x{error.object[error.start]:02X}"
        )
        raise RefusedFile.whole(name, sentence, hint=_SAVE_AS) from None
