// The parts and the skin agree: the scene's sheets, seen square to the wall, have the outlines that the water is traced
// on, and lie on each other in the same order.

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>

#include "made.h"
#include "measure.h"
#include "plan/weather/skin.h"
#include "plan/weather/weather_skin.h"
#include "plan/weather/what_if.h"
#include "plan/work/order_of_work.h"
#include "scene/solids.h"

using namespace sillwright;
using namespace sillwright::scene;

namespace {

/// One layer of a scene at a place of the wall: how far out its outermost face lies there (mm before the studs).
struct Look {
  const Made& made;
  std::size_t opening = 0;
  Bench bench;

  Look(const Made& of, std::size_t index) : made(of), opening(index) {
    const auto& wall = of.job.walls[of.job.openings[index].wall];
    static Scene nowhere;  // only the turn of the bench is wanted
    bench = makeBench(nowhere, wall.at_x, wall.at_y, wall.turn_degrees, 0);
  }

  [[nodiscard]] glm::dvec3 local(const glm::vec3& world) const {
    const glm::dvec3 from = glm::dvec3(world) - bench.origin;
    return {glm::dot(from, bench.along), glm::dot(from, bench.inward), from.z};
  }
};

using Kinds = std::function<bool(const Part&)>;

/// A solid of the scene in its wall's axes.
struct Placed {
  std::array<glm::dvec3, 8> corner;
  std::uint32_t part = 0;
};

std::vector<Placed> placed(const Look& look, const Kinds& want) {
  const auto& opening = look.made.job.openings[look.opening];
  std::vector<Placed> all;
  for (const Solid& solid : look.made.scene.solids) {
    const Part& part = look.made.scene.parts[solid.part];
    if (part.wall != static_cast<std::int32_t>(opening.wall) || !want(part)) continue;
    if (part.opening >= 0 && part.opening != static_cast<std::int32_t>(look.opening)) continue;
    Placed one;
    one.part = solid.part;
    for (std::size_t i = 0; i < 8; ++i) one.corner[i] = look.local(solid.corner[i]);
    all.push_back(one);
  }
  return all;
}

/// Whether a face of a solid, counter-clockwise as seen square to the wall, covers a place.
bool faceCovers(const Placed& solid, const std::array<std::size_t, 4>& face, double x, double z) {
  for (std::size_t i = 0; i < 4; ++i) {
    const auto& a = solid.corner[face[i]];
    const auto& b = solid.corner[face[(i + 1) % 4]];
    if ((b.x - a.x) * (z - a.z) - (b.z - a.z) * (x - a.x) < 0) return false;
  }
  return true;
}

/// Whether a solid, seen square to the wall, covers a place: with its front, or with an upper face that falls outwards.
bool covers(const Placed& solid, double x, double z) {
  const bool falls = solid.corner[6].z > solid.corner[4].z + 0.5;
  return faceCovers(solid, {0, 1, 5, 4}, x, z) || (falls && faceCovers(solid, {4, 5, 7, 6}, x, z));
}

/// y of the front face at a place it covers; more out is less.
double frontAt(const Placed& solid, double x, double z) {
  const auto& c = solid.corner;
  const double u = c[1].x > c[0].x ? (x - c[0].x) / (c[1].x - c[0].x) : 0;
  const double low = c[0].z + u * (c[1].z - c[0].z);
  const double high = c[4].z + u * (c[5].z - c[4].z);
  const double v = high > low ? (z - low) / (high - low) : 0;
  const double y_low = c[0].y + u * (c[1].y - c[0].y);
  const double y_high = c[4].y + u * (c[5].y - c[4].y);
  return y_low + v * (y_high - y_low);
}

/// Outermost y of these solids at a place; empty where none covers it.
std::optional<double> outermost(const std::vector<Placed>& solids, double x, double z) {
  std::optional<double> y;
  for (const Placed& solid : solids) {
    if (!covers(solid, x, z)) continue;
    const double at = frontAt(solid, x, z);
    if (!y || at < *y) y = at;
  }
  return y;
}

bool inside(const plan::Sheet& sheet, double x, double z) {
  for (const plan::Cover& cover : plan::coversAt(sheet, x)) {
    if (z > cover.low && z < cover.high) return true;
  }
  return false;
}

/// Distance from the nearest of a sheet's edges: places closer than that are not asked about.
double fromEdge(const plan::Sheet& sheet, double x, double z) {
  double least = 1e9;
  const std::size_t n = sheet.outline.size();
  for (std::size_t i = 0; i < n; ++i) {
    const plan::Point a = sheet.outline[i];
    const plan::Point b = sheet.outline[(i + 1) % n];
    const double dx = b.x - a.x;
    const double dz = b.z - a.z;
    const double t = std::clamp(((x - a.x) * dx + (z - a.z) * dz) / std::max(dx * dx + dz * dz, 1e-12), 0.0, 1.0);
    least = std::min(least, std::hypot(x - a.x - t * dx, z - a.z - t * dz));
  }
  return least;
}

PartKind partOf(plan::SheetKind kind) {
  switch (kind) {
    case plan::SheetKind::SillFlashing:
      return PartKind::SillFlashing;
    case plan::SheetKind::JambFlashing:
      return PartKind::JambFlashing;
    case plan::SheetKind::HeadFlashing:
      return PartKind::HeadFlashing;
    case plan::SheetKind::HeadTape:
      return PartKind::Tape;
    case plan::SheetKind::HeadFlap:
      return PartKind::MembraneFold;
    case plan::SheetKind::FaceSeal:
      return PartKind::FaceSeal;
    case plan::SheetKind::Fin:
      return PartKind::Fin;
    case plan::SheetKind::Cladding:
      return PartKind::CladdingBoard;
    default:
      return PartKind::Membrane;
  }
}

bool isFlashing(plan::SheetKind kind) {
  const PartKind part = partOf(kind);
  return part != PartKind::Membrane && part != PartKind::CladdingBoard && part != PartKind::Fin;
}

/// The solids of one sheet: of its kind, its step, and within its box (a jamb's pair is told apart by where it is).
std::vector<Placed> solidsOf(const Look& look, const plan::Sheet& sheet) {
  const auto& opening = look.made.job.openings[look.opening];
  const plan::Rect box = plan::boxOf(sheet);
  auto all = placed(look, [&](const Part& part) {
    return part.kind == partOf(sheet.kind) && (!isFlashing(sheet.kind) || part.step == partStep(sheet.step));
  });
  if (!isFlashing(sheet.kind)) return all;
  std::erase_if(all, [&](const Placed& solid) {
    const double x = (solid.corner[0].x + solid.corner[1].x) / 2 - opening.left;
    return x < box.x0 - 1 || x > box.x1 + 1;
  });
  return all;
}

struct Dice {
  std::mt19937_64 bits{11};
  double between(double low, double high) { return low + (high - low) * (static_cast<double>(bits() >> 11) * 0x1p-53); }
};

/// Places thrown at the wall round an opening, the opening's axes.
template <class Ask>
void throwPlaces(const plan::Skin& skin, int number, Ask ask) {
  Dice dice;
  for (int i = 0; i < number; ++i) ask(dice.between(skin.left, skin.right), dice.between(skin.bottom, skin.top));
}

std::vector<Made> demos() {
  std::vector<Made> all;
  all.push_back(makeFile("boatshed.toml"));
  all.push_back(makeFile("workshop-window.toml"));
  std::string cavity = oneOpening("awning window", kReveal);
  cavity.replace(cavity.find("cavity = 0"), 10, "cavity = 20");
  all.push_back(make(cavity));
  std::string thin = oneOpening("fixed window", kReveal);
  thin.replace(thin.find("thickness = 16"), 14, "thickness = 7");
  all.push_back(make(thin));
  return all;
}

}  // namespace

