"""Window schedules as offices write them: schedule_test.py PROGRAM SOURCE_DIR [--write].

Beside each schedule of tests/exchange/schedules stands what the program says of it: blocks of a command line ("$ …"), the
answer and the exit status. --write writes them anew, to be read before they are kept. The same tables as workbooks of
another program (openpyxl) must come to the same openings; files that are no tables are refused in a sentence.
"""

import csv
import pathlib
import subprocess
import sys
import tempfile
import tomllib
import zipfile

import openpyxl

from checks import check, memory_limit, runs_in, told

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
WRITE = "--write" in sys.argv
SCHEDULES = SOURCE / "tests" / "exchange" / "schedules"
LITTLE = memory_limit(3 << 10) if runs_in(PROGRAM, 3 << 10) else None
USUAL = ["--practice", "au", "--wall", "north", "--side-by-side"]


def run(arguments, folder=SCHEDULES, before=None):
    done = subprocess.run([PROGRAM, "schedule", *map(str, arguments)], cwd=folder, capture_output=True, encoding="utf-8",
                          preexec_fn=before, timeout=120)
    return done.returncode, done.stdout, done.stderr


def answer(line):
    """What a command line says; its words are parted by two blanks, as they hold single ones."""
    status, out, err = run([word for word in line.split("  ") if word] + USUAL)
    return f"$ {line}\n{out}{err}status {status}\n"


def as_they_stand():
    schedules = sorted(path for path in SCHEDULES.iterdir() if path.suffix in (".csv", ".txt"))
    check(len(schedules) >= 20, f"only {len(schedules)} schedules")
    for schedule in schedules:
        expected = schedule.with_suffix(".expected")
        said = expected.read_text(encoding="utf-8") if expected.exists() else f"$ {schedule.name}  --show\n"
        lines = [line[2:] for line in said.splitlines() if line.startswith("$ ")]
        now = "\n".join(answer(line) for line in lines)
        if WRITE:
            expected.write_text(now, encoding="utf-8")
        check(now == said, f"{schedule.name} comes to something else:\n{now}")


def book_of(rows, path, sheet="Windows", others=()):
    book = openpyxl.Workbook()
    book.active.title = sheet
    for row in rows:
        book.active.append([number(text) for text in row])
    for name in others:
        book.create_sheet(name).append(["Drawn by", "Date"])
    book.save(path)


def number(text):
    try:
        return float(text)
    except ValueError:
        return text


def rows_of(name):
    with open(SCHEDULES / name, encoding="utf-8", newline="") as file:
        return list(csv.reader(file))


def workbooks(folder):
    for name in ("01-order-list.csv", "05-titles-blank-rows-totals.csv", "06-thousands-and-units.csv",
                 "09-groups-over-two-rows.csv", "15-quantities-and-names.csv"):
        path = folder / (name + ".xlsx")
        book_of(rows_of(name), path, others=["Cover", "Doors"])
        plain, book = run([name, *USUAL]), run([path, *USUAL])
        check(plain[:2] == book[:2] and plain[0] == 0, f"{name} as a workbook comes to something else:\n{book}")
    rows = rows_of("17-page-headers-again.csv")
    path = folder / "two.xlsx"
    book_of(rows, path, "Ground")
    book = openpyxl.load_workbook(path)
    for row in rows:
        book.create_sheet("First").append(row) if "First" not in book.sheetnames else book["First"].append(row)
    book.save(path)
    status, _, err = run([path, *USUAL])
    check(status == 2 and '"Ground", "First"' in err and "--sheet" in err, "which sheet is not asked: " + err)
    check(run([path, "--sheet", "First", *USUAL])[0] == 0, "a named sheet is not read")
    check('no sheet "Attic"' in run([path, "--sheet", "Attic", *USUAL])[2], "a sheet that isn't there")


