#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""manual.py SOURCE_ROOT MESSAGES_PAGE_PROGRAM: every page is clean for mandoc, and the page of
messages is what the program writes from the library's own table."""
import re
import shutil
import subprocess
import sys

from tap import Tap, files, read


def own_reference(line, pages):
    """A page of ours that is not installed yet is no fault."""
    match = re.search(r"referenced manual not found: Xr (\S+) (\d)( \(\d+ times\))?$", line)
    return bool(match) and f"man/{match.group(1)}.{match.group(2)}" in pages


def main():
    root, generator = sys.argv[1], sys.argv[2]
    tap = Tap()
    pages = [n for n in files(root) if n.startswith("man/") and n[-2] == "."]
    for name in pages:
        if not shutil.which("mandoc"):
            tap.skip(f"{name} is clean", "no mandoc")
            continue
        run = subprocess.run(["mandoc", "-T", "lint", "-W", "style,stop", name], cwd=root, text=True,
                             capture_output=True, check=False)
        tap.check(f"{name} is clean", [line for line in (run.stdout + run.stderr).splitlines()
                                       if not own_reference(line, pages)])
    theory = read(root, "man/byssus-theory.7")
    tap.check("the theory page names every formula file", [
        n for n in files(root) if n.startswith("src/phys/") and n.endswith(".c") and n not in theory])
    fresh = subprocess.run([generator], capture_output=True, text=True, check=True).stdout
    kept = read(root, "man/byssus-messages.7")
    tap.check("man/byssus-messages.7 says what the library says", [] if fresh == kept else [
        "make it anew: " + generator + " > man/byssus-messages.7"])
    tap.done()


if __name__ == "__main__":
    main()
