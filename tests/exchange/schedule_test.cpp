// A window schedule in: what its rows become, its mistakes all at once at row and column, and the way round through
// the order list and a job file.

#include "support/schedules.h"

#include <algorithm>

#include "check/judge.h"
#include "exchange/csv.h"
#include "job/read.h"
#include "job/tables.h"
#include "plan/panes.h"
#include "support/catch.h"
#include "support/demo_jobs.h"
#include "support/simple_job.h"
#include "takeoff/order.h"

using namespace sillwright;

namespace {

const std::string kHeader = "opening,wall,left,sill,framed width,framed height,kind,unit width,unit height";

std::vector<std::string> linesOf(const std::vector<base::Error>& errors) {
  std::vector<std::string> lines;
  for (const auto& error : errors) lines.push_back(base::toLine(error));
  return lines;
}

exchange::Schedule scheduleOf(const std::string& csv, const exchange::ScheduleFor& target = {}) {
  const auto read = testing::readSchedule(csv, "s.csv", target);
  for (const auto& line : linesOf(read.errors)) UNSCOPED_INFO(line);
  REQUIRE(read.ok());
  return *read.value;
}

std::vector<std::string> mistakesIn(const std::string& csv, const exchange::ScheduleFor& target = {}) {
  const auto read = testing::readSchedule(csv, "s.csv", target);
  REQUIRE(!read.ok());
  return linesOf(read.errors);
}

/// Openings as the job file's reader reads them from the text.
std::vector<job::Opening> openingsOf(const std::string& toml, const std::vector<std::string>& walls) {
  std::string text = "[job]\ntitle = \"t\"\npractice = \"au\"\n";
  for (const auto& wall : walls) {
    // A literal string would not do for every name: basic strings with the two escapes they need here.
    std::string name;
    for (const char c : wall) name += c == '"' || c == '\\' ? std::string{'\\', c} : std::string{c};
    text += "[[wall]]\nname = \"" + name + "\"\nlength = 90000\ntop = 9000\n";
  }
  auto read = job::read(text + toml, "made.toml");
  for (const auto& line : linesOf(read.errors)) UNSCOPED_INFO(line);
  REQUIRE(read.ok());
  return read.value->openings;
}

/// Equal but for where they stand in a file.
bool same(job::Opening a, job::Opening b) {
  a.place = b.place = {};
  return a == b;
}

}  // namespace

TEST_CASE("a weight is in pounds where the heading says so, and asked about where a job in inches has none") {
  const auto weighs = [](const char* heading, const char* said) {
    return std::string("opening,kind,left,sill,unit width,unit height,framed width,framed height,") + heading +
           "\nW1,fixed window,500,900,600,600,620,620," + said + "\n";
  };
  const auto mass = [&](const char* heading, const char* said) {
    return scheduleOf(weighs(heading, said), {"north", nullptr}).openings[0].unit.mass_kg;
  };
  CHECK(mass("Weight (kg)", "38 kg") == 38);
  CHECK(mass("Weight (lb)", "84") == 38.1);  // 84 · 0.45359237 = 38.10
  CHECK(mass("weight", "38") == 38);
  exchange::ScheduleFor inches{"north", nullptr};
  inches.practice = &testing::shipped("us");
  const auto asked = mistakesIn(weighs("weight", "84"), inches);
  REQUIRE(asked.size() == 1);
  CHECK(asked[0].find("kg or lb?") != std::string::npos);
}

