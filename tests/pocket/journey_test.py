"""The page for a phone in real browsers: journey_test.py PROGRAM SOURCE_DIR [PICTURES].

A person opens the page, picks an opening, types nine measurements of which one is misread, is told which, mends it, reads
the packers and sends; `sillwright measure` takes in what was sent. What the page's report says of every demo job is what
`sillwright check --json` says, byte for byte. Status 77: there is no page, or no browser.
"""

import difflib
import os
import pathlib
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "cli"))
from browsers import each_that_is_here  # noqa: E402
from checks import check, told  # noqa: E402

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
PICTURES = pathlib.Path(sys.argv[3]) if len(sys.argv) > 3 else None
PAGE = SOURCE / "assets" / "pocket" / "page.html"
LIMIT = 3_000_000  # bytes of a page


def run(*arguments, status=0):
    done = subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, encoding="utf-8", timeout=120,
                          env={**os.environ, "SILLWRIGHT_ASSETS": str(SOURCE / "assets")})
    check(done.returncode == status, f"{arguments}: status {done.returncode}: {done.stderr[:500]}")
    return done.stdout


def page_of(job, folder):
    out = folder / (job.stem + ".html")
    run("export", job, "--out", out)
    return out


def opened(browser, page):
    browser.open(page)
    for _ in range(600):
        text = browser.run("return document.getElementById('summary').textContent")
        if text != "One moment …":
            return text
        time.sleep(0.1)
    return "it never answered"


def shown(browser, name):
    if PICTURES:
        time.sleep(0.7)
        browser.picture(PICTURES / f"{browser.name.lower()}-{name}.png")


def text_of(browser, what):
    return browser.run("const it = document.querySelector(arguments[0]); return it ? it.innerText : ''", what)


def type_reading(browser, value):
    browser.run("const it = document.getElementById('reading'); it.focus(); it.select();")
    browser.keys(value + "\ue007")  # Enter


def journey(browser, folder):
    """The workshop's window, measured at the opening."""
    job = folder / "window.toml"
    text = (SOURCE / "assets" / "jobs" / "workshop-window.toml").read_text(encoding="utf-8")
    job.write_text(text[:text.index("[opening.measured]")] if "[opening.measured]" in text else text, encoding="utf-8")
    page = page_of(job, folder)
    check(page.stat().st_size < LIMIT, f"the page has {page.stat().st_size} bytes")
    browser.size(390, 844)
    begin = time.monotonic()
    summary = opened(browser, page)
    print(f"{browser.name}: open after {time.monotonic() - begin:.1f} s: {summary}")
    check("1 opening" in summary, summary)
    shown(browser, "1-open")
    browser.run("document.querySelector('#openings button').click()")
    check("as planned" in text_of(browser, "#opening"), "it is not told that nothing was measured")
    report = run("check", job, "--json")
    width, height = browser.run("const u = JSON.parse(sillwright.call('pocketOpening', 0)); return [u.corners[1][0], u.corners[2][1]]")
    diagonal = round((width ** 2 + height ** 2) ** 0.5)
    # Bottom, middle, top; left, middle, right; both diagonals, one with two digits changed; the sill's level.
    misread = diagonal + 90
    for value in (width + 1, width + 1, width, height, height, height + 1, diagonal + 1, misread, 1, 1, 0):
        type_reading(browser, f"{value:g}")
    told_now = text_of(browser, "#opening")
    check("Take again: " in told_now and "diagonal from top left" in told_now.split("Take again: ")[1].split(".")[0],
          "the misread diagonal is not named: " + told_now[:400])
    shown(browser, "2-misread")
    browser.run("document.getElementById('reading')")
    for _ in range(4):
        browser.run("for (const b of document.querySelectorAll('.measure .row button')) if (b.textContent.includes('before')) { b.click(); break; }")
    check("diagonal from top left" in text_of(browser, ".measure label"), "going back: " + text_of(browser, ".measure label"))
    type_reading(browser, "a wall")
    check("is no length" in text_of(browser, ".refused"), "a word is not refused: " + text_of(browser, ".refused"))
    type_reading(browser, f"{diagonal:g}")
    told_now = text_of(browser, "#opening")
    check("Take again" not in told_now and "measured" in told_now, "the mended reading still disagrees: " + told_now[:300])
    packers = browser.run("return JSON.parse(sillwright.call('pocketOpening', 0)).packers.map(p => p.stack)")
    check(len(packers) > 4 and all(packers), f"packers: {packers}")
    shown(browser, "3-packers")
    begin = time.monotonic()
    browser.run("for (let i = 0; i < 10; ++i) { sillwright.call('pocketType', 0, 0, String(arguments[0] + i % 2)); sillwright.call('pocketOpening', 0); }", width)
    print(f"{browser.name}: an edit is answered in {(time.monotonic() - begin) * 100:.0f} ms")
    type_reading(browser, "")
    sent = browser.run("return sillwright.call('pocketMeasurements')")
    file = folder / "sent.csv"
    file.write_bytes(sent.encode("utf-8"))
    run("measure", job, file, "--yes")
    mine = browser.run("return sillwright.call('pocketReport')")
    check(run("check", job, "--json", status=1 if '"verdict":"stop"' in mine[:400] else 0).replace(str(job), "") == mine.replace("/job/window.toml", ""),
          "what was sent comes to something else")
    check(report != mine, "the measurements change nothing")
    opened(browser, page)
    again = browser.run("return sillwright.call('pocketMeasurements')")
    check(again == sent, "what was typed is gone when the page is opened again: " + again)
    browser.size(1280, 800)
    browser.run("document.querySelector('#openings button').click()")
    shown(browser, "4-wide")
    drawn = browser.run("return document.querySelector('#names p') === null && sillwright.call('pocketPick', 640, 400)")
    check(drawn is not False, "nothing is drawn: " + text_of(browser, "#names"))
    accessible(browser, folder)
    check(not browser.complaints(), f"the browser complains: {browser.complaints()[:2]}")


