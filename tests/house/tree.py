#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""tree.py SOURCE_ROOT: the top level holds the agreed names, no file holds words of unfinished
work, and every C file keeps the form that DEVELOPERS.md asks for."""
import os
import re
import sys

from tap import Tap, files, read

TOP = {".ci", ".clang-format", ".gitignore", "DEVELOPERS.md", "LICENSE", "README.md", "examples",
       "include", "man", "meson.build", "sitefiles", "src", "tests"}
SPDX = "SPDX-License-Identifier: GPL-3.0-or-later"
# In halves, so that this file does not find itself.
WORDS = ["TO" "DO", "FIX" "ME", "XX" "X", "HA" "CK", "(?i:ses" "sions?)", "(?i:place" "holder)",
         "(?i:for" " now)", "(?i:coming" " soon)", "(?i:lorem" " ipsum)", "(?i:not" " implemented)",
         "(?i:dummy" " value)", "(?i:left as an" " exercise)"]
UNFINISHED = re.compile(r"\b(" + "|".join(WORDS) + r")\b")
TEXT = (".c", ".h", ".def", ".md", ".py", ".sh", ".mjs", ".js", ".xml", ".xsd", ".json", ".build", ".txt",
        ".1", ".3", ".5", ".7", ".expected", "run", ".css", ".html", ".in")


def function_lengths(text):
    """(first line, lines of the body) of each function; bodies begin with { and end with } in the
    first column."""
    start = 0
    for number, line in enumerate(text.split("\n"), 1):
        if line == "{":
            start = number
        elif line == "}" and start:
            yield start, number - start - 1
            start = 0


def main():
    root = sys.argv[1]
    tap = Tap()
    names = files(root)
    top = {n.split("/")[0] for n in names}
    tap.check("the top level holds the agreed names",
              [f"unexpected: {n}" for n in sorted(top - TOP)] + [f"missing: {n}" for n in sorted(TOP - top)])
    texts = [n for n in names if n.endswith(TEXT) and not n.startswith("tests/fuzz/corpus/")]
    tap.check("the word list finds what it must",
              [w for w in ("// TO" "DO: x", "FIX" "ME", "good for" " now.", "a Place" "holder")
               if not UNFINISHED.search(w)])
    unfinished = []
    for name in texts:
        for number, line in enumerate(read(root, name).splitlines(), 1):
            match = UNFINISHED.search(line)
            if match:
                unfinished.append(f"{name}:{number}: {match.group(0)}")
    tap.check("no file speaks of unfinished work", unfinished)

    code = [n for n in names if n.endswith((".c", ".h", ".def"))]
    tap.check("each C file begins with its licence",
              [n for n in code if SPDX not in read(root, n).split("\n", 1)[0]])
    scripts = [n for n in names if n.endswith((".py", ".sh", ".mjs")) or os.path.basename(n) == "run"]
    tap.check("each script names its licence", [n for n in scripts if SPDX not in read(root, n)[:300]])
    tap.check("no C file has 600 lines or more",
              [f"{n}: {k} lines" for n in code if (k := read(root, n).count("\n")) >= 600])
    lengths = [(n, line, k) for n in code if n.startswith("src/")
               for line, k in function_lengths(read(root, n))]
    print(f"# {len(lengths)} functions in src, {sum(k < 20 for *_, k in lengths)} under 20 lines")
    over = [f"{n}:{line}: {k} lines" for n, line, k in lengths if k > 60]
    tap.check("most functions of src are under 20 lines, at most 2 in 100 are over 60",
              over if len(over) > 0.02 * len(lengths) else
              ["the middle one is too long"] * (2 * sum(k < 20 for *_, k in lengths) < len(lengths)))
    long, odd = [], []
    for name in code:
        for number, line in enumerate(read(root, name).split("\n"), 1):
            if not name.endswith(".def") and (len(line) > 125 or
                                              len(line.split("//")[0].rstrip()) > 100):
                long.append(f"{name}:{number}: {len(line)} columns")
            if "\t" in line or line != line.rstrip():
                odd.append(f"{name}:{number}")
    tap.check("no C line has more than 100 columns of code, or 125 with its comment", long)
    tap.check("no tab and no blank at the end of a C line", odd)
    tap.check("scripts that are run can be run", [n for n in names if os.path.basename(n) == "run"
                                                  and not os.access(os.path.join(root, n), os.X_OK)])
    tap.done()


if __name__ == "__main__":
    main()
