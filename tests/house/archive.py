#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""archive.py libbyssus.a: the library never exits, aborts, prints, reads the environment or the
locale, keeps no variable of its own, and gives away only names that begin with bys_."""
import re
import subprocess
import sys

from tap import Tap

ENDS = "exit _exit _Exit quick_exit abort __assert_fail __assert atexit raise kill signal sigaction"
PRINTS = ("printf vprintf puts putchar putc_unlocked perror __printf_chk __vprintf_chk psignal dprintf "
          "vdprintf syslog stdout stderr stdin xmlDebugDumpDocument herror getchar gets scanf")
READS = "setlocale localeconv getenv secure_getenv setenv putenv unsetenv environ system popen fork execv execve"
CONSTANT = re.compile(r"\.(rodata|data\.rel\.ro|text|eh_frame|init_array|fini_array)")


def run(*command):
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def wanted(archive):
    """(object file, undefined symbol)"""
    for line in run("nm", "-A", "-P", "-u", archive).splitlines():
        match = re.match(r"\S*\[([^\]]*)\]: (\S+)", line)
        if match:
            yield match.group(1), match.group(2).split("@")[0]


def given(archive):
    """(object file, flags, section, size, symbol) of every defined symbol"""
    member = "?"
    for line in run("objdump", "-t", archive).splitlines():
        match = re.match(r"(\S+):\s+file format", line)
        if match:
            member = match.group(1)
            continue
        match = re.match(r"[0-9a-f]+ (.{7}) (\S+)\s+([0-9a-f]+)\s+(?:\.hidden )?(\S+)$", line)
        if match and match.group(2) not in ("*UND*", "*ABS*"):
            yield member, match.group(1), match.group(2), int(match.group(3), 16), match.group(4)


def main():
    archive = sys.argv[1]
    tap = Tap()
    undefined = list(wanted(archive))
    defined = list(given(archive))
    tap.check("the archive was understood", [] if undefined and defined else [f"{archive}: no symbols read"])
    for what, names in (("ends the program", ENDS), ("prints", PRINTS),
                        ("reads the environment or the locale", READS)):
        bad = set(names.split())
        tap.check(f"nothing {what}", sorted({f"{o}: {s}" for o, s in undefined if s in bad}))
    tap.check("every exported name begins with bys_",
              sorted({f"{o}: {s}" for o, flags, _, _, s in defined
                      if flags[0] in "gu!" and not s.startswith("bys_")}))
    tap.check("no variable outlives a call",
              sorted({f"{o}: {s} ({section}, {size} bytes)" for o, flags, section, size, s in defined
                      if flags[-1] == "O" and not CONSTANT.match(section)}))
    tap.done()


if __name__ == "__main__":
    main()
