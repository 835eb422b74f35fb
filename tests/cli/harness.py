"""Runs the program on copies of an example, changed by a few letters, and looks at what a person would see."""
import os
import pathlib
import re
import shutil
import subprocess
import tempfile

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
PROGRAM = os.environ.get("SOUNDSILL", str(ROOT / "build/dev/soundsill"))
checks = 0
failures, skipped = [], []


def run(*words, before=(), **more):
    """Runs the program; `before` are words of a command that starts it."""
    return subprocess.run([*before, PROGRAM, *map(str, words)], capture_output=True, text=True, **more)


# Permissions hold for everybody but root, so they are tried as nobody; None where that cannot be.
as_nobody = None
if os.geteuid() != 0:
    as_nobody = []
elif shutil.which("setpriv"):
    as_nobody = ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups"]


def skip(words):
    """Loudly: a check that was not made is not a check that passed."""
    skipped.append(words)
    print("SKIPPED", words)


class Copy:
    """A copy of examples/ in a scratch folder."""

    def __init__(self, example="heron-lane"):
        self.scratch = tempfile.TemporaryDirectory(prefix="soundsill-test-")
        self.root = pathlib.Path(self.scratch.name)
        shutil.copytree(ROOT / "examples", self.root, dirs_exist_ok=True)
        self.folder = self.root / example
        self.case = self.folder / "case.yaml"
        self.company = self.root / "company.yaml"

    def edit(self, old, new, path=None):
        path = path or self.case
        text = path.read_text()
        assert text.count(old) == 1, f"{text.count(old)} times in the file: {old!r}"
        path.write_text(text.replace(old, new))
        return self

    def open_to_all(self):
        """Lets every user read and write the copy, and reach it."""
        self.root.chmod(0o777)
        for path in self.root.rglob("*"):
            path.chmod(0o777 if path.is_dir() else 0o666)
        return self

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.scratch.cleanup()


FIRST = re.compile(r"^(?P<file>.+?)(?::(?P<line>\d+):(?P<column>\d+))?: (?P<severity>error|warning): (?P<what>.*) \[(?P<code>[a-z-]+)\]$")


def messages(text):
    return [m.groupdict() for m in map(FIRST.match, text.splitlines()) if m]


def check(holds, words):
    """Counts a check and keeps the words of one that does not hold. Gives whether it holds."""
    global checks
    checks += 1
    if not holds:
        failures.append(words)
        print("FAIL", words)
    return holds


def finish():
    """The last line of a script, and its exit status. A script that checked nothing has failed."""
    print(f"{checks - len(failures)} passed, {len(failures)} failed" + (f", {len(skipped)} skipped" if skipped else ""))
    raise SystemExit(bool(failures) or checks == 0)
