#include "view/marks/marks.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sillwright::view {
namespace {

constexpr Colour kWaterByDay{0x00, 0x72, 0xB2};  // Okabe and Ito's blue, and its lighter one
constexpr Colour kWaterByNight{0x56, 0xB4, 0xE9};
constexpr float kDropsApart = 420.0F;  // mm of fall between two drops of a line
constexpr float kRest = 300.0F;        // mm that the drop whose way is named could fall before it begins again
constexpr float kEdge = 90.0F;         // mm before a sheet's edge from where on the edge is named
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
    if (!at) return std::nullopt;  // a part of it is behind the eye
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
    const auto dots = static_cast<int>(length(b - a) / on.ui.px(5.0F)) + 1;
    for (int k = 0; k < dots; ++k) {
      const ImVec2 at = a + times(b - a, static_cast<float>(k) / static_cast<float>(dots));
      on.list.AddCircleFilled(at, on.ui.px(leaks ? 1.5F : 0.9F), toU32(colour, leaks ? 0.9F : 0.5F), 6);
    }
  }
}

/// The first of a line's points that lies further along it than so many mm; never the very first.
std::size_t pointAfter(const Seen& seen, float run) {
  const auto next = std::lower_bound(seen.run.begin() + 1, seen.run.end() - 1, run);
  return static_cast<std::size_t>(next - seen.run.begin());
}

/// Where along the picture a line is after so many mm.
ImVec2 along(const Seen& seen, float run) {
  const std::size_t i = pointAfter(seen, run);
  const float stretch = seen.run[i] - seen.run[i - 1];
  const float t = stretch > 0 ? std::clamp((run - seen.run[i - 1]) / stretch, 0.0F, 1.0F) : 0.0F;
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
  const float phase = std::fmod(static_cast<float>(number) * 0.618F, 1.0F) * kDropsApart;  // the golden ratio
  for (float run = std::fmod(seconds * kDropSpeed + phase, kDropsApart); run < whole; run += kDropsApart) {
    if (!seen.line->points[pointAfter(seen, run)].covered) drawDrop(on, along(seen, run), colour);
  }
}

/// "over the sill flashing's lower edge, on to the cladding below"
std::string wayAt(const Seen& seen, const plan::Skin& skin, float run) {
  const std::vector<scene::WaterPoint>& points = seen.line->points;
  const auto name = [&](std::int32_t sheet) {
    return sheet < 0 ? std::string("the timber") : "the " + skin.sheets[static_cast<std::size_t>(sheet)].name;
  };
  const auto order = [&](std::int32_t sheet) {
    return sheet < 0 ? -1 : skin.sheets[static_cast<std::size_t>(sheet)].order;
  };
  const std::size_t i = pointAfter(seen, run);
  const std::int32_t here = points[i].sheet;
  std::size_t next = i;
  while (next < points.size() && points[next].sheet == here) ++next;
  const float edge = seen.run[next - 1];  // where it leaves this sheet
  if (run < edge - kEdge) return (points[i].covered ? "behind what lies over it, down " : "down ") + name(here);
  if (next == points.size())  // the line ends on it
    return seen.line->leaks() ? "from " + name(here) + " into the wall" : "off " + name(here) + ", outside";
  const std::int32_t after = points[next].sheet;
  if (order(after) > order(here)) return "from " + name(here) + " out over " + name(after);  // a sheet further out
  return "over " + name(here) + "'s lower edge, on to " + name(after);
}

/// The one drop of a line whose way is told as it passes.
void followDrop(Lettering& on, const Seen& seen, const plan::Skin& skin, float seconds) {
  const float run = std::fmod(seconds * kDropSpeed, seen.run.back() + kRest);
  if (run > seen.run.back()) return;
  const Ui& ui = on.ui;
  const ImVec2 at = along(seen, run);
  drawDrop(on, at, waterColour(on, seen.line->leaks()));
  const std::string words = wayAt(seen, skin, run);
  const Plate plate{{ui.px(6.0F), ui.px(2.0F)}, 0.0F, ui.colours->ink, {{ui.fonts.strong, ui.colours->ink, words}}};
  const ImVec2 size = sizeOf(ui, plate);
  const float right = on.origin.x + on.canvas.width - on.canvas.right - size.x;
  const float aside = at.x + ui.px(14.0F) < right ? ui.px(14.0F) : -ui.px(14.0F) - size.x;
  on.write("drop", plate, {std::max(at.x + aside, on.origin.x + on.canvas.left), at.y - size.y * 0.5F});
}

/// How often a line comes on to another sheet.
std::size_t changesOf(const Seen& seen) {
  std::size_t changes = 0;
  const auto& points = seen.line->points;
  for (std::size_t i = 1; i < points.size(); ++i) changes += points[i].sheet != points[i - 1].sheet;
  return changes;
}

/// The line that tells most: of those that leak, else of all, the one that comes over most sheets.
const Seen* mostTelling(const std::vector<Seen>& dry, const std::vector<Seen>& leaking) {
  const std::vector<Seen>& some = leaking.empty() ? dry : leaking;
  const auto most = std::ranges::max_element(some, {}, changesOf);
  return most == some.end() ? nullptr : &*most;
}

