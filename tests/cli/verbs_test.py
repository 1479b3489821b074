"""The command line's verbs as scripts and terminals use them: verbs_test.py PROGRAM SOURCE_DIR."""

import json
import os
import pathlib
import pty
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import tomllib

import openpyxl

from checks import check, terminals, told

PROGRAM, SOURCE = sys.argv[1], pathlib.Path(sys.argv[2])
JOBS = SOURCE / "assets" / "jobs"
SHED = JOBS / "boatshed.toml"


def run(*arguments, status=0, says=""):
    done = subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, encoding="utf-8", stdin=subprocess.DEVNULL)
    said = done.stdout + done.stderr
    check(done.returncode == status and says in " ".join(said.split()),
          f"status {done.returncode}, wanted {status} and '{says}': {arguments}\n{said[:600]}")
    return done.stdout


def slips(folder):
    run("chekc", SHED, status=2, says="no verb and no file 'chekc'; did you mean check?")
    run("check", SHED, "--jsn", status=2, says="check has no --jsn; did you mean --json?")
    run("sheets", SHED, "--out", folder / "a.jpg", status=2, says="--out must end in .pdf, .svg or .png; found 'a.jpg'")
    run("export", SHED, "--out", folder / "a.jpg", status=2, says=".glb, .obj, .svg, .ifc, .dxf or .html")
    run("export", JOBS / "workshop-window.toml", "--out", folder / "a.GLB")
    check((folder / "a.GLB").read_bytes()[:4] == b"glTF", "an ending in capitals")


def checks():
    both = run("check", JOBS / "workshop-window.toml", JOBS / "not-yet.toml", status=1)
    check("not-yet.toml\n" in both and "workshop-window.toml\n" in both, "which job is which")
    check(run("check", SHED, JOBS / "not-yet.toml", "--quiet", status=1) == "", "--quiet is not quiet")
    run("check", JOBS / "workshop-window.toml", SHED.parent / "none.toml", status=2, says="there is no such file")
    run("check", SHED, SHED, "--json", status=2, says="--json tells of one job; there are 2")
    one = run("check", SHED, "--opening", "H1")
    check("H1" in one and "J1" not in one, "other openings too")
    run("check", SHED, "--opening", "Q", status=2, says="no opening 'Q'; it has J1, J2")
    run("check", SHED, "--practice", "zz", status=2, says='no practice "zz"')
    run("check", JOBS / "workshop-window.toml", "--practice", SOURCE / "assets" / "practice" / "au.toml")


def on_terminal(stream, *arguments, **env):
    """What is said to a terminal at the stream, "stdout" or "stderr"."""
    ours, theirs = pty.openpty()
    done = subprocess.Popen([PROGRAM, *map(str, arguments)], **{stream: theirs}, env={**os.environ, "TERM": "xterm", "NO_COLOR": "", **env})
    os.close(theirs)
    said = b""
    while True:
        try:
            piece = os.read(ours, 4096)
        except OSError:
            break
        if not piece:
            break
        said += piece
    done.wait()
    os.close(ours)
    return said


def colours():
    def check_on_terminal(**env):
        return on_terminal("stdout", "check", JOBS / "workshop-window.toml", **env)
    check(b"\x1b[3" in check_on_terminal(), "no colours on a terminal")
    check(b"\x1b" not in check_on_terminal(NO_COLOR="1"), "colours in spite of NO_COLOR")
    check(b"\x1b" not in check_on_terminal(TERM="dumb"), "colours on a dumb terminal")
    check("\x1b" not in run("check", JOBS / "workshop-window.toml"), "colours in a file")


