#include "scene/water_lines.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "plan/weather/skin.h"
#include "scene/build/wall_parts.h"
#include "scene/pick.h"

namespace sillwright::scene {
namespace {

constexpr double kApart = 160;  // lines of a wide strip lie at most so far from each other
constexpr int kMostLines = 16;
constexpr double kStretch = 40;  // a line is laid on its sheet at least so often
constexpr float kClear = 1.0F;   // lines lie so far before what they run on

/// A solid in its wall's axes, its box for a quick no.
struct Placed {
  std::array<glm::vec3, 8> corner;
  Box box;
};

/// Depth of the first face that a line square to the wall meets; kNever where it misses.
float frontOf(const Placed& solid, float x, float z) {
  if (x < solid.box.low.x || x > solid.box.high.x || z < solid.box.low.z || z > solid.box.high.z) return kNever;
  const Pass pass = passOf(solid.corner, {x, 0.0F, z}, {0.0F, 1.0F, 0.0F});
  return pass.enter <= pass.leave ? pass.enter : kNever;
}

/// Puts lines on what is drawn of one opening.
class Layers {
 public:
  Layers(const Scene& scene, const job::Job& job, std::size_t opening, const plan::Skin& skin)
      : scene_(scene), opening_(job.openings[opening]), skin_(skin) {
    const WallFrame& wall = scene.walls[opening_.wall];
    by_sheet_.resize(skin.sheets.size());
    const auto left = static_cast<float>(opening_.left + skin.left);
    const auto right = static_cast<float>(opening_.left + skin.right);
    for (const Solid& solid : scene.solids) {
      const Part& part = scene.parts[solid.part];
      if (part.wall != static_cast<std::int32_t>(opening_.wall)) continue;
      const bool own = part.opening == static_cast<std::int32_t>(opening);
      if (!own && part.opening >= 0) continue;  // another opening's
      Placed placed{};
      for (std::size_t i = 0; i < 8; ++i) placed.corner[i] = wall.toLocal(solid.corner[i]);
      placed.box = boxRound(placed.corner);
      if (placed.box.high.x < left || placed.box.low.x > right) continue;  // the skin tells nothing of there
      for (std::size_t i = 0; i < skin.sheets.size(); ++i) {
        if (belongs(part, own, placed, skin.sheets[i])) by_sheet_[i].push_back(placed);
      }
    }
  }

  [[nodiscard]] WaterPoint at(std::int32_t sheet, double x, double z) const {
    const WallFrame& wall = scene_.walls[opening_.wall];
    const auto wall_x = static_cast<float>(opening_.left + x), wall_z = static_cast<float>(opening_.sill + z);
    const bool bare = sheet < 0;
    const auto number = static_cast<std::size_t>(sheet);
    const float y = bare ? 0.0F : front(number, wall_x, wall_z);  // 0: the studs' outside face
    return {wall.toWorld({wall_x, y - kClear, wall_z}), bare ? Layer::Frame : drawnAs(skin_.sheets[number].kind).layer,
            sheet, isCovered(sheet, x, z)};
  }

 private:
  bool belongs(const Part& part, bool own, const Placed& placed, const plan::Sheet& sheet) const {
    const DrawnSheet& drawn = drawnAs(sheet.kind);
    // The unit's face is whatever of it stands foremost: frame, sash or glass.
    if (sheet.kind == plan::SheetKind::UnitFace) return own && part.layer == Layer::Unit && part.kind != PartKind::Fin;
    if (own != drawn.own) return false;
    if (isCladding(drawn.kind)) return isCladding(part.kind);  // whichever kind the wall has
    if (part.kind != drawn.kind) return false;
    if (!own || drawn.kind == PartKind::Fin) return true;
    if (part.step != partStep(sheet.step)) return false;  // a flap from folds, a head's tape from corner tapes
    const plan::Rect box = plan::boxOf(sheet);
    const double middle = static_cast<double>(placed.box.low.x + placed.box.high.x) / 2 - opening_.left;
    return middle > box.x0 - 1 && middle < box.x1 + 1;  // both jambs' pieces are of one kind and step
  }

