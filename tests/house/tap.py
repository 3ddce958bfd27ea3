# SPDX-License-Identifier: GPL-3.0-or-later
"""The little of TAP that the tests of the source tree need."""
import os
import subprocess
import sys


class Tap:
    """Collects results; prints them; gives the exit status."""

    def __init__(self):
        self.count = self.failed = 0

    def check(self, name, faults):
        """One test: passes when the list of faults is empty."""
        self.count += 1
        faults = list(faults)
        print(f"{'not ok' if faults else 'ok'} {self.count} - {name}")
        for fault in faults[:40]:
            print(f"#   {fault}")
        if len(faults) > 40:
            print(f"#   ... and {len(faults) - 40} more")
        self.failed += bool(faults)

    def skip(self, name, why):
        self.count += 1
        print(f"ok {self.count} - {name} # SKIP {why}")

    def done(self):
        print(f"1..{self.count}")
        sys.exit(1 if self.failed or not self.count else 0)


def files(root):
    """Paths, relative to root, of all files of the source tree: what git knows or would add;
    without git, all that is not hidden, build* or out."""
    if os.path.exists(os.path.join(root, ".git")):
        run = subprocess.run(["git", "-c", "safe.directory=*", "-C", root, "ls-files", "-co",
                              "--exclude-standard", "-z"], capture_output=True, check=False)
        if run.returncode == 0:
            names = run.stdout.decode().split("\0")
            return sorted(n for n in names if n and os.path.isfile(os.path.join(root, n)))
    found = []
    for folder, inner, names in os.walk(root):
        here = os.path.relpath(folder, root)
        inner[:] = [d for d in inner if d not in (".git", "out", "__pycache__")
                    and not (here == "." and d.startswith("build"))]
        found += [os.path.normpath(os.path.join(here, n)) for n in names]
    return sorted(found)


def read(root, name):
    with open(os.path.join(root, name), encoding="utf-8", errors="replace") as file:
        return file.read()
