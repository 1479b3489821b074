"""The film of the order of work, read back by another program: film_test.py PROGRAM SOURCE_DIR. 77: that isn't here."""

import json
import os
import pathlib
import pty
import shutil
import signal
import subprocess
import sys
import tempfile
import time

from checks import check, terminals, told

PROGRAM, SOURCE = sys.argv[1], pathlib.Path(sys.argv[2])
JOB = SOURCE / "assets" / "jobs" / "boatshed.toml"
SHORT = ["--opening", "J2", "--pace", "4", "--fps", "8", "--size", "320x180"]


def film(*arguments, status=0, says="", **how):
    done = subprocess.run([PROGRAM, "film", JOB, *map(str, arguments)], capture_output=True, encoding="utf-8",
                          stdin=subprocess.DEVNULL, **how)
    said = done.stdout + done.stderr
    check(done.returncode == status and says in " ".join(said.split()),
          f"status {done.returncode}, wanted {status} and '{says}': {arguments}\n{said[:600]}")


def probed(path):
    said = subprocess.run(["ffprobe", "-v", "error", "-count_frames", "-of", "json", "-show_entries",
                           "stream=codec_name,width,height,nb_read_frames,avg_frame_rate", path], capture_output=True, check=True)
    return json.loads(said.stdout)["streams"][0]


def pictures(path):
    """Each as its bytes, brought to one small size."""
    wide, high = 64, 36
    raw = subprocess.run(["ffmpeg", "-v", "error", "-i", path, "-vf", f"scale={wide}:{high}", "-fps_mode", "passthrough", "-f", "rawvideo",
                          "-pix_fmt", "gray", "-"], capture_output=True, check=True).stdout
    return [raw[at:at + wide * high] for at in range(0, len(raw), wide * high)]


def apart(one, other):
    """Share of the pixels that differ plainly."""
    return sum(abs(a - b) > 24 for a, b in zip(one, other)) / len(one)


def reads_back(folder):
    counts = set()
    for ending, codec in (("webm", "vp9"), ("mp4", "h264"), ("gif", "gif")):
        out = folder / f"film.{ending}"
        film(*SHORT, "--steps", "3-4", "--out", out)
        read = probed(out)
        check((read["codec_name"], read["width"], read["height"]) == (codec, 320, 180), f"{ending}: {read}")
        counts.add(read["nb_read_frames"])
        seen = pictures(out)
        # Two cards that take some seven seconds each to look at and to read, at four times that pace.
        check(24 <= len(seen) <= 90, f"{ending}: {len(seen)} pictures")
        check(apart(seen[0], seen[-1]) > 0.05, f"{ending}: it ends as it begins")
        changes = [apart(a, b) > 0.002 for a, b in zip(seen, seen[1:])]
        check(any(changes) and not all(changes[-4:]), f"{ending}: nothing moves, or nothing comes to rest")
    check(len(counts) == 1, f"not as many pictures in each: {counts}")


def comes_in(folder):
    """The unit comes from outside: large at first, and in its place when it has arrived."""
    out = folder / "lifted.mp4"
    film("--opening", "J2", "--pace", "2", "--fps", "8", "--size", "480x270", "--steps", "8", "--out", out)
    seen = pictures(out)
    check(apart(seen[2], seen[-1]) > 0.02, "the unit does not come in")


def refuses(folder):
    kept = folder / "kept.webm"
    kept.write_text("kept")
    bare = folder / "bare"
    bare.mkdir()
    film(*SHORT, "--out", kept, status=2, says="wants the program ffmpeg", env={**os.environ, "PATH": str(bare)})
    failing = bare / "ffmpeg"
    failing.write_text("#!/bin/sh\nexit 3\n")
    failing.chmod(0o755)
    film(*SHORT, "--out", kept, status=2, says="could not pack the film", env={**os.environ, "PATH": f"{bare}:{os.environ['PATH']}"})
    check(kept.read_text() == "kept", "what was there is gone")
    film(*SHORT, "--out", folder / "a.avi", status=2, says="--out must end in .webm, .mp4 or .gif")
    film("--opening", "J9", "--out", folder / "a.gif", status=2, says="no opening 'J9'")
    film("--opening", "J2", "--size", "321x180", "--out", folder / "a.gif", status=2, says="even numbers")
    film("--opening", "J2", "--size", "16x8", "--out", folder / "a.gif", status=2, says="16 to 4096")
    for steps in ("9-3", "x", "3-", "-1"):
        film("--opening", "J2", f"--steps={steps}", "--out", folder / "a.gif", status=2, says="--steps wants")
    check(not (folder / "a.gif").exists(), "a film in spite of that")


def ends_cleanly(folder):
    """By a signal: nothing is left, and what stood there stays."""
    for number in (signal.SIGINT, signal.SIGTERM):
        out = folder / "ended.mp4"
        out.write_text("as before")
        ours, theirs = pty.openpty()
        going = subprocess.Popen([PROGRAM, "film", JOB, "--opening", "J2", "--out", out], stderr=theirs)
        os.close(theirs)
        said = b""
        while b"step 1 of" not in said:
            said += os.read(ours, 256)
        time.sleep(0.3)
        going.send_signal(number)
        check(going.wait(timeout=20) == -number, f"{number}: ended with {going.returncode}")
        os.close(ours)
        check(out.read_text() == "as before" and not list(folder.glob(".*")), f"{number}: left {list(folder.iterdir())}")


def main():
    if not shutil.which("ffmpeg") or not shutil.which("ffprobe"):
        print("skipped: there is no ffmpeg")
        return 77
    for part in (reads_back, comes_in, refuses) + ((ends_cleanly,) if terminals() else ()):
        with tempfile.TemporaryDirectory(prefix="sillwright-film-") as name:
            print(part.__name__.replace("_", " "), flush=True)
            part(pathlib.Path(name))
    return told()


sys.exit(main())
