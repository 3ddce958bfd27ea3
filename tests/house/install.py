#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""install.py SOURCE_ROOT BUILD_ROOT: installs into an empty folder, then builds and runs an example
against what was installed, by pkg-config alone."""
import os
import shutil
import subprocess
import sys
import tempfile

from tap import Tap, files


def main():
    root, build = sys.argv[1:3]
    tap = Tap()
    stage = tempfile.mkdtemp(prefix="byssus-install-")
    run = subprocess.run(["meson", "install", "-C", build, "--no-rebuild", "--destdir", stage],
                         capture_output=True, text=True, check=False)
    tap.check("it installs", run.stderr.splitlines() if run.returncode else [])
    found = {}
    for folder, _, names in os.walk(stage):
        for name in names:
            found.setdefault(name, os.path.join(folder, name))
    wanted = ["byssus", "libbyssus.a", "byssus.pc"]
    wanted += [os.path.basename(n) for n in files(root)
               if n.startswith(("include/byssus/", "man/")) or
               (n.startswith("sitefiles/") and n.endswith((".xml", ".xsd", ".json")) and
                "/textbook/" not in n)]
    tap.check("program, library, headers, pages and data are there", [n for n in wanted if n not in found])
    if "byssus.pc" not in found:
        tap.done()
    env = dict(os.environ, PKG_CONFIG_PATH=os.path.dirname(found["byssus.pc"]), PKG_CONFIG_SYSROOT_DIR="")
    prefix = os.path.dirname(os.path.dirname(found["byssus"]))
    flags = subprocess.run(["pkg-config", f"--define-variable=prefix={prefix}", "--cflags", "--libs",
                            "byssus"], env=env, capture_output=True, text=True, check=False)
    tap.check("pkg-config knows it", flags.stderr.splitlines() if flags.returncode else [])
    program = os.path.join(stage, "example")
    source = os.path.join(root, "examples", "faults.c")
    made = subprocess.run(["gcc", "-std=c11", "-Wall", "-Wextra", "-pedantic", "-Werror", source, "-o",
                           program] + flags.stdout.split(), capture_output=True, text=True, check=False)
    tap.check("an example builds against it", made.stderr.splitlines() if made.returncode else [])
    if made.returncode == 0:
        ran = subprocess.run([program, os.path.join(root, "no-such-file.xml")], capture_output=True,
                             text=True, check=False)
        tap.check("the example runs", [] if ran.returncode == 66 else
                  [f"wanted status 66, got {ran.returncode}", ran.stdout, ran.stderr])
    shutil.rmtree(stage)
    tap.done()


if __name__ == "__main__":
    main()
