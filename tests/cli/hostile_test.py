"""What nobody would hand the program on purpose: hostile_test.py PROGRAM SOURCE_DIR.

A table: what is wrong, the command, the exit status and the words that must come. Each row is printed as it is run.
Beside its own words every row asks that the program ends by itself, in time, and that a refusal by the machine is one
sentence on one line. A row whose conditions can't be made here says so and is left out.
"""

import contextlib
import json
import os
import pathlib
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import zipfile

import hostile_texts
from checks import memory_limit, runs_in

PROGRAM, SOURCE = sys.argv[1], pathlib.Path(sys.argv[2])
JOB = SOURCE / "assets" / "jobs" / "workshop-window.toml"
# What Mesa keeps of a window is told as leaked (window_support.sh); what the viewer leaks is looked for without one.
NO_LEAKS = {"ASAN_OPTIONS": "detect_leaks=0"}
TEXT = JOB.read_text(encoding="utf-8")
WALL = TEXT.split("[[opening]]")[0]
NOBODY = 65534  # as Debian numbers the user without rights
SECONDS = 120  # that any row may take, sanitizers and a busy machine included
failed = rows = left_out = 0


def say(mark, name, told):
    print(f"{mark:8} {name:58} {told}", flush=True)


def leave_out(name, why):
    global left_out
    left_out += 1
    say("left out", name, why)


def ended(command, env, before, out):
    begin = time.monotonic()
    try:
        done = subprocess.run(command, stdout=out, stderr=subprocess.PIPE, stdin=subprocess.DEVNULL,
                              env={**os.environ, **(env or {})}, preexec_fn=before, timeout=SECONDS)
        return done.returncode, done.stdout or b"", done.stderr, time.monotonic() - begin
    except subprocess.TimeoutExpired as late:
        return None, late.stdout or b"", late.stderr or b"", time.monotonic() - begin


def said_by_program(stderr):
    """Its lines on standard error, less those of the libraries that draw, which tell of caches that they can't make."""
    of_driver = re.compile(rb"MESA|libE?GL|Fontconfig|.*shader cache")
    return [line for line in stderr.splitlines() if not of_driver.match(line)]


def row(name, arguments, status, words="", *, lines=None, env=None, before=None, out=subprocess.PIPE, absent=None):
    """`lines`: how many the program says on standard error; one where the machine refuses. `absent`: a file that must not be there."""
    global failed, rows
    rows += 1
    got, stdout, stderr, took = ended([PROGRAM, *map(str, arguments)], env, before, out)
    said = (stderr + stdout).decode("utf-8", "replace")
    wrong = []
    if got is None:
        wrong.append(f"did not end within {SECONDS} s")
    elif got < 0:
        wrong.append(f"was ended by {signal.Signals(-got).name}")
    elif got != status:
        wrong.append(f"status {got}, wanted {status}")
    if words not in said:
        wrong.append(f"nothing says {words!r}")
    own = len(said_by_program(stderr))
    if lines is not None and own != lines:
        wrong.append(f"{own} lines on standard error, wanted {lines}")
    if absent and os.path.lexists(absent):
        wrong.append(f"{absent} was left behind")
    last = said.strip().splitlines()[0][:90] if said.strip() else ""
    say("FAILED" if wrong else "ok", name, f"{got} {took:5.2f} s  {last}")
    for each in wrong:
        print("         ", each)
    if wrong:
        print("         ", said[-1500:])
        failed += 1
    return stdout


def refused(name, arguments, words, **more):
    row(name, arguments, 2, words, lines=1, **more)


def check(good, name, what):
    global failed, rows
    rows += 1
    say("ok" if good else "FAILED", name, "" if good else what)
    failed += not good


def put(folder, name, content):
    path = folder / name
    path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
    return path


def sparse(folder, name, size):
    path = folder / name
    with open(path, "wb") as file:
        file.truncate(size)
    return path


def become_nobody():
    os.setgid(NOBODY)
    os.setuid(NOBODY)


def nobody_runs_it():
    """Root may do everything: what is about permissions is tried as a user without rights."""
    if os.geteuid() != 0:
        return lambda: None
    with contextlib.suppress(OSError, subprocess.SubprocessError):
        if subprocess.run([PROGRAM, "check", str(JOB)], preexec_fn=become_nobody, capture_output=True).returncode == 0:
            return become_nobody
    return None


