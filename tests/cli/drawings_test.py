"""Drawings as other programs read them: drawings_test.py PROGRAM SOURCE_DIR.

SVG by lxml, and drawn by librsvg, against the PDF of the same sheets as poppler reads and draws it; DXF by ezdxf,
against the job as Python's TOML reader has it.
"""

import collections
import html
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib

import ezdxf
from ezdxf import bbox
from lxml import etree

from checks import check, told

PROGRAM, SOURCE = sys.argv[1], pathlib.Path(sys.argv[2])
JOBS = SOURCE / "assets" / "jobs"
SVG = "{http://www.w3.org/2000/svg}"
MM = 25.4 / 72  # a point of PDF


def run(*arguments):
    done = subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, encoding="utf-8")
    check(done.returncode == 0, f"status {done.returncode}: {arguments}\n{done.stderr}")


def tool(*arguments):
    done = subprocess.run([*map(str, arguments)], capture_output=True)
    check(done.returncode == 0, f"{arguments}: {done.stderr.decode()}")
    return done.stdout


def pdf_pages(pdf):
    """The words of each page with the left edge and the middle of their boxes, mm."""
    pages = []
    for line in tool("pdftotext", "-bbox", pdf, "-").decode().splitlines():
        if "<page " in line:
            pages.append([])
        if word := re.search(r'xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax="(.*?)">(.*)</word>', line):
            x0, y0, _, y1 = (float(word[i]) * MM for i in range(1, 5))
            pages[-1].append((html.unescape(word[5]), x0, (y0 + y1) / 2))
    return pages


def read_svg(path, words):
    """A page in millimetres, whose text is the PDF's and stands where it does."""
    page = etree.parse(path).getroot()
    size = [float(number) for number in page.get("viewBox").split()]
    check([page.get("width"), page.get("height")] == [f"{size[2]:g}mm", f"{size[3]:g}mm"], f"{path.name}: {page.get('width')}")
    check(page.get("font-family").startswith("Inter"), f"{path.name}: no typeface is named")
    ids = [each.get("id") for each in page.iter(SVG + "g")]
    check(len(ids) == len(set(ids)) and None not in ids, f"{path.name}: two groups of one id: {ids}")
    check(not page.findall(SVG + "path") and not page.findall(SVG + "text"), f"{path.name}: something is in no group")

    texts = list(page.iter(SVG + "text"))
    ours = collections.Counter(word for each in texts for word in each.text.split())
    theirs = collections.Counter(word for word, _, _ in words)
    check(ours == theirs, f"{path.name}: other words than in the PDF: {ours - theirs} {theirs - ours}")
    placed = 0
    for each in texts:
        first = each.text.split()[0]
        if each.get("transform") or theirs[first] != 1 or not first.isascii():
            continue
        x, y = float(each.get("x")), float(each.get("y")) - float(each.get("font-size")) * 0.727 / 2
        _, their_x, their_y = next(word for word in words if word[0] == first)
        check(abs(x - their_x) < 0.4 and abs(y - their_y) < 0.8, f"{path.name}: '{first}' at {x}, {y}, not {their_x}, {their_y}")
        placed += 1
    return {each.get("class") for each in page.iter(SVG + "g")}, placed


def off(folder, svg, pdf, number):
    """By how much the two pages differ as they are drawn: a share of what white and black would."""
    (folder / "a.png").write_bytes(tool("rsvg-convert", "-w", 1240, "-b", "white", svg))
    tool("pdftoppm", "-r", 150, "-f", number, "-l", number, "-scale-to-x", 1240, "-scale-to-y", -1, "-png", "-singlefile", pdf, folder / "b")
    grey = lambda name: tool("convert", folder / name, "-resize", "310x438!", "-colorspace", "Gray", "-depth", 8, "gray:-")
    ours, theirs = grey("a.png"), grey("b.png")
    return sum(abs(a - b) for a, b in zip(ours, theirs)) / (255 * len(theirs))


def svgs(folder, name):
    job = JOBS / f"{name}.toml"
    run("sheets", job, "--out", folder / "s.pdf")
    run("sheets", job, "--out", folder / "s.svg")
    pages = pdf_pages(folder / "s.pdf")
    files = sorted(folder.glob("s-*.svg"))
    check(len(files) == len(pages), f"{name}: {len(files)} files, {len(pages)} pages")
    groups, placed = set(), 0
    for number, (file, words) in enumerate(zip(files, pages), 1):
        here, many = read_svg(file, words)
        groups |= here
        placed += many
        if number in (2, 4, 5):
            check((by := off(folder, file, folder / "s.pdf", number)) < 0.02, f"{file.name}: drawn otherwise, {by:.4f} off")
        file.unlink()
    check(placed > 20 * len(pages), f"{name}: only {placed} texts were looked for")
    wanted = {"title", "notes", "dimensions", "frame", "units", "packers", "screws", "flashings", "membrane", "as built",
              "elevation", "openings", "head section", "jamb section", "sill section"}
    check(wanted <= groups, f"{name}: no group {wanted - groups}")


def dxf(folder, name):
    """Nothing to mend, layers used, dimensions that measure what they say, walls and openings as large as in the job."""
    job = tomllib.loads((JOBS / f"{name}.toml").read_text(encoding="utf-8"))
    run("export", JOBS / f"{name}.toml", "--out", folder / "d.dxf")
    drawing = ezdxf.readfile(folder / "d.dxf")
    faults = drawing.audit()
    check(not faults.errors and not faults.fixes, f"{name}: {[str(each.message) for each in faults.errors + faults.fixes][:5]}")
    model = drawing.modelspace()
    check({each.dxf.layer for each in model} == {"WALL", "FRAME", "OPENING", "UNIT", "DIMENSION", "TEXT"}, f"{name}: layers")
    said = collections.Counter()
    for each in model.query("DIMENSION"):
        said[each.dxf.text] += 1
        check(abs(each.get_measurement() - float(each.dxf.text)) < 0.051, f"{name}: {each.dxf.text} measures {each.get_measurement()}")

    def boxes(layer):
        every = (bbox.extents([each]).size for each in model.query(f'POLYLINE[layer=="{layer}"]'))
        return collections.Counter((round(size.x), round(size.y)) for size in every)

    openings = boxes("OPENING")
    words = collections.Counter(each.dxf.text for each in model.query("TEXT"))
    for each in job["opening"]:
        check(openings[round(each["width"]), round(each["height"])] > 0, f"{name}: no opening as large as {each['name']}")
        check(words[each["name"]] == 2, f"{name}: {each['name']} is named {words[each['name']]} times")
    for each in job["wall"]:
        check(said[f"{each['length']:g}"] > 0, f"{name}: no dimension as long as {each['name']}")


def main():
    with tempfile.TemporaryDirectory() as made:
        folder = pathlib.Path(made)
        for name in ("boatshed", "stair-pair"):
            svgs(folder, name)
        for name in ("boatshed", "stair-pair", "net-loft"):
            dxf(folder, name)
    return told()


sys.exit(main())
