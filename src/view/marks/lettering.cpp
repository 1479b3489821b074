#include "view/marks/lettering.h"

#include <fontconfig/fontconfig.h>
#include <imgui_freetype.h>
#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <string>
#include <utility>

#include "view/marks/drawing.h"

namespace sillwright::view {

namespace {

/// Whether a length is seen so nearly end on that its dimension would tell nothing.
bool isEndOn(const render::Camera& camera, glm::vec3 a, glm::vec3 b) {
  constexpr float kLeastSine = 0.35F;
  const glm::vec3 view = glm::normalize((a + b) * 0.5F - camera.eye());
  return glm::length(glm::cross(glm::normalize(b - a), view)) < kLeastSine;
}

}  // namespace

std::optional<ImVec2> Lettering::project(glm::vec3 world) const {
  const glm::vec3 seen = projection(world);
  if (seen.z <= 0.0F || !std::isfinite(seen.x) || !std::isfinite(seen.y)) return std::nullopt;
  return ImVec2{seen.x, seen.y} + origin;
}

std::optional<std::array<ImVec2, 2>> Lettering::projectLine(glm::vec3 a, glm::vec3 b) const {
  if (isCutAway(a) && isCutAway(b)) return std::nullopt;
  if (isCutAway(a)) std::swap(a, b);
  if (isCutAway(b)) {
    const float kept = std::max(0.0F, -shown.look.cut->beyond(a));
    b = a + (b - a) * (kept / (kept + shown.look.cut->beyond(b)));
  }
  const auto from = project(a);
  const auto to = project(b);
  if (!from || !to) return std::nullopt;
  return std::array{*from, *to};
}

bool Lettering::isInPicture(ImVec2 at) const {
  at = at - origin;
  return at.x >= 0.0F && at.y >= 0.0F && at.x <= canvas.width && at.y <= canvas.height;
}

bool Lettering::isShown(const scene::Part& part) const {
  return scene::isShown(part.layer, part.step, shown.look.hidden_layers, shown.look.hidden_steps);
}

std::optional<scene::Hit> Lettering::hitAt(ImVec2 at) const {
  at = at - origin;
  const render::Ray ray = render::rayThrough(shown.camera, at.x, at.y, canvas.width, canvas.height);
  if (!rays) rays.emplace(document.scene, render::shownUnder(shown.look));
  return rays->pick(ray.from, ray.direction);
}

bool Lettering::isBehindOther(std::size_t wall, glm::vec3 place, ImVec2 at) const {
  constexpr float kWallDepth = 400.0F;  // mm, and more
  const auto hit = hitAt(at);
  if (!hit) return false;
  at = at - origin;
  const render::Ray ray = render::rayThrough(shown.camera, at.x, at.y, canvas.width, canvas.height);
  const scene::Part& part = document.scene.parts[hit->part];
  const float near = glm::dot(place - ray.from, ray.direction) - kWallDepth;
  return part.wall >= 0 && part.wall != static_cast<std::int32_t>(wall) && hit->distance < near;
}

bool Lettering::isFree(const Rect& plate) const {
  const bool in_sight = canvas.isFree(plate.low.x, plate.low.y) && canvas.isFree(plate.high.x, plate.high.y);
  return in_sight && std::none_of(taken.begin(), taken.end(), [&](const Rect& other) { return overlap(plate, other); });
}

void Lettering::write(std::string about, std::string words, const Rect& at) {
  taken.push_back(at);
  written.push_back({std::move(about), std::move(words), at});
}

float length(ImVec2 v) { return std::sqrt(v.x * v.x + v.y * v.y); }
ImVec2 times(ImVec2 v, float factor) { return {v.x * factor, v.y * factor}; }

void drawDashes(ImDrawList& list, ImVec2 from, ImVec2 to, float dash, float gap, ImU32 ink, float thick) {
  const ImVec2 along = to - from;
  const float whole = length(along);
  for (float passed = 0.0F; passed < whole; passed += dash + gap) {
    const float end = std::min(passed + dash, whole);
    list.AddLine(from + times(along, passed / whole), from + times(along, end / whole), ink, thick);
  }
}

void drawInkLine(Lettering& on, ImVec2 a, ImVec2 b) {
  on.list.AddLine(a, b, toU32(on.ui.colours->paper, 0.75F), on.ui.px(3.0F));
  on.list.AddLine(a, b, toU32(on.ui.colours->ink), std::max(1.0F, on.ui.px(1.0F)));
}

void drawDimension(Lettering& on, glm::vec3 a, glm::vec3 b, glm::vec3 aside, const std::string& words, int row) {
  if (isEndOn(on.shown.camera, a, b)) return;
  const auto from = on.project(a);
  const auto to = on.project(b);
  const auto from_aside = on.project(a + aside * 50.0F);
  if (!from || !to || !from_aside || !on.isInPicture(*from) || !on.isInPicture(*to)) return;
  const ImVec2 direction = *from_aside - *from;
  const ImVec2 along = *to - *from;
  const ImVec2 size = textSize(on.ui.fonts.small, words);
  const float long_enough = size.x + on.ui.px(18.0F);
  if (length(direction) < 1.0F || length(along) < long_enough) return;

  const float away = on.ui.px(34.0F + 26.0F * static_cast<float>(row));
  const ImVec2 out = times(direction, away / length(direction));
  const ImVec2 start = *from + out;
  const ImVec2 end = *to + out;
  const ImVec2 pad{on.ui.px(4.0F), on.ui.px(1.0F)};
  const ImVec2 middle = times(start + end, 0.5F);
  const ImVec2 low{std::round(middle.x - size.x * 0.5F), std::round(middle.y - size.y * 0.5F)};
  if (!on.isFree({low - pad, low + size + pad})) return;
  on.write("dimension", words, {low - pad, low + size + pad});

  const ImVec2 past = times(out, 1.0F + on.ui.px(6.0F) / away);
  drawInkLine(on, *from + times(out, on.ui.px(7.5F) / away), *from + past);
  drawInkLine(on, *to + times(out, on.ui.px(7.5F) / away), *to + past);
  drawInkLine(on, start, end);
  const float tick = on.ui.px(4.0F);
  for (const ImVec2 at : {start, end}) {
    on.list.AddLine({at.x - tick, at.y + tick}, {at.x + tick, at.y - tick}, toU32(on.ui.colours->ink),
                    std::max(1.5F, on.ui.px(1.8F)));
  }
  on.list.AddRectFilled(low - pad, low + size + pad, toU32(on.ui.colours->paper), on.ui.px(2.0F));
  drawText(on.list, on.ui.fonts.small, low, on.ui.colours->ink, words);
}

namespace {

constexpr float kBodyText = 15.0F;  // pixels at scale 1

struct PatternDeleter {
  void operator()(FcPattern* pattern) const { FcPatternDestroy(pattern); }
};
using Pattern = std::unique_ptr<FcPattern, PatternDeleter>;

/// A font file, and which of its faces.
struct FontFile {
  std::string path;
  int face = 0;
};

/// The machine's best file for a family and a style ("Regular", "Semi Bold"). Where the family is missing the answer is
/// whatever the machine puts in its place. An empty path: the machine has no fonts at all.
FontFile findFont(const char* family, const char* style) {
  const Pattern wanted{FcPatternCreate()};
  FcPatternAddString(wanted.get(), FC_FAMILY, reinterpret_cast<const FcChar8*>(family));
  FcPatternAddString(wanted.get(), FC_STYLE, reinterpret_cast<const FcChar8*>(style));
  FcConfigSubstitute(nullptr, wanted.get(), FcMatchPattern);
  FcDefaultSubstitute(wanted.get());
  FcResult result = FcResultNoMatch;
  const Pattern found{FcFontMatch(nullptr, wanted.get(), &result)};
  FontFile font;
  FcChar8* path = nullptr;
  if (!found || FcPatternGetString(found.get(), FC_FILE, 0, &path) != FcResultMatch) return font;
  font.path = reinterpret_cast<const char*>(path);
  FcPatternGetInteger(found.get(), FC_INDEX, 0, &font.face);
  return font;
}

/// What job files are written with in Europe, and the signs of this trade's figures: dashes and quotes, feet and
/// inches, fractions, arrows, mathematics.
constexpr std::array<ImWchar, 19> kRanges{0x0020, 0x024F, 0x0370, 0x03FF, 0x0400, 0x04FF, 0x2010,
                                          0x2027, 0x2030, 0x203A, 0x2044, 0x2044, 0x2150, 0x215E,
                                          0x2190, 0x21FF, 0x2200, 0x22FF, 0};

ImFont* add(ImFontAtlas& atlas, const FontFile& file, float pixels) {
  if (file.path.empty()) return atlas.AddFontDefault();
  ImFontConfig config;
  config.FontNo = file.face & 0xffff;  // the high half of fontconfig's number is a variable font's instance
  config.FontBuilderFlags = ImGuiFreeTypeBuilderFlags_LightHinting;
  ImFont* font = atlas.AddFontFromFileTTF(file.path.c_str(), std::round(pixels), &config, kRanges.data());
  return font != nullptr ? font : atlas.AddFontDefault();
}

}  // namespace

Fonts buildFonts(ImFontAtlas& atlas, float scale) {
  static const FontFile regular = findFont("Inter", "Regular");
  static const FontFile semi_bold = findFont("Inter", "Semi Bold");
  atlas.Clear();
  atlas.FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
  Fonts fonts;
  fonts.body = add(atlas, regular, kBodyText * scale);
  fonts.strong = add(atlas, semi_bold, kBodyText * scale);
  fonts.small = add(atlas, regular, 12.5F * scale);
  fonts.heading = add(atlas, semi_bold, 22.0F * scale);
  atlas.Build();
  return fonts;
}

}  // namespace sillwright::view