def no_plain_files(folder):
    refused("a file of 1 GB, all of it a hole", ["check", sparse(folder, "sparse.toml", 1 << 30)], "larger than 256 MiB")
    refused("a folder", ["check", folder], "is a folder, not a file")
    refused("no file", ["check", folder / "none.toml"], "there is no such file")
    refused("a file under a file", ["check", JOB / "a.toml"], "there is no such file")
    refused("a name of 5000 letters", ["check", "n" * 5000], "can't be read")
    odd = os.fsencode(folder / "no-utf8-") + b"\xff.toml"
    refused("a name that is no UTF-8", ["check", os.fsdecode(odd)], "there is no such file")
    answer = row("the same as JSON", ["check", os.fsdecode(odd), "--json"], 2, '"errors":[', lines=1)
    check(json.loads(answer)["errors"][0]["file"].endswith("\ufffd.toml"), "the name in the JSON", "it is not repaired")
    pipe = folder / "pipe.toml"
    os.mkfifo(pipe)
    plain = "is not a plain file but a pipe or a device"
    refused("a pipe that nobody fills", ["check", pipe], plain)
    refused("a pipe as a schedule", ["schedule", pipe], plain)
    refused("a pipe as the job of a schedule", ["schedule", JOB, "--job", pipe], plain)
    refused("/dev/zero", ["check", "/dev/zero"], plain)
    refused("/dev/zero as a schedule", ["schedule", "/dev/zero"], plain)
    refused("/dev/null", ["check", "/dev/null"], plain)
    loop = folder / "loop.toml"
    loop.symlink_to("loop.toml")
    refused("a link to itself", ["check", loop], "links lead in a circle")
    practice = put(folder, "practice.toml", TEXT.replace('"au"', '"pipe.toml"'))
    refused("a pipe as the job's practice", ["check", practice], plain)
    mesh = put(folder, "mesh.toml", TEXT.replace("fin      = 30", 'fin      = 30\nmesh     = "pipe.toml"'))
    refused("a pipe as a unit's mesh", ["check", mesh], plain)


def texts(folder):
    for name, content, words, *lines in hostile_texts.texts(TEXT):
        row(name, ["check", put(folder, "text.toml", content)], 2, words, lines=lines[0] if lines else None)


def same_answers(folder):
    """What looks odd and is right: the same answer as to the plain file."""
    plain = row("the plain file", ["check", JOB, "--json"], 0, lines=0)

    def same(name, answer):
        check(answer == plain.replace(str(JOB).encode(), b"") or answer == plain, name + ": the same answer", "differs")

    copy = {"title": str(JOB)}  # the JSON may name its file
    for name, content in (("CRLF", TEXT.replace("\n", "\r\n")), ("a byte order mark", "\ufeff" + TEXT)):
        path = put(folder, JOB.name, content)
        answer = row(name, ["check", path, "--json"], 0, lines=0)
        same(name, answer.replace(str(path).encode(), copy["title"].encode()))
    zero = TEXT.replace("out_of_level    = -1  ", "out_of_level    = -0.0").replace("out_of_level = 0.0", "out_of_level = -0.0")
    answer = row("a fall of -0.0", ["check", put(folder, "zero.toml", zero), "--json"], 0, lines=0)
    check(not re.search(rb"-0(\.0*)?[],}]", answer), "-0.0 is told as 0", "-0 is told")


