#include "view/marks/marks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>

#include "render/renderer.h"

namespace sillwright::view {
namespace {

constexpr Colour kWaterByDay{0x00, 0x72, 0xB2};  // Okabe and Ito's blue, and its lighter one
constexpr Colour kWaterByNight{0x56, 0xB4, 0xE9};
constexpr float kDropSpeed = 620.0F;   // mm a second: slower than a drop falls, to be followed by eye
constexpr float kDropsApart = 420.0F;  // mm of fall between two drops of a line
constexpr float kLeastApart = 18.0F;   // pixels between two lines of a source; nearer ones tell nothing more

Colour waterColour(const Lettering& on, bool leaks) {
  if (leaks) return colourOf(check::Verdict::Stop);
  return on.shown.look.dark ? kWaterByNight : kWaterByDay;
}

/// A line as it lands on the picture; its length in mm runs along.
struct Seen {
  const scene::WaterLine* line = nullptr;
  std::vector<ImVec2> at;
  std::vector<float> run;  ///< mm from the line's start.
};

/// Where a point is shown: moved with its layer.
glm::vec3 shownAt(const Lettering& on, const scene::WaterPoint& point, const glm::vec3& inward) {
  return point.at + inward * render::spreadOffset(point.layer, on.shown.look.spread);
}

std::optional<Seen> see(const Lettering& on, const scene::WaterLine& line, const glm::vec3& inward) {
  Seen seen;
  seen.line = &line;
  float run = 0;
  glm::vec3 before{0.0F};
  if (line.points.empty() || on.isCutAway(shownAt(on, line.points.back(), inward))) return std::nullopt;
  for (std::size_t i = 0; i < line.points.size(); ++i) {
    const glm::vec3 world = shownAt(on, line.points[i], inward);
    const auto at = on.project(world);
    if (!at) return std::nullopt;
    if (i > 0) run += glm::distance(before, world);
    before = world;
    seen.at.push_back(*at);
    seen.run.push_back(run);
  }
  return seen;
}

void drawLine(Lettering& on, const Seen& seen) {
  const bool leaks = seen.line->leaks();
  const Colour colour = waterColour(on, leaks);
  const float width = on.ui.px(leaks ? 2.6F : 1.4F);
  for (std::size_t i = 1; i < seen.at.size(); ++i) {
    const bool covered = seen.line->points[i - 1].covered && seen.line->points[i].covered;
    const ImVec2 a = seen.at[i - 1];
    const ImVec2 b = seen.at[i];
    if (!covered) {
      on.list.AddLine(a, b, toU32(colour, leaks ? 0.95F : 0.55F), width);
      continue;
    }
    // What runs unseen is dotted.
    const float step = on.ui.px(5.0F);
    const auto dots = static_cast<int>(length(b - a) / step);
    for (int k = 0; k <= dots; ++k) {
      const ImVec2 at = a + times(b - a, dots > 0 ? static_cast<float>(k) / static_cast<float>(dots + 1) : 0.0F);
      on.list.AddCircleFilled(at, on.ui.px(leaks ? 1.5F : 0.9F), toU32(colour, leaks ? 0.9F : 0.5F), 6);
    }
  }
}

/// Where along the picture a line is after so many mm.
ImVec2 along(const Seen& seen, float run) {
  const auto next = std::lower_bound(seen.run.begin(), seen.run.end(), run);
  if (next == seen.run.begin()) return seen.at.front();
  if (next == seen.run.end()) return seen.at.back();
  const auto i = static_cast<std::size_t>(next - seen.run.begin());
  const float stretch = seen.run[i] - seen.run[i - 1];
  const float t = stretch > 0 ? (run - seen.run[i - 1]) / stretch : 0.0F;
  return seen.at[i - 1] + times(seen.at[i] - seen.at[i - 1], t);
}

void drawDrop(Lettering& on, ImVec2 at, Colour colour) {
  const float r = on.ui.px(3.2F);
  on.list.AddCircleFilled(at, r + on.ui.px(1.0F), toU32(on.ui.colours->paper, 0.8F), 12);
  on.list.AddTriangleFilled({at.x, at.y - r * 2.3F}, {at.x + r * 0.85F, at.y - r * 0.4F},
                            {at.x - r * 0.85F, at.y - r * 0.4F}, toU32(colour));
  on.list.AddCircleFilled(at, r, toU32(colour), 12);
}

void drawDrops(Lettering& on, const Seen& seen, std::size_t number, float seconds) {
  const float whole = seen.run.back();
  const Colour colour = waterColour(on, seen.line->leaks());
  // Neighbours don't fall in step.
  const float phase = std::fmod(static_cast<float>(number) * 0.618F, 1.0F) * kDropsApart;
  for (float run = std::fmod(seconds * kDropSpeed + phase, kDropsApart); run < whole; run += kDropsApart) {
    drawDrop(on, along(seen, run), colour);
  }
}

/// A ring with a paper edge, seen on any ground.
void drawRing(Lettering& on, ImVec2 at) {
  const float r = on.ui.px(11.0F);
  on.list.AddCircle(at, r, toU32(on.ui.colours->paper), 32, on.ui.px(6.0F));
  on.list.AddCircle(at, r, toU32(colourOf(check::Verdict::Stop)), 32, on.ui.px(3.0F));
}

/// Rings that are drawn, and the words at them: leaks side by side are one to the eye.
struct Ringed {
  ImVec2 at;
  std::string words;
};

void drawLeak(Lettering& on, const plan::Leak& leak, glm::vec3 place, std::vector<Ringed>& ringed) {
  const auto at = on.project(place);
  if (!at || !on.isInPicture(*at)) return;
  const Ui& ui = on.ui;
  const std::string words = leak.end == plan::WaterEnd::IntoOpening ? "gets into the opening" : "gets on to the timber";
  const auto within = [&](float reach) {
    return std::any_of(ringed.begin(), ringed.end(), [&](const Ringed& other) {
      return other.words == words && length(other.at - *at) < ui.px(reach);
    });
  };
  if (within(26.0F)) return;
  drawRing(on, *at);
  const bool told = within(300.0F);
  ringed.push_back({*at, words});
  if (told) return;
  Plate plate{{ui.px(6.0F), ui.px(3.0F)}, 0.0F, colourOf(check::Verdict::Stop)};
  plate.lines = {{ui.fonts.strong, ui.colours->ink, words}};
  plate.weight = ui.px(1.5F);
  const ImVec2 size = sizeOf(ui, plate);
  const float away = ui.px(17.0F) - plate.pad.x;
  for (const float x : {at->x + away, at->x - away - size.x}) {
    const ImVec2 inner{std::round(x + plate.pad.x), std::round(at->y - size.y * 0.5F + plate.pad.y)};
    const Rect room{inner - plate.pad, inner - plate.pad + size};
    if (!on.isFree(room)) continue;
    drawPlate(ui, on.list, room.low, plate);
    on.write("leak", words, room);
    return;
  }
}

}  // namespace

void drawWater(Lettering& on, const WaterShown& water) {
  if (water.taught == nullptr || !water.taught->wet || water.lines == nullptr) return;
  const auto opening = static_cast<std::size_t>(on.shown.lesson.opening);
  const job::Job& job = on.document.job;
  const glm::vec3 inward = on.document.scene.walls[job.openings[opening].wall].inward;
  std::vector<Seen> dry;
  std::vector<Seen> leaking;
  std::array<std::vector<float>, 6> taken;  // by source, dry and leaking: where lines start
  for (const scene::WaterLine& line : *water.lines) {
    auto seen = see(on, line, inward);
    if (!seen) continue;
    auto& at = taken[static_cast<std::size_t>(line.source) + (line.leaks() ? 3U : 0U)];
    const float x = seen->at.front().x;
    const auto near = [&](float other) { return std::abs(other - x) < on.ui.px(kLeastApart); };
    if (std::any_of(at.begin(), at.end(), near)) continue;
    at.push_back(x);
    (line.leaks() ? leaking : dry).push_back(std::move(*seen));
  }
  std::size_t number = 0;
  for (const auto* some : {&dry, &leaking}) {
    for (const Seen& seen : *some) drawLine(on, seen);
    if (water.seconds <= 0.0F) continue;
    for (const Seen& seen : *some) drawDrops(on, seen, ++number, water.seconds);
  }
  std::vector<Ringed> ringed;
  for (const plan::Leak& leak : water.taught->water.leaks) {
    drawLeak(on, leak, scene::onSkin(on.document.scene, job, opening, (leak.x_low + leak.x_high) / 2, leak.z), ringed);
  }
}

}  // namespace sillwright::view
