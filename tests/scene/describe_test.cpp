#include "scene/describe.h"

#include "made.h"

using namespace sillwright;
using namespace sillwright::scene;

namespace {

const Part* find(const Scene& scene, PartKind kind) {
  for (const Part& part : scene.parts) {
    if (part.kind == kind) return &part;
  }
  return nullptr;
}

std::string said(const Made& made, PartKind kind) {
  const Part* part = find(made.scene, kind);
  REQUIRE(part != nullptr);
  return describe(*part, australia());
}

std::string why(const Made& made, PartKind kind) {
  const Part* part = find(made.scene, kind);
  REQUIRE(part != nullptr);
  return reason(*part, made.job, australia(), made.plan);
}

bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("parts are told with their sizes, in the practice's words") {
  const Made made = make(oneOpening("fixed window", kReveal));
  CHECK(said(made, PartKind::BottomPlate) == "bottom plate 90 × 45, 3600 long");
  CHECK(said(made, PartKind::JambStud) == "jamb stud 90 × 45, 2605 long");  // 2740 less three plates of 45
  CHECK(said(made, PartKind::Lining) == "lining 10 thick, 3600 × 2740");
  CHECK(said(made, PartKind::GlassPane) == "glass 5 thick, 1384 × 914");  // 1510 − 2·18 − 2·45
  CHECK(said(made, PartKind::Fin) == "fin 3 thick, 1570 × 1100");
  CHECK(said(made, PartKind::RevealHead) == "reveal head 100 × 18, 1510 long");
  CHECK(said(made, PartKind::FrameJamb) == "frame jamb 100 × 45, 1004 long");
  CHECK(contains(said(made, PartKind::Packer), "packer "));
  CHECK(contains(said(made, PartKind::Packer), " thick, 75 × 32"));
}

TEST_CASE("the practice's own words and measures are used") {
  practice::Practice practice = australia();
  practice.words.jamb_stud = "king stud";
  practice.display = practice::Display::InchFractions;
  Part part;
  part.kind = PartKind::JambStud;
  part.size = {2438.4F, 88.9F, 38.1F};
  CHECK(describe(part, practice) == "king stud 3 1/2 in × 1 1/2 in, 96 in long");
}

TEST_CASE("fractions of a millimetre are told where they matter") {
  Part part;
  part.kind = PartKind::Packer;
  part.material = Material::Packer;
  part.size = {45, 75, 1.5F};
  CHECK(describe(part, australia()) == "packer 1.5 thick, 75 × 45");
  part.material = Material::Pine;
  CHECK(describe(part, australia()) == "timber backing 1.5 thick, 75 × 45");
  part.kind = PartKind::FaceSeal;
  part.size = {28, 8, 1190};
  CHECK(describe(part, australia()) == "sealant line 8 thick, 28 × 1190");
}

TEST_CASE("every kind of part has a name") {
  std::vector<std::string> names;
  for (int kind = 0; kind <= static_cast<int>(PartKind::SillSupport); ++kind) {
    names.push_back(nameOf(static_cast<PartKind>(kind), australia().words));
    INFO(kind);
    CHECK_FALSE(names.back().empty());
  }
}

TEST_CASE("why a part is there comes with the figure and its source") {
  std::string text = oneOpening("fixed window", kReveal);
  const Made given = make(text);
  CHECK(why(given, PartKind::CommonStud) == "On the stud spacing of 450, from the wall's left end.");
  text.erase(text.find("spacing = 450\n"), 14);
  const Made assumed = make(text);
  CHECK(contains(why(assumed, PartKind::CommonStud), practice::cite(australia().framing.spacing)));

  const practice::Packing& packing = australia().packing;
  REQUIRE(packing.spacing_sill);
  CHECK(contains(why(given, PartKind::Packer), practice::cite(*packing.spacing_sill)));
  CHECK(contains(why(given, PartKind::JambStud), "each side of an opening up to"));
  job::Job wide = given.job;
  wide.openings[0].width = 6500;
  CHECK(contains(reason(*find(given.scene, PartKind::JambStud), wide, australia(), given.plan),
                 "each side; the rule set reaches no further than 6000 wide"));
  CHECK(contains(why(given, PartKind::Lintel), "span tables or an engineer"));
  CHECK(contains(why(given, PartKind::Membrane), practice::cite(australia().weather.membrane.lap.usual)));
  CHECK(contains(why(given, PartKind::RevealSide), "100 here"));
  const practice::Flashings& flashings = australia().weather.flashing;
  CHECK(contains(why(given, PartKind::SillFlashing), practice::cite(flashings.sill_past.usual)));
  CHECK(contains(why(given, PartKind::JambFlashing), practice::cite(flashings.jamb_over_sill.usual)));
  CHECK(contains(why(given, PartKind::HeadFlashing), given.plan.openings[0].weather.head.why));
  CHECK(contains(why(given, PartKind::Tape), "upstand"));
  CHECK(why(given, PartKind::FloorSlab).empty());
}

TEST_CASE("every part of a house can be asked") {
  const Made made = makeFile("boatshed.toml");
  for (const Part& part : made.scene.parts) {
    CHECK_FALSE(describe(part, australia()).empty());
    (void)reason(part, made.job, australia(), made.plan);
  }
}
