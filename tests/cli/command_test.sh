#!/bin/sh
# The command line as a person uses it: command_test.sh PROGRAM SOURCE_DIR. Says what failed and answers 1.
set -u
program=$1
jobs=$2/assets/jobs
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
failed=0

fail() { echo "FAILED: $*"; failed=1; }
status_is() {  # wanted, then the command
  wanted=$1; shift
  "$@" >"$folder/out" 2>"$folder/err"
  got=$?
  [ "$got" -eq "$wanted" ] || { fail "status $got, wanted $wanted: $*"; cat "$folder/err"; }
}
says() { grep -q -- "$1" "$folder/out" "$folder/err" || fail "nothing says '$1'"; }

status_is 0 "$program" --help; says 'sillwright'; says 'check'; says 'picture'; says 'list'; says 'schedule'; says 'export'
status_is 0 "$program" schedule --help; says 'framed width'; says 'safety glass yes'
status_is 0 "$program" --version; says 'sillwright 0'
status_is 0 "$program" check --help; says 'json'
status_is 2 "$program"; says 'job'
status_is 2 "$program" check; says 'job'
status_is 2 "$program" --nonsense; says 'nonsense'

status_is 0 "$program" check "$jobs/boatshed.toml"; says 'J1'; says 'clearance to spare'
status_is 1 "$program" check "$jobs/not-yet.toml"; says 'stop'
status_is 0 "$program" check "$jobs/boatshed.toml" --json; says '"format":"sillwright-check/2"'
[ -s "$folder/err" ] && fail 'something on standard error beside the JSON'
"$program" check "$jobs/boatshed.toml" --json >"$folder/again" 2>/dev/null
cmp -s "$folder/out" "$folder/again" || fail 'the JSON differs from run to run'

status_is 2 "$program" check "$folder/none.toml"; says 'none.toml'
printf '[job]\ntitle = "x"\npractice = "au"\n[[wall]]\nname = "a"\nlenght = 3000\ntop = 2400\n' >"$folder/bad.toml"
status_is 2 "$program" check "$folder/bad.toml"; says 'bad.toml:6:1: wall\[0\].lenght'
status_is 2 "$program" check "$folder/bad.toml" --json; says '"errors":\['
printf '[job]\ntitle = "x"\npractice = "zz"\n[[wall]]\nname = "a"\nlength = 3000\ntop = 2400\n' >"$folder/practice.toml"
status_is 2 "$program" check "$folder/practice.toml"; says 'zz'

status_is 0 "$program" practice au; says 'safety.glass'; says 'low_below: 500 mm'; says 'ABCB Housing Provisions'; says 'judged: safety glass'
status_is 0 "$program" practice us --json; says '"format":"sillwright-practice/1"'; says '"key":"safety.escape.area"'; says '"status":"second-hand"'
status_is 2 "$program" practice zz; says 'au, nz, uk, us'

status_is 0 "$program" picture "$jobs/workshop-window.toml" --out "$folder/a.png" --size 320x200
head -c 8 "$folder/a.png" | od -An -c | grep -q 'P   N   G' || fail 'no PNG was written'
status_is 2 "$program" picture "$jobs/workshop-window.toml" --out "$folder/b.png" --size 10; says '--size'
status_is 2 "$program" picture "$jobs/workshop-window.toml" --out "$folder/b.png" --view moon; says 'house'
status_is 2 "$program" picture "$jobs/workshop-window.toml" --out "$folder/b.png" --hide soup; says 'cladding'
status_is 2 "$program" picture "$jobs/workshop-window.toml" --out "$folder/b.png" --opening Q; says 'Y1'
status_is 2 "$program" picture "$jobs/workshop-window.toml" --out "$folder/none/b.png"; says 'none'
[ -e "$folder/b.png" ] && fail 'a picture was left behind by a refused command'

