# The help of the program or of one of its verbs, as a man page: awk -v verb=check -v day=2026-03-14 -v version=0.1.0 -f man.awk
# The help (CLI11 writes it) has an opening text, "Usage:", sections whose lines are "  term   what it is", and a closing text.

function roff(text) {  # nothing of it may be taken for a request
  gsub(/\\/, "\\e", text)
  gsub(/-/, "\\-", text)
  gsub(/'/, "\\(aq", text)
  gsub(/"/, "\\(dq", text)
  if (text ~ /^\./) text = "\\\\&" text
  return text
}
function section(title) {
  print ".SH " toupper(title)
  here = title
}

BEGIN {
  page = verb == "" ? "sillwright" : "sillwright-" verb
  printf ".TH %s 1 %s \"sillwright %s\" \"User Commands\"\n", toupper(page), day, version
}
here == "" && !/^Usage:/ {
  sub(/^ +/, "")
  if ($0 != "") about[++lines] = $0
  next
}
/^Usage:/ {
  first = about[1]
  sub(/^Sillwright: /, "", first)
  section("Name")
  print roff(page) " \\- " roff(first)
  section("Synopsis")
  print roff(substr($0, length("Usage: ") + 1))
  if (lines > 1) section("Description")
  for (i = 2; i <= lines; ++i) print roff(about[i])
  next
}
/^[A-Z][A-Za-z]+:$/ {
  section(substr($0, 1, length($0) - 1))
  next
}
/^  [^ ]/ && here != "Notes" {
  line = substr($0, 3)
  at = match(line, /  +/)
  if (!at && substr($0, 30) ~ /^ [A-Z]/) {  # a term that just fits the help's column of 30
    at = 28
    RLENGTH = 1
  }
  print ".TP"
  print ".B " roff(at ? substr(line, 1, at - 1) : line)
  if (at) print roff(substr(line, at + RLENGTH))
  next
}
/^ +[^ ]/ && here != "Notes" {  # a description that goes on, or that stands under a long term
  sub(/^ +/, "")
  print roff($0)
  next
}
/^$/ {
  if (here == "Notes") print ".PP"
  next
}
{
  if (here != "Notes") section("Notes")
  print roff($0)
}
END {
  section("See also")
  if (verb != "") print ".BR sillwright (1);"
  print "the guide in /usr/share/sillwright/guide/index.html"
}
