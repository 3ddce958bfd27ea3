#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""examples.py SOURCE_ROOT FAULTS LEGS ANCHORS: runs the example programs on the demo sites."""
import os
import re
import subprocess
import sys

from tap import Tap


def run(*command):
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    return done.returncode, done.stdout, done.stderr


def wrong(got, status, *patterns):
    """What differs from the wanted exit status and patterns."""
    faults = [f"wanted status {status}, got {got[0]}: {got[2][:300]}"] * (got[0] != status)
    return faults + [f"no '{p}' in: {got[1][:300]}" for p in patterns if not re.search(p, got[1], re.M)]


def main():
    root, faults, legs, anchors = sys.argv[1:5]
    site = lambda name: os.path.join(root, "sitefiles", name)
    tap = Tap()
    tap.check("faults: a sound file", wrong(run(faults, site("pearl-block.xml")), 0, r": no fault$"))
    tap.check("faults: a file that is not there", wrong(run(faults, site("no-such.xml")), 66, "no-such"))
    tap.check("faults: not a site file", wrong(run(faults, __file__), 65, r"\.py: E\d{4}: "))

    got = run(legs, site("floats-before.xml"))
    used = [int(n) for n in re.findall(r"(\d+) % used", got[1])]
    tap.check("legs: six legs, the hardest worked first, no unreadable line",
              [] if len(used) == 6 and used == sorted(used, reverse=True) else [f"use: {used}", got[2]])
    tap.check("legs: the demo before floats were added fails", wrong(got, 1, r"float"))

    got = run(anchors, site("textbook/k3-end-tension.xml"))
    rows = [[float(x) for x in m] for m in
            re.findall(r"^\S+ +(-?[\d.]+) +(-?[\d.]+) +(-?[\d.]+)$", got[1], re.M)]
    level = [abs(sum(row[i] for row in rows)) for i in (0, 1)]
    tap.check("anchors: the level forces on the supports of a hanging cable cancel", wrong(got, 0, "stable")
              + ([] if len(rows) == 2 and max(level) <= 0.0011 and abs(rows[0][0]) + abs(rows[0][1]) > 0.01
                 else [got[1]]))
    tap.check("anchors: an unknown case is refused",
              [] if run(anchors, site("pearl-block.xml"), "no-such-case")[0] in (64, 65) else ["not refused"])
    tap.done()


if __name__ == "__main__":
    main()