def progress(folder):
    """How far the drawing of many sheets is, is told on a terminal alone."""
    text = (JOBS / "workshop-window.toml").read_text(encoding="utf-8")
    head, wall, opening = re.split(r"(?m)^(?=\[\[)", text)
    job = folder / "many.toml"
    job.write_text(head + "".join(each.replace('"yard"', f'"w{i}"').replace('"Y1"', f'"o{i}"')
                                  for i in range(200) for each in (wall, opening)), encoding="utf-8")
    said = on_terminal("stderr", "sheets", job, "--out", folder / "many.pdf")
    check(re.search(rb"page \d+ of \d+", said) is not None and said.endswith(b"\r\x1b[K"), f"how far it is, is not told: {said[-60:]}")
    # Any verb that takes more than a second, here for a reader that is in no hurry, and its end by INT.
    slow = folder / "slow.obj"
    os.mkfifo(slow)
    reader = os.open(slow, os.O_RDONLY | os.O_NONBLOCK)
    ours, theirs = pty.openpty()
    with subprocess.Popen([PROGRAM, "export", str(SHED), "--out", str(slow)], stderr=theirs) as going:
        os.close(theirs)
        said = b""
        while b"2 s" not in said:
            said += os.read(ours, 256)
        going.send_signal(signal.SIGINT)
        check(going.wait(timeout=20) == -signal.SIGINT, f"INT: ended with {going.returncode}")
    check(said.startswith(b"\rat work, 1 s\x1b[K"), f"work of seconds is not told: {said}")
    os.close(ours)
    os.close(reader)


def watches(folder):
    job = folder / "watched.toml"
    text = (JOBS / "workshop-window.toml").read_text(encoding="utf-8")
    title = tomllib.loads(text)["job"]["title"]
    job.write_text(text, encoding="utf-8")
    out = folder / "watched.txt"
    with open(out, "wb") as file, subprocess.Popen([PROGRAM, "check", str(job), "--watch"], stdout=file) as watching:
        def until(words):
            for _ in range(300):
                if words in out.read_text(encoding="utf-8"):
                    return True
                time.sleep(0.1)
            return False
        check(until(title), "nothing is said at first")
        (folder / "new").write_text(text.replace(title, "Another title"), encoding="utf-8")
        os.replace(folder / "new", job)  # as editors save
        check(until("Another title"), "a change is not seen")
        watching.terminate()


def completions(folder):
    for shell in ("bash", "zsh", "fish"):
        (folder / shell).write_text(run("completion", shell), encoding="utf-8")
        if shutil.which(shell):
            check(subprocess.run([shell, "-n", folder / shell]).returncode == 0, f"{shell} can't read its completion")
    run("completion", "cmd", status=2, says="bash")
    script = f'source {folder}/bash; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _sillwright; echo "${{COMPREPLY[@]}}"'
    for typed, offered in (("sillwright ch", "check"), ("sillwright check --q", "--quiet"), ("sillwright check boat", ""),
                           ("sillwright schedule s.csv --unit ", "mm cm m in ft"), ("sillwright list --x", "--xlsx")):
        done = subprocess.run(["bash", "-c", script, "x", *typed.split(" ")], capture_output=True, encoding="utf-8")
        check(done.stdout.strip() == offered, f"'{typed}' is offered '{done.stdout.strip()}', wanted '{offered}'")


def differences(folder):
    job = folder / "changed.toml"
    text = SHED.read_text(encoding="utf-8")
    job.write_text(text.replace("sill     = 1050", "sill     = 1040") + '\n[[opening]]\nname = "Z9"\nwall = "lane"\nleft = 300\nsill = 900\n'
                   'width = 630\nheight = 630\nunit = { kind = "fixed window", width = 610, height = 610 }\n', encoding="utf-8")
    said = " ".join(run("diff", SHED, job, status=1).split())
    for words in ("Verdicts Z9: ready, as planned", "new: Z9: kind fixed window", "count 2 → 4"):
        check(words in said, f"'{words}' is not told: {said[:900]}")
    check("gone: Z9" in run("diff", job, SHED, status=1), "an opening that is gone is not told")
    run("diff", SHED, SHED, says="Nothing to order")
    run("diff", SHED, folder / "none.toml", status=2)


