"""The lists as other programs read them: list_test.py PROGRAM SOURCE_DIR.

CSV by Python's csv module, workbooks by openpyxl: the same cells in both, numbers as numbers. The order list goes
back in as a schedule, written by the csv module, and comes out as TOML for Python's reader.
"""

import csv
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib

import openpyxl

from checks import check, told

PROGRAM, SOURCE = sys.argv[1], pathlib.Path(sys.argv[2])


def run(*arguments, status=0):
    done = subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, encoding="utf-8")
    check(done.returncode == status, f"status {done.returncode}, wanted {status}: {arguments}\n{done.stderr}")
    return done


def csv_rows(path):
    with open(path, encoding="utf-8", newline="") as file:
        return [[unguarded(text) for text in row] for row in csv.reader(file, strict=True)]


def unguarded(text):
    """A text as it is without the apostrophe that keeps a spreadsheet from reckoning it out."""
    check(not text or text[0] not in "=+-@" or text.lstrip("-").replace(".", "").isdigit(), f"a formula in a CSV: {text}")
    return text[1:] if re.match("'+[=+@-]", text) else text


def compare(name, rows, sheet):
    """Cell by cell; in the workbook a number is a number, whatever has digits as CSV or not."""
    width = len(rows[0])
    cells = list(sheet.iter_rows(min_row=1, max_row=len(rows), max_col=width))
    header = [cell.value for cell in cells[0]]
    check(header == rows[0], f"{name}: header {header} in the workbook, {rows[0]} as CSV")
    numbers = 0
    for at, (texts, row) in enumerate(zip(rows[1:], cells[1:]), 2):
        check(len(texts) == width, f"{name}: row {at} of the CSV has {len(texts)} fields, the header {width}")
        for column, text, cell in zip(rows[0], texts, row):
            value = cell.value
            where = f"{name}, row {at}, {column}"
            if isinstance(value, (int, float)):
                numbers += 1
                check(set(cell.number_format) <= set("0."), f"{where}: shown as {cell.number_format}")
                shown = round(value, len(cell.number_format.partition(".")[2]))
                check(abs(shown - value) < 0.1, f"{where}: {value!r} is shown as {shown!r}")
                # A workbook keeps 16 digits; ours have at most 12.
                check(abs(float(text) - value) <= 1e-9 * max(1, abs(value)), f"{where}: {value!r} and {text!r}")
            else:
                check((value or "") == text, f"{where}: {value!r} and {text!r}")
    return numbers


def lists_of(job, folder):
    run("list", job, "--csv", folder / "csv", "--xlsx", folder / "lists.xlsx", "--force")
    book = openpyxl.load_workbook(folder / "lists.xlsx")
    files = sorted(path.stem for path in (folder / "csv").iterdir())
    check(files == sorted(name.replace(" ", "-") for name in book.sheetnames), f"{files} and {book.sheetnames}")
    numbers = 0
    tables = {}
    for sheet in book.worksheets:
        rows = csv_rows(folder / "csv" / (sheet.title.replace(" ", "-") + ".csv"))
        numbers += compare(f"{job.name}: {sheet.title}", rows, sheet)
        tables[sheet.title] = rows
    check(numbers > 50, f"{job.name}: only {numbers} numbers in the workbook")
    return tables


NAMES = ['say "left", then right', "Küche, 窓 №1", "=1+1", "½, ''", "0012"]


def awkward_job(folder):
    """Names that want quotes, and some that a spreadsheet would take for a formula or a number."""
    text = '[job]\ntitle = "Awkward, \\"quoted\\" — 家"\npractice = "au"\n'
    text += "[[wall]]\nname = 'north, \"old\"'\nlength = 20000\ntop = 3000\n"
    for at, name in enumerate(NAMES):
        quoted = name.replace("\\", "\\\\").replace('"', '\\"')
        text += f'[[opening]]\nname = "{quoted}"\nwall = \'north, "old"\'\nleft = {500 + 3000 * at}.5\nsill = 900\n'
        text += 'width = 1530\nheight = 1060\n[opening.unit]\nkind = "fixed window"\nwidth = 1510\nheight = 1040\n'
    path = folder / "awkward.toml"
    path.write_text(text, encoding="utf-8")
    return path


# A schedule's columns and the job file's keys (the job file's own words; units in mm and kg).
KEYS = {"left": "left", "sill": "sill", "framed width": "width", "framed height": "height"}
UNIT_KEYS = {"kind": "kind", "unit width": "width", "unit height": "height", "hand": "hand", "flashing": "flashing"}


