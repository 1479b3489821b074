#!/bin/sh
# The models under the Khronos glTF validator (an npm package): gltf_validator_test.sh PROGRAM SOURCE_DIR WORK_DIR.
# Answers 77 (skipped) where npm or its registry can't be reached; the structure is checked without it in tests/exchange.
set -u
program=$1
jobs=$2/assets/jobs
work=$3
. "$2/tests/cli/npm_package.sh"
need gltf-validator 2.0.0-dev.3.10 "$work" "The Khronos validator did not run; that the files are whole and equal the
scene is still checked by Assimp and by the project's own reader: ctest -R 'glTF'."

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
for job in "$jobs"/*.toml; do
  name=$(basename "$job" .toml)
  "$program" export "$job" --out "$folder/$name.glb" || { echo "FAILED: export of $name"; exit 1; }
done
# A file that is cut off must be found faulty, or the validator sees nothing.
mkdir "$folder/cut"
head -c 20000 "$folder/boatshed.glb" >"$folder/cut/cut.glb"

cat >"$work/validate.js" <<'JS'
const fs = require('fs'), path = require('path'), validator = require('gltf-validator');
const folder = process.argv[2];
async function issuesOf(file) {
  try {
    return (await validator.validateBytes(new Uint8Array(fs.readFileSync(file)))).issues;
  } catch (wrong) {
    return { numErrors: 1, numWarnings: 0, messages: [String(wrong)] };
  }
}
(async () => {
  let failed = 0, files = 0;
  for (const name of fs.readdirSync(folder).filter((name) => name.endsWith('.glb')).sort()) {
    const issues = await issuesOf(path.join(folder, name));
    console.log(`${name}: ${issues.numErrors} errors, ${issues.numWarnings} warnings`);
    for (const message of issues.messages.slice(0, 10)) console.log('  ', JSON.stringify(message));
    if (issues.numErrors || issues.numWarnings) ++failed;
    ++files;
  }
  if (files < 5) { console.log('FAILED: too few models'); ++failed; }
  if (!(await issuesOf(path.join(folder, 'cut', 'cut.glb'))).numErrors) { console.log('FAILED: a cut file passes'); ++failed; }
  process.exit(failed ? 1 : 0);
})();
JS
node "$work/validate.js" "$folder"
