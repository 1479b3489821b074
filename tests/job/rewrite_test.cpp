// Saving rewrites only what changed: the texts here were written by hand, before and after.
#include "job/rewrite.h"

#include "job/read.h"
#include "support.h"
#include "support/catch.h"

namespace sillwright::job::test {
namespace {

const std::string kText =
    "# The shed.\n"
    "[job]\n"
    "title    = \"Shed\"   # as the owner calls it\n"
    "practice = \"au\"\n"
    "\n"
    "# ---- walls\n"
    "[[wall]]\n"
    "name     = \"north\"\n"
    "length   = 7_200    # 7.2 m\n"
    "top      = 2440.0\n"
    "stud     = { depth = 90, thickness = 45 }  # MGP10\n"
    "# above: two lines that stay\n"
    "\n"
    "[[opening]]\n"
    "name   = \"N1\"       # kitchen\n"
    "wall   = \"north\"\n"
    "left   = 1240\n"
    "sill   = 900        # above the bench\n"
    "width  = 1530\n"
    "height = 1060\n"
    "\n"
    "[opening.unit]\n"
    "kind   = 'sliding window'\n"
    "width  = 1510\n"
    "height = 1040\n"
    "\n"
    "[opening.measured]\n"
    "widths = [\n"
    "  1529,   # bottom\n"
    "  1531.0, # middle\n"
    "  1532,   # top\n"
    "]\n"
    "by     = \"tape\"\n"
    "\n"
    "# the second one\n"
    "[[opening]]\n"
    "name = \"N2\"\n"
    "wall = \"north\"\n"
    "left = 4000\n"
    "sill = 900\n"
    "width = 900\n"
    "height = 1060\n"
    "unit = { kind = \"fixed window\", width = 8_80, height = 1040 }\n"
    "# about N2\n"
    "\n"
    "# the end\n";

Job jobOf(const std::string& text) {
  const auto result = read(text, "shed.toml");
  INFO(allLines(result.errors));
  REQUIRE(result.ok());
  return *result.value;
}

template <class Edit>
std::string after(const std::string& text, Edit&& edit) {
  const Job before = jobOf(text);
  Job now = before;
  edit(now);
  const auto result = rewrite(text, before, now);
  INFO(allLines(result.errors));
  REQUIRE(result.ok());
  return *result.value;
}

std::string with(std::string text, const std::string& what, const std::string& by) {
  const auto at = text.find(what);
  REQUIRE(at != std::string::npos);
  REQUIRE(text.find(what, at + 1) == std::string::npos);
  return text.replace(at, what.size(), by);
}

}  // namespace

TEST_CASE("a job that didn't change is the same bytes") {
  CHECK(after(kText, [](Job&) {}) == kText);
  for (const auto& folder : {std::filesystem::path(SILLWRIGHT_ASSETS_DIR) / "jobs", kFolder / "good"}) {
    for (const auto& file : filesIn(folder, ".toml")) {
      const auto text = load(file);
      INFO(file);
      CHECK(after(text, [](Job&) {}) == text);
    }
  }
}

TEST_CASE("a number is changed where it stands, and the comment behind it stays") {
  CHECK(after(kText, [](Job& job) { job.openings[0].sill = 905.5; }) ==
        with(kText, "sill   = 900        #", "sill   = 905.5        #"));
  CHECK(after(kText, [](Job& job) { job.openings[1].unit.width = 870; }) == with(kText, "8_80", "870"));
}

TEST_CASE("one reading of several is changed alone") {
  CHECK(after(kText, [](Job& job) { job.openings[0].measured->widths[1] = 1530; }) == with(kText, "1531.0", "1530"));
}

TEST_CASE("a reading that is taken away turns the list into a table") {
  const auto text = after(kText, [](Job& job) { job.openings[0].measured->widths[1].reset(); });
  CHECK(text ==
        with(kText, "[\n  1529,   # bottom\n  1531.0, # middle\n  1532,   # top\n]", "{ bottom = 1529, top = 1532 }"));
}

TEST_CASE("a new key stands after the one before it, its sign in their column") {
  CHECK(after(kText, [](Job& job) { job.openings[0].room = Room::WetArea; }) ==
        with(kText, "height = 1060\n\n[opening.unit]", "height = 1060\nroom   = \"wet area\"\n\n[opening.unit]"));
  CHECK(after(kText, [](Job& job) { job.walls[0].spacing = 450; }) ==
        with(kText, "# MGP10\n", "# MGP10\nspacing  = 450\n"));
  CHECK(after(kText, [](Job& job) { job.openings[1].unit.fin = 30; }) ==
        with(kText, "unit = { kind = \"fixed window\", width = 8_80, height = 1040 }",
             "unit = { kind = \"fixed window\", width = 8_80, height = 1040, fin = 30 }"));
}

TEST_CASE("a removed key's line goes") {
  CHECK(after(kText, [](Job& job) { job.walls[0].stud.reset(); }) ==
        with(kText, "stud     = { depth = 90, thickness = 45 }  # MGP10\n", ""));
}

TEST_CASE("a longer level wall keeps its height as it is written") {
  CHECK(after(kText, [](Job& job) { job.walls[0].length = job.walls[0].top[1].x = 7300; }) ==
        with(kText, "7_200", "7300"));
}

TEST_CASE("renaming a wall renames it where openings name it") {
  const auto text = after(kText, [](Job& job) { job.walls[0].name = "the \"hill\""; });
  CHECK(text == replaced(kText, "\"north\"", "\"the \\\"hill\\\"\""));
}

TEST_CASE("readings taken on an opening that had none get a section of their own") {
  const auto text = after(kText, [](Job& job) { job.openings[0].installed.emplace().opens = true; });
  CHECK(text == with(kText, "by     = \"tape\"\n", "by     = \"tape\"\n\n[opening.installed]\nopens = true\n"));
  const auto inside = after(kText, [](Job& job) { job.openings[1].measured.emplace().out_of_level = -3; });
  CHECK(inside.find("[opening.measured]\nout_of_level = -3\n\n# the end\n") != std::string::npos);
}

TEST_CASE("a removed opening goes with its own comments, others stay") {
  const auto first = after(kText, [](Job& job) { job.openings.erase(job.openings.begin()); });
  const auto from = kText.find("[[opening]]");
  CHECK(first == kText.substr(0, from) + kText.substr(kText.find("# the second one")));
  const auto second = after(kText, [](Job& job) { job.openings.pop_back(); });
  const auto at = kText.find("[[opening]]\nname = \"N2\"");
  CHECK(second == kText.substr(0, at) + "\n# the end\n");
}

TEST_CASE("a new opening stands after the one before it") {
  const auto text = after(kText, [](Job& job) {
    Opening copy = job.openings[0];
    copy.name = "N1b";
    copy.place = {};
    copy.measured.reset();
    job.openings.insert(job.openings.begin() + 1, copy);
  });
  CHECK(text == with(kText, "by     = \"tape\"\n",
                     "by     = \"tape\"\n\n[[opening]]\nname   = \"N1b\"\nwall   = \"north\"\nleft   = 1240\n"
                     "sill   = 900\nwidth  = 1530\nheight = 1060\n\n[opening.unit]\nkind   = \"sliding window\"\n"
                     "width  = 1510\nheight = 1040\n"));
}

TEST_CASE("the first opening of a job stands after the walls") {
  const auto text = after(kMinimal, [](Job& job) {
    Opening& made = job.openings.emplace_back();
    made.name = "N1";
    made.width = made.height = 300;
    made.unit.width = made.unit.height = 290;
  });
  CHECK(text.starts_with(kMinimal + "\n[[opening]]\nname   = \"N1\"\nwall   = \"north\"\n"));
}

TEST_CASE("line ends, byte order mark and an open last line stay") {
  const auto crlf = replaced(kText, "\n", "\r\n");
  const auto edit = [](Job& job) {
    job.openings[0].sill = 905;
    job.openings[0].room = Room::WetArea;
  };
  CHECK(after(crlf, edit) == replaced(after(kText, edit), "\n", "\r\n"));
  CHECK(after("\xEF\xBB\xBF" + kText, edit) == "\xEF\xBB\xBF" + after(kText, edit));
  const auto open = kMinimal.substr(0, kMinimal.size() - 1);
  CHECK(after(open, [](Job& job) { job.walls[0].above_ground = 300; }) == open + "\nabove_ground = 300");
}

TEST_CASE("dotted keys and sections of small tables are followed") {
  const std::string text = kMinimal + "stud.depth = 90\nstud.thickness = 45 # s\n" + kOpening +
                           "[opening.unit.glass]\nthickness = 6 # g\npanes = 1\n";
  CHECK(after(text, [](Job& job) { job.walls[0].stud->depth = 120; }) == with(text, "depth = 90", "depth = 120"));
  CHECK(after(text, [](Job& job) { job.walls[0].stud.reset(); }) ==
        with(text, "stud.depth = 90\nstud.thickness = 45 # s\n", ""));
  CHECK(after(text, [](Job& job) { job.openings[0].unit.glass->safety = true; }) ==
        with(text, "panes = 1\n", "panes = 1\nsafety = true\n"));
  CHECK(after(text, [](Job& job) { job.openings[0].unit.fin = 20; }) ==
        with(text, "height = 1040\n", "height = 1040\nfin = 20\n"));
}

TEST_CASE("the glass of a light is changed where it stands, and taken away whole") {
  for (const char* glass : {"glass_of = [{ light = [1, 1], thickness = 6 }]  # the low one\n",
                            "[[opening.unit.glass_of]]\nlight = [1, 1]\nthickness = 6\n"}) {
    CAPTURE(glass);
    const std::string text =
        "[job]\ntitle = \"t\"\npractice = \"au\"\n[[wall]]\nname = \"n\"\nlength = 7200\ntop = 2440\n"
        "[[opening]]\nname = \"N1\"\nwall = \"n\"\nleft = 100\nsill = 900\nwidth = 1530\n"
        "height = 1060\n[opening.unit]\nkind = \"fixed window\"\nwidth = 1510\nheight = 1040\n" +
        std::string(glass);
    const auto before = read(text, "t.toml");
    INFO(allLines(before.errors));
    REQUIRE(before.ok());
    Job thicker = *before.value;
    thicker.openings[0].unit.glass_of[0].type = GlassType::Laminated;
    Job none = *before.value;
    none.openings[0].unit.glass_of.clear();
    for (const Job& after : {thicker, none}) {
      const auto written = rewrite(text, *before.value, after);
      REQUIRE(written.ok());
      const auto again = read(*written.value, "t.toml");
      INFO(*written.value << allLines(again.errors));
      REQUIRE(again.ok());
      CHECK(again.value->openings[0].unit.glass_of == after.openings[0].unit.glass_of);
    }
  }
}

TEST_CASE("a job that the reader refuses is not written") {
  const Job before = jobOf(kText);
  Job now = before;
  now.openings[0].width = 1e9;
  const auto result = rewrite(kText, before, now);
  REQUIRE(!result.ok());
  CHECK(result.errors[0].key == "opening[0].width");
  CHECK(result.errors[0].at.line == 19);
}

TEST_CASE("a text that is not the old job's is left alone") {
  const Job before = jobOf(kText);
  Job now = before;
  now.openings[0].sill = 1;
  CHECK(!rewrite(kMinimal, before, now).ok());
  CHECK(!rewrite("nonsense", before, now).ok());
}

TEST_CASE("a whole job is written in the layout of the demo jobs") {
  const auto text = write(jobOf(kText));
  CHECK(sameValues(jobOf(text), jobOf(kText)));
  CHECK(text.find("\n[[opening]]\nname   = \"N1\"\nwall   = \"north\"\n") != std::string::npos);
}

}  // namespace sillwright::job::test