  /// Depth of a sheet's front; where none of its parts is met (at its very edge), that of the nearest of them.
  [[nodiscard]] float front(std::size_t sheet, float x, float z) const {
    float met = kNever, nearest = kNever, beside = 0;
    for (const Placed& solid : by_sheet_[sheet]) {
      met = std::min(met, frontOf(solid, x, z));
      const Box& box = solid.box;
      const float away = std::hypot(std::clamp(x, box.low.x, box.high.x) - x, std::clamp(z, box.low.z, box.high.z) - z);
      if (away >= nearest) continue;
      nearest = away;
      beside = box.low.y;
    }
    return met != kNever ? met : beside;
  }

  [[nodiscard]] bool isCovered(std::int32_t sheet, double x, double z) const {
    const int order = sheet >= 0 ? skin_.sheets[static_cast<std::size_t>(sheet)].order : -1;  // under all
    return std::any_of(skin_.sheets.begin(), skin_.sheets.end(), [&](const plan::Sheet& other) {
      if (other.order <= order) return false;
      const auto covers = plan::coversAt(other, x);
      return std::any_of(covers.begin(), covers.end(), [z](const auto& c) { return z > c.low && z < c.high; });
    });
  }

  const Scene& scene_;
  const job::Opening& opening_;
  const plan::Skin& skin_;
  std::vector<std::vector<Placed>> by_sheet_;
};

/// Within a strip the order of edges is the same at every x; their height is not where they slope. The height of the
/// edge that a path knows at the strip's middle, at another x.
double heightAt(const plan::Skin& skin, double middle, double z, double x) {
  constexpr double kSame = 1e-6;  // mm: the path has its heights from the same edges
  for (const plan::Sheet& sheet : skin.sheets) {
    const auto here = plan::coversAt(sheet, middle);
    for (std::size_t i = 0; i < here.size(); ++i) {
      const bool low = std::abs(here[i].low - z) < kSame;
      if (!low && std::abs(here[i].high - z) >= kSame) continue;
      const auto there = plan::coversAt(sheet, x);
      if (i < there.size()) return low ? there[i].low : there[i].high;  // beside a corner there may be fewer
    }
  }
  return z;
}

/// One path of a strip, at x.
WaterLine lineOf(const Layers& layers, const plan::Skin& skin, const plan::Water& water, const plan::WaterPath& path,
                 double x) {
  WaterLine line{path.source, path.end, {}};
  const double middle = (path.x_low + path.x_high) / 2;
  for (std::uint32_t i = 0; i < path.legs; ++i) {
    const plan::WaterLeg& leg = water.legs[path.first_leg + i];
    const double from = heightAt(skin, middle, leg.z_from, x);
    const double fall = from - heightAt(skin, middle, leg.z_to, x);
    const int pieces = std::max(1, static_cast<int>(std::ceil(fall / kStretch)));
    const double inset = std::min(0.2, fall / 4);  // just inside the sheet's edges
    for (int k = 0; k <= pieces; ++k) {
      line.points.push_back(layers.at(leg.sheet, x, from - inset - (fall - 2 * inset) * k / pieces));
    }
  }
  return line;
}

}  // namespace

std::vector<WaterLine> waterLines(const Scene& scene, const job::Job& job, std::size_t opening, const plan::Skin& skin,
                                  const plan::Water& water) {
  assert(opening < job.openings.size() && job.openings[opening].wall < scene.walls.size());  // this job's scene
  const Layers layers(scene, job, opening, skin);
  std::vector<WaterLine> lines;
  for (const plan::WaterPath& path : water.paths) {
    const double width = path.x_high - path.x_low;
    const int side_by_side = std::clamp(static_cast<int>(std::ceil(width / kApart)), 1, kMostLines);
    for (int k = 0; k < side_by_side; ++k) {
      const double x = path.x_low + width * (k + 0.5) / side_by_side;
      WaterLine line = lineOf(layers, skin, water, path, x);
      if (line.points.size() >= 2) lines.push_back(std::move(line));  // one without legs is no line
    }
  }
  return lines;
}

float lengthOf(const WaterLine& line) {
  float length = 0.0F;
  for (std::size_t i = 1; i < line.points.size(); ++i) {
    length += glm::distance(line.points[i - 1].at, line.points[i].at);
  }
  return length;
}

glm::vec3 onSkin(const Scene& scene, const job::Job& job, std::size_t opening, double x, double z) {
  const job::Opening& at = job.openings[opening];
  const WallFrame& wall = scene.walls[at.wall];
  return wall.toWorld({static_cast<float>(at.left + x), -30.0F, static_cast<float>(at.sill + z)});
}

}  // namespace sillwright::scene
