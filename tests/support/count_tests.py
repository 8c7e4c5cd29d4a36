"""Turns meson's test log into `ok` and `not ok` lines, one a cmocka test.

    count_tests.py BUILD/meson-logs/testlog.json

A binary that prints no cmocka lines is one test by its exit status. One that failed without
saying which test did (it crashed, a sanitizer stopped it, it ran too long) is one failure
more. A log with no tests in it is a failure."""
import json
import re
import sys

OK = re.compile(r"^\[       OK \] (\S+)$", re.MULTILINE)
FAILED = re.compile(r"^\[  FAILED  \] (\w+)$", re.MULTILINE)
SKIPPED = re.compile(r"^\[  SKIPPED \] (\w+)$", re.MULTILINE)


def count(result):
    """Prints the lines of one binary; true when it said nothing wrong."""
    name = result["name"]
    output = result.get("stdout", "") + "\n" + result.get("stderr", "")
    good = result["result"] in ("OK", "EXPECTEDFAIL")
    passed = OK.findall(output)
    # A failed test is named when it fails and again in the summary.
    failed = sorted(set(FAILED.findall(output)))
    skipped = sorted(set(SKIPPED.findall(output)))
    for test in passed:
        print(f"ok {name}: {test}")
    for test in skipped:
        print(f"skip {name}: {test} skipped itself")
    for test in failed:
        print(f"not ok {name}: {test}")
    if not passed and not failed and good:
        print(f"ok {name}")
    if not good and not failed:
        print(f"not ok {name} ended with {result['returncode']} ({result['result']})")
    if not good:
        print(output[-4000:])
    return good and not failed


def main():
    try:
        with open(sys.argv[1], encoding="utf-8") as log:
            results = [json.loads(line) for line in log if line.strip()]
    except OSError as error:
        print(f"not ok no tests were run: {error}")
        return 1
    if not results:
        print("not ok the log has no tests in it")
        return 1
    good = [count(result) for result in results]
    return 0 if all(good) else 1


sys.exit(main())