TEST_CASE("each flashing of the scene has the outline of its sheet") {
  int asked = 0;
  for (const Made& made : demos()) {
    for (std::size_t i = 0; i < made.job.openings.size(); ++i) {
      const Look look(made, i);
      const auto& opening = made.job.openings[i];
      const auto& skin = made.plan.openings[i].weather.skin;
      for (const plan::Sheet& sheet : skin.sheets) {
        if (!isFlashing(sheet.kind)) continue;
        const auto solids = solidsOf(look, sheet);
        CAPTURE(made.job.title, opening.name, sheet.name);
        REQUIRE(!solids.empty());
        const plan::Rect box = plan::boxOf(sheet);
        Dice dice;
        for (int k = 0; k < 200; ++k) {
          const double x = dice.between(box.x0 - 20, box.x1 + 20);
          const double z = dice.between(box.z0 - 20, box.z1 + 20);
          // What the sill's sheet has inside the opening is the strip that runs in under the unit.
          const bool under_unit = sheet.kind == plan::SheetKind::SillFlashing && z > -1;
          if (under_unit || fromEdge(sheet, x, z) < 1) continue;
          CAPTURE(x, z);
          CHECK(outermost(solids, x + opening.left, z + opening.sill).has_value() == inside(sheet, x, z));
          ++asked;
        }
      }
    }
  }
  CHECK(asked > 3000);
}

