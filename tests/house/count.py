#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Adds up meson's test logs and prints one closing line "N passed, N failed".

count.py [--passed N] [--failed NAME]... [RUN=testlog.json]...
A test program that speaks TAP counts with each of its tests; any other counts once. A TAP program
that broke off (crash, time limit) counts one failure besides the tests it had reported."""
import argparse
import json
import re
import sys

TAP = re.compile(r"^(not )?ok\b([^#]*)(#.*)?$")


def tap_counts(text):
    """passed, failed, skipped of the TAP lines in text."""
    passed = failed = skipped = 0
    for line in text.splitlines():
        match = TAP.match(line)
        if not match:
            continue
        if re.match(r"#\s*skip", match.group(3) or "", re.I):
            skipped += 1
        elif match.group(1):
            failed += 1
        else:
            passed += 1
    return passed, failed, skipped


def program_counts(test):
    """The same for one line of testlog.json."""
    passed, failed, skipped = tap_counts(test.get("stdout") or "")
    result = test["result"]
    if result in ("SKIP",):
        return 0, 0, max(1, skipped)
    if result in ("OK", "EXPECTEDFAIL"):
        return (passed, failed, skipped) if passed + failed + skipped else (1, 0, 0)
    if failed == 0:  # stopped without saying "not ok"
        failed = 1
    return passed, failed, skipped


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--passed", type=int, default=0)
    parser.add_argument("--failed", action="append", default=[])
    parser.add_argument("logs", nargs="*")
    args = parser.parse_args()
    total = [args.passed, len(args.failed), 0]
    print(f"build steps: {args.passed} passed, {len(args.failed)} failed")
    for name in args.failed:
        print(f"  FAILED {name}")
    for entry in args.logs:
        run, path = entry.split("=", 1)
        counts, broken, left_out = [0, 0, 0], [], []
        try:
            with open(path, encoding="utf-8") as log:
                tests = [json.loads(line) for line in log if line.strip()]
        except OSError as error:
            tests, counts[1] = [], 1
            broken.append(f"no test log: {error}")
        if not tests and not broken:
            counts[1] = 1
            broken.append("the test log is empty")
        for test in tests:
            one = program_counts(test)
            counts = [a + b for a, b in zip(counts, one)]
            if one[1]:
                broken.append(f"{test['name']} ({test['result']})")
            if one[2]:
                left_out.append(test["name"])
        print(f"{run}: {counts[0]} passed, {counts[1]} failed, {counts[2]} skipped")
        for name in broken:
            print(f"  FAILED {name}")
        for name in left_out:
            print(f"  skipped in {name}")
        total = [a + b for a, b in zip(total, counts)]
    if total[2]:
        print(f"{total[2]} skipped")
    print(f"\n{total[0]} passed, {total[1]} failed")
    return 1 if total[1] or not total[0] else 0


if __name__ == "__main__":
    sys.exit(main())
