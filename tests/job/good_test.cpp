// Files that are right, and what is read from them. Expected values are those written in tests/job/good.
#include "job/read.h"
#include "support.h"
#include "support/catch.h"
#include "support/read_job.h"

namespace sillwright::job::test {
namespace {

Job readGood(const std::string& name) {
  auto result = testing::readJob(kFolder / "good" / name);
  INFO(allLines(result.errors));
  REQUIRE(result.ok());
  CHECK(result.errors.empty());
  return *result.value;
}

Job readText(const std::string& text) {
  auto result = read(text, "text.toml");
  INFO(text << allLines(result.errors));
  REQUIRE(result.ok());
  return *result.value;
}

using Three = std::array<std::optional<double>, 3>;
using Two = std::array<std::optional<double>, 2>;

}  // namespace

TEST_CASE("the full example: the site's bushfire level, its limit of heat loss, and a light's own glass") {
  const Job job = readGood("full.toml");
  CHECK(job.bushfire == "BAL-29");
  CHECK(job.heat == "zone 5");
  const Unit& unit = job.openings[0].unit;
  REQUIRE(unit.glass);
  CHECK(unit.glass->type == GlassType::Float);
  REQUIRE(unit.glass_of.size() == 1);
  CHECK(unit.glass_of[0].row == 1);
  CHECK(unit.glass_of[0].column == 1);
  CHECK(unit.glass_of[0].type == GlassType::Laminated);
  CHECK(unit.glass_of[0].obscure == true);
  CHECK_FALSE(unit.glass_of[0].thickness);
}

TEST_CASE("the full example: the job and its wall") {
  const Job job = readGood("full.toml");
  CHECK(job.file == (kFolder / "good" / "full.toml").string());
  CHECK(job.title == "Boatshed – north side");
  CHECK(job.practice == "au");
  CHECK(job.wind == Wind(std::string("N3")));
  CHECK(job.address == "12 Slip Road, Cygnet");
  CHECK(job.date == Date{2026, 3, 14});
  CHECK(job.revision == "B");
  CHECK(job.by == "M. Tran");
  CHECK(job.notes == "Units arrive on the 20th.");
  CHECK(job.practice_place == base::Place{3, 12});
  CHECK(job.wind_place == base::Place{4, 12});

  REQUIRE(job.walls.size() == 1);
  const Wall& wall = job.walls[0];
  CHECK(wall.name == "north");
  CHECK(wall.length == 7200);
  CHECK(wall.top == std::vector<TopPoint>{{0, 2440}, {7200, 2440}});
  CHECK(wall.stud == StudSection{90, 45});
  CHECK(wall.spacing == 450);
  CHECK(wall.plates == PlateCount{2, 1});
  CHECK(wall.lining == 10);
  CHECK(wall.cladding == Cladding{16, 0});
  CHECK(wall.eave == Eave{2250, 450});
  CHECK(wall.timber == "MGP10");
  CHECK(wall.at_x == 0);
  CHECK(wall.at_y == 0);
  CHECK(wall.turn_degrees == 0);
  CHECK(wall.align_heads);
  CHECK(wall.supports == Supports{3600, 0.9});
  CHECK(wall.second_row == SecondRow{70, 40});
  CHECK_FALSE(wall.above_ground.has_value());
  CHECK(wall.place == base::Place{13, 1});
  CHECK(wall.timber_place == base::Place{24, 12});
}

TEST_CASE("the full example: the opening and its unit") {
  const Job job = readGood("full.toml");
  REQUIRE(job.openings.size() == 1);
  const Opening& opening = job.openings[0];
  CHECK(opening.name == "N1");
  CHECK(opening.wall == 0);
  CHECK(opening.left == 1240);
  CHECK(opening.sill == 900);
  CHECK(opening.width == 1530);
  CHECK(opening.height == 1060);
  CHECK(opening.room == Room::Bedroom);
  CHECK(opening.tag == "Bed 1");
  CHECK_FALSE(opening.lintel.has_value());

  const Unit& unit = opening.unit;
  CHECK(unit.kind == UnitKind::SlidingWindow);
  CHECK(unit.width == 1510);
  CHECK(unit.height == 1040);
  CHECK(unit.frame == FrameSection{100, 50});
  CHECK(unit.reveal == Reveal{18, 100});
  CHECK(unit.fin == 30);
  CHECK(unit.glass == Glass{6, 1, std::nullopt, std::nullopt, GlassType::Float, {6.0}, 12.0, 5.8});
  CHECK(unit.colour == "white");
  CHECK(unit.screens == true);
  CHECK(unit.notes == "keyed alike");
  CHECK(unit.mass_kg == 38);
  CHECK(unit.flashing == Flashing::Fitted);
  CHECK(unit.label == Label{2.0, 1.0, 0.3});
  REQUIRE(unit.fixing.has_value());
  CHECK(unit.fixing->by == ScheduleBy::Maker);
  CHECK(unit.fixing->screw == "10g x 75");
  CHECK(unit.fixing->spacing == 450);
  CHECK(unit.fixing->from_corner == 100);
  CHECK(unit.fixing->sides == std::vector{FixedSide::Jambs, FixedSide::Head, FixedSide::Sill});
  CHECK(unit.fixing->through == FixedThrough::Reveal);
  CHECK_FALSE(unit.hand.has_value());
  CHECK_FALSE(unit.mesh.has_value());
}

TEST_CASE("the full example: readings and stock") {
  const Job job = readGood("full.toml");
  REQUIRE(job.openings.size() == 1);
  REQUIRE(job.openings[0].measured.has_value());
  const Measured& measured = *job.openings[0].measured;
  CHECK(measured.widths == Three{1529, 1531, 1532});
  CHECK(measured.heights == Three{1060, 1059, 1058});
  CHECK(measured.diagonals == Two{1863, 1860});
  CHECK(measured.out_of_level == -3);
  CHECK(measured.out_of_plumb == Two{3, 6});
  CHECK(measured.out_of_plumb_in == Two{0, 2});
  CHECK(measured.wall_depth == Two{100, 101});
  CHECK(measured.by == ReadBy(Instrument::Tape));

  REQUIRE(job.openings[0].installed.has_value());
  const Installed& installed = *job.openings[0].installed;
  CHECK(installed.date == Date{2026, 3, 14});
  CHECK(installed.diagonals == Two{1833.5, 1833.5});
  CHECK(installed.out_of_level == 0);
  CHECK(installed.out_of_plumb == Two{0.5, 0});
  CHECK(installed.opens == true);
  CHECK(installed.locks == true);

  REQUIRE(job.stock.has_value());
  CHECK(job.stock->packers == std::vector<double>{1, 1.5, 2, 3, 5, 6, 8, 10});
  CHECK(job.stock->screws == std::vector<std::string>{"8g x 75", "8g x 100", "10g x 75"});
  CHECK(job.stock->rolls == std::vector<double>{110, 150, 230});
  CHECK(job.stock->roll_length == 20000);
  CHECK(job.stock->timber == std::vector<double>{2400, 2700, 3000, 3600, 4200, 4800, 5400, 6000});
}

TEST_CASE("what a file leaves out stays empty") {
  const Job job = readGood("minimal.toml");
  Job expected;
  expected.file = job.file;
  expected.title = "t";
  expected.practice = "au";
  Wall wall;
  wall.name = "w";
  wall.length = 2400.5;
  wall.top = {{0, 2440}, {2400.5, 2440}};
  expected.walls = {wall};
  CHECK(withoutPlaces(job) == expected);
}

TEST_CASE("every key with two forms reads in the other form too") {
  const Job job = readGood("tables_for_arrays.toml");
  CHECK(job.practice == "../practices/mine.toml");
  CHECK(job.wind == Wind(StatedPressure{1.2}));

  REQUIRE(job.walls.size() == 2);
  CHECK(job.walls[0].top == std::vector<TopPoint>{{0, 2440}, {3600, 3640.5}, {7200, 2440}});
  CHECK(job.walls[0].stud == StudSection{90, 45});
  CHECK_FALSE(job.walls[0].align_heads);
  CHECK(job.walls[1].top == std::vector<TopPoint>{{0, 2400}, {7200, 3000}});
  CHECK(job.walls[1].above_ground == 0);
  CHECK(job.walls[1].cladding == Cladding{16, 20});

  REQUIRE(job.openings.size() == 1);
  const Opening& opening = job.openings[0];
  CHECK(opening.wall == 1);
  CHECK(opening.left == -100);
  CHECK(opening.room == Room::Shower);
  CHECK(opening.lintel == Lintel{190, 45, 2});
  CHECK(opening.unit.kind == UnitKind::HingedDoor);
  CHECK(opening.unit.hand == Hand::Right);
  CHECK(opening.unit.mesh == "doors/plain.obj");
  CHECK(opening.unit.glass == Glass{5, 2, true, true});

  REQUIRE(opening.measured.has_value());
  const auto none = std::nullopt;
  CHECK(opening.measured->widths == Three{919, none, 921.5});
  CHECK(opening.measured->heights == Three{none, 2101, none});
  CHECK(opening.measured->diagonals == Two{none, 2291});
  CHECK(opening.measured->out_of_plumb == Two{none, -2});
  CHECK(opening.measured->out_of_plumb_in == Two{1.5, none});
  CHECK(opening.measured->wall_depth == Two{none, none});
  CHECK(opening.measured->by == ReadBy(StandardErrors{1.0, 1.5, 0.5}));
  REQUIRE(opening.installed.has_value());
  CHECK(opening.installed->diagonals == Two{2267, 2266});
  CHECK(opening.installed->out_of_plumb == Two{0.5, none});
  CHECK(opening.installed->locks == false);
  CHECK_FALSE(opening.installed->opens.has_value());
  CHECK_FALSE(opening.installed->date.has_value());
}

TEST_CASE("a file may be laid out as TOML allows") {
  const Job job = readGood("loose.toml");
  CHECK(job.title == "A title over two lines");
  REQUIRE(job.walls.size() == 1);
  CHECK(job.walls[0].name == "é × \"1\"");
  CHECK(job.walls[0].at_y == 12.5);
  REQUIRE(job.openings.size() == 1);
  CHECK(job.openings[0].wall == 0);
  CHECK(job.openings[0].left == 1240);
  CHECK(job.openings[0].sill == 900);
  CHECK(job.openings[0].width == 0x5FA);
  CHECK(job.openings[0].height == 1060);
  CHECK(job.openings[0].unit.glass == Glass{6, 1, std::nullopt});
  REQUIRE(job.stock.has_value());
  CHECK(job.stock->packers == std::vector<double>{1, 1.5});
}

TEST_CASE("each word of each list is read as its own meaning") {
  const auto unitWith = [](const std::string& line) { return readText(kMinimal + kOpening + line).openings[0].unit; };
  const auto kindOf = [](const std::string& word) {
    return readText(kMinimal + replaced(kOpening, "sliding window", word)).openings[0].unit.kind;
  };
  CHECK(kindOf("sliding window") == UnitKind::SlidingWindow);
  CHECK(kindOf("awning window") == UnitKind::AwningWindow);
  CHECK(kindOf("casement window") == UnitKind::CasementWindow);
  CHECK(kindOf("fixed window") == UnitKind::FixedWindow);
  CHECK(kindOf("sliding door") == UnitKind::SlidingDoor);
  CHECK(kindOf("hinged door") == UnitKind::HingedDoor);

  const auto roomOf = [](const std::string& word) {
    const auto opening = replaced(kOpening, "left =", "room = \"" + word + "\"\nleft =");
    return readText(kMinimal + opening).openings[0].room;
  };
  CHECK(roomOf("bedroom") == Room::Bedroom);
  CHECK(roomOf("living") == Room::Living);
  CHECK(roomOf("wet area") == Room::WetArea);
  CHECK(roomOf("shower") == Room::Shower);
  CHECK(roomOf("stair") == Room::Stair);
  CHECK(roomOf("other") == Room::Other);

  CHECK(unitWith("flashing = \"fitted\"\n").flashing == Flashing::Fitted);
  CHECK(unitWith("flashing = \"on the wall\"\n").flashing == Flashing::OnWall);
  CHECK(unitWith("fixing = { by = \"engineer\", spacing = 300 }\n").fixing->by == ScheduleBy::Engineer);
  CHECK(unitWith("fixing = { spacing = 300 }\n").fixing->by == ScheduleBy::Maker);
  CHECK(unitWith("hand = \"left\"\n").hand == Hand::Left);
  CHECK(unitWith("hand = \"right\"\n").hand == Hand::Right);

  const auto byOf = [](const std::string& word) {
    return readText(kMinimal + kOpening + "[opening.measured]\nby = \"" + word + "\"\n").openings[0].measured->by;
  };
  CHECK(byOf("tape") == ReadBy(Instrument::Tape));
  CHECK(byOf("laser") == ReadBy(Instrument::Laser));
}

TEST_CASE("a value at its bound is allowed") {
  const auto lengthOf = [](const std::string& length) {
    return readText(replaced(kMinimal, "7200", length)).walls[0].length;
  };
  CHECK(lengthOf("100") == 100);
  CHECK(lengthOf("100000") == kLongestWall);
  CHECK_FALSE(read(replaced(kMinimal, "7200", "99.999"), "").ok());
  CHECK_FALSE(read(replaced(kMinimal, "7200", "100000.001"), "").ok());
}

TEST_CASE("CRLF line ends and a byte order mark change nothing, places included") {
  const auto text = load(kFolder / "good" / "full.toml");
  const Job expected = readText(text);
  CHECK(readText(replaced(text, "\n", "\r\n")) == expected);
  CHECK(readText("\xEF\xBB\xBF" + text) == expected);
  CHECK(readText("\xEF\xBB\xBF" + replaced(text, "\n", "\r\n")) == expected);
}

TEST_CASE("every demo job reads without an error") {
  std::size_t count = 0;
  for (const auto& path : filesIn(std::filesystem::path(SILLWRIGHT_ASSETS_DIR) / "jobs", ".toml")) {
    const auto result = testing::readJob(path);
    INFO(allLines(result.errors));
    CHECK(result.ok());
    ++count;
  }
  CHECK(count > 0);
}

TEST_CASE("a job says how its walls are built") {
  const Job job = readGood("walls.toml");
  CHECK(job.built == 1958);
  REQUIRE(job.walls.size() == 2);
  CHECK(job.walls[0].cladding == Cladding{110, 40, CladdingKind::BrickVeneer});
  CHECK(job.walls[0].level == 2700);
  CHECK(job.walls[0].studs == StudKind::Steel);
  CHECK_FALSE(job.walls[0].isInside());
  CHECK(job.walls[1].isInside());
  CHECK_FALSE(job.walls[1].isSteel());
  REQUIRE(job.openings.size() == 1);
  CHECK(job.openings[0].isExisting());
  CHECK(job.openings[0].lintel == Lintel{200, 45, 2, "LVL 13"});
}

}  // namespace sillwright::job::test