TEST_CASE("cladding and membrane leave bare what the skin leaves bare") {
  int bare = 0;
  for (const Made& made : demos()) {
    for (std::size_t i = 0; i < made.job.openings.size(); ++i) {
      const Look look(made, i);
      const auto& opening = made.job.openings[i];
      const auto& skin = made.plan.openings[i].weather.skin;
      const auto& wall = made.plan.walls[opening.wall].spec;
      CAPTURE(made.job.title, opening.name);
      for (const auto kind : {plan::SheetKind::Cladding, plan::SheetKind::MembraneRun}) {
        const auto solids = placed(look, [&](const Part& part) { return part.kind == partOf(kind); });
        throwPlaces(skin, 400, [&](double x, double z) {
          const double at_x = x + opening.left;
          const double at_z = z + opening.sill;
          // Only on the wall: a skin goes on past its ends and its top; and not where another opening's begins.
          if (at_x < 5 || at_x > wall.length - 5) return;
          double top = 1e9;
          for (const auto& point : wall.top) top = std::min(top, point.z);
          if (at_z > top - 5) return;
          for (std::size_t other = 0; other < made.job.openings.size(); ++other) {
            const auto& near = made.job.openings[other];
            if (other == i || near.wall != opening.wall) continue;
            if (at_x > near.left - 600 && at_x < near.left + near.width + 600) return;
          }
          bool covered = false;
          double edge = 1e9;
          for (const plan::Sheet& sheet : skin.sheets) {
            if (sheet.kind != kind) continue;
            covered = covered || inside(sheet, x, z);
            edge = std::min(edge, fromEdge(sheet, x, z));
          }
          if (edge < 1) return;
          CAPTURE(x, z, static_cast<int>(kind));
          CHECK(outermost(solids, at_x, at_z).has_value() == covered);
          bare += covered ? 0 : 1;
        });
      }
    }
  }
  CHECK(bare > 500);
}

TEST_CASE("where two sheets lie on each other, the scene has them in the skin's order") {
  int asked = 0;
  for (const Made& made : demos()) {
    for (std::size_t i = 0; i < made.job.openings.size(); ++i) {
      if (!made.plan.openings[i].stand.fits) continue;
      const Look look(made, i);
      const auto& opening = made.job.openings[i];
      const auto& skin = made.plan.openings[i].weather.skin;
      const bool thin = !plan::boardsCoverFin(made.plan.walls[opening.wall].spec.cladding);
      for (std::size_t outer = 0; outer < skin.sheets.size(); ++outer) {
        for (std::size_t inner = 0; inner < outer; ++inner) {
          const plan::Sheet& a = skin.sheets[inner];
          const plan::Sheet& b = skin.sheets[outer];
          const bool either = isFlashing(a.kind) || isFlashing(b.kind);
          if (a.order == b.order || !either || a.kind == plan::SheetKind::UnitFace ||
              b.kind == plan::SheetKind::UnitFace) {
            continue;
          }
          // Thin sheets fixed direct have no depth to hide flashings in: they are drawn through each other.
          if (thin && (a.kind == plan::SheetKind::Cladding || b.kind == plan::SheetKind::Cladding)) continue;
          const plan::Overlap lap = plan::overlapOf(a, b);
          if (!lap.any) continue;
          const auto in = solidsOf(look, a);
          const auto out = solidsOf(look, b);
          CAPTURE(made.job.title, opening.name, a.name, b.name);
          Dice dice;
          for (int k = 0; k < 60; ++k) {
            const double x = dice.between(lap.box.x0, lap.box.x1);
            const double z = dice.between(lap.box.z0, lap.box.z1);
            if (!inside(a, x, z) || !inside(b, x, z) || fromEdge(a, x, z) < 1 || fromEdge(b, x, z) < 1) continue;
            if (z > -1 && x > -1 && x < skin.opening_width + 1 && z < 20 &&
                (a.kind == plan::SheetKind::SillFlashing || b.kind == plan::SheetKind::SillFlashing)) {
              continue;  // under the unit
            }
            const auto y_in = outermost(in, x + opening.left, z + opening.sill);
            const auto y_out = outermost(out, x + opening.left, z + opening.sill);
            if (!y_in || !y_out) continue;  // past the wall's end, or above its plate
            CAPTURE(x, z);
            CHECK(*y_out < *y_in);
            ++asked;
          }
        }
      }
    }
  }
  CHECK(asked > 1000);
}