def full_disk(folder):
    """Everything that is written, into a device that is always full."""
    if not pathlib.Path("/dev/full").is_char_device():
        leave_out("a full disk", "there is no /dev/full")
        return
    told = "the answer could not be written out"
    schedule = put(folder, "schedule.csv", "opening,left,sill,framed width,framed height,"
                   "kind,unit width,unit height,wall\nA1,100,900,1200,900,fixed window,1180,880,yard\n")
    printing = {"check": [JOB], "check --json": [JOB], "steps": [JOB], "steps --crew": [JOB], "list": [JOB],
                "schedule": [schedule], "--help": [], "--version": [], "check --help": []}
    for verb, arguments in printing.items():
        with open("/dev/full", "wb") as full:
            refused(f"{verb} onto a full disk", [*verb.split(), *arguments], told, out=full)

    def link(name):
        path = folder / name
        path.symlink_to("/dev/full")
        return path

    no_room = "the disk is full"
    refused("sheets.pdf onto a full disk", ["sheets", JOB, "--out", link("full.pdf")], no_room)
    for ending in ("svg", "png"):
        link(f"pages-1.{ending}")  # the first of four
        refused(f"sheets.{ending} onto a full disk", ["sheets", JOB, "--out", folder / f"pages.{ending}"], no_room)
    for ending in ("glb", "obj", "svg", "ifc", "dxf"):
        link(f"full-1.{ending}" if ending == "svg" else f"full.{ending}")  # a sheet a file
        refused(f"a model.{ending} onto a full disk", ["export", JOB, "--out", folder / f"full.{ending}"], no_room)
    link("half.mtl")
    refused("an OBJ's materials onto a full disk", ["export", JOB, "--out", folder / "half.obj"], no_room)
    refused("a workbook onto a full disk", ["list", JOB, "--xlsx", link("full.xlsx")], no_room)
    (folder / "csv").mkdir()
    link("csv/order-list.csv")
    refused("a CSV onto a full disk", ["list", JOB, "--csv", folder / "csv"], no_room)
    refused("a schedule's job onto a full disk", ["schedule", schedule, "--out", link("full.toml")], no_room)
    refused("a picture onto a full disk", ["picture", JOB, "--out", link("full.png"), "--size", "64x64"], no_room)
    check(pathlib.Path("/dev/full").is_char_device(), "/dev/full is still there", "it was removed")


def bad_places(folder):
    """Where nothing can be written."""
    (folder / "folder.pdf").mkdir()
    refused("sheets over a folder", ["sheets", JOB, "--out", folder / "folder.pdf"], "it is a folder")
    refused("sheets into no folder", ["sheets", JOB, "--out", folder / "no" / "a.pdf"], "there is no folder")
    (folder / "loop.glb").symlink_to("loop.glb")
    refused("a model through a link to itself", ["export", JOB, "--out", folder / "loop.glb"], "lead in a circle")
    os.mkfifo(folder / "pipe.glb")
    refused("a model into a pipe that nobody reads", ["export", JOB, "--out", folder / "pipe.glb"], "nobody reads")
    refused("lists into a folder that is a file", ["list", JOB, "--csv", put(folder, "file", "")], "a file in its place")
    book, no_parts = folder / "a.xlsx", {"TMPDIR": "/nowhere"}
    if ended([PROGRAM, "list", str(JOB), "--xlsx", str(book)], no_parts, None, subprocess.DEVNULL)[0] == 0:
        check(zipfile.is_zipfile(book), "a workbook without a folder for its parts, made without", "not whole")
    else:
        refused("a workbook without a folder for its parts", ["list", JOB, "--xlsx", book], "temporary", env=no_parts,
                absent=book)
    small = folder / "small"
    small.mkdir()
    on_small_disk = ["unshare", "--mount", "sh", "-c", f'mount -t tmpfs -o size=8k none "{small}" && exec "$@"', "sh"]
    if ended([*on_small_disk, "true"], None, None, subprocess.DEVNULL)[0] == 0:
        full = ended([*on_small_disk, PROGRAM, "list", str(JOB), "--xlsx", str(book)], {"TMPDIR": str(small)}, None,
                     subprocess.DEVNULL)
        check(full[0] == 2 and len(full[2].splitlines()) == 1 and b"temporary files can't hold it" in full[2],
              "a full disk for a workbook's parts", full)
    else:
        leave_out("a full disk for a workbook's parts", "this system lends tests no disk of their own")
    old = put(folder, "old.glb", "what was there")

    def small_files():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))

    refused("a model larger than files may be", ["export", JOB, "--out", old], "larger than a file may be",
            before=small_files)
    check(old.read_bytes() == b"what was there", "what was there is still there", "it is not")
    check(sorted(folder.glob(".*")) == [], "nothing is left beside it", "something is")


