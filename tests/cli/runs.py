# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs of the real program in a directory of their own, and the schemas of what it prints."""
import json
import os
import subprocess
import tempfile

from tap import Tap

try:
    import jsonschema
except ImportError:
    jsonschema = None


class Runs:
    def __init__(self, program, root, command):
        self.program, self.root, self.command = os.path.abspath(program), os.path.abspath(root), command
        self.holder = tempfile.TemporaryDirectory(prefix=f"byssus-{command}-")
        self.here = self.holder.name
        self.tap = Tap()

    def run(self, *args):
        return subprocess.run([self.program, self.command, *args], capture_output=True, text=True,
                              timeout=300, cwd=self.here, stdin=subprocess.DEVNULL, check=False)

    def site(self, name):
        return os.path.join(self.root, "sitefiles", name)

    def put(self, name, text):
        with open(os.path.join(self.here, name), "w", encoding="utf-8") as file:
            file.write(text)
        return name

    def changed(self, site, *pairs):
        """A copy of a demo site with texts replaced; each must be there."""
        with open(self.site(site), encoding="utf-8") as file:
            text = file.read()
        for old, new in pairs:
            if old not in text:
                raise ValueError(f"{site} has no {old}")
            text = text.replace(old, new)
        return self.put(f"changed-{site}", text)

    def reworked(self, name, site, rework):
        """A copy of a demo site under another name, its text given through `rework`."""
        with open(self.site(site), encoding="utf-8") as file:
            return self.put(name, rework(file.read()))

    def read(self, *path):
        with open(os.path.join(self.here, *path), "rb") as file:
            return file.read()

    def check(self, name, faults):
        self.tap.check(name, [str(f).replace("\n", " | ") for f in faults])

    def expect(self, name, result, status, *patterns):
        """patterns: texts that must be on standard output or standard error."""
        faults = [f"status {result.returncode}, not {status}"] * (result.returncode != status)
        faults += [f"lacks {p!r}" for p in patterns if p not in result.stdout + result.stderr]
        self.check(name, faults + [(result.stdout + result.stderr)[:600]] * bool(faults))

    def parsed(self, name, result, *statuses):
        """Standard output as JSON that keeps the schema of the command."""
        value, faults = None, []
        try:
            value = json.loads(result.stdout)
            faults = self.schema_faults(value)
        except ValueError as why:
            faults = [str(why), result.stderr[:300]]
        if result.returncode not in statuses:
            faults.append(f"status {result.returncode}, not {statuses}")
        self.check(name, faults)
        return value

    def schema_faults(self, value):
        if jsonschema is None:
            return []
        name = {"check": "legs"}.get(self.command, self.command)
        with open(self.site(f"{name}.schema.json"), encoding="utf-8") as file:
            schema = json.load(file)
        return [f"{'/'.join(map(str, e.absolute_path))}: {e.message[:200]}"
                for e in jsonschema.Draft7Validator(schema).iter_errors(value)]

    def same_files(self, *args, files):
        """Two runs with 1 and 2 threads leave the same bytes."""
        for threads in ("1", "2"):
            self.run(*args, "--quiet", "--threads", threads, "--to", f"t{threads}")
        for name in files:
            self.check(f"{name} is the same for 1 and 2 threads",
                       [] if self.read("t1", name) == self.read("t2", name) else ["bytes differ"])