TEST_CASE("a row becomes an opening, in the columns' own order, capitals and blanks aside") {
  const auto schedule = scheduleOf(
      "Kind, Opening ,unit height,unit width,Framed Height,framed width,sill,left,room,hand,reveal depth,reveal "
      "thickness,glass thickness,glass panes,safety glass,weight kg,flashing,frame depth,frame face,fin\r\n"
      "Sliding Window,W1,1040,1510,1060,1530.5,1050,-20,wet area,left,100,18,6.38,2,yes,41.5,on the wall,100,45,30\r\n"
      "fixed window,\"W \"\"2\"\"\",600,600,620,620,1200,4000,,,,,,,,,,,,0\n",
      {"north", nullptr});
  REQUIRE(schedule.walls == std::vector<std::string>{"north"});
  REQUIRE(schedule.openings.size() == 2);
  job::Opening first;
  first.name = "W1";
  first.left = -20;
  first.sill = 1050;
  first.width = 1530.5;
  first.height = 1060;
  first.room = job::Room::WetArea;
  first.unit.kind = job::UnitKind::SlidingWindow;
  first.unit.width = 1510;
  first.unit.height = 1040;
  first.unit.frame = job::FrameSection{100, 45};
  first.unit.reveal = job::Reveal{18, 100};
  first.unit.fin = 30;
  first.unit.glass = job::Glass{6.38, 2, true};
  first.unit.mass_kg = 41.5;
  first.unit.flashing = job::Flashing::OnWall;
  first.unit.hand = job::Hand::Left;
  CHECK(same(schedule.openings[0], first));
  CHECK(schedule.openings[1].name == "W \"2\"");
  CHECK(schedule.openings[1].unit.fin == 0.0);
  CHECK(!schedule.openings[1].unit.frame);
  CHECK(!schedule.openings[1].unit.glass);
  // And the same again out of a job file.
  const auto again = openingsOf(exchange::openingsToml(schedule), schedule.walls);
  REQUIRE(again.size() == 2);
  CHECK(same(again[0], first));
  CHECK(same(again[1], schedule.openings[1]));
}

TEST_CASE("all mistakes are told at once, by row and column") {
  const auto lines = mistakesIn(kHeader +
                                ",room,glass thickness,glass panes,safety glass\r\n"
                                "W1,north,100,900,1530ml,1060,slidding window,1510,1040,,,,\r\n"
                                "W1,,1.200,900,1530,50,fixed window,,1040,bath,6,2.5,\r\n"
                                "W3,north,100,900,1530,1060,fixed window,1510,1040,,,,yes,left over\r\n");
  CHECK(lines ==
        std::vector<std::string>{
            "s.csv:2:18: row 2, framed width: must be a number from 100 to 20000 mm, found \"1530ml\"",
            "s.csv:2:30: row 2, kind: must be one of \"sliding window\", \"awning window\", \"casement window\", "
            "\"fixed window\", \"sliding door\", \"hinged door\", \"hopper window\", \"tilt and turn window\", "
            "\"louvre window\", \"single hung window\", \"double hung window\", \"stacking door\", \"folding door\", "
            "\"double doors\", found \"slidding window\"; did you mean sliding "
            "window?",
            "s.csv:3:1: row 3, opening: a second opening named \"W1\"",
            "s.csv:3:4: row 3, wall: empty; a name is needed",
            "s.csv:3:5: row 3, left: must be a number from -100000 to 100000 mm, found \"1.200\"",
            "s.csv:3:20: row 3, framed height: must be a number from 100 to 20000 mm, found \"50\"",
            "s.csv:3:36: row 3, unit width: empty; must be a number from 100 to 20000 mm",
            "s.csv:3:49: row 3, glass panes: must be a whole number from 1 to 4, found \"2.5\"",
            "s.csv:4:54: row 4, safety glass: the glass itself is not named: glass thickness and glass panes are "
            "empty",
            "s.csv:4:58: row 4: has 14 fields, the header 13"});
}

