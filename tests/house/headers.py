#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""headers.py SOURCE_ROOT: compiles each public header alone, as C11 and as C++, with every warning
an error, and each header of src/ alone as C11."""
import shutil
import subprocess
import sys

from tap import Tap, files

WARN = ["-Wall", "-Wextra", "-pedantic", "-Werror", "-fsyntax-only", "-Iinclude"]


def compile_alone(root, command, header):
    text = f"#include {header}\n#include {header}\ntypedef int translation_unit_is_not_empty;\n"
    run = subprocess.run(command, input=text, cwd=root, text=True, capture_output=True, check=False)
    return run.stderr.splitlines() if run.returncode else []


def main():
    root = sys.argv[1]
    tap = Tap()
    public = [n for n in files(root) if n.startswith("include/") and n.endswith(".h")]
    inner = [n for n in files(root) if n.startswith("src/") and n.endswith(".h")]
    tap.check("there are public headers", [] if public else ["include/byssus is empty"])
    ways = [("C11, gcc", ["gcc", "-std=c11", "-x", "c"]), ("C++11, g++", ["g++", "-std=c++11", "-x", "c++"]),
            ("C11, clang", ["clang", "-std=c11", "-x", "c"]),
            ("C++17, clang++", ["clang++", "-std=c++17", "-x", "c++"])]
    for way, command in ways:
        if not shutil.which(command[0]):
            tap.skip(f"public headers alone as {way}", f"no {command[0]}")
            continue
        for name in public:
            header = f"<{name[len('include/'):]}>"
            tap.check(f"{header} alone as {way}", compile_alone(root, command + WARN + ["-"], header))
    for name in inner:
        tap.check(f"{name} alone as C11", compile_alone(
            root, ["gcc", "-std=gnu11", "-D_GNU_SOURCE", "-x", "c"] + WARN + ["-Isrc", "-"],
            f'"{name[len("src/"):]}"'))
    tap.done()


if __name__ == "__main__":
    main()
