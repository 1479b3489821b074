"""The page's module under what nobody would hand it on purpose: hostile_test.py SOURCE_DIR. Status 77: there is no page, or no node.

The same job files as the program is tried with (tests/cli/hostile_texts.py), practices and meshes, readings that are none,
exercises of another job; and an exercise done wrong, then right.
"""

import json
import pathlib
import shutil
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "cli"))
import hostile_texts  # noqa: E402

SOURCE = pathlib.Path(sys.argv[1]).resolve()
PAGE = SOURCE / "assets" / "pocket" / "page.html"
JOB = SOURCE / "assets" / "jobs" / "workshop-window.toml"


def rows(folder):
    text = JOB.read_text(encoding="utf-8")
    odd = [("names that turn the line, or look like markup", text.replace('"Y1"', '"\\u202e</script>"'), None)]
    odd.append(("a practice that is a pipe's", text.replace('"au"', '"./none.toml"'), "none.toml"))
    odd.append(("a mesh that isn't there", text.replace("fin      = 30", 'fin      = 30\nmesh     = "none.obj"'), "none.obj"))
    for i, (name, content, words, *_) in enumerate([*hostile_texts.texts(text, 110_000), *odd]):
        file = folder / f"{i}.toml"
        file.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
        yield json.dumps([name, str(file), words])


def main():
    node = shutil.which("node")
    if not PAGE.exists() or not node:
        print("There is no page (sh third_party/pocket.sh makes it), or no node.")
        return 77
    with tempfile.TemporaryDirectory(prefix="sillwright-hostile-page-") as name:
        folder = pathlib.Path(name)
        (folder / "rows").write_text("\n".join(rows(folder)), encoding="utf-8")
        exercise = SOURCE / "tests" / "pocket" / "exercise.toml"
        return subprocess.run([node, SOURCE / "tests/pocket/hostile.js", PAGE, JOB, exercise, folder / "rows"], timeout=800).returncode


sys.exit(main())