def refused(folder, name, content, words):
    path = folder / name
    path.write_bytes(content)
    status, out, err = run([path, *USUAL], before=LITTLE)
    check(status == 2 and words in err and not out, f"{name}: status {status}, wanted '{words}': {err[:300]}")


def zipped(folder, parts):
    path = folder / "made.zip"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as made:
        for name, text in parts.items():
            made.writestr(name, text)
    return path.read_bytes()


def no_tables(folder):
    refused(folder, "old.csv", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600), "a workbook of the old kind (.xls)")
    refused(folder, "print.csv", b"%PDF-1.7\n", "is a PDF")
    refused(folder, "page.csv", b"<html><table>", "is a web page")
    refused(folder, "picture.csv", b"\x89PNG\r\n\x1a\n", "is a picture")
    refused(folder, "bytes.csv", bytes(range(256)), "is no text")
    refused(folder, "empty.csv", b"", "no header row")
    refused(folder, "commas.csv", b"," * 60_000_000, "too many columns")
    refused(folder, "lines.csv", b"\n" * 2_000_000, "too large")
    refused(folder, "fields.csv", b"a,b,c,d,e,f,g,h\n" * 500_000, "too large")
    refused(folder, "other.xlsx", zipped(folder, {"hello.txt": "hello"}), "is a zip but no workbook")
    refused(folder, "open.ods", zipped(folder, {"mimetype": "x"})[:30] + b"mimetypeapplication/vnd.oasis.opendocument", "OpenDocument")
    refused(folder, "torn.xlsx", zipped(folder, {"xl/workbook.xml": "<workbook/>"})[:60], "damaged zip")
    book = '<workbook><sheets><sheet name="A" r:id="r" xmlns:r="x"/></sheets></workbook>'
    links = '<Relationships><Relationship Id="r" Target="worksheets/a.xml"/></Relationships>'
    parts = {"xl/workbook.xml": book, "xl/_rels/workbook.xml.rels": links}
    many = "<c t='inlineStr'><is><t>x</t></is></c>" * 900
    rows = ("<row>" + many + "</row>") * 4000
    refused(folder, "cells.xlsx", zipped(folder, {**parts, "xl/worksheets/a.xml": f"<s>{rows}</s>"}), "more than is read")
    far = "<s><row r='1048577'><c r='A1048577'><v>1</v></c></row></s>"
    refused(folder, "far.xlsx", zipped(folder, {**parts, "xl/worksheets/a.xml": far}), "more than is read")
    laughs = '<!DOCTYPE s [<!ENTITY a "aaaa">]><s>&a;</s>'
    refused(folder, "laughs.xlsx", zipped(folder, {**parts, "xl/worksheets/a.xml": laughs}), "no sound XML")
    long = f"<s>{' ' * 300_000_000}</s>"
    refused(folder, "long.xlsx", zipped(folder, {**parts, "xl/worksheets/a.xml": long}), "more than is read")


def joins(folder):
    """What is told in words is in the job: the openings on its wall, and a remark that says what was taken."""
    job = SOURCE / "assets" / "jobs" / "workshop-window.toml"
    wall = tomllib.loads(job.read_text(encoding="utf-8"))["wall"][0]["name"]
    out = folder / "joined.toml"
    status, _, err = run(["10-sizes-in-one-field.csv", "--wall", wall, "--side-by-side", "--job", job, "--out", out])
    check(status == 0, err)
    text = out.read_text(encoding="utf-8")
    check("# In the schedule no place is told for 2 openings" in text, "what was taken is not in the job")
    units = [one["unit"] for one in tomllib.loads(text)["opening"]][-2:]
    check([(u["kind"], u["width"], u["height"]) for u in units] ==
          [("sliding window", 1510, 1040), ("fixed window", 1810, 1210)], f"other units: {units}")


def main():
    as_they_stand()
    with tempfile.TemporaryDirectory() as made:
        folder = pathlib.Path(made)
        workbooks(folder)
        no_tables(folder)
        joins(folder)
    return told()


sys.exit(main())
