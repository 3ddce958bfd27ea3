#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""archive.py libbyssus.a: the library never exits, aborts, prints, reads the environment or the
locale, keeps no variable of its own, and gives away only names that begin with bys_."""
import re
import subprocess
import sys
import tempfile

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


def exported(defined):
    return sorted({f"{o}: {s}" for o, flags, _, _, s in defined
                   if flags[0] in "gu!" and not s.startswith("bys_")})


def lasting(defined):
    return sorted({f"{o}: {s} ({section}, {size} bytes)" for o, flags, section, size, s in defined
                   if flags[-1] == "O" and not CONSTANT.match(section)})


BAD = """#include <stdio.h>
#include <stdlib.h>
int counter; static char buffer[9]; static int start = 4;
const int table[2] = {1, 2};
const char *const names[1] = {"a"};
char *bys_bad(void); int stranger(void);
char *bys_bad(void) { buffer[counter] = (char)start++; puts(buffer); if (counter) exit(1); return getenv(buffer); }
int stranger(void) { return bys_bad() != names[table[0]]; }
"""


def self_test(tap):
    """The tests below must see the faults of a library that has all of them."""
    with tempfile.TemporaryDirectory() as folder:
        thing = f"{folder}/bad.o"
        subprocess.run(["gcc", "-O0", "-fPIC", "-x", "c", "-c", "-", "-o", thing], input=BAD, text=True,
                       check=True)
        run("ar", "cr", f"{folder}/bad.a", thing)
        undefined = {s for _, s in wanted(f"{folder}/bad.a")}
        defined = list(given(f"{folder}/bad.a"))
    tap.check("a bad library is seen through", [
        f"missed {s}" for s in ("puts", "exit", "getenv") if s not in undefined] + [
        f"missed {s}" for s in ("counter", "stranger", "table", "names")
        if not any(f.endswith(": " + s) for f in exported(defined))] + [
        f"variables seen: {lasting(defined)}"] * (
            [f.split(" ")[1] for f in lasting(defined)] != ["buffer", "counter", "start"]))


def main():
    archive = sys.argv[1]
    tap = Tap()
    self_test(tap)
    undefined = list(wanted(archive))
    defined = list(given(archive))
    tap.check("the archive was understood", [] if undefined and defined else [f"{archive}: no symbols read"])
    for what, names in (("ends the program", ENDS), ("prints", PRINTS),
                        ("reads the environment or the locale", READS)):
        bad = set(names.split())
        tap.check(f"nothing {what}", sorted({f"{o}: {s}" for o, s in undefined if s in bad}))
    tap.check("every exported name begins with bys_", exported(defined))
    tap.check("no variable outlives a call", lasting(defined))
    tap.done()


if __name__ == "__main__":
    main()
