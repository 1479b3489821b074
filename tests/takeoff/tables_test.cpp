// The lists as tables: sound, complete, and one order list worked by hand.

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "check/judge.h"
#include "support/catch.h"
#include "support/demo_jobs.h"
#include "takeoff/order.h"
#include "takeoff/table.h"
#include "words/text.h"

using namespace sillwright;

namespace {

std::vector<takeoff::Table> allTables(const testing::DemoJob& demo) {
  const auto findings = check::judge(demo.job, *demo.practice, demo.plan);
  std::vector<takeoff::Table> tables{takeoff::orderList(demo.job, *demo.practice, demo.plan, findings)};
  const auto taken = takeoff::takeOff(demo.job, *demo.practice, demo.plan);
  for (auto& table : takeoff::tablesOf(taken, demo.job, *demo.practice)) tables.push_back(std::move(table));
  return tables;
}

const takeoff::Table& named(const std::vector<takeoff::Table>& tables, const std::string& name) {
  const auto at = std::find_if(tables.begin(), tables.end(), [&](const auto& table) { return table.name == name; });
  REQUIRE(at != tables.end());
  return *at;
}

const takeoff::Cell& cell(const takeoff::Table& table, std::size_t row, const std::string& column) {
  const auto at =
      std::find_if(table.columns.begin(), table.columns.end(), [&](const auto& one) { return one.name == column; });
  REQUIRE(at != table.columns.end());
  REQUIRE(row < table.rows.size());
  return table.rows[row][static_cast<std::size_t>(at - table.columns.begin())];
}

double numberAt(const takeoff::Table& table, std::size_t row, const std::string& column) {
  const auto* number = std::get_if<double>(&cell(table, row, column));
  REQUIRE(number != nullptr);
  return *number;
}

std::string textAt(const takeoff::Table& table, std::size_t row, const std::string& column) {
  const auto* text = std::get_if<std::string>(&cell(table, row, column));
  return text == nullptr ? std::string{} : *text;
}

double sumOf(const takeoff::Table& table, const std::string& column) {
  double sum = 0;
  for (std::size_t row = 0; row < table.rows.size(); ++row) sum += numberAt(table, row, column);
  return sum;
}

}  // namespace

