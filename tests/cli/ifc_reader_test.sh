#!/bin/sh
# Building models as web-ifc (an npm package) reads them: ifc_reader_test.sh PROGRAM SOURCE_DIR WORK_DIR.
# What it finds is measured against the OBJ of the same scene, which Assimp and tinyobjloader hold to it (tests/exchange).
# Answers 77 (skipped) where npm or its registry can't be reached.
set -u
program=$1
jobs=$2/assets/jobs
work=$3
. "$2/tests/cli/npm_package.sh"
need web-ifc 0.0.78 "$work" "No other program read the building models; their structure and volumes are still checked by
the project's own reader: ctest -R 'IFC:'."

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
for name in boatshed gable-loft net-loft post-office-brick; do
  "$program" export "$jobs/$name.toml" --out "$folder/$name.ifc" && "$program" export "$jobs/$name.toml" --out "$folder/$name.obj" ||
    { echo "FAILED: export of $name"; exit 1; }
done

cat >"$work/read.js" <<'JS'
const fs = require('fs'), path = require('path'), ifc = require('web-ifc');
const folder = process.argv[2];
let failed = 0;
const check = (good, what) => { if (!good) { ++failed; console.log('FAILED:', what); } };

/** Of a kind of part by its name: "J1 jamb stud 3" and "J1_jamb_stud_17" are studs. Thin sheets are left out: it drops faces
    that are slivers. */
const kindOf = (name) => (/(stud|lintel|plate|trimmer|nogging|packer|floor)[ _]?\d*$/.exec(name) || [])[1];

/** What is known of a model: the volume of each kind by the divergence theorem, and the box round all that is no screw. */
class Sum {
  volumes = {};
  low = [1e9, 1e9, 1e9];
  high = [-1e9, -1e9, -1e9];
  add(name, corners, triangles) {
    for (const corner of corners) for (let i = 0; i < 3; ++i) {
      this.low[i] = Math.min(this.low[i], corner[i]);
      this.high[i] = Math.max(this.high[i], corner[i]);
    }
    const kind = kindOf(name);
    if (!kind || !triangles.length) return;
    this.volumes[kind] ??= 0;
    for (const triangle of triangles) {
      const [a, b, c] = triangle.map((at) => corners[at].map((value, i) => value - corners[triangles[0][0]][i]));
      this.volumes[kind] += (a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])) / 6;
    }
  }
}

function ofObj(text) {
  const sum = new Sum();
  let name = '', corners = [], triangles = [], first = 1;
  const end = () => {
    if (!/(^|_)screw_\d+$/.test(name)) sum.add(name, corners, triangles);
    first += corners.length;
    corners = [];
    triangles = [];
  };
  for (const line of text.split('\n')) {
    const [key, ...rest] = line.split(' ');
    if (key === 'o') end(), name = rest[0];
    if (key === 'v') corners.push(rest.map(Number));
    if (key === 'f') for (let i = 2; i < rest.length; ++i) triangles.push([rest[0], rest[i - 1], rest[i]].map((at) => at - first));
  }
  end();
  return sum;
}

/** From metres with Y up, as it gives them, to millimetres with Z up. */
function ofIfc(api, model, counts) {
  const sum = new Sum();
  api.StreamAllMeshes(model, (mesh) => {
    const thing = api.GetLine(model, mesh.expressID), entity = thing.constructor.name;
    counts[entity] = (counts[entity] || 0) + 1;
    if (entity === 'IfcMechanicalFastener') return;
    for (let k = 0; k < mesh.geometries.size(); ++k) {
      const placed = mesh.geometries.get(k), t = placed.flatTransformation;
      const geometry = api.GetGeometry(model, placed.geometryExpressID);
      const points = api.GetVertexArray(geometry.GetVertexData(), geometry.GetVertexDataSize());
      const index = api.GetIndexArray(geometry.GetIndexData(), geometry.GetIndexDataSize());
      const corners = [], triangles = [];
      for (let i = 0; i < points.length; i += 6) {
        const at = [0, 1, 2].map((row) => t[row] * points[i] + t[row + 4] * points[i + 1] + t[row + 8] * points[i + 2] + t[row + 12]);
        corners.push([at[0] * 1000, -at[2] * 1000, at[1] * 1000]);
      }
      for (let i = 0; i < index.length; i += 3) triangles.push([index[i], index[i + 1], index[i + 2]]);
      sum.add(thing.Name.value, corners, triangles);
    }
  });
  return sum;
}

(async () => {
  const api = new ifc.IfcAPI();
  await api.Init();
  api.SetLogLevel(ifc.LogLevel.LOG_LEVEL_OFF);  // it says of each wall that it has no body of its own
  for (const file of fs.readdirSync(folder).filter((name) => name.endsWith('.ifc')).sort()) {
    const model = api.OpenModel(new Uint8Array(fs.readFileSync(path.join(folder, file))), { COORDINATE_TO_ORIGIN: false });
    check(api.GetModelSchema(model) === 'IFC4', `${file}: ${api.GetModelSchema(model)}`);
    const counts = {};
    const read = ofIfc(api, model, counts), wanted = ofObj(fs.readFileSync(path.join(folder, file.replace('.ifc', '.obj')), 'utf8'));
    check(Object.keys(wanted.volumes).length > 5, `${file}: only ${Object.keys(wanted.volumes)}`);
    for (const [kind, volume] of Object.entries(wanted.volumes)) {
      const here = read.volumes[kind];
      check(Math.abs(here - volume) < 1e-5 * volume, `${file}: ${kind}s of ${here} mm³, in the scene ${volume}`);
    }
    for (let i = 0; i < 3; ++i) {
      check(Math.abs(read.low[i] - wanted.low[i]) < 0.1 && Math.abs(read.high[i] - wanted.high[i]) < 0.1, `${file}: its box`);
    }
    const filled = api.GetLineIDsWithType(model, ifc.IFCRELFILLSELEMENT).size();
    check(filled > 0 && filled === api.GetLineIDsWithType(model, ifc.IFCRELVOIDSELEMENT).size(), `${file}: ${filled} openings filled`);
    check((counts.IfcWindow || 0) + (counts.IfcDoor || 0) === filled, `${file}: ${filled} openings, ${JSON.stringify(counts)}`);
    api.CloseModel(model);
  }
  process.exit(failed ? 1 : 0);
})();
JS
node "$work/read.js" "$folder"
