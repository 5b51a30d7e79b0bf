"""The screens of `budget` kept in tests/golden/budget/, and the commands that print them.

python tests/cli/budgetscreens.py        write them anew; look at the difference before you commit it
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.cli.shell import gaugestack

ROOT = Path(__file__).parents[2]
GOLDEN = ROOT / "tests" / "golden" / "budget"
BOATYARD = ["--set", str(ROOT / "demo" / "boatyard-inch.yaml"), "--on", "2026-11-25"]
SCREENS = {
    "stack": ["stack", "0.6202in"],
    "stack-corrected": [
        "stack", "2in", "--temperature", "75F", "--part-material", "aluminium",
        "--correct-temperature", "--drawing-tolerance", "100uin",
    ],
    "stack-least": ["stack", "1.2345in", "--least-uncertainty"],
    "stack-not-within": ["stack", "0.6202in", "--within-uncertainty", "12uin"],
    "angle": ["angle", "30deg", "--bar", "5in", "--drawing-tolerance", "10s"],
    "angle-hand-warm": ["angle", "30deg", "--bar", "bench bar", "--blocks-above", "5K", "--every"],
}  # fmt: skip


def screen(name):
    """Return a screen as it is printed now."""
    return gaugestack("budget", *SCREENS[name], *BOATYARD).out


def main():
    """Write every screen anew."""
    for name in SCREENS:
        (GOLDEN / f"{name}.txt").write_text(screen(name), encoding="utf-8")


if __name__ == "__main__":
    main()
