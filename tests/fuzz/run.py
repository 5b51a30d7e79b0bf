"""Fuzz the readers of texts, following their coverage; by hand, with the extra `fuzz` installed.

    python tests/fuzz/run.py --seconds 600 length "call-out"      these kinds; without a name, all
    python tests/fuzz/run.py --seconds 600 --corpus DIRECTORY     keep what was found to be interesting

Every kind runs in a process of its own.  A finding does not end it: each is
written once, with the text that showed it, and printed at the end.  Exit code
1 where there was one.
"""

import argparse
import contextlib
import importlib.util
import json
import subprocess
import sys
import tempfile
import traceback
from pathlib import Path
from time import monotonic

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))
LONGEST = 4096
SHOWN = 300


def main():
    """Fuzz the kinds that are named, one after the other; return the exit code."""
    parser = argparse.ArgumentParser(description="Fuzz the readers of texts.")
    parser.add_argument("kinds", nargs="*")
    parser.add_argument("--seconds", type=int, default=60)
    parser.add_argument("--corpus", type=Path)
    parser.add_argument("--inside", action="store_true", help=argparse.SUPPRESS)
    asked = parser.parse_args()
    if importlib.util.find_spec("atheris") is None:
        parser.error("atheris is not installed: pip install -e '.[test,fuzz]'")
    corpus = asked.corpus or Path(tempfile.mkdtemp(prefix="corpus-"))
    if asked.inside:
        Run(asked.kinds[0], corpus, asked.seconds).go()
    from tests.fuzz.kinds import KINDS  # noqa: PLC0415  # not before the readers are instrumented

    failed = [name for name in asked.kinds or KINDS if not fuzzed(name, corpus, asked.seconds)]
    return 1 if failed else 0


def fuzzed(name, corpus, seconds):
    """Fuzz one kind in a process of its own; return whether nothing was found."""
    command = [sys.executable, __file__, "--inside", "--seconds", str(seconds), "--corpus", corpus, name]
    done = subprocess.run(command, check=False, stdin=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
    features = [line for line in done.stderr.splitlines() if " cov: " in line][-1:]
    said = features[0].split(" corp:")[0].partition("cov: ")[2] if features else "no coverage"
    print(f"{name}: {tried(corpus, name)}, coverage {said}", flush=True)
    if done.returncode and not features:
        print(done.stderr[-2000:], flush=True)
    found = findings_of(corpus, name)
    for one in found:
        print(f"  {one['error']}\n    {one['where']}\n    {one['text'][:SHOWN]!r}", flush=True)
    return not found and done.returncode == 0


def tried(corpus, name):
    """Say how many texts were tried, as counted a second before the end."""
    path = corpus / f"{name}.count.json"
    if not path.exists():
        return "no text tried"
    count = json.loads(path.read_text(encoding="utf-8"))
    return f"{count['inputs']} texts in {count['seconds']} s"


def findings_of(corpus, name):
    """Return the findings of a kind."""
    path = corpus / f"{name}.findings.jsonl"
    return (
        [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()] if path.exists() else []
    )


class Run:
    """One kind, fuzzed in this process."""

    def __init__(self, name, corpus, seconds):
        """Import the readers instrumented, and lay out seeds and dictionary."""
        import atheris  # noqa: PLC0415  # by hand only

        self.atheris = atheris
        with atheris.instrument_imports(include=["gaugestack"]):
            from tests.fuzz.checks import MEASURED, trial  # noqa: PLC0415
            from tests.fuzz.kinds import KINDS  # noqa: PLC0415
            from tests.fuzz.seeds import WORDS, texts  # noqa: PLC0415
        self.trial, self.measured, self.kind = trial, MEASURED, KINDS[name]
        self.seconds, self.inputs, self.seen = seconds, 0, set()
        self.begun = self.told = monotonic()
        self.findings = corpus / f"{name}.findings.jsonl"
        self.count = corpus / f"{name}.count.json"
        self.folder = corpus / name
        self.folder.mkdir(parents=True, exist_ok=True)
        for number, text in enumerate(texts(name)):
            if len(text) <= LONGEST:
                (self.folder / f"seed-{number}").write_bytes(text)
        self.dictionary = corpus / "dictionary"
        self.dictionary.write_text("".join(f'"{_escaped(word)}"\n' for word in WORDS), encoding="ascii")
        self.findings.unlink(missing_ok=True)

    def go(self):
        """Fuzz until the time is up; does not return."""
        options = [
            sys.argv[0],
            f"-max_total_time={self.seconds}",
            f"-max_len={LONGEST}",
            "-timeout=60",
            "-rss_limit_mb=2048",
            "-print_final_stats=1",
            f"-dict={self.dictionary}",
            str(self.folder),
        ]
        self.atheris.Setup(options, self.one)
        self.atheris.Fuzz()

    def one(self, data):
        """Try one text; keep what goes wrong and go on."""
        self.inputs += 1
        try:
            self.trial(self.kind, data, measured=self.inputs % self.measured == 0)
        except Exception as error:  # noqa: BLE001  # whatever it is, it is a finding
            self.keep(data, error)
        if monotonic() - self.told > 1:
            self.told = monotonic()
            said = {"inputs": self.inputs, "seconds": round(self.told - self.begun)}
            self.count.write_text(json.dumps(said), encoding="utf-8")

    def keep(self, data, error):
        """Write a finding down, once for each place and kind of error."""
        frames = traceback.extract_tb(error.__traceback__)
        where = [f"{Path(frame.filename).name}:{frame.lineno} {frame.name}" for frame in frames][-4:]
        sign = (type(error).__name__, *where)
        if sign in self.seen:
            return
        self.seen.add(sign)
        said = {
            "error": f"{type(error).__name__}: {error}"[:SHOWN],
            "where": " < ".join(reversed(where)),
            "text": data.decode("utf-8", "backslashreplace"),
            "bytes": data.hex(),
        }
        with contextlib.suppress(OSError), self.findings.open("a", encoding="utf-8") as file:
            file.write(json.dumps(said, ensure_ascii=False) + "\n")


def _escaped(word):
    """Write a word as a dictionary of the fuzzer has it."""
    return "".join(f"\\x{byte:02X}" for byte in word.encode("utf-8", "surrogatepass"))


if __name__ == "__main__":
    sys.exit(main())