TEST_CASE("a lap that is turned in the skin is seen turned in the scene") {
  Made made = makeFile("boatshed.toml");
  std::size_t index = 0;
  while (made.job.openings[index].name != "H1") ++index;
  const auto frontOf = [&](const char* name, double x, double z) {
    const Look look(made, index);
    const auto& opening = made.job.openings[index];
    for (const plan::Sheet& sheet : made.plan.openings[index].weather.skin.sheets) {
      if (sheet.name == name) return *outermost(solidsOf(look, sheet), x + opening.left, z + opening.sill);
    }
    FAIL("no such sheet: " << name);
    return 0.0;
  };
  const auto apply = [&](const char* text) {
    auto& planned = made.plan.openings[index];
    const auto what_if = plan::parseWhatIf(text);
    REQUIRE(what_if.ok());
    auto skin = plan::applyWhatIf(planned.weather.skin, *what_if.value);
    REQUIRE(skin.ok());
    planned.weather.skin = std::move(*skin.value);
    made.scene = build(made.job, australia(), made.plan, ownMeshes());
  };
  CHECK(frontOf("left jamb flashing", -50, -20) < frontOf("sill flashing", -50, -20));
  CHECK(frontOf("sill flashing", 400, -60) < -16);  // out over the board below
  apply("swap sill flashing, left jamb flashing");
  CHECK(frontOf("left jamb flashing", -50, -20) > frontOf("sill flashing", -50, -20));
  apply("swap sill flashing, cladding below");
  CHECK(frontOf("sill flashing", 400, -60) > -5);  // now behind it
  const auto parts = [&](PartKind kind) {
    return std::count_if(made.scene.parts.begin(), made.scene.parts.end(), [&](const Part& part) {
      return part.kind == kind && part.opening == static_cast<std::int32_t>(index);
    });
  };
  CHECK(parts(PartKind::HeadFlashing) == 1);
  apply("without head flashing");
  CHECK(parts(PartKind::HeadFlashing) == 0);
}

TEST_CASE("every part comes with a step of its opening's order of work") {
  for (const Made& made : demos()) {
    for (const Part& part : made.scene.parts) {
      if (part.opening < 0 || part.step == PartStep::FromTheStart) continue;
      const auto i = static_cast<std::size_t>(part.opening);
      const auto steps = plan::stepsAt(made.plan.openings[i]);
      CAPTURE(made.job.title, made.job.openings[i].name, static_cast<int>(part.kind), static_cast<int>(part.step));
      CHECK(plan::stepNumber(steps, *stepKind(part.step)) > 0);
    }
  }
}

TEST_CASE("a head flashing is folded: upstand, fall, turn-down and stop ends") {
  const Made made = make(oneOpening("fixed window", kReveal));
  const auto& piece =
      *std::find_if(made.plan.openings[0].weather.pieces.begin(), made.plan.openings[0].weather.pieces.end(),
                    [](const plan::Piece& each) { return each.kind == plan::PieceKind::HeadFlashing; });
  const Box box = measure::boxOf(made.scene, measure::kindIs(PartKind::HeadFlashing));
  const double reach = australia().weather.flashing.head_reach.value;
  CHECK(static_cast<double>(box.low.y) == Approx(-reach - 0.6).margin(1e-3));
  CHECK(static_cast<double>(box.high.x - box.low.x) == Approx(piece.length).margin(1e-3));
  // By trigonometry: upstand + 45 · tan 15° + turn-down from top to bottom.
  CHECK(static_cast<double>(box.high.z - box.low.z) ==
        Approx(piece.folds[0] + reach * 0.2679492 + piece.folds[2]).margin(1e-2));
  std::size_t solids = 0;
  for (const Solid& solid : made.scene.solids) {
    solids += made.scene.parts[solid.part].kind == PartKind::HeadFlashing ? 1 : 0;
  }
  CHECK(solids == 5);
}