status_is 0 "$program" picture "$jobs/boatshed.toml" --out "$folder/s.png" --size 320x200 --opening H1 --step 3
status_is 0 "$program" picture "$jobs/boatshed.toml" --out "$folder/s.png" --size 320x200 --opening H1 --what-if 'without head flashing; swap sill flashing, left jamb flashing'
status_is 0 "$program" picture "$jobs/boatshed.toml" --out "$folder/s.png" --size 320x200 --opening H1 --view sill --cut x=2000
status_is 0 "$program" picture "$jobs/boatshed.toml" --out "$folder/s.png" --size 640x400 --opening H1 --panels --cut z=1500.5
status_is 2 "$program" picture "$jobs/boatshed.toml" --out "$folder/b.png" --cut 1200; says "--cut"; says "x=1200"
status_is 2 "$program" picture "$jobs/boatshed.toml" --out "$folder/b.png" --cut y=12mm; says "12mm"
status_is 2 "$program" picture "$jobs/boatshed.toml" --out "$folder/b.png" --step 3; says 'wants an opening'
status_is 2 "$program" picture "$jobs/boatshed.toml" --out "$folder/b.png" --opening H1 --step 99; says '1 to 16'
status_is 2 "$program" picture "$jobs/boatshed.toml" --out "$folder/b.png" --opening H1 --what-if 'sell it'; says 'swap A, B'
status_is 2 "$program" picture "$jobs/boatshed.toml" --out "$folder/b.png" --opening H1 --what-if 'without roof'; says 'no sheet is called'
[ -e "$folder/b.png" ] && fail 'a picture was left behind by a refused command'

status_is 0 "$program" steps "$jobs/boatshed.toml" --opening H1; says 'H1: fixed window'; says 'before the next step:'; says '16  '
status_is 0 "$program" steps "$jobs/misread-middle.toml"; says 'HOLD: The middle width'
status_is 0 "$program" steps "$jobs/boatshed.toml" --crew; says 'wall jetty (J1, J2)'
status_is 2 "$program" steps "$jobs/boatshed.toml" --opening Q; says "no opening 'Q'"

status_is 0 "$program" exercise "$jobs/../exercises/01-five-cards.toml"; says 'The usual order'
status_is 0 "$program" exercise "$jobs/../exercises/07-three-faults.toml"; says '→ no head flashing'
printf '[exercise]\ntitle = "T"\njob = "none"\nopening = "Y1"\nlevel = "order"\nasked = "A"\n' > "$folder/e.toml"
status_is 2 "$program" exercise "$folder/e.toml"; says 'none.toml'
sed -i 's/"none"/"workshop-window"/; s/Y1/Y9/' "$folder/e.toml"
status_is 2 "$program" exercise "$folder/e.toml"; says 'e.toml:4:11: exercise.opening: the job has no opening "Y9"; it has Y1'
status_is 2 "$program" exercise "$jobs/workshop-window.toml"; says 'exercise: is missing'

status_is 0 "$program" export "$jobs/workshop-window.toml" --out "$folder/a.glb"
[ "$(head -c 4 "$folder/a.glb")" = glTF ] || fail 'no glTF was written'
status_is 0 "$program" export "$jobs/workshop-window.toml" --out "$folder/a.obj"
grep -q '^mtllib a.mtl$' "$folder/a.obj" && grep -q '^newmtl pine$' "$folder/a.mtl" || fail 'OBJ and materials are not a pair'
status_is 0 "$program" export "$jobs/workshop-window.toml" --out "$folder/my shed.obj"
grep -q '^mtllib my_shed.mtl$' "$folder/my shed.obj" && [ -s "$folder/my_shed.mtl" ] || fail 'a blank in a name parts OBJ and materials'
status_is 0 "$program" export "$jobs/boatshed.toml" --out "$folder/e.svg"
status_is 0 "$program" sheets "$jobs/boatshed.toml" --out "$folder/s.svg"
for sheet in "$folder"/s-*.svg; do
  cmp "$sheet" "$folder/e-${sheet##*-}" || fail "export and sheets write other pages"
done
status_is 2 "$program" export "$jobs/workshop-window.toml" --out "$folder/a.dwg"; says '.glb'
status_is 2 "$program" export "$jobs/workshop-window.toml" --out "$folder/none/a.glb"; says 'none'
status_is 2 "$program" export "$folder/none.toml" --out "$folder/b.glb"; says 'none.toml'

[ "$failed" -eq 0 ] && echo 'all passed'
exit "$failed"
