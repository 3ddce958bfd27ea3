#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""layers.py SOURCE_ROOT: reads every #include of src/, include/ and examples/ and refuses those
that the table of layers does not allow. It first feeds itself includes that must be refused."""
import re
import sys

from tap import Tap, files, read

# The folders in the order of the data. A folder may include itself and what stands in its row.
ROOMS = {
    "base": [],
    "num": ["base"],
    "phys": ["base", "num"],
    "site": ["base"],
    "lease": ["base", "num", "phys", "site"],
    "sea": ["base", "num", "phys", "site", "lease"],
    "statics": ["base", "num", "phys", "site", "lease", "sea"],
    "tune": ["base", "num", "phys", "site", "lease", "sea", "statics"],
    "design": ["base", "num", "phys", "site", "lease", "sea", "statics", "tune"],
    "write": ["base"],
    "cli": [],
}
# Which folder a public header belongs to; a folder may include it if it may include that folder.
PUBLIC = {"base.h": "base", "site.h": "site", "frame.h": "site", "design.h": "design", "pulltest.h": "design",
          "compare.h": "design", "aslaid.h": "design", "calendar.h": "design",
          "write.h": "write"}
SEES_ALL_PUBLIC = ("write", "cli")
# Headers of other libraries, by the folders that may use them.
OUTSIDE = [
    (r"gsl/", ("num", "phys")),
    (r"(suitesparse/)?amd\.h$", ("num",)),
    (r"libxml/", ("site", "write")),
    (r"(proj|geodesic)\.h$", ("site",)),
    (r"jansson\.h$", ("write",)),
]
# C11 and POSIX.
SYSTEM = set("""assert complex ctype errno fenv float inttypes iso646 limits locale math setjmp signal
    stdalign stdarg stdatomic stdbool stddef stdint stdio stdlib stdnoreturn string strings tgmath
    time uchar wchar wctype dirent dlfcn fcntl pthread sched unistd sys/ioctl sys/stat sys/time
    sys/types sys/wait sys/mman sys/resource termios""".split())
INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]', re.M)


def refusal(room, mark, target):
    """Why `room` may not include `target`; None if it may."""
    if target.startswith("byssus/"):
        owner = PUBLIC.get(target[len("byssus/"):])
        if owner is None:
            return f"<{target}> is not in the table of public headers"
        if mark != "<":
            return f'public headers are written in angle brackets: <{target}>'
        if room in SEES_ALL_PUBLIC or room == owner or owner in ROOMS[room]:
            return None
        return f"{room} stands before {owner}, to which <{target}> belongs"
    if mark == '"':
        if "/" not in target:
            return f'write the folder too: "{room}/{target}"'
        owner = target.split("/")[0]
        if owner not in ROOMS:
            return f'"{target}" is in no folder of src/'
        if owner == room or owner in ROOMS[room]:
            return None
        return f"{room} may not include {owner}"
    if target.endswith(".h") and target[:-2] in SYSTEM:
        return None
    for pattern, rooms in OUTSIDE:
        if re.match(pattern, target):
            return None if room in rooms else f"{room} may not use <{target}>; only {', '.join(rooms)}"
    return f"<{target}> is neither C11, POSIX nor in the table of outside libraries"


def faults_of(name, room, text):
    for match in INCLUDE.finditer(text):
        why = refusal(room, match.group(1), match.group(2))
        if why:
            line = text.count("\n", 0, match.start(2)) + 1
            yield f"{name}:{line}: {why}"


def public_faults(name, text):
    """A public header knows public headers and C only; an example the same."""
    for match in INCLUDE.finditer(text):
        target = match.group(2)
        if match.group(1) == "<" and (target.startswith("byssus/") or target[:-2] in SYSTEM):
            continue
        line = text.count("\n", 0, match.start(2)) + 1
        yield f"{name}:{line}: only <byssus/...> and standard headers belong here, not {target}"


def self_test(tap):
    wrong = [("base", '"num/vec3.h"'), ("phys", '"site/site.h"'), ("lease", '"statics/state.h"'),
             ("cli", '"base/text.h"'), ("write", '"design/design.h"'), ("statics", "<libxml/tree.h>"),
             ("site", "<byssus/design.h>"), ("design", "<jansson.h>"), ("base", "<nowhere.h>"),
             ("num", '"vec3.h"'), ("base", '"byssus/base.h"')]
    right = [("cli", "<byssus/write.h>"), ("design", '"phys/phys.h"'), ("num", "<gsl/gsl_math.h>"),
             ("phys", "<math.h>"), ("statics", '"statics/state.h"'), ("base", "<byssus/base.h>")]
    tap.check("the table refuses what it must",
              [f"{r} {i} was let through" for r, i in wrong if not list(faults_of("x", r, f"#include {i}"))]
              + [f"{r} {i} was refused" for r, i in right if list(faults_of("x", r, f"#include {i}"))])


def written_table(text):
    """The rooms and what they may include, as DEVELOPERS.md has it."""
    part = text.partition("<!-- layers: begin -->")[2].partition("<!-- layers: end -->")[0]
    rows = [[cell.strip() for cell in line.split("|")[1:3]] for line in part.splitlines()
            if line.startswith("|")][2:]
    return {room: [] if may == "\u2013" else may.split() for room, may in rows}


def main():
    root = sys.argv[1]
    tap = Tap()
    self_test(tap)
    sources = [n for n in files(root) if n.endswith((".c", ".h"))]
    seen = {n.split("/")[1] for n in sources if n.startswith("src/") and n.count("/") > 1}
    tap.check("src holds the agreed folders only", [f"src/{r}" for r in sorted(seen - set(ROOMS))]
              + [f"{n}: a file beside the folders" for n in sources if re.match(r"src/[^/]+$", n)])
    tap.check("DEVELOPERS.md has the same table",
              [] if written_table(read(root, "DEVELOPERS.md")) == ROOMS else ["the tables differ"])
    for room in ROOMS:
        mine = [n for n in sources if n.startswith(f"src/{room}/")]
        if not mine:
            tap.skip(f"src/{room} includes only what stands before it", "the folder is empty")
            continue
        tap.check(f"src/{room} includes only what stands before it",
                  [f for n in mine for f in faults_of(n, room, read(root, n))])
    tap.check("public headers include public headers only",
              [f for n in sources if n.startswith("include/") for f in public_faults(n, read(root, n))])
    tap.check("examples use the public headers only",
              [f for n in sources if n.startswith("examples/") for f in public_faults(n, read(root, n))])
    tap.done()


if __name__ == "__main__":
    main()