def press(browser, what):
    """By the keys alone, but in Firefox: on a display without a window manager its buttons don't answer them."""
    browser.run("const it = document.querySelector(arguments[0]); it.focus(); if (arguments[1]) it.click();", what, browser.name == "Firefox")
    if browser.name != "Firefox":
        browser.keys(" ")


def exercises(browser, folder):
    """A wrong lap is found at the second try, and cards are put in order by the keys; then a job's own page deals some."""
    page = folder / "exercise.html"
    run("exercise", SOURCE / "assets" / "exercises" / "05-one-wrong-lap.toml", "--page", page)
    check(page.stat().st_size < LIMIT, f"the exercise's page has {page.stat().st_size} bytes")
    browser.size(390, 844)
    opened(browser, page)
    check("One lap is wrong" in text_of(browser, "#exercise h2"), "the exercise is not shown: " + text_of(browser, "#exercise"))
    check(browser.run("return getComputedStyle(document.getElementById('opening')).display") == "none", "the answers stand beside it")
    labels = browser.run("return [...document.querySelectorAll('fieldset label')].map(each => each.innerText.trim())")
    right = labels.index("no head flashing")
    press(browser, f"#pick0-{(right + 1) % len(labels)}")
    press(browser, "#answer")
    said = text_of(browser, "#said")
    check("✗" in said and "more to be found" in said and "Solved" not in said, "a wrong answer: " + said)
    check(browser.run("return document.activeElement.id") == "said", "what is said has not the focus")
    shown(browser, "5-exercise")
    press(browser, f"#pick0-{(right + 1) % len(labels)}")
    press(browser, f"#pick0-{right}")
    press(browser, "#answer")
    said = text_of(browser, "#said")
    check("Solved." in said and "Answers given: 2" in said, "the right answer: " + said)
    accessible(browser, folder)

    run("exercise", SOURCE / "assets" / "exercises" / "01-five-cards.toml", "--page", page)
    opened(browser, page)
    press(browser, "#answer")
    check("can't be built" in text_of(browser, "#said"), "shuffled cards are right: " + text_of(browser, "#said"))
    index = browser.run("return JSON.parse(sillwright.call('pocketPage')).openings.findIndex(each => document.querySelector('#opening h2').textContent.startsWith(each.name + ':'))")
    steps = browser.run("return JSON.parse(sillwright.call('pocketOpening', arguments[0])).steps.map(each => each.title)", index)

    def cards():
        return browser.run("return [...document.querySelectorAll('#exercise ol li')].map(each => each.innerText.replace(/[↑↓]/g, '').trim())")
    wanted = [each for each in steps if each in cards()]
    for place, title in enumerate(wanted):
        at = cards().index(title)
        for step in range(at - place):
            check(step == 0 or browser.run("return document.activeElement.id") == f"up{at - step}", "the focus doesn't go with the card")
            press(browser, f"#up{at - step}")
    press(browser, "#answer")
    check("Solved." in text_of(browser, "#said"), "the cards in order: " + str(cards()) + text_of(browser, "#said"))
    shown(browser, "6-solved")
    check(not browser.complaints(), f"the browser complains: {browser.complaints()[:2]}")


def accessible(browser, folder):
    """Nothing serious under axe-core, where npm and its registry are there."""
    axe = folder / "node_modules" / "axe-core" / "axe.min.js"
    if not axe.exists():
        subprocess.run(["npm", "install", "--silent", "--prefix", folder, "axe-core@4"], capture_output=True, timeout=120, check=False)
    if not axe.exists():
        print("axe-core is not to be had: accessibility is not tried")
        return
    browser.run(axe.read_text(encoding="utf-8") + "; window.axe = axe; window.found = null;"
                "axe.run().then(all => { window.found = all.violations; }); return 0")
    found = None
    for _ in range(100):
        found = browser.run("return window.found ? window.found.filter(v => v.impact === 'serious' || v.impact === 'critical')"
                            ".map(v => v.id + ': ' + v.nodes[0].html) : null")
        if found is not None:
            break
        time.sleep(0.2)
    check(found == [], f"axe-core finds {found}")


def reports(browser, folder):
    """Every demo job's report, from one page that is given one job after the other."""
    page = folder / "window.html"
    opened(browser, page)
    for job in sorted((SOURCE / "assets" / "jobs").glob("*.toml")):
        done = subprocess.run([PROGRAM, "check", job.name, "--json"], cwd=job.parent, capture_output=True, encoding="utf-8")
        mine = browser.run("sillwright.put(arguments[0], arguments[1]); const wrong = sillwright.call('pocketOpen', arguments[0]);"
                           "return wrong || sillwright.call('pocketReport')", "/job/" + job.name, job.read_text(encoding="utf-8"))
        theirs = done.stdout.replace('"' + job.name, '"/job/' + job.name)
        same = theirs.rstrip("\n") == mine.rstrip("\n")
        check(same, f"{job.name} is reported otherwise: " +
              "".join(list(difflib.unified_diff(theirs.splitlines(), mine.splitlines(), lineterm="\n", n=0))[:6])[:600])


def main():
    if not PAGE.exists():
        print("There is no page: sh third_party/pocket.sh makes it.")
        return 77
    tried = 0
    for browser in each_that_is_here():
        tried += 1
        with tempfile.TemporaryDirectory(prefix="sillwright-page-") as name:
            journey(browser, pathlib.Path(name))
            exercises(browser, pathlib.Path(name))
            reports(browser, pathlib.Path(name))
    return told() if tried else 77


sys.exit(main())
