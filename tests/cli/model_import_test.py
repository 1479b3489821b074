"""A building model that another program wrote, as a job: model_import_test.py PROGRAM.

The model is in Debian's package assimp-testmodels: a house of two storeys under a gable roof, IFC 2x3 in metres. The figures
are what web-ifc 0.0.78 measures: corners of walls' and windows' meshes, and the sizes that windows and doors say.
Answers 77 (skipped) where the package isn't there."""

import math
import pathlib
import subprocess
import sys
import tempfile
import tomllib

from checks import check, told

PROGRAM = sys.argv[1]
MODEL = pathlib.Path("/usr/share/assimp/models/IFC/AC14-FZK-Haus.ifc")

# Outside walls: from and to on the floor plan, foot, heights of the top from left to right as seen from outside.
# Under a roof that falls across a wall its frame's top is the lower face: the knee walls are 500 outside, 673.2 inside.
WALLS = [
    ((0, 0), (12000, 0), 0, [2700, 2700]), ((12000, 0), (12000, 10000), 0, [2700, 2700]),
    ((12000, 10000), (0, 10000), 0, [2700, 2700]), ((0, 10000), (0, 0), 0, [2700, 2700]),
    ((0, 0), (12000, 0), 2700, [500, 500]), ((12000, 0), (12000, 10000), 2700, [500, 3386.8, 500]),
    ((12000, 10000), (0, 10000), 2700, [500, 500]), ((0, 10000), (0, 0), 2700, [500, 3386.8, 500]),
]
# Windows and doors: middle on the outside face, foot, width and height.
UNITS = [
    ((2790, 0), 950, 2000, 1200), ((6000, 0), 0, 2010, 2375), ((9210, 0), 800, 2000, 1200),
    ((12000, 2205), 800, 2000, 1200), ((12000, 7502.4), 800, 2000, 1200), ((12000, 5000), 3500, 1000, 1000),
    ((9795, 10000), 800, 2000, 1200), ((5660, 10000), 800, 2000, 1200), ((2050, 10000), 800, 2000, 1200),
    ((0, 7495), 800, 2000, 1200), ((0, 5000), 0, 1010, 2010), ((0, 2205), 950, 2000, 1200), ((0, 5000), 3500, 1000, 1000),
]
INSIDE_WALLS = 5


def along(wall, far):
    turn = math.radians(wall.get("turn", 0))
    x, y = wall.get("at", (0, 0))
    return x + far * math.cos(turn), y + far * math.sin(turn)


def near(a, b):
    return len(a) == len(b) and all(abs(x - y) < 0.2 for x, y in zip(a, b))


def flat(wall):
    """Of a wall of the job, as the table above has it, without brackets."""
    top = wall["top"]
    heights = [point[1] for point in top] if isinstance(top, list) else [top, top]
    return [*along(wall, 0), *along(wall, wall["length"]), wall.get("level", 0), *heights]


def unit_of(opening, walls):
    wall, unit = walls[opening["wall"]], opening["unit"]
    gap_below = 0 if "door" in unit["kind"] else (opening["height"] - unit["height"]) / 2
    middle = along(wall, opening["left"] + opening["width"] / 2)
    return [*middle, wall.get("level", 0) + opening["sill"] + gap_below, unit["width"], unit["height"]]


def compare(kind, found, wanted):
    for one in wanted:
        check(sum(near(one, each) for each in found) == 1, f"no such {kind}: {one}, among {found}")
    check(len(found) == len(wanted), f"{len(found)} {kind}s, wanted {len(wanted)}")


def main():
    if not MODEL.exists():
        print(f"{MODEL} isn't there (package assimp-testmodels): no model of another program was read.")
        sys.exit(77)
    with tempfile.TemporaryDirectory() as folder:
        out = pathlib.Path(folder) / "house.toml"
        done = subprocess.run([PROGRAM, "import", str(MODEL), "--out", str(out)], capture_output=True, encoding="utf-8")
        check(done.returncode == 0, done.stderr)
        job = tomllib.loads(out.read_text(encoding="utf-8"))
        walls = {wall["name"]: wall for wall in job["wall"]}
        compare("wall", [flat(wall) for wall in job["wall"]], [[*a, *b, foot, *top] for a, b, foot, top in WALLS])
        compare("unit", [unit_of(opening, walls) for opening in job["opening"]],
                [[*middle, foot, width, height] for middle, foot, width, height in UNITS])
        inside = next((line for line in done.stderr.splitlines() if "inside the building" in line), "")
        check(inside.count('"') == 2 * INSIDE_WALLS, f"walls left out: {inside}")
        for what in ("windows that don't say how they open", "another shape, taken as rectangles", "no gap round 13 units"):
            check(what in done.stderr, f"not told: {what}")
        checked = subprocess.run([PROGRAM, "check", str(out), "--quiet"], capture_output=True)
        check(checked.returncode in (0, 1), f"the job can't be read: {checked.stderr}")
    sys.exit(told())


main()