def building_models(folder):
    """What is no building model, or one that leads nowhere."""
    head = "ISO-10303-21;HEADER;FILE_SCHEMA(('IFC4'));ENDSEC;DATA;"
    unit = "#1=IFCSIUNIT(*,.LENGTHUNIT.,$,.METRE.);#2=IFCUNITASSIGNMENT((#1));#3=IFCPROJECT('',$,'',$,$,$,$,$,#2);"
    out = folder / "out.toml"

    def model(name, text, words):
        refused(name, ["import", put(folder, "m.ifc", text), "--out", out], words, absent=out)

    model("an empty model", "", "no STEP file")
    refused("a job as a model", ["import", JOB, "--out", out], "no STEP file", absent=out)
    refused("1 GB of nothing as a model", ["import", sparse(folder, "sparse.ifc", 1 << 30), "--out", out], "no STEP file")
    model("a model of another standard", head.replace("IFC4", "AP214"), "neither IFC 2x3 nor IFC 4")
    model("a model without a unit", head + "#3=IFCPROJECT('',$,'',$,$,$,$,$,$);", "unit of length")
    model("a model without a wall", head + unit, "no outside wall")
    model("a wall that stands in itself", head + unit + "#4=IFCLOCALPLACEMENT(#4,$);#5=IFCWALL('',$,'',$,$,#4,$,$,$);", "no outside wall")
    model("a million brackets", head + unit + "#5=IFCWALL(" + "(" * 1000000 + ");", "no outside wall")
    model("a text without an end", head + unit + "#5=IFCWALL('" + "x" * 1000000, "no outside wall")
    model("shapes that name each other", head + unit + "".join(
        f"#{i}=IFCOPENSHELL((#{i + 1},#{i + 1},#{i + 1}));" for i in range(10, 70)) +
        "#4=IFCSHAPEREPRESENTATION($,'Body','',(#10));#7=IFCPRODUCTDEFINITIONSHAPE($,$,(#4));#5=IFCWALL('',$,'',$,$,$,#7,$,$);",
        "no outside wall")
    pipe = folder / "pipe.ifc"
    os.mkfifo(pipe)
    refused("a pipe as a model", ["import", pipe, "--out", out], "can't be opened as a file")
    refused("no model", ["import", folder / "none.ifc", "--out", out], "can't be opened as a file")
    whole = folder / "whole.ifc"
    row("a model of our own", ["export", JOB, "--out", whole], 0)
    row("and back", ["import", whole, "--out", out], 0)
    row("which is a job", ["check", out], 0)
    refused("a model over itself", ["import", whole, "--out", whole], "another file")


def permissions(folder):
    nobody = nobody_runs_it()
    if nobody is None:
        leave_out("permissions", "this is root, and a user without rights can't run the program where it lies")
        return
    secret = put(folder, "secret.toml", TEXT)
    secret.chmod(0)
    refused("a file that may not be read", ["check", secret], "no permission", before=nobody)
    shut = folder / "shut"
    shut.mkdir()
    shut.chmod(0o555)
    refused("sheets into a folder that may not be written in", ["sheets", JOB, "--out", shut / "a.pdf"],
            "no permission to write in the folder", before=nobody)
    home = {"HOME": str(shut), "XDG_CONFIG_HOME": "", "XDG_STATE_HOME": ""}
    row("a home that may not be written in", ["check", JOB], 0, "Y1", lines=0, env=home, before=nobody)
    shared = folder / "shared"
    shared.mkdir()
    shared.chmod(0o777)
    row("the whole screen from such a home", ["picture", JOB, "--panels", "--out", shared / "a.png", "--size", "640x400"],
        0, lines=0, env=home, before=nobody)


def numbers_of_the_command(folder):
    png = folder / "never.png"
    for size in ("0x0", "-5x5", "1x1", "15x16", "8193x16", "16x99999999999", "1e3x10", "nanx10", "x"):
        refused(f"a picture of {size}", ["picture", JOB, "--out", png, f"--size={size}"], "ixels", absent=png)
    for number in ("nan", "-nan", "inf", "-1", "1e308", "0x10", "7mm", "1,5", ""):
        for option in ("--magnify", "--spread"):
            row(f"{option}={number}", ["picture", JOB, "--out", png, f"{option}={number}"], 2, option, absent=png)
        row(f"--kerf={number}", ["list", JOB, f"--kerf={number}"], 2, "--kerf")
        row(f"--cut x={number}", ["picture", JOB, "--out", png, f"--cut=x={number}"], 0 if number == "-1" else 2)
        png.unlink(missing_ok=True)