/// Rings that are drawn, and the words at them: leaks side by side are one to the eye.
struct Ringed {
  ImVec2 at;
  std::string words;
};

/// As plan::WaterEnd.
constexpr std::array<const char*, 4> kFaultWords{"gets behind, and comes out again", "gets behind the cladding",
                                                 "gets on to the timber", "gets into the opening"};

/// A leak has a ring; what gets behind and still does no harm the mark of what needs attention.
void drawFault(Lettering& on, const plan::Leak& leak, glm::vec3 place, std::vector<Ringed>& ringed) {
  const auto at = on.project(place);
  if (!at || !on.isInPicture(*at)) return;
  const Ui& ui = on.ui;
  const bool slight = leak.end == plan::WaterEnd::Outside || leak.end == plan::WaterEnd::BehindCladding;
  const check::Verdict verdict = slight ? check::Verdict::Attend : check::Verdict::Stop;
  const std::string words = kFaultWords[static_cast<std::size_t>(leak.end)];
  const auto within = [&](float reach) {
    return std::any_of(ringed.begin(), ringed.end(), [&](const Ringed& other) {
      return other.words == words && length(other.at - *at) < ui.px(reach);
    });
  };
  if (within(26.0F)) return;  // its ring would lie on another's
  if (slight) {
    drawMark(on.list, *at, ui.px(10.0F), verdict, *ui.colours);
  } else {  // a ring with a paper edge, seen on any ground
    on.list.AddCircle(*at, ui.px(11.0F), toU32(ui.colours->paper), 32, ui.px(6.0F));
    on.list.AddCircle(*at, ui.px(11.0F), toU32(colourOf(verdict)), 32, ui.px(3.0F));
  }
  const bool told = within(300.0F);  // the same words need not stand twice so near
  ringed.push_back({*at, words});
  if (told) return;
  const Plate plate{.pad = {ui.px(6.0F), ui.px(3.0F)},
                    .frame = colourOf(verdict),
                    .lines = {{ui.fonts.strong, ui.colours->ink, words}},
                    .weight = ui.px(1.5F)};
  const ImVec2 size = sizeOf(ui, plate);
  for (const float x : {at->x + ui.px(11.0F), at->x - ui.px(11.0F) - size.x}) {  // at the right, else at the left
    const ImVec2 low = rounded({x, at->y - size.y * 0.5F});
    if (on.isFree({low, low + size})) return on.write(slight ? "slight fault" : "leak", plate, low);
  }
}

}  // namespace

void drawWater(Lettering& on, const WaterShown& water) {
  if (water.taught == nullptr || !water.taught->wet || water.lines == nullptr) return;
  const auto opening = static_cast<std::size_t>(on.shown.lesson.opening);
  const job::Job& job = on.document.job;
  const std::size_t own = job.openings[opening].wall;
  const scene::WallFrame& wall = on.document.scene.walls[own];
  const bool inside = !isOutside(wall, on.shown.camera);
  std::vector<Seen> dry;
  std::vector<Seen> leaking;
  std::array<std::vector<float>, 6> taken;  // by source, dry and leaking: where lines start
  // The lines that are seen; of those of one source that start side by side the first.
  for (const scene::WaterLine& line : *water.lines) {
    if (inside && !line.leaks()) continue;  // it runs down the wall's other side
    auto seen = see(on, line, wall.inward);
    if (!seen) continue;
    auto& at = taken[static_cast<std::size_t>(line.source) + (line.leaks() ? 3U : 0U)];
    const float x = seen->at.front().x;
    const auto near = [&](float other) { return std::abs(other - x) < on.ui.px(kLeastApart); };
    if (std::any_of(at.begin(), at.end(), near)) continue;
    at.push_back(x);  // before it is asked whether it is hidden: its neighbours would be as well
    const std::size_t middle = seen->at.size() / 2;
    if (!inside && water.step == nullptr && on.isBehindOther(own, line.points[middle].at, seen->at[middle])) continue;
    (line.leaks() ? leaking : dry).push_back(std::move(*seen));
  }
  const Seen* told = water.seconds > 0.0F ? mostTelling(dry, leaking) : nullptr;  // at rest no drop is followed
  std::size_t number = 0;
  for (const auto* some : {&dry, &leaking}) {  // what leaks lies over what doesn't
    for (const Seen& seen : *some) drawLine(on, seen);
    if (water.seconds <= 0.0F) continue;
    for (const Seen& seen : *some) {
      if (&seen != told) drawDrops(on, seen, ++number, water.seconds);  // that line has the one drop whose way is told
    }
  }
  if (told != nullptr) followDrop(on, *told, water.taught->there, water.seconds);
  std::vector<Ringed> ringed;
  const plan::Water& traced = water.taught->water;
  for (const auto* faults : {&traced.leaks, &traced.behind_cladding, &traced.held}) {
    if (inside && faults != &traced.leaks) continue;  // what stays in the wall isn't seen from there
    for (const plan::Leak& each : *faults) {
      const double x = (each.x_low + each.x_high) / 2;
      drawFault(on, each, scene::onSkin(on.document.scene, job, opening, x, each.z), ringed);
    }
  }
}

}  // namespace sillwright::view
