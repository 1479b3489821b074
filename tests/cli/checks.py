"""What the tests of the command line count: checks that fail are printed, and told at the end by the exit status."""

import os
import pty
import resource
import subprocess

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


def memory_limit(megabytes):
    """What limits a program to this much memory before it starts."""
    def limit():
        resource.setrlimit(resource.RLIMIT_AS, (megabytes << 20, megabytes << 20))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    return limit


def runs_in(program, megabytes):
    """Can it say its version in that? Not with the sanitizers, which map terabytes for themselves."""
    return subprocess.run([program, "--version"], capture_output=True, preexec_fn=memory_limit(megabytes), timeout=60).returncode == 0


def terminals():
    """Can a terminal be had here? A bare system whose /dev has no pts has none; what is said to one is then not tried."""
    try:
        for end in pty.openpty():
            os.close(end)
        return True
    except OSError:
        print("skipped: no terminal can be had here")
        return False