def machine(folder):
    """Machines that lack something."""
    png = folder / "bare.png"
    small = ["picture", JOB, "--out", png, "--size", "320x200"]
    no_gl = "No OpenGL 3.3 could be started"
    hidden = {"LIBGL_DRIVERS_PATH": "/nowhere", "EGL_LOG_LEVEL": "fatal"}  # else Mesa has its own say
    if ended([PROGRAM, *map(str, small)], hidden, None, subprocess.DEVNULL)[0] == 0:
        png.unlink()
        leave_out("no graphics driver", "this machine's Mesa has its drivers in one library, which can't be hidden")
    else:
        refused("no graphics driver", small, no_gl, absent=png, env=hidden)
    refused("no EGL of any maker", small, no_gl, env={"__EGL_VENDOR_LIBRARY_DIRS": "/nowhere"}, absent=png)
    for library in ("libEGL.so.1", "libOpenGL.so.0 libGL.so.1"):
        broken = folder / library.split()[0]
        broken.mkdir()
        for name in library.split():
            put(broken, name, "")  # found before the real one, and no library
        refused("no " + library.replace(" ", ", no "), small, no_gl, env={"LD_LIBRARY_PATH": str(broken)}, absent=png)
    fonts = {"FONTCONFIG_FILE": str(put(folder, "no-fonts.conf", "<fontconfig></fontconfig>"))}
    refused("sheets without a typeface", ["sheets", JOB, "--out", folder / "a.pdf"], "no typeface is installed", env=fonts)
    row("a picture without a typeface", small, 0, lines=0, env=fonts)
    row("the whole screen without a typeface", [*small, "--panels"], 0, lines=0, env=fonts)
    refused("no display", [JOB], "no display", env={"DISPLAY": "", "WAYLAND_DISPLAY": ""})
    refused("a display that isn't there", [JOB], "no display", env={"DISPLAY": ":4077", "WAYLAND_DISPLAY": ""})
    nowhere = {"HOME": "/nowhere", "XDG_STATE_HOME": "", "XDG_CONFIG_HOME": ""}
    row("a home that isn't there", [*small, "--panels"], 0, lines=0, env=nowhere)
    row("no assets", ["check", JOB], 2, "none were found in /nowhere", env={"SILLWRIGHT_ASSETS": "/nowhere"})


@contextlib.contextmanager
def display(size):
    """A screen that nothing else uses; the server picks its number."""
    told, number = os.pipe()
    server = subprocess.Popen(["Xvfb", "-displayfd", str(number), "-screen", "0", size + "x24", "-nolisten", "tcp"],
                              pass_fds=[number], stderr=subprocess.DEVNULL)
    os.close(number)
    try:
        yield ":" + os.read(told, 16).decode().strip()
    finally:
        os.close(told)
        server.terminate()
        server.wait()


def window(name, screen, sizes, folder):
    """The viewer's window on a screen, made as large as told, one after the other, and closed by its key."""
    home = {"HOME": str(folder), "XDG_CONFIG_HOME": "", "XDG_STATE_HOME": ""}
    with display(screen) as at, subprocess.Popen([PROGRAM, str(JOB)], env={**os.environ, **home, "DISPLAY": at,
                                                 **NO_LEAKS},
                                                 stderr=subprocess.PIPE) as viewer:
        def xdotool(*arguments):
            return subprocess.run(["xdotool", *arguments], env={**os.environ, "DISPLAY": at}, capture_output=True,
                                  text=True, timeout=SECONDS).stdout

        try:
            found = xdotool("search", "--sync", "--onlyvisible", "--name", "Sillwright").split()[0]
            for size in sizes:
                xdotool("windowsize", found, *size.split("x"))
                time.sleep(1)
                check(viewer.poll() is None, f"{name}, {size}", "the viewer ended")
            xdotool("windowfocus", "--sync", found, "key", "ctrl+q")
            said = said_by_program(viewer.communicate(timeout=SECONDS)[1])
            check(viewer.returncode == 0 and not said, f"{name}, closed", f"status {viewer.returncode}: {said}")
        except (subprocess.TimeoutExpired, IndexError) as wrong:
            viewer.kill()
            check(False, name, wrong)


def windows(folder):
    if not (shutil.which("Xvfb") and shutil.which("xdotool")):
        leave_out("windows", "there is no Xvfb or no xdotool")
        return
    settings = folder / ".config" / "sillwright"
    settings.mkdir(parents=True)
    (settings / "window.toml").symlink_to("/dev/zero")
    window("a window whose place is kept in /dev/zero", "640x400", ["600x300"], folder)
    check((settings / "window.toml").is_file(), "its place is kept in a file again", "it is not")
    window("a window", "1280x800", ["1x1", "1x700", "900x1", "4000x3000"], folder)
    window("a screen of one pixel", "1x1", ["1x1"], folder)
    window("a screen of 8k", "7680x4320", ["7680x4320", "16x4320", "7680x4320"], folder)