TEST_CASE("the header is checked before the rows") {
  CHECK(mistakesIn("opening,wall,left,sill,framed width,framed hight,kind,unit width,unit height,kind\r\nW1\r\n") ==
        std::vector<std::string>{
            "s.csv:1:37: row 1: column \"framed hight\": did you mean framed height?",
            "s.csv:1:78: row 1: column \"kind\": a second column of kind, beside \"kind\"",
        });
  CHECK(mistakesIn("opening;wall;left;sill;framed width;unit height;unit width;kind\nW1;north;100\n") ==
        std::vector<std::string>{"s.csv:1:1: row 1: column \"framed height\" is missing; with --job or --practice it "
                                 "follows by the usual gaps"});
  CHECK(mistakesIn("\r\n\r\n") == std::vector<std::string>{"s.csv: no header row: no row names two columns or more"});
  CHECK(mistakesIn(
            "opening,wall,left,sill,framed width,framed height,kind,unit width,unit height,room,hand,frame depth\n") ==
        std::vector<std::string>{"s.csv: no openings: there is no row below the header"});
  CHECK(mistakesIn("opening,wall,left,sill,framed width,framed height,kind,unit width,unit height,quantity\n"
                   "W1,north,100,900,1230,1060,fixed window,1210,1040,0\n") ==
        std::vector<std::string>{"s.csv: no openings: there is no row below the header but of quantity 0"});
  CHECK(mistakesIn("opening,left,sill,framed width,framed height,kind,unit width,unit height\n") ==
        std::vector<std::string>{"s.csv:1:1: row 1: column \"wall\" is missing, and no wall is named for all"});
}

TEST_CASE("of many rows that are passed over fifty are told, and that there are more") {
  std::string text = "opening,wall,left,sill,framed width,framed height,kind,unit width,unit height,quantity\n";
  for (int i = 0; i < 60; ++i) text += "W" + std::to_string(i) + ",north,0,900,1530,1060,fixed window,1510,1040,0\n";
  text += "X1,north,0,900,1530,1060,fixed window,1510,1040,1\n";
  const auto read = testing::readSchedule(text, "s.csv", exchange::ScheduleFor{});
  REQUIRE(read.value);
  REQUIRE(read.value->notes.size() == 51);
  CHECK(read.value->notes.back() == "more is passed over than is told here");
}

TEST_CASE("a size or a name that follows keeps to the job file's bounds") {
  const auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/boatshed.toml");
  exchange::ScheduleFor target{"north", nullptr, demo.practice.get()};
  target.side_by_side = true;
  CHECK(mistakesIn("opening,head,framed width,framed height,kind\nW1,2000,105,1000,fixed window\n", target) ==
        std::vector<std::string>{
            "s.csv:2:1: row 2: the other size follows as 85 mm; must be a number from 100 to 20000 mm"});
  CHECK(mistakesIn("opening,head,framed width,framed height,kind\nW1,100,1000,9000,fixed window\n", target) ==
        std::vector<std::string>{
            "s.csv:2:4: row 2, head: the sill follows as -8900 mm; must be a number from -2000 to 20000 mm"});
  const auto named = mistakesIn("opening,sill,framed width,framed height,kind,quantity\n" + std::string(99, 'n') +
                                    ",900,1000,1000,fixed window,2\n",
                                target);
  REQUIRE(named.size() == 2);
  CHECK(named[0].find("a name is at most 100 characters") != std::string::npos);
}

TEST_CASE("openings that join a job: their walls are its, their names are not taken") {
  const auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/boatshed.toml");
  const exchange::ScheduleFor target{{}, &demo.job};
  CHECK(mistakesIn(kHeader + "\nJ1,jety,100,900,1530,1060,fixed window,1510,1040\n", target) ==
        std::vector<std::string>{"s.csv:2:1: row 2, opening: a second opening named \"J1\", here or in the job",
                                 "s.csv:2:4: row 2, wall: the job has no wall \"jety\"; did you mean \"jetty\"?"});
  CHECK(scheduleOf(kHeader + "\nQ1,jetty,100,900,1530,1060,fixed window,1510,1040\n", target).openings.size() == 1);
}

