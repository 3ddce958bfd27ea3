#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""commands.py BYSSUS SOURCE_ROOT: how long the commands take on the demo sites. Fails when `lint`
takes 100 ms or more or `check` of the pearl block, every leg lost in turn, 60 s or more."""
import json
import os
import statistics
import subprocess
import sys
import tempfile
import time


def timed(*command):
    start = time.perf_counter()
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    return time.perf_counter() - start, done


def main():
    byssus, root = sys.argv[1:3]
    demos = [os.path.join(root, "sitefiles", f"{name}.xml")
             for name in ("pearl-block", "raft-grid", "floats-before", "floats-after")]
    late = []
    for demo in demos:
        name = os.path.basename(demo)
        lint = statistics.median(timed(byssus, "lint", "--quiet", demo)[0] for _ in range(15))
        seconds = {}
        with tempfile.TemporaryDirectory() as folder:
            for threads in (1, 2):
                seconds[threads], done = timed(byssus, "check", demo, "--quiet", "--to", folder,
                                               "--threads", str(threads))
                if done.returncode not in (0, 1, 2):
                    late.append(f"check {name}: status {done.returncode}: {done.stderr}")
                    break
            else:
                with open(os.path.join(folder, "legs.json"), encoding="utf-8") as file:
                    result = json.load(file)
                print(f"{name:20} lint {1000 * lint:6.1f} ms   check {seconds[1]:6.2f} s on 1 thread, "
                      f"{seconds[2]:6.2f} s on 2; {result['cases']['stable']} of "
                      f"{result['cases']['total']} cases stable, {result['solves']} solves")
        if lint >= 0.1:
            late.append(f"lint {name}: {1000 * lint:.0f} ms")
        if seconds.get(2, 0) >= 60:
            late.append(f"check {name}: {seconds[2]:.0f} s")
    for what in late:
        print(f"too slow or broken: {what}")
    return 1 if late else 0


if __name__ == "__main__":
    sys.exit(main())