def locale_with_commas(folder):
    place = folder / "locales"
    place.mkdir()
    made = shutil.which("localedef") and subprocess.run(
        ["localedef", "-i", "de_DE", "-f", "UTF-8", str(place / "de_DE.UTF-8")], capture_output=True).returncode in (0, 1)
    if not made or not (place / "de_DE.UTF-8").exists():
        leave_out("a locale with decimal commas", "there is no localedef with its sources (Debian: locales)")
        return
    german = {"LOCPATH": str(place), "LC_ALL": "de_DE.UTF-8"}
    for arguments in (["check", JOB], ["check", JOB, "--json"], ["steps", JOB], ["list", JOB]):
        plain = row(" ".join(map(str, arguments[:1] + arguments[2:])), arguments, 0, lines=0)
        comma = row("  the same with decimal commas", arguments, 0, lines=0, env=german)
        check(plain == comma, "  the same bytes", "they differ")
    for verb, ending in (("export", "obj"), ("export", "glb"), ("export", "svg"), ("export", "ifc"), ("export", "dxf"), ("sheets", "pdf"), ("list", "xlsx")):
        option = "--xlsx" if verb == "list" else "--out"
        files = [folder / f"{name}.{ending}" for name in ("plain", "comma")]
        row(f"{verb} .{ending}", [verb, JOB, option, files[0]], 0, lines=0)
        row("  the same with decimal commas", [verb, JOB, option, files[1]], 0, lines=0, env=german)
        pages = [sorted(folder.glob(f"{file.stem}*.{ending}")) for file in files]  # of an SVG several
        contents = [b"".join(page.read_bytes() for page in each).replace(b"plain.mtl", b"comma.mtl") for each in pages]
        check(len(contents[0]) > 0, "  something was written", f"{pages}")
        check(contents[0] == contents[1], "  the same bytes", "they differ")


def main():
    with tempfile.TemporaryDirectory(prefix="sillwright-run-") as run:  # without one, window libraries have a say
        os.environ.setdefault("XDG_RUNTIME_DIR", run)
        return all_parts()


def near_openings(folder):
    """Openings that lack room between them: both say stop."""
    def stopped(name, left, names, words):
        second = "[[opening]]" + TEXT.split("[[opening]]")[1].replace('"Y1"', '"Y2"').replace("left   = 1035", f"left   = {left}")
        long = TEXT.replace("length   = 3600", "length   = 7200") + "\n" + second
        answer = json.loads(row(name, ["check", put(folder, "near.toml", long), "--json"], 1, words))
        got = sorted(each["name"] for each in answer["openings"] if each["verdict"] == "stop")
        check(got == names, name + ": both are stopped", f"stop says {got}")

    stopped("an opening over another", 1500, ["Y1", "Y2"], "overlaps opening Y1")
    stopped("jamb studs without room", 2600, ["Y1", "Y2"], "Between it and Y2")
    for top in ("[[0, 2440], [1e-9, 2640], [3600, 2440]]", "[[0, 2440], [1800, 2440], [1800.000000001, 2440.5], [3600, 2440]]"):
        job = put(folder, "top.toml", TEXT.replace("top      = 2440", f"top      = {top}"))
        row("two corners of a top at one place", ["list", job], 2, "1 mm past the x before it", lines=1)
    steep = put(folder, "steep.toml", TEXT.replace("top      = 2440", "top = [[0, 2440], [1, 20000], [3599, 20000], [3600, 2440]]"))
    row("a top that rises as a wall", ["list", steep], 0, "top plate")


