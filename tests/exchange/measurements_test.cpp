// Measurements in: what a log and a filled form come to, and what is refused.

#include "exchange/measurements.h"

#include <regex>

#include "exchange/csv.h"
#include "plan/plan.h"
#include "support/catch.h"
#include "support/demo_jobs.h"

using namespace sillwright;

namespace {

testing::DemoJob boatshed() { return testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/boatshed.toml"); }

base::Result<std::vector<exchange::MeasuredValue>> readingsOf(const std::string& csv, const job::Job& job,
                                                              const exchange::MeasuredFor& target = {}) {
  const auto grid = exchange::gridOf(csv, "m.csv", exchange::measurementNames(target.map));
  REQUIRE(grid.ok());
  return exchange::readMeasurements(*grid.value, job, target);
}

std::vector<std::string> mistakesIn(const std::string& csv, const job::Job& job,
                                    const exchange::MeasuredFor& target = {}) {
  std::vector<std::string> lines;
  for (const auto& error : readingsOf(csv, job, target).errors) lines.push_back(base::toLine(error));
  return lines;
}

}  // namespace

TEST_CASE("a reading is named by its words in any order") {
  const auto is = [](const char* words, const char* name) {
    const auto place = exchange::readingNamed(words);
    CAPTURE(words);
    CHECK((place && exchange::nameOf(*place) == name));
  };
  is("width bottom", "bottom width");
  is("Bottom W", "bottom width");
  is("the middle width", "middle width");
  is("H left (mm)", "left height");
  is("diagonal BL", "diagonal from bottom left");
  is("Diag. top left", "diagonal from top left");
  is("level of the sill", "level of the sill");
  is("plumb of the left stud", "plumb of the left stud");
  is("plumb in or out of the right stud", "plumb in or out of the right stud");
  is("depth right", "right wall depth");
  CHECK(!exchange::readingNamed("width"));
  CHECK(!exchange::readingNamed("diagonal"));
  CHECK(!exchange::readingNamed("girth bottom"));
}

TEST_CASE("a log's rows are readings, whatever their unit") {
  const auto demo = boatshed();
  const auto read = readingsOf(
      "Time;Window;Measurement;Result\n09:12;J1;width bottom;2,4305 m\n09:13;J1;W top;2431\n09:14;J2;level;-2,5\n"
      "09:15;J2;height left;\n",
      demo.job);
  REQUIRE(read.ok());
  REQUIRE(read.value->size() == 3);
  CHECK((*read.value)[0].value == 2430.5);
  CHECK((*read.value)[1].value == 2431);
  CHECK((*read.value)[2].value == -2.5);
  CHECK((*read.value)[2].opening == 1);
}

TEST_CASE("a log whose rows name their unit in a column of its own is read by it") {
  const auto demo = boatshed();
  const std::string log =
      "Date,Opening,What,Result,Unit\n1/2,J1,LH height,2110,mm\n1/2,J1,W top,2.431,m\n1/2,J2,bottom W,60 1/4,in\n";
  const auto read = readingsOf(log, demo.job);
  REQUIRE(read.ok());
  REQUIRE(read.value->size() == 3);
  CHECK((*read.value)[0].value == 2110);
  CHECK((*read.value)[1].value == Approx(2431));
  CHECK((*read.value)[2].value == Approx(60.25 * 25.4).margin(1e-3));
  CHECK(mistakesIn(log + "1/2,J2,top W,1530,ells\n", demo.job) ==
        std::vector<std::string>{"m.csv:5:14: row 5, unit: \"ells\" is no unit of length that is known"});
}

TEST_CASE("what a log has wrong is told at its row, all at once") {
  const auto demo = boatshed();
  CHECK(mistakesIn("opening,reading,value\nJ9,width bottom,2430\nJ1,width top,2.431\nJ1,out of level,2\nJ1,level,3\n",
                   demo.job) ==
        std::vector<std::string>{"m.csv:2:17: row 2, opening: the job has no opening \"J9\"; did you mean \"J1\"?",
                                 "m.csv:3:14: row 3, value: must be a number from 50 to 25000 mm, found \"2.431\"",
                                 "m.csv:5:10: row 5, reading: is in row 4 too; keep one"});
  const auto unnamed = mistakesIn("opening,reading,value\nJ1,girth,2430\n", demo.job);
  REQUIRE(unnamed.size() == 1);
  CHECK(unnamed[0].find("\"girth\" is none of: bottom width, middle width") != std::string::npos);
  CHECK(mistakesIn("opening,reading,value\nJ1,width top,95\n", demo.job, {{}, {}, practice::Display::InchFractions}) ==
        std::vector<std::string>{"m.csv:2:14: row 2, value: \"95\": mm or inches? --unit says it for all"});
}

TEST_CASE("the form has every reading of every opening with its planned value, and reads back when filled in") {
  const auto demo = boatshed();
  auto form = exchange::measurementForm(demo.job, demo.plan, practice::Display::Millimetres, false);
  REQUIRE(form.rows.size() == demo.job.openings.size() * 15);
  CHECK(std::get<double>(form.rows[0][2]) == demo.job.openings[0].width);
  CHECK(mistakesIn(exchange::csv(form, practice::Display::Millimetres), demo.job) ==
        std::vector<std::string>{"m.csv: no row has a value"});
  for (auto& row : form.rows) row[3] = row[2];
  const auto read = readingsOf(exchange::csv(form, practice::Display::Millimetres), demo.job);
  REQUIRE(read.ok());
  CHECK(read.value->size() == form.rows.size());
}

TEST_CASE("the form of a job in inches has thousandths, and no digits that nobody measures") {
  const auto demo = boatshed();
  const auto form = exchange::measurementForm(demo.job, demo.plan, practice::Display::InchFractions, false);
  const std::string csv = exchange::csv(form, practice::Display::InchFractions);
  const auto planned = std::round(demo.job.openings[0].width / 25.4 * 1000);
  CHECK(std::get<double>(form.rows[0][2]) == Approx(planned * 25.4 / 1000));
  CHECK_FALSE(std::regex_search(csv, std::regex("[.][0-9]{4}")));
}

TEST_CASE("the record of a unit that is set has its own form, and goes into the job as the measurements do") {
  auto demo = boatshed();
  auto form = exchange::measurementForm(demo.job, demo.plan, practice::Display::Millimetres, true);
  REQUIRE(form.rows.size() == demo.job.openings.size() * 7);  // diagonals, level, plumb; whether it opens and locks
  for (auto& row : form.rows) row[3] = std::holds_alternative<double>(row[2]) ? row[2] : takeoff::Cell{"yes"};
  const auto read = readingsOf(exchange::csv(form, practice::Display::Millimetres), demo.job);
  REQUIRE(read.ok());
  REQUIRE(read.value->size() == form.rows.size());
  for (const auto& [opening, of, value] : *read.value) {
    exchange::setValue(demo.job.openings[opening], of, value);
    CHECK(exchange::valueOf(demo.job.openings[opening], of) == value);
  }
  const auto& set = *demo.job.openings[1].installed;
  const auto& unit = demo.plan.openings[1].unit;
  CHECK(*set.diagonals[0] == Approx(std::hypot(unit.width, unit.height)).margin(0.051));
  CHECK(*set.out_of_level == 0);
  CHECK(*set.opens);
  CHECK(*set.locks);
  CHECK(mistakesIn("opening,reading,value\nJ1,set: opens,3\n", demo.job) ==
        std::vector<std::string>{"m.csv:2:15: row 2, value: must be yes or no, found \"3\""});
}
