"""The screens kept in tests/golden/, and the commands that print them.

python tests/cli/golden.py        write them anew; look at the difference before you commit it
"""

import os
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.cli.shell import gaugestack

ROOT = Path(__file__).parents[2]
GOLDEN = ROOT / "tests" / "golden"
BOATYARD = str(ROOT / "demo" / "boatyard-inch.yaml")
SCREENS = {
    "stack": ["stack", "1.2345in", "--set", "inch-81"],
    "stack-two": ["stack", "0.6202", "4.1365", "--set", BOATYARD],
    "stack-tall": ["stack", "10.2002in", "--set", BOATYARD],
    "stack-wear": ["stack", "15.752mm", "--wear", "metric-wear-2", "--set", "metric-88"],
    "stack-certified": [
        "stack",
        "0.6202in",
        "--basis",
        "certified",
        "--tolerance",
        "5uin",
        "--set",
        BOATYARD,
        "--on",
        "2026-11-25",
    ],
    "stack-impossible": ["stack", "0.0503in", "--set", BOATYARD],
    "angle": ["angle", "7d7m30s", "--bar", "5in", "--set", "inch-81"],
    "angle-impossible": ["angle", "0d20m", "--bar", "5in", "--tolerance", "0", "--set", BOATYARD],
    "angle-difference": ["angle", "0d3m", "--bar", "5in", "--set", "inch-81"],
    "angle-steep": ["angle", "60deg", "--bar", "100mm", "--set", "metric-112"],
    "taper": ["taper", "3in/ft", "--bar", "5in", "--set", "inch-81"],
    "taper-bench-bar": ["taper", "3/4in/ft", "--bar", "bench bar", "--set", BOATYARD],
    "taper-plate": ["taper", "1:16", "--bar", "sine plate", "--for", "inspection", "--set", BOATYARD],
    "stack-beside": ["stack", "0.6202in", "--next", "3", "--proof-stack", "--set", "inch-81"],
    "stack-trade-offs": ["stack", "0.62025in", "--basis", "certified", "--trade-offs", "--set", BOATYARD],
    "stack-why": ["stack", "155.7525mm", "--why", "--set", "metric-112"],
    "stack-targets": ["stack", "--targets", str(ROOT / "demo" / "spacers.csv"), "--set", BOATYARD],
    "stack-not-together": ["stack", "1.0005mm", "5mm", "2.0005mm", "--set", "metric-112"],
    "angle-blocks": ["angle-blocks", "12d34m56s", "--set", "angle-16"],
    "job": ["job", str(ROOT / "demo" / "saturday-job.yaml")],
    "set-list": ["set", "list"],
    "set-show": ["set", "show", "metric-88"],
    "set-check": ["set", "check", BOATYARD, "--on", "2026-11-25"],
    "set-matters": ["set", "matters", "metric-47"],
    "set-buy": ["set", "buy", BOATYARD, "--count", "2"],
    "set-health": ["set", "health", BOATYARD, "--like", "inch-81", "--on", "2026-11-25"],
    "reach": ["reach", "0.6202in", "--set", BOATYARD],
    "reach-lost": ["reach", "0.2002in", "--set", BOATYARD],
    "reach-range": ["reach", "0.2..4in", "--most", "5", "--set", BOATYARD],
}


def screen(name):
    """Return a screen as it is printed now."""
    return gaugestack(*SCREENS[name]).out


def main():
    """Write every screen anew."""
    os.environ.pop("GAUGESTACK_SET", None)
    GOLDEN.mkdir(exist_ok=True)
    for name in SCREENS:
        (GOLDEN / f"{name}.txt").write_text(screen(name), encoding="utf-8")


if __name__ == "__main__":
    main()
