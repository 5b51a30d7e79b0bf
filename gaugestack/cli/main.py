"""The command `gaugestack`: parse, ask answers/, print, leave with an exit code.

Nothing heavy is imported before a command needs it.  Garbage collection is
off: a command lives for a fraction of a second, and collecting what ortools
imports would cost a tenth of it.
"""

from __future__ import annotations

import gc
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from typing import NoReturn


def main() -> NoReturn:
    """Run the command of this process and leave with its exit code."""
    gc.disable()
    from gaugestack.cli.boundary import guarded  # noqa: PLC0415
    from gaugestack.cli.commands import app  # noqa: PLC0415

    code = guarded(app)
    gc.freeze()
    sys.exit(code)
