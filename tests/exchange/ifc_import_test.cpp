// Models of other programs as jobs: the same small house as IFC 2x3 in metres and as IFC 4 in millimetres, turned on
// the plan; and what is no model.

#include "exchange/ifc_import.h"

#include <cmath>
#include <sstream>

#include "base/words.h"
#include "exchange/model.h"
#include "exchange/step/step_reader.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "support/assets.h"
#include "support/demo_document.h"
#include "support/demo_jobs.h"

using namespace sillwright;

namespace {

/// A small house as another program would write it: four walls about the middle of the floor plan, turned by 30°; one
/// window that fills its opening, and a door that nothing says is in its opening, drawn on the floor plan as it swings.
std::string smallHouse(bool ifc4) {
  const std::string schema = ifc4 ? "IFC4" : "IFC2X3";
  const double unit = ifc4 ? 1 : 0.001;
  std::ostringstream out;
  int last = 0;
  const auto add = [&](const std::string& what) {
    out << "#" << ++last << " = " << what << ";\n";
    return "#" + std::to_string(last);
  };
  const auto n = [&](double mm) {
    std::ostringstream text;
    text << std::fixed << mm * unit;
    return text.str();
  };
  const auto point = [&](double x, double y, double z) {
    return add("IFCCARTESIANPOINT((" + n(x) + "," + n(y) + "," + n(z) + "))");
  };
  const auto place = [&](const std::string& in, double x, double y, double z, double degrees) {
    const double turn = degrees * 3.14159265358979 / 180;
    std::ostringstream along;
    along << std::fixed << "IFCDIRECTION((" << std::cos(turn) << "," << std::sin(turn) << ",0.))";
    const std::string up = add("IFCDIRECTION((0.,0.,1.))"), right = add(along.str()), at = point(x, y, z);
    return add("IFCLOCALPLACEMENT(" + in + "," + add("IFCAXIS2PLACEMENT3D(" + at + "," + up + "," + right + ")") + ")");
  };
  const auto box = [&](double length, double depth, double height) {
    const std::string middle = add("IFCCARTESIANPOINT((" + n(length / 2) + "," + n(depth / 2) + "))");
    const std::string profile = add("IFCRECTANGLEPROFILEDEF(.AREA.,$," + add("IFCAXIS2PLACEMENT2D(" + middle + ",$)") +
                                    "," + n(length) + "," + n(depth) + ")");
    return add("IFCEXTRUDEDAREASOLID(" + profile + ",$," + add("IFCDIRECTION((0.,0.,1.))") + "," + n(height) + ")");
  };
  const auto shape = [&](const std::string& solid) {
    return add("IFCPRODUCTDEFINITIONSHAPE($,$,(" +
               add("IFCSHAPEREPRESENTATION($,'Body','SweptSolid',(" + solid + "))") + "))");
  };
  const std::string length = add(std::string("IFCSIUNIT(*,.LENGTHUNIT.,") + (ifc4 ? ".MILLI." : "$") + ",.METRE.)");
  add("IFCPROJECT('p',$,'Caf\\X2\\00E9\\X0\\ on the hill',$,$,$,$,$," + add("IFCUNITASSIGNMENT((" + length + "))") +
      ")");
  const std::string site = place("$", 5'000'000, -2'000'000, 12'000, 30);
  std::vector<std::string> walls;
  // 6000 × 4000 outside, 200 thick; the front's upper edge is cut to a slope from 2400 up to 3600 at the right,
  // the last one's by a roof that falls across it, to 1900 at its outside face.
  const double plan[4][4] = {{0, 0, 0, 6000}, {6000, 0, 90, 4000}, {6000, 4000, 180, 6000}, {0, 4000, 270, 4000}};
  std::vector<std::string> places;
  for (int i = 0; i < 4; ++i) {
    places.push_back(place(site, plan[i][0], plan[i][1], 0, plan[i][2]));
    std::string solid = box(plan[i][3], 200, i == 0 ? 3600 : 2400);
    if (i == 1) solid = add("IFCBOOLEANRESULT(.UNION.," + box(plan[i][3] / 2, 200, 2400) + "," + solid + ")");
    if (i == 0 || i == 3) {
      const std::string up =
                            add(i == 0 ? "IFCDIRECTION((-0.196116135,0.,0.980580676))" : "IFCDIRECTION((0.,-0.6,0.8))"),
                        along = add(i == 0 ? "IFCDIRECTION((0.,1.,0.))" : "IFCDIRECTION((1.,0.,0.))");
      const std::string at = point(0, 0, i == 0 ? 2400 : 1900);
      const std::string plane =
          add("IFCPLANE(" + add("IFCAXIS2PLACEMENT3D(" + at + "," + up + "," + along + ")") + ")");
      solid = add("IFCBOOLEANCLIPPINGRESULT(.DIFFERENCE.," + solid + "," + add("IFCHALFSPACESOLID(" + plane + ",.F.)") +
                  ")");
    }
    const std::string tail = ifc4 ? ",$,.STANDARD.)" : ",$)";
    walls.push_back(add("IFCWALLSTANDARDCASE('w" + std::to_string(i) + "',$,'wall " + std::to_string(i) + "',$,$," +
                        places.back() + "," + shape(solid) + tail));
  }
  const auto opening = [&](std::size_t wall, double x, double z, double width, double height) {
    const std::string at = place(places[wall], x, 0, z, 0);
    const std::string self = add("IFCOPENINGELEMENT('o" + std::to_string(last) + "',$,'hole',$,$," + at + "," +
                                 shape(box(width, 200, height)) + (ifc4 ? ",$,.OPENING.)" : ",$)"));
    add("IFCRELVOIDSELEMENT('v" + std::to_string(last) + "',$,$,$," + walls[wall] + "," + self + ")");
    return self;
  };
  const std::string hole = opening(0, 1000, 900, 1500, 1000);
  const std::string window = add("IFCWINDOW('f',$,'Bath''s',$,$," + place(places[0], 1000, 0, 900, 0) + ",$,$," +
                                 n(1000) + "," + n(1500) + (ifc4 ? ",.WINDOW.,.NOTDEFINED.,$)" : ")"));
  add("IFCRELFILLSELEMENT('r',$,$,$," + hole + "," + window + ")");
  const std::string panel = add("IFCWINDOWPANELPROPERTIES('q',$,$,$,.TOPHUNG.,.NOTDEFINED.,$,$,$)");
  const std::string style =
      ifc4 ? add("IFCWINDOWTYPE('t',$,'x',$,$,(" + panel + "),$,$,$,.WINDOW.,.SINGLE_PANEL.,.F.,$)")
           : add("IFCWINDOWSTYLE('t',$,'x',$,$,(" + panel + "),$,$,.NOTDEFINED.,.SINGLE_PANEL.,.F.,.F.)");
  add("IFCRELDEFINESBYTYPE('d',$,$,$,(" + window + ")," + style + ")");
  opening(2, 500, 0, 900, 2100);
  const std::string in_hole = place(places[2], 520, 0, 0, 0);
  const std::string on_plan = add("IFCGEOMETRICREPRESENTATIONCONTEXT($,'Plan',2,1.E-05,$,$)");
  const auto body = [&](const std::string& context, double deep, double high) {
    return add("IFCSHAPEREPRESENTATION(" + context + ",'Body','SweptSolid',(" + box(860, deep, high) + "))");
  };
  const std::string both =
      add("IFCPRODUCTDEFINITIONSHAPE($,$,(" + body("$", 60, 2080) + "," + body(on_plan, 1720, 1) + "))");
  add("IFCDOOR('e',$,'out',$,$," + in_hole + "," + both + ",$," + n(2080) + "," + n(860) +
      (ifc4 ? ",.DOOR.,.SINGLE_SWING_RIGHT.,$)" : ")"));
  return "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\nFILE_SCHEMA(('" + schema +
         "'));\nENDSEC;\nDATA; /* a comment; with #1=IFCWALL( in it */\n" + out.str() + "ENDSEC;\nEND-ISO-10303-21;\n";
}

base::Result<exchange::ModelReading> import(const std::string& text, const practice::Practice& practice) {
  std::istringstream in(text);
  return exchange::readIfc(in, "model.ifc", {&practice, "au"});
}

}  // namespace

TEST_CASE("IFC: a text of any script comes back as it was") {
  auto doc = testing::demoDocument("workshop-window");
  doc.job.title = "It's \\ Łódź 日本 \U0001F3E0";
  std::istringstream in(exchange::ifc(doc));
  exchange::StepFile file(in, {"IFCPROJECT"});
  REQUIRE(file.fault().empty());
  CHECK(file.at(file.of("IFCPROJECT").front())[2].text == doc.job.title);
}

TEST_CASE("IFC: a model of another program becomes a job, in metres and millimetres, of either edition") {
  const auto demo = testing::demoJob(tests::assets() + "/jobs/workshop-window.toml");
  for (const bool ifc4 : {false, true}) {
    CAPTURE(ifc4);
    const auto read = import(smallHouse(ifc4), *demo.practice);
    REQUIRE(read.ok());
    const job::Job& job = read.value->job;
    CHECK(job.title == "Café on the hill");
    REQUIRE(job.walls.size() == 4);
    REQUIRE(job.openings.size() == 2);
    CHECK(job.walls[0].name == "wall 0");
    CHECK(job.walls[0].length == Approx(6000).margin(0.1));
    CHECK(job.walls[0].turn_degrees == Approx(30).margin(1e-3));
    CHECK(job.walls[1].turn_degrees == Approx(120).margin(1e-3));
    REQUIRE(job.walls[0].top.size() == 2);
    CHECK(job.walls[0].top[0].z == Approx(2400).margin(0.2));
    CHECK(job.walls[0].top[1].z == Approx(3600).margin(0.2));
    CHECK(job.walls[2].top[1].z == Approx(2400).margin(0.2));
    CHECK(job.walls[3].top[1].z == Approx(1900).margin(0.2));
    const job::Opening &window = job.openings[0], &door = job.openings[1];
    CHECK(window.name == "Bath's");
    CHECK(window.wall == 0);
    CHECK(window.unit.kind == job::UnitKind::AwningWindow);
    CHECK(window.unit.width == Approx(1500).margin(0.1));
    CHECK(window.width > 1500);  // it fills its opening: the usual gaps are put round it
    CHECK(window.left + window.width / 2 == Approx(1750).margin(0.2));
    CHECK(window.sill + window.height / 2 == Approx(1400).margin(0.2));
    CHECK(door.name == "out");
    CHECK(door.wall == 2);
    CHECK(door.unit.kind == job::UnitKind::HingedDoor);
    CHECK(door.unit.hand == (ifc4 ? job::Hand::Right : job::Hand::Left));
    CHECK(door.left == Approx(500).margin(0.1));
    CHECK(door.width == Approx(900).margin(0.1));
    CHECK(door.unit.width == Approx(860).margin(0.1));
    CHECK(door.sill == Approx(0).margin(0.1));
  }
}

TEST_CASE("IFC: a door in a wall whose own shape has the hole stands where it stands") {
  const auto demo = testing::demoJob(tests::assets() + "/jobs/workshop-window.toml");
  std::string text = smallHouse(true);
  for (const std::string relation : {"IFCRELVOIDSELEMENT", "IFCRELFILLSELEMENT"}) {
    for (auto at = text.find(relation); at != std::string::npos; at = text.find(relation))
      text.replace(at, relation.size(), "IFCANNOTATION");
  }
  const auto with = import(smallHouse(true), *demo.practice), without = import(text, *demo.practice);
  REQUIRE(with.ok());
  REQUIRE(without.ok());
  REQUIRE(without.value->job.openings.size() == 1);  // the window has no shape of its own to stand by
  const job::Opening &is = without.value->job.openings[0], &was = with.value->job.openings[1];
  CHECK(is.name == was.name);
  CHECK(is.wall == was.wall);
  CHECK(is.unit.width == Approx(was.unit.width).margin(0.1));
  CHECK(is.unit.height == Approx(was.unit.height).margin(0.1));
  CHECK(is.left + is.width / 2 == Approx(was.left + was.width / 2).margin(25));  // a void is wider than its unit
}

TEST_CASE(
    "IFC: a void that is wider than its unit, and reaches past its wall's end, is cut off there and keeps its width") {
  const auto demo = testing::demoJob(tests::assets() + "/jobs/workshop-window.toml");
  std::string text = smallHouse(true);
  // The window's void: 2000 wide from 800 before the wall's end, where the unit is 1500 wide.
  for (const auto& [was, is] :
       {std::pair<std::string, std::string>{"((1000.000000,0.000000,900.000000))", "((-800.,0.,900.))"},
        {"((750.000000,100.000000))", "((1000.,100.))"},
        {",1500.000000,200.000000)", ",2000.,200.)"}}) {
    const auto at = text.find(was);
    REQUIRE(at != std::string::npos);
    text.replace(at, was.size(), is);
  }
  const auto read = import(text, *demo.practice);
  REQUIRE(read.ok());
  const job::Opening& window = read.value->job.openings.at(0);
  CHECK(window.unit.width == Approx(1200).margin(0.1));
  CHECK(window.left + window.width / 2 == Approx(600).margin(0.1));
  CHECK(base::joined(read.value->notes, "\n").find("past their wall, cut off where it ends: \"Bath's\"") !=
        std::string::npos);
}

TEST_CASE("IFC: the panels of a window are its lights, and doors of two leaves are told apart") {
  const auto demo = testing::demoJob(tests::assets() + "/jobs/workshop-window.toml");
  const auto lights = [&](const std::string& first, const std::string& second) {
    std::string text = smallHouse(true);
    const std::string panel = "IFCWINDOWPANELPROPERTIES('q',$,$,$,";
    text.replace(text.find(panel + ".TOPHUNG.,.NOTDEFINED."), panel.size() + 22, panel + first);
    const std::string set = ",$,$,(#";
    const auto at = text.find(set, text.find("IFCWINDOWTYPE")) + set.size() - 1;
    text.insert(at, "#9000,");
    text.insert(text.find("ENDSEC;\nEND"), "#9000 = " + panel + second + ",$,$,$);\n");
    const auto read = import(text, *demo.practice);
    REQUIRE(read.ok());
    return std::pair(read.value->job.openings.at(0).unit, base::joined(read.value->notes, "\n"));
  };
  const auto [beside, told] = lights(".FIXEDCASEMENT.,.RIGHT.", ".SIDEHUNGLEFTHAND.,.LEFT.");
  CHECK(beside.lights ==
        std::vector{job::Light(job::UnitKind::CasementWindow), job::Light(job::UnitKind::FixedWindow)});
  CHECK(beside.rows.empty());
  CHECK(told.find("several panels") == std::string::npos);
  const auto over = lights(".TOPHUNG.,.BOTTOM.", ".FIXEDCASEMENT.,.TOP.").first;
  CHECK(over.lights == std::vector{job::Light(job::UnitKind::FixedWindow), job::Light(job::UnitKind::AwningWindow)});
  CHECK(over.rows.size() == 2);
  for (const char* other :
       {".TOPHUNG.,.LEFT.", ".PIVOTVERTICAL.,.RIGHT.", ".TOPHUNG.,.TOP.", ".TOPHUNG.,.NOTDEFINED."}) {
    CAPTURE(other);
    const auto [unclear, said] = lights(".TOPHUNG.,.LEFT.", other);
    CHECK(unclear.lights.empty());
    CHECK(said.find("windows with several panels, taken as one: \"Bath's\"") != std::string::npos);
  }
  std::string text = smallHouse(true);
  text.replace(text.find(".SINGLE_SWING_RIGHT."), 20, ".DOUBLE_DOOR_SLIDING.");
  CHECK(import(text, *demo.practice).value->job.openings.at(1).unit.kind == job::UnitKind::SlidingDoor);
}

TEST_CASE("IFC: what is left out or taken is told") {
  const auto demo = testing::demoJob(tests::assets() + "/jobs/workshop-window.toml");
  std::string text = smallHouse(true);
  const auto notes = base::joined(import(text, *demo.practice).value->notes, "\n");
  CHECK(notes.find("no gap round 1 unit") != std::string::npos);
  const auto fills = text.find("IFCRELFILLSELEMENT");
  text.replace(fills, 18, "IFCRELNOTHING12345");
  const auto without = import(text, *demo.practice);
  CHECK(without.value->job.openings.size() == 1);
  CHECK(base::joined(without.value->notes, "\n").find("openings without a window or a door: \"hole\"") !=
        std::string::npos);
  CHECK(base::joined(without.value->notes, "\n").find("in no opening of a wall: \"Bath's\"") != std::string::npos);
}

TEST_CASE("IFC: what the program writes it reads, the same openings in the same walls") {
  const auto doc = testing::demoDocument("boatshed");
  const auto read = import(exchange::ifc(doc), *doc.practice);
  REQUIRE(read.ok());
  REQUIRE(read.value->job.walls.size() == doc.job.walls.size());
  REQUIRE(read.value->job.openings.size() == doc.job.openings.size());
  for (std::size_t i = 0; i < doc.job.openings.size(); ++i) {
    const job::Opening &was = doc.job.openings[i], &is = read.value->job.openings[i];
    CAPTURE(was.name);
    CHECK(is.name == was.name);
    CHECK(read.value->job.walls[is.wall].name == doc.job.walls[was.wall].name);
    CHECK(is.left == Approx(was.left).margin(0.2));
    CHECK(is.sill == Approx(was.sill).margin(0.2));
    CHECK(is.width == Approx(was.width).margin(0.2));
    CHECK(is.height == Approx(was.height).margin(0.2));
    CHECK(is.unit.width == Approx(was.unit.width).margin(0.2));
  }
}

TEST_CASE("IFC: openings and units that follow the roof come back with their heads") {
  const auto doc = testing::demoDocument("gable-loft");
  const auto read = import(exchange::ifc(doc), *doc.practice);
  REQUIRE(read.ok());
  REQUIRE(read.value->job.openings.size() == doc.job.openings.size());
  for (std::size_t i = 0; i < doc.job.openings.size(); ++i) {
    const auto same = [](const std::optional<job::Head>& is, const std::optional<job::Head>& was) {
      REQUIRE(is.has_value());
      CHECK(is->left == Approx(was->left).margin(0.3));
      CHECK(is->right == Approx(was->right).margin(0.3));
      CHECK(is->peak_x == Approx(was->peak_x).margin(0.3));
      CHECK(is->peak_z == Approx(was->peak_z).margin(0.3));
    };
    CAPTURE(doc.job.openings[i].name);
    same(read.value->job.openings[i].head, doc.job.openings[i].head);
    same(read.value->job.openings[i].unit.head, doc.job.openings[i].unit.head);
  }
}

TEST_CASE("IFC: each shorter piece of a model is answered") {
  const auto demo = testing::demoJob(tests::assets() + "/jobs/workshop-window.toml");
  const std::string text = smallHouse(false);
  for (std::size_t size = 0; size < text.size(); size += 61) {
    const auto read = import(text.substr(0, size), *demo.practice);
    if (!read.ok()) CHECK(read.errors.size() == 1);
  }
}

TEST_CASE("IFC: names that are long once they are shown are cut to what a job holds") {
  const auto demo = testing::demoJob(tests::assets() + "/jobs/workshop-window.toml");
  std::string text = smallHouse(true);
  std::string odd;
  for (int i = 0; i < 60; ++i) odd += "\x01";
  for (const std::string was : {"on the hill", "Bath''s", "wall 0"}) text.replace(text.find(was), was.size(), odd);
  const auto read = import(text, *demo.practice);
  REQUIRE(read.ok());
  CHECK(job::read(job::write(read.value->job), "again.toml").ok());
}

TEST_CASE("IFC: placements, shapes and lists that name themselves come to an end") {
  const auto demo = testing::demoJob(tests::assets() + "/jobs/workshop-window.toml");
  const std::string head =
      "ISO-10303-21;HEADER;FILE_SCHEMA(('IFC4'));ENDSEC;DATA;#1=IFCSIUNIT(*,.LENGTHUNIT.,$,.METRE.);"
      "#2=IFCUNITASSIGNMENT((#1));#3=IFCPROJECT('',$,'',$,$,$,$,$,#2);";
  for (const std::string& rest :
       {std::string("#4=IFCLOCALPLACEMENT(#4,$);#5=IFCWALL('',$,'a',$,$,#4,$,$,$);"),
        std::string("#4=IFCSHAPEREPRESENTATION($,'Body','',(#6));#6=IFCBOOLEANRESULT(.DIFFERENCE.,#6,#6);"
                    "#7=IFCPRODUCTDEFINITIONSHAPE($,$,(#4));#5=IFCWALL('',$,'a',$,$,$,#7,$,$);"),
        std::string("#4=IFCSHAPEREPRESENTATION($,'Body','',(#6));#6=IFCOPENSHELL((#6,#6,#6,#6));"
                    "#7=IFCPRODUCTDEFINITIONSHAPE($,$,(#4));#5=IFCWALL('',$,'a',$,$,$,#7,$,$);"),
        "#5=IFCWALL(" + std::string(100'000, '(') + ");", "#5=IFCWALL('" + std::string(100'000, 'x')}) {
    const auto read = import(head + rest, *demo.practice);
    REQUIRE(!read.ok());
    CHECK(read.errors.size() == 1);
  }
}