def odd_characters(folder):
    """What a terminal would act on, and what no XML can hold."""
    def quiet(name, arguments, status, **more):
        answer = ended([PROGRAM, *map(str, arguments)], None, None, subprocess.PIPE)
        told = answer[1] + answer[2]
        row(name, arguments, status, **more)
        moves = re.search(rb"[\x00-\x09\x0b-\x1f\x7f]|\xc2[\x80-\x9f]|\xe2\x80[\xa8-\xae]|\xe2\x81[\xa6-\xa9]", told)
        check(not moves, name + ": nothing moves the terminal", moves)

    for name in ("\ufffe", "\uffff"):
        row(f"a title with U+{ord(name):X}", ["list", put(folder, "x.toml", TEXT.replace("Workshop", name))], 2,
            "x.toml:4:12: job.title: must not hold control characters", lines=1)
    turned = put(folder, "turned.toml", TEXT.replace('"Y1"', '"Y1\u202e\u2066"').replace('"yard"', '"y\u202aard"'))
    for verb in ("check", "steps", "list"):
        quiet(f"{verb} with names that turn the line", [verb, turned], 0)
    put(folder, "escape.obj", "v \x1b[2J\x1b]0;gone\x07 1 1\nf 1 1 1\n")
    mesh = put(folder, "mesh.toml", TEXT.replace("fin      = 30", 'fin      = 30\nmesh     = "escape.obj"'))
    quiet("a mesh with escape sequences", ["check", mesh], 2, words="is not a finite number")
    put(folder, "own.toml", 'name = "\x1b[2J"\n"\\u001b[2J" = 1\n')
    quiet("a practice with escape sequences", ["check", put(folder, "p.toml", TEXT.replace('"au"', '"own.toml"'))], 2)
    quiet("a file's name with escape sequences", ["check", folder / "\x1b[2J.toml"], 2)
    quiet("an opening's name with escape sequences", ["steps", JOB, "--opening", "\x1b[2J"], 2)
    formula = put(folder, "formula.toml", TEXT.replace('"Y1"', '"=1+1"').replace('"yard"', '"@yard"'))
    row("names that are formulas", ["list", formula, "--csv", folder / "csv"], 0)
    cells = (folder / "csv" / "order-list.csv").read_text(encoding="utf-8")
    check("'=1+1" in cells and "'@yard" in cells, "guarded in the CSV", cells)
    back = row("and read back as they were", ["schedule", folder / "csv" / "order-list.csv"], 0)
    check(b'"=1+1"' in back and b'"@yard"' in back, "the guard is taken off", back)
    walls = TEXT.replace('"yard"', '"' + "\u7a93" * 100 + '"') + '\n[[wall]]\nname = "b"\nlength = 900\ntop = 2400\n'
    row("elevations of a wall with a long name", ["export", put(folder, "cjk.toml", walls), "--out", folder / "c.svg"], 0)
    check(any("\u7a93" in each.read_text(encoding="utf-8") for each in folder.glob("c-*.svg")), "its name as text", os.listdir(folder))


def own_input(folder):
    """What is read is not what is written, and what is written can be read."""
    job, csv = put(folder, "job.toml", TEXT), folder / "lists" / "order-list.csv"
    row("a schedule", ["list", job, "--csv", folder / "lists"], 0)
    before = csv.read_bytes()
    (folder / "link.csv").symlink_to(csv)
    for out in (csv, folder / "link.csv"):
        refused(f"a schedule over itself: {out.name}", ["schedule", csv, "--out", out], "another file")
    check(csv.read_bytes() == before, "the schedule is still there", "it is not")
    (folder / "own" / "schedule").mkdir(parents=True)
    own = {"SILLWRIGHT_ASSETS": str(folder / "own")}
    refused("a schedule without the file of offices' words", ["schedule", csv], "schedule/words.toml", env=own)
    put(folder / "own" / "schedule", "words.toml", 'passed_over = 1\n[[colum]]\nours = "kind"\n')
    for told in ("words.toml:1:15: passed_over", "words.toml:2:3: colum: ", "did you mean column?"):
        row(f"two slips in the file of offices' words: {told}", ["schedule", csv], 2, told, lines=2, env=own)
    (folder / "other").mkdir()
    put(folder, "ours.toml", (SOURCE / "assets/practice/au.toml").read_text(encoding="utf-8"))
    job.write_text(TEXT.replace('"au"', '"./ours.toml"'), encoding="utf-8")
    csv.write_text(csv.read_text(encoding="utf-8").replace("Y1", "Y2").replace("1035", "20"), encoding="utf-8")
    new = folder / "other" / "new.toml"
    row("a schedule's job into another folder", ["schedule", csv, "--job", job, "--out", new], 0)
    check('practice = "../ours.toml"' in new.read_text(encoding="utf-8"), "it names its practice from there", new.read_text())
    row("and is read there", ["check", new], 1, "Y2")
    (folder / "link.glb").symlink_to(folder / "other" / "new.glb")
    row("a model through a link that leads nowhere yet", ["export", JOB, "--out", folder / "link.glb"], 0)
    check((folder / "link.glb").is_symlink() and (folder / "other" / "new.glb").is_file(), "the link is followed", "it is not")
    os.link(folder / "other" / "new.glb", folder / "same.glb")
    row("a model that has another name", ["export", JOB, "--out", folder / "same.glb"], 0, "hard links", lines=1)


