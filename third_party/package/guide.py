"""The guide as a reader gets it: guide.py PROGRAM SOURCE OUT.

A page of assets/guide says what is typed, and this types it, in the order of the page: so no page shows what the program
no longer says. All pages work in one folder each, with the program's own assets where an installed program has them.

    <pre class="file" data-name="a.toml">…    the text is written to that file; with data-add it is added to it
    <pre class="run">…                        the lines are run by a shell, and what they print is put below them
        data-status="1"     the status that the last of them ends with (0)
        data-says="…"       words that must be printed; several are parted by " | "
        data-lines="12"     so many lines are shown, then "…"; 0: none
    <img src="a.png">                         a picture that the lines above have made

Ends with 1 where a page promises what the program does not do, or links to what isn't there.
"""

import html
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

PROGRAM, SOURCE, OUT = (pathlib.Path(argument).resolve() for argument in sys.argv[1:4])
INSTALLED = "/usr/share/sillwright"
BLOCK = re.compile(r'<pre class="(file|run)"([^>]*)>(.*?)</pre>', re.S)
faults = []


def shown(text, lines):
    kept = text.rstrip("\n").split("\n")
    return "\n".join(kept if lines is None or len(kept) <= lines else kept[:lines] + ["…"]) if lines != 0 else ""


class Page:
    def __init__(self, path, folder):
        self.path, self.folder = path, folder

    def fault(self, what):
        faults.append(f"{self.path}: {what}")

    def write(self, options, text):
        with open(self.folder / options["name"], "a" if "add" in options else "w", encoding="utf-8") as file:
            file.write(text.lstrip("\n"))

    def run(self, options, text):
        command = text.strip().replace(INSTALLED, "$SILLWRIGHT_ASSETS")
        done = subprocess.run(["sh", "-c", command], cwd=self.folder, capture_output=True, text=True)
        said = (done.stdout + done.stderr).replace(os.environ["SILLWRIGHT_ASSETS"], INSTALLED)
        wanted = int(options.get("status", 0))
        if done.returncode != wanted:
            self.fault(f"'{text.strip()}' ends with {done.returncode}, not {wanted}:\n{said}")
        for words in filter(None, options.get("says", "").split(" | ")):
            if words not in " ".join(said.split()):
                self.fault(f"'{text.strip()}' does not say '{words}':\n{said}")
        return shown(said, int(options["lines"]) if "lines" in options else None)

    def block(self, match):
        kind, attributes, text = match.groups()
        options = {name: html.unescape(value or "") for name, value in re.findall(r'data-(\w+)(?:="([^"]*)")?', attributes)}
        if kind == "file":
            self.write(options, html.unescape(text))
            return match.group(0)
        said = self.run(options, html.unescape(text))
        return f'<pre class="run">{text.strip()}</pre>' + (f'<pre class="says">{html.escape(said, quote=False)}</pre>' if said else "")

    def made(self):
        text = BLOCK.sub(self.block, self.path.read_text(encoding="utf-8"))
        for name in re.findall(r'<img src="([^"]+)"', text):
            if (self.folder / name).is_file():
                shutil.copy(self.folder / name, OUT / name)
            else:
                self.fault(f"nothing has made the picture {name}")
        for link in re.findall(r'(?:href|src)="([^":#]+)"', text):
            if not (self.path.parent / link).exists() and not (OUT / link).exists():
                self.fault(f"links to {link}, which isn't there")
        return text


def main():
    os.environ["SILLWRIGHT_ASSETS"] = str(SOURCE / "assets")
    shutil.rmtree(OUT, ignore_errors=True)
    OUT.mkdir(parents=True)
    with tempfile.TemporaryDirectory() as scratch:
        programs = pathlib.Path(scratch, "programs")
        programs.mkdir()
        (programs / "sillwright").symlink_to(PROGRAM)
        os.environ["PATH"] = f"{programs}:{os.environ['PATH']}"
        for path in sorted((SOURCE / "assets" / "guide").iterdir()):
            if path.suffix != ".html":
                shutil.copy(path, OUT / path.name)
                continue
            folder = pathlib.Path(scratch, path.stem)
            folder.mkdir()
            (OUT / path.name).write_text(Page(path, folder).made(), encoding="utf-8")
    print("\n".join(faults), file=sys.stderr, end="\n" if faults else "")
    return 1 if faults else 0


sys.exit(main())