TEST_CASE(
    "tables are sound: as many cells as columns, of the kind the column holds, names that make files and sheets") {
  for (const auto& demo : testing::demoJobs()) {
    CAPTURE(demo.job.title);
    std::set<std::string> names;
    for (const auto& table : allTables(demo)) {
      CAPTURE(table.name);
      CHECK(names.insert(table.name).second);
      CHECK(table.name.size() <= 31);  // the longest name of a sheet in a workbook (ECMA-376 as applied by its readers)
      CHECK(table.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz ") == std::string::npos);
      CHECK(!table.title.empty());
      const auto known = takeoff::listNames();
      CHECK(std::find(known.begin(), known.end(), table.name) != known.end());
      std::set<std::string> columns;
      for (const auto& column : table.columns) CHECK(columns.insert(column.name).second);
      for (const auto& row : table.rows) {
        REQUIRE(row.size() == table.columns.size());
        for (std::size_t i = 0; i < row.size(); ++i) {
          if (const auto* number = std::get_if<double>(&row[i])) {
            CHECK(std::isfinite(*number));
            CHECK(table.columns[i].holds != takeoff::Holds::Text);
          } else if (std::holds_alternative<std::string>(row[i])) {
            CHECK(
                (table.columns[i].holds == takeoff::Holds::Text || table.columns[i].holds == takeoff::Holds::Lengths));
          }
        }
      }
    }
  }
}

TEST_CASE("the lists hold all that the take-off counts") {
  for (const auto& demo : testing::demoJobs()) {
    CAPTURE(demo.job.title);
    const auto taken = takeoff::takeOff(demo.job, *demo.practice, demo.plan);
    const auto tables = allTables(demo);
    double timber = 0, bars = 0, strips = 0, rolls = 0, screws = taken.without_screw;
    for (const auto& section : taken.timber) {
      for (const auto& line : section.lines) timber += line.count;
      for (const auto& bar : section.cutting.bars) bars += bar.times;
    }
    for (const auto& roll : taken.rolls) {
      for (const auto& piece : roll.pieces) strips += piece.count;
      for (const auto& bar : roll.cutting.bars) rolls += bar.times;
    }
    for (const auto& [name, count] : taken.screws) screws += count;
    if (timber > 0) {
      CHECK(sumOf(named(tables, "timber"), "count") == timber);
      CHECK(sumOf(named(tables, "timber to buy"), "count") == bars);
      CHECK(sumOf(named(tables, "cutting plan"), "lengths") == bars);
    }
    if (strips > 0) {
      CHECK(sumOf(named(tables, "flashing strips"), "count") == strips);
      CHECK(sumOf(named(tables, "rolls"), "rolls") == rolls);
    }
    if (screws > 0) CHECK(sumOf(named(tables, "screws"), "count") == screws);
    CHECK(named(tables, "sheets").rows.size() == demo.job.walls.size());
    std::size_t made = 0;  // each coupled part is ordered by itself
    for (const auto& opening : demo.job.openings) made += 1 + opening.unit.coupled.size();
    CHECK(named(tables, "order list").rows.size() == made);
    // Each section's plan carries its bound: proven best, or how much could still be saved.
    if (timber > 0) CHECK(named(tables, "timber to buy").notes.size() >= taken.timber.size());
  }
}

TEST_CASE("the order list says what each size was based on, and the unit as the job has it") {
  const auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/boatshed.toml");
  const auto list = allTables(demo).front();
  for (std::size_t row = 0; row < list.rows.size(); ++row) {
    const auto& opening = demo.job.openings[row];
    const auto& planned = demo.plan.openings[row];
    CAPTURE(opening.name);
    CHECK(textAt(list, row, "opening") == opening.name);
    CHECK(textAt(list, row, "wall") == demo.job.walls[opening.wall].name);
    CHECK(numberAt(list, row, "unit width") == opening.unit.width);
    CHECK(numberAt(list, row, "unit height") == opening.unit.height);
    CHECK(numberAt(list, row, "weight") == Approx(planned.mass.total_kg).margin(0.051));
    CHECK(textAt(list, row, "based on") == (!opening.measured                                 ? "planned size"
                                            : planned.as_built.from == plan::ShapeFrom::Mixed ? "partly measured"
                                                                                              : "measured"));
    if (check::shapeIsTrusted(planned.as_built)) {
      // No unit that leaves the usual gaps is larger than the opening.
      CHECK(numberAt(list, row, "order width") < opening.width);
      CHECK(numberAt(list, row, "order height") < opening.height);
      CHECK(numberAt(list, row, "clearance to spare") == Approx(std::round(planned.stand.spare * 10) / 10));
      CHECK(numberAt(list, row, "chance of fit") >= 0);
      CHECK(numberAt(list, row, "chance of fit") <= 1);
    }
  }
  // J1, from the job's own lines.
  CHECK(textAt(list, 0, "kind") == "sliding door");
  CHECK(textAt(list, 0, "hand") == "right");
  CHECK(numberAt(list, 0, "reveal depth") == 100);
  CHECK(textAt(list, 0, "reveal") == "with");
  // L2 has no reveal in the job: a bare frame.
  CHECK(textAt(list, 4, "opening") == "L2");
  CHECK(textAt(list, 4, "reveal") == "bare");
  CHECK(std::holds_alternative<std::monostate>(cell(list, 4, "reveal depth")));
  CHECK(textAt(list, 0, "safety glass") == "yes");
  CHECK(textAt(list, 0, "flashing") == "on the wall");
}

TEST_CASE("the order list has what is asked of a unit: its label, its U-value, and the schedule it is fixed by") {
  auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml");
  job::FixingSchedule& schedule = demo.job.openings[0].unit.fixing.emplace();
  schedule.screw = "10g x 75";
  schedule.spacing = 450;
  schedule.from_corner = 100;
  schedule.sides = {job::FixedSide::Jambs};
  demo.plan = plan::makePlan(demo.job, *demo.practice);
  auto list = allTables(demo).front();
  // The rating of the site's class, not its pressure; a pressure is rounded up, for one rounded down would be too
  // little.
  const auto& wind = demo.plan.openings[0].wind;
  const auto* named = demo.practice->strength.wind.find(std::get<std::string>(*demo.job.wind));
  REQUIRE((named != nullptr && named->rating_kpa && !wind.near_corner));
  const std::string asked = textAt(list, 0, "label asked");
  CHECK(asked.find("ultimate " + words::number(named->rating_kpa->value, 2) + " kPa") == 0);
  CHECK(std::stod(asked.substr(asked.find("serviceability ") + 15)) >= *wind.serviceability_kpa);
  CHECK(textAt(list, 0, "fixing schedule") == "maker's: 10g x 75 at most 450 mm apart, 100 mm from corners, at jambs");
  CHECK(textAt(list, 0, "u value asked").empty());
  const auto uk = practice::load("uk", SILLWRIGHT_ASSETS_DIR, SILLWRIGHT_ASSETS_DIR);
  REQUIRE(uk.ok());
  const auto findings = check::judge(demo.job, *demo.practice, demo.plan);
  demo.job.heat = "replacement";
  demo.job.bushfire = "BAL-29";
  list = takeoff::orderList(demo.job, *uk.value, demo.plan, findings);
  CHECK(numberAt(list, 0, "u value asked") == 1.4);
  CHECK(textAt(list, 0, "label asked").find("BAL-29") != std::string::npos);
}

TEST_CASE("the cutting plan names each piece's mark on its wall, and the angle of its end") {
  for (const auto& demo : testing::demoJobs()) {
    CAPTURE(demo.job.title);
    const auto tables = allTables(demo);
    const auto taken = takeoff::takeOff(demo.job, *demo.practice, demo.plan);
    std::size_t too_long = 0;
    for (const auto& section : taken.timber) too_long += section.cutting.too_long.size();
    if (too_long > 0 || taken.timber.empty()) continue;
    // By mark as many as the timber list counts. One line of a piece: "2 × 2382 (jetty E, 22.5°)".
    std::map<std::string, int> cut;
    const auto& plan = named(tables, "cutting plan");
    for (std::size_t row = 0; row < plan.rows.size(); ++row) {
      std::string pieces = textAt(plan, row, "pieces") + " + ";
      for (std::size_t at = 0, end = 0; (end = pieces.find(" + ", at)) != std::string::npos; at = end + 3) {
        const std::string piece = pieces.substr(at, end - at);
        const auto times = piece.find(" × ");
        const auto open = piece.find('(');
        REQUIRE(open != std::string::npos);
        const std::string mark = piece.substr(open + 1, piece.find_first_of(",)", open) - open - 1);
        const int count = times == std::string::npos ? 1 : std::stoi(piece);
        cut[mark] += count * static_cast<int>(numberAt(plan, row, "lengths"));
      }
    }
    std::map<std::string, int> counted;
    for (const auto& section : taken.timber) {
      for (const auto& line : section.lines) {
        for (const auto& mark : line.marks) {
          const std::string wall = demo.job.walls.size() > 1 ? demo.job.walls[mark.wall].name + " " : "";
          counted[wall + mark.mark] += mark.count;
        }
      }
    }
    CHECK(cut == counted);
  }
  const auto studio = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/raking-studio.toml");
  const auto tables = allTables(studio);
  const auto& plan = named(tables, "cutting plan");
  bool angle = false;
  for (std::size_t row = 0; row < plan.rows.size(); ++row) {
    angle = angle || textAt(plan, row, "pieces").find("°)") != std::string::npos;
  }
  CHECK(angle);
}

TEST_CASE("heights under a slope stand in the order's notes in the unit of its other sizes") {
  auto loft = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/gable-loft.toml");
  const auto notes = [&] { return textAt(allTables(loft).front(), 0, "notes"); };
  const std::string said = notes();
  CAPTURE(said);
  CHECK(said.find(" mm, heights from the left") != std::string::npos);
  auto inches = std::make_shared<practice::Practice>(*loft.practice);
  inches->display = practice::Display::InchFractions;
  loft.practice = inches;
  loft.plan = plan::makePlan(loft.job, *loft.practice);  // the other points to figures of the other practice
  CHECK(notes().find(" in, heights from the left") != std::string::npos);
  CHECK(notes().find(" mm") == std::string::npos);
}

TEST_CASE("where readings disagree the order list names no size") {
  auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml");
  demo.job.openings[0].measured = job::Measured{};
  demo.job.openings[0].measured->widths = {1530, 1530, 1530};
  demo.job.openings[0].measured->heights = {1060, 1060, 1060};
  demo.job.openings[0].measured->diagonals = {1861.3, 1961.3};  // the second is 100 too long
  demo.job.openings[0].measured->out_of_level = 0;
  demo.job.openings[0].measured->out_of_plumb = {0, 0};
  demo.plan = plan::makePlan(demo.job, *demo.practice);
  REQUIRE(!check::shapeIsTrusted(demo.plan.openings[0].as_built));
  const auto list = allTables(demo).front();
  for (const char* column : {"order width", "order height", "clearance to spare", "chance of fit"}) {
    CAPTURE(column);
    CHECK(std::holds_alternative<std::monostate>(cell(list, 0, column)));
  }
  CHECK(textAt(list, 0, "based on") == "measurements disagree");
}

TEST_CASE("safety glass is asked for where the checks ask for it") {
  auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml");
  CHECK(textAt(allTables(demo).front(), 0, "safety glass asked") == "no");
  demo.job.openings[0].room = job::Room::Shower;
  demo.plan = plan::makePlan(demo.job, *demo.practice);
  CHECK(textAt(allTables(demo).front(), 0, "safety glass asked") == "yes");
}

TEST_CASE("coupled parts are ordered each by itself: mark, size, kind, glass and weight, and what they are joined to") {
  auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml");
  auto& opening = demo.job.openings[0];
  opening.unit.coupled = {{job::UnitKind::FixedWindow, job::CoupledAt::Right, 500, {}, 12}};
  opening.unit.glass_of = {{1, 2, 10, {}, {}, {}, {}}};
  demo.plan = plan::makePlan(demo.job, *demo.practice);
  const auto list = allTables(demo).front();
  REQUIRE(list.rows.size() == 2);
  CHECK(textAt(list, 0, "opening") == opening.name);
  CHECK(textAt(list, 1, "opening") == opening.name + "-2");
  CHECK(textAt(list, 1, "coupled to") == opening.name + ", right");
  CHECK(textAt(list, 1, "kind") == "fixed window");
  CHECK(numberAt(list, 0, "unit width") == opening.unit.width - 500);
  CHECK(numberAt(list, 1, "unit width") == 500);
  CHECK(numberAt(list, 1, "unit height") == opening.unit.height);
  CHECK(numberAt(list, 1, "glass thickness") == 10);
  CHECK(numberAt(list, 1, "weight") == 12);
  CHECK(numberAt(list, 0, "order width") + numberAt(list, 1, "order width") == demo.plan.openings[0].stand.order[0]);
  CHECK(textAt(list, 1, "people to lift") == "2 people");  // light, and longer than one carries
}