TEST_CASE("an order list is a schedule: the same openings and the same units come back") {
  for (const auto& demo : testing::demoJobs()) {
    CAPTURE(demo.job.title);
    const auto findings = check::judge(demo.job, *demo.practice, demo.plan);
    const auto csv = exchange::csv(takeoff::orderList(demo.job, *demo.practice, demo.plan, findings),
                                   practice::Display::Millimetres);
    const auto schedule = scheduleOf(csv);
    const auto again = openingsOf(exchange::openingsToml(schedule), schedule.walls);
    REQUIRE(again.size() == demo.job.openings.size());
    for (std::size_t i = 0; i < again.size(); ++i) {
      const auto& was = demo.job.openings[i];
      const auto& now = again[i];
      CAPTURE(was.name);
      CHECK(now.name == was.name);
      CHECK(schedule.walls[now.wall] == demo.job.walls[was.wall].name);
      CHECK((now.left == was.left && now.sill == was.sill && now.width == was.width && now.height == was.height));
      CHECK(now.room == was.room);
      CHECK(now.unit.kind == was.unit.kind);
      CHECK(now.unit.mass_kg == was.unit.mass_kg);
      CHECK(now.unit.flashing == was.unit.flashing);
      // The list has what the practice gave where the job left a size out: the unit is the same either way.
      const auto settled = plan::settleUnit(now.unit, *demo.practice);
      const auto& before = demo.plan.openings[i].unit;
      CHECK((settled.kind == before.kind && settled.width == before.width && settled.height == before.height));
      CHECK(settled.frame == before.frame);
      CHECK(settled.reveal == before.reveal);
      CHECK(settled.fin == before.fin);
      CHECK(settled.glass == before.glass);
      CHECK(settled.hand == before.hand);
      CHECK(settled.lights == before.lights);
      CHECK(settled.configuration == before.configuration);
      CHECK(settled.opens == before.opens);
      CHECK((settled.coupled == before.coupled && settled.coupled_over == before.coupled_over));
      CHECK(plan::lightWidths(settled) == plan::lightWidths(before));
      CHECK(plan::lightHeights(settled) == plan::lightHeights(before));
    }
  }
}

TEST_CASE("names with quotes, commas and other alphabets go round") {
  takeoff::Table table;
  table.columns = {{"opening"},       {"wall"}, {"left"},       {"sill"},       {"framed width"},
                   {"framed height"}, {"kind"}, {"unit width"}, {"unit height"}};
  const std::vector<std::string> names{"say \"left\"", "a, b", "C:\\sash", "窓 ½", "Küche'"};
  for (const auto& name : names) {
    table.rows.push_back({name, std::string("north \"old\", 2"), 0.5, 900.0, 1530.0, 1060.0,
                          std::string("fixed window"), 1510.0, 1040.0});
  }
  const auto schedule = scheduleOf(exchange::csv(table, practice::Display::Millimetres));
  const auto again = openingsOf(exchange::openingsToml(schedule), schedule.walls);
  REQUIRE(again.size() == names.size());
  for (std::size_t i = 0; i < names.size(); ++i) CHECK(again[i].name == names[i]);
}

TEST_CASE("blanks at a name's ends are the name's where it stands in quotes") {
  const std::string rest = ",100,900,1200,1000,fixed window,1180,980\n";
  const auto schedule = scheduleOf(kHeader + "\n a ,\"n \"" + rest + "\" a \",\"n\"" + rest + "b, n " + rest);
  CHECK(schedule.openings[0].name == "a");
  CHECK(schedule.openings[1].name == " a ");
  CHECK(schedule.walls == std::vector<std::string>{"n ", "n"});
  CHECK(schedule.openings[2].wall == 1);
  CHECK(mistakesIn(kHeader + "\n\"  \",n" + rest) ==
        std::vector<std::string>{"s.csv:2:1: row 2, opening: empty; a name is needed"});
}

TEST_CASE("every shorter beginning of a schedule is read or told, and what is read are its first rows") {
  const std::string whole = kHeader + "\r\nN1,\"north, \u00e9\",0,0,900,900,fixed window,880,880\r\n" +
                            "\"N\"\"2\",north,1000,0,900,900,hinged door,880,880\r\n";
  REQUIRE(scheduleOf(whole).openings.size() == 2);
  std::size_t told = 0;
  for (std::size_t size = 0; size < whole.size(); ++size) {
    const std::vector<char> exact(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(size));
    const auto read = testing::readSchedule({exact.data(), exact.size()}, "s.csv");
    INFO(size);
    REQUIRE(read.ok() == read.errors.empty());
    if (!read.ok()) {
      ++told;
      continue;
    }
    CHECK(read.value->openings.size() <= 2);
    if (!read.value->openings.empty()) CHECK(read.value->openings[0].name == "N1");
  }
  CHECK(told > kHeader.size() / 2);
}