def ended_midway(folder):
    """INT and TERM leave nothing behind."""
    many = WALL.replace("length   = 3600", "length   = 100000") + "".join(
        "[[opening]]" + TEXT.split("[[opening]]")[1].replace('"Y1"', f'"Y{i}"').replace("left   = 1035", f"left   = {100 + 1900 * i}")
        for i in range(50))
    job = put(folder, "many.toml", many)
    parts, out = folder / "parts", folder / "out"
    parts.mkdir()
    out.mkdir()
    book = [PROGRAM, "list", str(job), "--force", "--xlsx", str(out / "book.xlsx")]
    env = {**os.environ, "TMPDIR": str(parts)}
    whole = ended(book, {"TMPDIR": str(parts)}, None, subprocess.DEVNULL)[3]
    (out / "book.xlsx").unlink()
    for i in range(24):
        with subprocess.Popen(book, env=env, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as running:
            time.sleep(whole * i / 22)
            running.send_signal(signal.SIGTERM if i % 2 else signal.SIGINT)
    check(os.listdir(parts) == [], "no part of a workbook is left after INT and TERM", os.listdir(parts))
    check(set(os.listdir(out)) <= {"book.xlsx"}, "nor anything beside it", os.listdir(out))


def little_room(folder):
    """Machines that give little memory, or no threads: an answer, or one sentence."""
    mesh = put(folder, "tangled.obj", "".join(f"v {i * i % 251} {i * 7 % 13} {i * i * i % 241}\n" for i in range(256))
               + ("f " + " ".join(str(1 + i * 101 % 256) for i in range(256)) + "\n") * 7000)
    job = put(folder, "tangled.toml", TEXT.replace("fin      = 30", f'fin      = 30\nmesh     = "{mesh.name}"'))
    begin = time.monotonic()
    row("7000 faces that cross themselves, checked", ["check", job], 0)
    refused("the same, drawn", ["export", job, "--out", folder / "tangled.glb"], "cross themselves")
    check(time.monotonic() - begin < 20, "both soon", "they took long")
    commands = {"check": [JOB], "list": [JOB], "steps": [JOB], "sheets": [JOB, "--out", folder / "a.pdf"],
                "picture": [JOB, "--out", folder / "a.png", "--size", "320x200"], "export": [JOB, "--out", folder / "a.glb"]}

    if not runs_in(PROGRAM, 1024):
        leave_out("little memory", "the sanitizers take more than that for themselves")
    else:
        for verb, arguments in commands.items():
            for megabytes in (128, 192, 256, 320, 400, 500, 600):
                got, _, said, _ = ended([PROGRAM, verb, *map(str, arguments)], None, memory_limit(megabytes), subprocess.DEVNULL)
                check(got == 0 or (got == 2 and len(said_by_program(said)) == 1), f"{verb} in {megabytes} MiB", (got, said))
    nobody = nobody_runs_it()
    if nobody is None:
        leave_out("no threads", "this is root, and a user without rights can't run the program where it lies")
        return

    def no_threads():
        resource.setrlimit(resource.RLIMIT_NPROC, (1, 1))
        nobody()

    if os.geteuid() == 0:
        alone = {"before": no_threads, "env": {"ASAN_OPTIONS": "detect_leaks=0"}}  # the leak checker looks from a thread of its own
        for verb in ("check", "list"):
            row(f"{verb} where no thread may be started", [verb, JOB], 0, **alone)
        for verb in ("sheets", "picture"):
            refused(f"{verb} where no thread may be started", [verb, *commands[verb]], "further threads", **alone)


def all_parts():
    for part in (no_plain_files, texts, same_answers, near_openings, odd_characters, own_input, full_disk, bad_places, building_models,
                 permissions, ended_midway, little_room, numbers_of_the_command, machine, windows, locale_with_commas):
        with tempfile.TemporaryDirectory(prefix="sillwright-hostile-") as name:
            folder = pathlib.Path(name)
            folder.chmod(0o755)
            print(f"\n{part.__name__.replace('_', ' ')}", flush=True)
            part(folder)
    print(f"\n{rows} rows, {failed} failed, {left_out} left out")
    return 1 if failed else 0


sys.exit(main())