def handbooks(folder):
    job, book = JOBS / "stair-pair.toml", folder / "book.pdf"

    def text(*arguments):
        run("handbook", job, *arguments, "--out", book)
        return subprocess.run(["pdftotext", "-layout", book, "-"], capture_output=True, encoding="utf-8").stdout

    one = text("--opening", "lower")
    check("Check:" in one and "Tools:" in one and "1 ×" in one, "a check, the tools or the parts are not there")
    crew = text("--crew", "--paper", "letter")
    check("At lower, upper; drawn: lower" in crew, "steps that are alike are not told once")
    run("handbook", job, "--out", book, status=2, says="--opening NAME, or --crew")
    run("handbook", job, "--opening", "J9", "--out", book, status=2, says="no opening 'J9'")
    run("handbook", job, "--crew", "--out", folder / "book.svg", status=2, says="--out must end in .pdf")


def measures(folder):
    job = folder / "measured.toml"
    text = SHED.read_text(encoding="utf-8")
    job.write_text(text, encoding="utf-8")
    log = folder / "log.csv"
    log.write_text("Window;Measurement;Result\nJ1;width bottom;2,432 m\nJ2;W middle;1532\n", encoding="utf-8")
    run("measure", job, log, status=1, says="J1, bottom width: 2431 → 2432")
    check(job.read_text(encoding="utf-8") == text, "written without a yes")
    run("measure", job, log, "--yes")
    now = job.read_text(encoding="utf-8")
    check(now == text.replace("[2431, 2430, 2431]", "[2432, 2430, 2431]", 1).replace("[1530, 1531, 1532]", "[1530, 1532, 1532]", 1),
          "more than the two values was written")
    run("measure", job, log, "--yes", says="has these measurements already")
    log.write_text("Window;Measurement;Result\nJ1;width bottom;2402\n", encoding="utf-8")
    run("measure", job, log, status=1, says="Verdicts J1: stop, measurements disagree")

    form = folder / "form.xlsx"
    run("measure", job, "--form", form)
    run("measure", job, form, status=2, says="no row has a value")
    book = openpyxl.load_workbook(form)
    rows = list(book.active.iter_rows())
    check([cell.value for cell in rows[0]] == ["opening", "reading", "planned mm", "value mm"], "the form's head")
    rows[1][3].value = 2433
    book.save(form)
    run("measure", job, form, status=1, says="1 measurement J1, bottom width: 2432 → 2433")
    run("measure", job, "--form", folder / "form.pdf", status=2, says="--form must end in .csv or .xlsx")
    run("measure", job, status=2, says="--form")


def pages(folder):
    """A page is filled with the job as data, whatever its names are."""
    assets = folder / "assets"
    (assets / "pocket").mkdir(parents=True)
    for each in ("practice", "meshes"):
        (assets / each).symlink_to(SOURCE.resolve() / "assets" / each)
    text = (JOBS / "workshop-window.toml").read_text(encoding="utf-8").replace("Workshop", "</script><!-- \\u0026 Workshop")
    job, out = folder / "page.toml", folder / "page.html"
    job.write_text(text, encoding="utf-8")
    os.environ["SILLWRIGHT_ASSETS"] = str(assets)
    run("export", job, "--out", out, status=2, says="there is no page to fill")
    (assets / "pocket" / "page.html").write_text("<script>@JOB@</script>", encoding="utf-8")
    run("export", job, "--out", out)
    page = out.read_text(encoding="utf-8")
    check(page.count("<") == 2, "a name of the job is markup: " + page[:300])
    data = json.loads(page.removeprefix("<script>").removesuffix("</script>"))
    check(data == {"job": "/job/page.toml", "files": {"/job/page.toml": text}}, "the page holds another job")
    del os.environ["SILLWRIGHT_ASSETS"]


def main():
    with tempfile.TemporaryDirectory() as made:
        folder = pathlib.Path(made)
        slips(folder)
        checks()
        if terminals():
            colours()
            progress(folder)
        watches(folder)
        completions(folder)
        differences(folder)
        measures(folder)
        pages(folder)
        handbooks(folder)
    return told()


sys.exit(main())
