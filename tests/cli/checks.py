"""What the tests of the command line count: checks that fail are printed, and told at the end by the exit status."""

failed = 0


def check(good, what):
    global failed
    if not good:
        failed += 1
        print("FAILED:", what)


def told():
    """The exit status, after the count."""
    print("all passed" if failed == 0 else f"{failed} failed")
    return 1 if failed else 0