def alike(now, was):
    """Inches are written to five decimals: lengths are alike to a thousandth of a millimetre."""
    if isinstance(was, dict):
        return isinstance(now, dict) and now.keys() == was.keys() and all(alike(now[key], was[key]) for key in was)
    number = isinstance(was, (int, float)) and isinstance(now, (int, float))
    return abs(now - was) < 0.001 if number else now == was


def height(one):
    """An order list has one height: of a head that follows the roof, that of its highest point."""
    head = one.get("head")
    return max(head["left"], head["right"], head.get("peak", [0, 0])[1]) if head else one.get("height")


def round_trip(job, orders, folder):
    """The order list read back as a schedule, by another program's TOML reader: what the job said comes back."""
    schedule = folder / "schedule.csv"
    with open(schedule, "w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, quoting=csv.QUOTE_ALL)
        based_on = orders[0].index("based on")
        # Another program's quotes, and a remark with line ends in a column that is passed over.
        writer.writerows([orders[0]] + [row[:based_on] + ['see "notes",\nbelow\r\n'] + row[based_on + 1 :] for row in orders[1:]])
    back = tomllib.loads(run("schedule", schedule).stdout).get("opening", [])
    said = tomllib.loads(job.read_text(encoding="utf-8")).get("opening", [])
    check([one["name"] for one in back] == [one["name"] for one in said], f"{job.name}: other openings came back")
    for was, now in zip(said, back):
        where = f"{job.name}, {was['name']}"
        check(now["wall"] == was["wall"] and now.get("room") == was.get("room"), f"{where}: wall or room")
        for one in (was, was["unit"]):
            one["height"] = height(one)
        for key in KEYS.values():
            check(alike(now[key], was[key]), f"{where}: {key} {now[key]}, was {was[key]}")
        for key in UNIT_KEYS.values():
            check(alike(now["unit"].get(key), was["unit"].get(key)), f"{where}: unit {key}")
        for key in ("frame", "reveal"):
            if key in was["unit"]:
                check(alike(now["unit"].get(key), was["unit"][key]), f"{where}: {key}")
        check(now["unit"].get("mass") == was["unit"].get("mass"), f"{where}: mass")


def joins(folder):
    """A schedule's openings behind a job's own text; refusals at row and column, and nothing written."""
    job = SOURCE / "assets" / "jobs" / "workshop-window.toml"
    wall = tomllib.loads(job.read_text(encoding="utf-8"))["wall"][0]["name"]
    head = "opening,wall,left,sill,framed width,framed height,kind,unit width,unit height\n"
    (folder / "more.csv").write_text(head + f'"New, ½",{wall},200,900,640,640,fixed window,620,620\n', encoding="utf-8")
    out = folder / "joined.toml"
    run("schedule", folder / "more.csv", "--job", job, "--out", out)
    text = out.read_text(encoding="utf-8")
    check(text.startswith(job.read_text(encoding="utf-8")), "the job's own text was changed")
    check([one["name"] for one in tomllib.loads(text)["opening"]][-1] == "New, ½", "the opening is not in the job")
    run("list", out)

    (folder / "bad.csv").write_text(head + f"A,{wall},x,900,640,640,fixed window,620,620\nB,nowhere,1,2,3,4,5,6,7\n")
    refused = folder / "refused.toml"
    done = run("schedule", folder / "bad.csv", "--job", job, "--out", refused, status=2)
    check("bad.csv:2:" in done.stderr and "row 2, left" in done.stderr, "row 2 is not told: " + done.stderr)
    check("bad.csv:3:3: row 3, wall" in done.stderr and "row 3, kind" in done.stderr, "row 3 is not told: " + done.stderr)
    check(not refused.exists(), "a refused schedule was written")
    done = run("schedule", folder / "more.csv", "--job", out, "--out", out, status=2)
    check("--job" in done.stderr and out.read_text(encoding="utf-8") == text, "the job itself was written over")
    run("schedule", folder / "none.csv", status=2)
    run("schedule", folder, status=2)


def main():
    jobs = sorted((SOURCE / "assets" / "jobs").glob("*.toml"))
    check(len(jobs) >= 9, "no demo jobs")
    with tempfile.TemporaryDirectory() as made:
        folder = pathlib.Path(made)
        for job in jobs:
            (folder / job.stem).mkdir()
            round_trip(job, lists_of(job, folder / job.stem)["order list"], folder)
        orders = lists_of(awkward_job(folder), folder)["order list"]
        check([row[0] for row in orders[1:]] == NAMES, f"names came back as {[row[0] for row in orders[1:]]}")
        round_trip(folder / "awkward.toml", orders, folder)
        joins(folder)

        # The same bytes from run to run.
        first = (folder / "lists.xlsx").read_bytes()
        run("list", folder / "awkward.toml", "--xlsx", folder / "again.xlsx")
        check(first == (folder / "again.xlsx").read_bytes(), "the workbook differs from run to run")

        # On the terminal: the order, and the plan's proof.
        said = run("list", jobs[0]).stdout
        unbroken = " ".join(said.split())
        check("Units to order" in unbroken and "no plan buys less" in unbroken, "no order list or no proof on the terminal")
        check(max(len(line) for line in said.splitlines()) <= 120, "a line is wider than the terminal")

        # Of an opening that says stop the unit is held: told, listed, and written to no file unless forced.
        stopped = SOURCE / "assets" / "jobs" / "misread-middle.toml"
        done = run("list", stopped, status=1)
        check("to order: HOLD: The middle width" in " ".join(done.stdout.replace("\u00a0", " ").split()), "HOLD is not in the order list")
        check("held" in done.stderr, "which unit is held is not told")
        run("list", stopped, "--csv", folder / "held", "--xlsx", folder / "held.xlsx", status=1)
        check(not (folder / "held").exists() and not (folder / "held.xlsx").exists(), "files of a held unit were written")

        # Across the page, as wide as it, its head on each; whose it is and which page in the foot.
        for sheet in openpyxl.load_workbook(folder / "lists.xlsx").worksheets:
            check(sheet.page_setup.orientation == "landscape" and sheet.sheet_properties.pageSetUpPr.fitToPage, f"{sheet.title}: page")
            check(sheet.print_title_rows == "$1:$1" and sheet.page_setup.fitToHeight == 0, f"{sheet.title}: head, height")
            check("Awkward" in (sheet.oddFooter.left.text or "") and "&P" in (sheet.oddFooter.right.text or ""), f"{sheet.title}: foot")
            check(sheet.auto_filter.ref is not None or sheet.max_row == 1, f"{sheet.title}: filter")

        # A sign of the foot's own language is cut off whole: what follows it stays where it belongs.
        cut = folder / "cut.toml"
        cut.write_text(f'[job]\ntitle = "{"a" * 199}&"\ndate = 2026-03-14\npractice = "au"\n'
                       '[[wall]]\nname = "w"\nlength = 3000\ntop = 2400\n')
        run("list", cut, "--xlsx", folder / "cut.xlsx")
        for sheet in openpyxl.load_workbook(folder / "cut.xlsx").worksheets:
            check(sheet.oddFooter.left.text == "a" * 199 and sheet.oddFooter.center.text == "2026-03-14", f"{sheet.title}: cut")

        # A folder is replaced whole: no list of an earlier job stays; a person's own file does.
        whole = folder / "whole"
        run("list", jobs[0], "--csv", whole, "--force")
        (whole / "mine.csv").write_text("a,b\n")
        empty = folder / "empty.toml"
        empty.write_text('[job]\ntitle = "Nothing yet"\npractice = "au"\n[[wall]]\nname = "w"\nlength = 3000\ntop = 2400\n')
        run("list", empty, "--csv", whole)
        left = {path.name for path in whole.iterdir()}
        check("mine.csv" in left and not left & {"packers.csv", "screws.csv", "tools.csv"}, f"left over: {sorted(left)}")

        # One unit a column, said in its head; inch jobs in inches, feet and square feet.
        inches = lists_of(SOURCE / "assets" / "jobs" / "garage-header.toml", folder)
        check("unit width in" in inches["order list"][0], f"{inches['order list'][0]}")
        check("stock length ft" in inches["timber to buy"][0], f"{inches['timber to buy'][0]}")
        check("frame sq ft" in inches["sheets"][0], f"{inches['sheets'][0]}")

        # Refusals: no such folder, a folder where the file should be.
        done = run("list", jobs[0], "--xlsx", folder / "none" / "a.xlsx", status=2)
        check("a.xlsx" in done.stderr, "the workbook that could not be written is not named")
        blocked = folder / "blocked"
        blocked.write_text("")
        run("list", jobs[0], "--csv", blocked, status=2)
    return told()


sys.exit(main())
