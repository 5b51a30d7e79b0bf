import os
import re
from pathlib import Path

import pytest

from gaugestack.errors import ExitCode, RefusedFile
from gaugestack.inventory.textfile import LARGEST_FILE, read_text_file


def sentence_of(path):
    with pytest.raises(RefusedFile) as caught:
        read_text_file(path)
    (problem,) = caught.value.problems
    assert problem.place.file == str(path)
    assert caught.value.exit_code is ExitCode.REFUSED_FILE
    return problem.sentence


@pytest.mark.parametrize("data", [b"a: 1\n", b"\xef\xbb\xbfa: 1\n"])
def test_utf_8_is_read_with_and_without_a_byte_order_mark(tmp_path, data):
    path = tmp_path / "set.yaml"
    path.write_bytes(data)

    assert read_text_file(path) == "a: 1\n"


def test_a_missing_file_is_refused(tmp_path):
    assert sentence_of(tmp_path / "none.yaml") == "there is no such file"


def test_a_directory_is_refused(tmp_path):
    assert sentence_of(tmp_path) == "this is a directory, not a file"


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_closed_file_is_refused(tmp_path):
    path = tmp_path / "set.yaml"
    path.write_text("a: 1")
    path.chmod(0)

    assert sentence_of(path) == "you have no permission to read this file"


def test_a_file_the_system_keeps_from_us_is_refused(tmp_path, monkeypatch):
    def kept(*_):
        raise PermissionError

    monkeypatch.setattr(Path, "open", kept)
    assert sentence_of(tmp_path / "set.yaml") == "you have no permission to read this file"


def test_a_name_no_file_can_have_is_refused(tmp_path):
    assert sentence_of("a\0b") == "this cannot be the name of a file"
    assert sentence_of(tmp_path / ("x" * 300)).startswith("the file cannot be read: ")
    (tmp_path / "a").write_text("x")
    assert re.match("the file cannot be read", sentence_of(tmp_path / "a" / "b"))


def test_a_file_of_one_mebibyte_is_read_and_a_larger_one_refused(tmp_path):
    path = tmp_path / "set.yaml"
    path.write_bytes(b"#" * LARGEST_FILE)
    assert len(read_text_file(path)) == LARGEST_FILE

    path.write_bytes(b"#" * (LARGEST_FILE + 1))
    assert sentence_of(path) == "the file is larger than 1 MiB"


def test_utf_16_is_refused(tmp_path):
    path = tmp_path / "set.yaml"
    path.write_text("a: 1", encoding="utf-16")

    assert sentence_of(path) == "this is a binary file (or UTF-16), not UTF-8 text"


def test_the_first_byte_that_is_not_utf_8_is_named(tmp_path):
    path = tmp_path / "set.yaml"
    path.write_bytes(b"a: 1\nb: \xb5in\n")

    assert sentence_of(path) == "not UTF-8 text: byte 9, in line 2, is 0xB5"


def test_an_empty_file_is_refused(tmp_path):
    path = tmp_path / "set.yaml"
    path.write_text(" \n\n")

    assert sentence_of(path) == "the file is empty"
