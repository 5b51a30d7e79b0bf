"""The command in this process: what it prints on both streams and how it ends."""

import contextlib
import io
import json
import sys
from dataclasses import dataclass
from unittest import mock

from gaugestack.cli.boundary import guarded
from gaugestack.cli.commands import app


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """How a command ended."""

    code: int
    out: str
    err: str

    @property
    def json(self):
        """Return stdout as JSON."""
        return json.loads(self.out)


class _Terminal(io.StringIO):
    """A stream that says it speaks UTF-8, as StringIO does not."""

    encoding = "utf-8"


def gaugestack(*arguments):
    """Run the command as the program does, without a new process."""
    out, err = _Terminal(), _Terminal()
    with (
        mock.patch.object(sys, "argv", ["gaugestack", *map(str, arguments)]),
        contextlib.redirect_stdout(out),
        contextlib.redirect_stderr(err),
    ):
        code = guarded(app)
    return Done(code=code, out=out.getvalue(), err=err.getvalue())
