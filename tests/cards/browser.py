"""Headless Chromium for the tests of pages: print to PDF, or measure in the page with a script.

Where it is not installed the tests are skipped, but not in continuous
integration (GAUGESTACK_CI set): there a missing browser is a failure.
"""

import json
import os
import re
import shutil
import subprocess
import tempfile
from html import unescape
from pathlib import Path

import pytest

PROGRAM = shutil.which("chromium") or ""
QUIET = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
_MEASURED = '<pre id="measured"></pre>'


def needed():
    """Skip without a browser, or fail where it must be there."""
    if PROGRAM:
        return
    if os.environ.get("GAUGESTACK_CI"):
        pytest.fail("chromium is not installed: apt-get install chromium")
    pytest.skip("chromium is not installed (apt-get install chromium)")


def _run(*arguments):
    with tempfile.TemporaryDirectory() as profile:
        command = [PROGRAM, *QUIET, f"--user-data-dir={profile}", *arguments]
        return subprocess.run(command, capture_output=True, text=True, check=True, timeout=120).stdout


def printed(page, directory):
    """Return the PDF the browser prints of a page."""
    source, target = Path(directory) / "page.html", Path(directory) / "page.pdf"
    source.write_text(page, encoding="utf-8")
    _run("--no-pdf-header-footer", f"--print-to-pdf={target}", source.as_uri())
    return target.read_bytes()


def measured(page, script, directory, *, wide=1000):
    """Return what the body of a script, run in the page, returns."""
    source = Path(directory) / "measured.html"
    code = f"document.getElementById('measured').textContent = JSON.stringify((() => {{{script}}})());"
    tail = f"{_MEASURED}<script>{code}</script></body>"
    source.write_text(page.replace("</body>", tail), encoding="utf-8")
    shown = _run(f"--window-size={wide},1400", "--virtual-time-budget=2000", "--dump-dom", source.as_uri())
    found = re.search(r'<pre id="measured">(.*?)</pre>', shown, re.DOTALL)
    return json.loads(unescape(found[1]))
