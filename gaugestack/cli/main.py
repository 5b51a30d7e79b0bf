"""The command `gaugestack`: parse, ask answers/, print, leave with an exit code.

Nothing heavy is imported before a command needs it.  Garbage collection is
off: a command lives for a fraction of a second, and collecting what ortools
imports would cost a tenth of it.
"""

from __future__ import annotations

import gc
import os
import signal
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from types import FrameType
    from typing import NoReturn


def main() -> NoReturn:
    """Run the command of this process and leave with its exit code."""
    gc.disable()
    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, _interrupted)
    if _ASKED_BY_A_SHELL in os.environ:
        from gaugestack.cli.completing import complete  # noqa: PLC0415

        sys.exit(complete())
    from gaugestack.cli.boundary import guarded  # noqa: PLC0415
    from gaugestack.cli.commands import app  # noqa: PLC0415

    code = guarded(app)
    gc.freeze()
    sys.exit(code)


def _interrupted(_number: int, frame: FrameType | None) -> None:
    """Let Ctrl-C be an interrupt; leave at once while importing, where Python may swallow it."""
    while frame is not None:
        if frame.f_code.co_filename == "<frozen importlib._bootstrap>":
            os._exit(_INTERRUPTED)
        frame = frame.f_back
    raise KeyboardInterrupt


_ASKED_BY_A_SHELL = "_GAUGESTACK_COMPLETE"
"""As completing.SHELL, which is not imported without it."""
_INTERRUPTED = 130
"""As boundary.INTERRUPTED, which is not imported yet."""
