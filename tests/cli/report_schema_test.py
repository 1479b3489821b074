"""`check --json` is as its published schema says, by an independent validator: report_schema_test.py PROGRAM SOURCE_DIR.

All demo jobs under every rule set, one that can't be read, and a job that isn't there. The schema allows no key that it
doesn't name, and the list of what the demo jobs never show is told, so that a key that is gone is seen.
"""

import json
import pathlib
import subprocess
import sys
import tempfile

import jsonschema

PROGRAM, SOURCE = sys.argv[1], pathlib.Path(sys.argv[2])
SCHEMA = json.loads((SOURCE / "assets/jobs/sillwright-check.schema.json").read_text(encoding="utf-8"))
# Of heavy units and inch rule sets, or of units that no demo job has.
SELDOM = {"opening.tag", "packing.backing", "unit.panel_out_kg", "unit.lifted_kg", "unit.mechanical_help", "unit.parts_kg",
          "unit.glass_by_light"}


def report_of(job):
    done = subprocess.run([PROGRAM, "check", "--json", str(job)], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    return json.loads(done.stdout)


def faults_of(report):
    part = {"$ref": "#/definitions/" + ("errors" if "errors" in report else "report"), "definitions": SCHEMA["definitions"]}
    return [f"{'/'.join(map(str, error.absolute_path))}: {error.message}"
            for error in jsonschema.Draft7Validator(part).iter_errors(report)]


def key_names(value, names):
    """All keys at any depth."""
    for each in value if isinstance(value, list) else value.values() if isinstance(value, dict) else ():
        key_names(each, names)
    if isinstance(value, dict):
        names.update(value)
    return names


def main():
    jsonschema.Draft7Validator.check_schema(SCHEMA)
    failed, seen = 0, set()
    with tempfile.TemporaryDirectory() as name:
        wrong = pathlib.Path(name) / "wrong.toml"
        wrong.write_text("[job]\ntitle = 1\n", encoding="utf-8")
        jobs = [wrong, wrong.with_name("none.toml")]
        for demo in sorted((SOURCE / "assets/jobs").glob("*.toml")):
            jobs.append(demo)
            text = demo.read_text(encoding="utf-8")
            for practice in ("au", "nz", "us", "uk"):
                other = wrong.with_name(f"{demo.stem}-{practice}.toml")
                for own in ("au", "nz", "us", "uk"):
                    text = text.replace(f'practice = "{own}"', f'practice = "{practice}"')
                other.write_text(text, encoding="utf-8")
                jobs.append(other)
        for job in jobs:
            report = report_of(job)
            key_names(report, seen)
            for fault in faults_of(report)[:5]:
                failed += 1
                print(f"FAILED {job.name}: {fault}")
    for definition, rule in SCHEMA["definitions"].items():
        for key in rule.get("properties", {}):
            if key not in seen and f"{definition}.{key}" not in SELDOM:
                failed += 1
                print(f"FAILED no report has {definition}.{key}")
    print(f"{len(jobs)} reports, {failed} faults")
    return 1 if failed else 0


sys.exit(main())
