#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""record.py README EXAMPLES_LOG TESTS_LOG: puts what examples/run and tests/run printed into the
README, between its two marks; the installation of packages and the compiler's lines are left out."""
import sys


def section(text, *titles):
    """The parts of the log that begin with `== title`."""
    parts, keep = [], False
    for line in text.splitlines():
        if line.startswith("== "):
            keep = line[3:].startswith(titles)
        if keep:
            parts.append(line.rstrip())
    return "\n".join(parts).strip()


def main():
    readme, examples, tests = sys.argv[1:4]
    with open(examples, encoding="utf-8") as file:
        first = section(file.read(), "checking", "was that")
    with open(tests, encoding="utf-8") as file:
        second = section(file.read(), "result")
    if not first or not second:
        sys.exit("a log has no section to record")
    with open(readme, encoding="utf-8") as file:
        before, _, rest = file.read().partition("<!-- output: begin -->")
    _, _, after = rest.partition("<!-- output: end -->")
    with open(readme, "w", encoding="utf-8") as file:
        file.write(f"{before}<!-- output: begin -->\n```\n$ ./examples/run\n{first}\n```\n\n"
                   f"```\n$ ./tests/run\n{second}\n```\n<!-- output: end -->{after}")


if __name__ == "__main__":
    main()
