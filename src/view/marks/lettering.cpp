#include "view/marks/drawing.h"

#include <fontconfig/fontconfig.h>
#include <imgui_freetype.h>
#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

#include "words/text.h"

namespace sillwright::view {

ImU32 toU32(Colour colour, float alpha) {
  return IM_COL32(colour.red, colour.green, colour.blue, static_cast<int>(std::lround(alpha * 255.0F)));
}

ImVec4 toVec4(Colour colour) { return ImGui::ColorConvertU32ToFloat4(toU32(colour)); }

std::string inLines(const ImFont* font, std::string_view words, float width) {
  const auto fits = [&](std::string_view line) {
    return font->CalcTextSizeA(font->FontSize, 1.0e6F, 0.0F, line.data(), line.data() + line.size()).x <= width;
  };
  return width <= 0.0F || fits(words) ? std::string(words) : words::wrapped(words, fits);
}

ImVec2 textSize(const ImFont* font, std::string_view words, float wrap_width) {
  const std::string lines = inLines(font, words, wrap_width);
  return font->CalcTextSizeA(font->FontSize, 1.0e6F, wrap_width, lines.data(), lines.data() + lines.size());
}

void drawText(ImDrawList& list, ImFont* font, ImVec2 at, Colour colour, std::string_view words, float wrap_width) {
  const ImVec2 whole{std::round(at.x), std::round(at.y)};  // glyphs are sharp on whole pixels only
  const std::string lines = inLines(font, words, wrap_width);
  list.AddText(font, font->FontSize, whole, toU32(colour), lines.data(), lines.data() + lines.size(), wrap_width);
}

void drawMark(ImDrawList& list, ImVec2 centre, float radius, check::Verdict verdict, const Palette& colours,
              check::Basis basis) {
  if (basis == check::Basis::Planned) {
    list.AddCircle(centre, radius * 1.05F, toU32(kPlannedRing), 24, radius * 0.3F);
    radius *= 0.62F;  // the mark stands within the ring
  }
  const ImU32 colour = toU32(colourOf(verdict));
  if (verdict == check::Verdict::Ready) return list.AddCircleFilled(centre, radius, colour, 24);
  if (verdict == check::Verdict::Stop) {
    const ImVec2 half{radius * 0.9F, radius * 0.9F};
    return list.AddRectFilled(centre - half, centre + half, colour);
  }
  const ImVec2 top = centre - ImVec2{0.0F, radius * 1.1F};
  const ImVec2 right = centre + ImVec2{radius * 1.1F, radius * 0.85F};
  const ImVec2 left = centre + ImVec2{-radius * 1.1F, radius * 0.85F};
  list.AddTriangleFilled(top, right, left, colour);
  list.AddTriangle(top, right, left, toU32(colours.ink), std::max(1.0F, radius * 0.2F));
}

void drawMark(ImDrawList& list, ImVec2 centre, float radius, check::Severity severity, const Palette& colours) {
  const bool stops = severity == check::Severity::Stop;
  if (severity != check::Severity::Note)
    return drawMark(list, centre, radius, stops ? check::Verdict::Stop : check::Verdict::Attend, colours);
  const ImVec2 half{radius * 0.7F, radius * 0.2F};
  list.AddRectFilled(centre - half, centre + half, toU32(colours.quiet));
}

/// Room for the mark before a line, at scale 1.
static constexpr float kMarkRoom = 16.0F;

ImVec2 sizeOf(const Ui& ui, const Plate& plate) {
  ImVec2 inner{0.0F, plate.foot};
  for (const PlateLine& line : plate.lines) {
    const ImVec2 size = textSize(line.font, line.words, plate.wrap);
    inner.x = std::max(inner.x, size.x + (line.stop ? ui.px(kMarkRoom) : 0.0F));
    inner.y += size.y + (&line == &plate.lines.front() ? 0.0F : line.above);
  }
  return inner + plate.pad + plate.pad;
}

void drawGround(const Ui& ui, ImDrawList& list, ImVec2 low, ImVec2 high, Colour frame, float weight) {
  list.AddRectFilled(low, high, toU32(ui.colours->paper), ui.px(2.0F));
  list.AddRect(low, high, toU32(frame), ui.px(2.0F), 0, weight);
}

void drawPlate(const Ui& ui, ImDrawList& list, ImVec2 low, const Plate& plate) {
  drawGround(ui, list, low, low + sizeOf(ui, plate), plate.frame, plate.weight);
  drawLines(ui, list, low + plate.pad, plate);
}

void drawLines(const Ui& ui, ImDrawList& list, ImVec2 at, const Plate& plate) {
  for (const PlateLine& line : plate.lines) {
    if (&line != &plate.lines.front()) at.y += line.above;
    if (line.stop) {
      const ImVec2 middle{at.x + ui.px(5.0F), at.y + line.font->FontSize * 0.55F};
      drawMark(list, middle, ui.px(5.0F), check::Verdict::Stop, *ui.colours);
    }
    const float indent = line.stop ? ui.px(kMarkRoom) : 0.0F;
    drawText(list, line.font, {at.x + indent, at.y}, line.colour, line.words, plate.wrap);
    at.y += textSize(line.font, line.words, plate.wrap).y;
  }
}

namespace {

constexpr Palette kDay{
    .ground = {0xF4, 0xF0, 0xE6},
    .paper = {0xFC, 0xFA, 0xF4},
    .hovered = {0xF1, 0xEA, 0xDA},
    .picked = {0xE8, 0xDD, 0xC4},
    .rule = {0xD8, 0xD0, 0xBE},
    .ink = {0x22, 0x26, 0x2B},
    .quiet = {0x5C, 0x5B, 0x55},
    .timber = {0xE3, 0xC0, 0x8A},
    .unit = {0xBF, 0xD9, 0xD5},
    .packer = {0x8A, 0x6F, 0xB0},
};

constexpr Palette kEvening{
    .ground = {0x20, 0x24, 0x2A},
    .paper = {0x2A, 0x2E, 0x35},
    .hovered = {0x37, 0x3C, 0x44},
    .picked = {0x45, 0x49, 0x4F},
    .rule = {0x4A, 0x50, 0x58},
    .ink = {0xF0, 0xEB, 0xDF},
    .quiet = {0xC2, 0xBD, 0xB1},
    .timber = {0x9A, 0x7E, 0x54},
    .unit = {0x47, 0x60, 0x5F},
    .packer = {0xA9, 0x8F, 0xCE},
};

constexpr float kBodyText = 15.0F;  // pixels at scale 1

using Pattern = std::unique_ptr<FcPattern, decltype([](FcPattern* pattern) { FcPatternDestroy(pattern); })>;

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
  FcConfigSubstitute(nullptr, wanted.get(), FcMatchPattern);  // fontconfig wants both before it matches
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

ImFont* add(ImFontAtlas& atlas, const FontFile& file, float pixels) {  // never null
  if (file.path.empty()) return atlas.AddFontDefault();                // the library brings one along
  ImFontConfig config;
  config.FontNo = file.face & 0xffff;  // the high half of fontconfig's number is a variable font's instance
  config.FontBuilderFlags = ImGuiFreeTypeBuilderFlags_LightHinting;
  ImFont* font = atlas.AddFontFromFileTTF(file.path.c_str(), std::round(pixels), &config, kRanges.data());
  return font != nullptr ? font : atlas.AddFontDefault();
}

}  // namespace

const Palette& palette(bool dark) { return dark ? kEvening : kDay; }

Colour colourOf(check::Verdict verdict) {
  constexpr std::array<Colour, 3> kColours{{{0x00, 0x9E, 0x73}, {0xE6, 0x9F, 0x00}, {0xD5, 0x5E, 0x00}}};
  return kColours[static_cast<std::size_t>(verdict)];
}

std::optional<ImVec2> Lettering::project(glm::vec3 world) const {
  const glm::vec3 seen = projection(world);
  if (seen.z <= 0.0F || !std::isfinite(seen.x) || !std::isfinite(seen.y)) return std::nullopt;  // behind the eye
  return ImVec2{seen.x, seen.y} + origin;
}

std::optional<std::array<ImVec2, 2>> Lettering::projectLine(glm::vec3 a, glm::vec3 b) const {
  if (isCutAway(a) && isCutAway(b)) return std::nullopt;
  if (isCutAway(a)) std::swap(a, b);  // b is then the end to be shortened
  if (isCutAway(b)) {
    const float kept = std::max(0.0F, -shown.look.cut->beyond(a));  // a may lie a hair beyond
    b = a + (b - a) * (kept / (kept + shown.look.cut->beyond(b)));  // as far as the plane
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
  const render::Ray ray = rayAt(at);
  return rays->pick(ray.from, ray.direction);
}

render::Ray Lettering::rayAt(ImVec2 at) const {
  if (!rays) rays.emplace(document.scene, render::shownUnder(shown.look));
  at = at - origin;
  return render::rayThrough(shown.camera, at.x, at.y, canvas.width, canvas.height);
}

bool Lettering::isBehindOther(std::size_t wall, glm::vec3 place, ImVec2 at) const {
  constexpr float kWallDepth = 400.0F;  // mm, and more
  const render::Ray ray = rayAt(at);
  const float near = glm::dot(place - ray.from, ray.direction) - kWallDepth;
  const auto own = static_cast<std::int32_t>(wall);
  const auto hit = rays->pick(ray.from, ray.direction, near, own);
  if (!hit) return false;
  const std::int32_t of = document.scene.parts[hit->part].wall;
  return of >= 0 && of != own;
}

bool Lettering::isFree(const Rect& plate) const {
  const bool in_sight = canvas.isFree(plate.low.x, plate.low.y) && canvas.isFree(plate.high.x, plate.high.y);
  return in_sight && std::none_of(taken.begin(), taken.end(), [&](const Rect& other) { return overlap(plate, other); });
}

void Lettering::write(std::string about, std::string words, const Rect& at) {
  taken.push_back(at);
  written.push_back({std::move(about), std::move(words), at});
}

void Lettering::write(std::string about, const Plate& plate, ImVec2 low) {
  low = rounded(low);
  drawPlate(ui, list, low, plate);
  write(std::move(about), plate.lines.front().words, {low, low + sizeOf(ui, plate)});
}

void drawDashes(ImDrawList& list, ImVec2 from, ImVec2 to, float dash, float gap, ImU32 ink, float thick) {
  const ImVec2 along = to - from;
  const float whole = length(along);
  for (float passed = 0.0F; passed < whole; passed += dash + gap) {
    const float end = std::min(passed + dash, whole);
    list.AddLine(from + times(along, passed / whole), from + times(along, end / whole), ink, thick);
  }
}

void drawTick(const Ui& ui, ImDrawList& list, ImVec2 at, float half) {
  const ImVec2 rise{ui.px(half), -ui.px(half)};
  list.AddLine(at - rise, at + rise, toU32(ui.colours->ink), std::max(1.5F, ui.px(1.8F)));
}

void drawInkLine(const Lettering& on, ImVec2 a, ImVec2 b) {
  on.list.AddLine(a, b, toU32(on.ui.colours->paper, 0.75F), on.ui.px(3.0F));
  on.list.AddLine(a, b, toU32(on.ui.colours->ink), std::max(1.0F, on.ui.px(1.0F)));
}

void drawDimension(Lettering& on, glm::vec3 a, glm::vec3 b, glm::vec3 aside, const std::string& words, int row) {
  constexpr float kLeastSine = 0.35F;                                             // of one that is seen nearly end on
  const glm::vec3 view = glm::normalize((a + b) * 0.5F - on.shown.camera.eye());  // from the eye to its middle
  if (glm::length(glm::cross(glm::normalize(b - a), view)) < kLeastSine) return;
  const auto from = on.project(a);
  const auto to = on.project(b);
  const auto from_aside = on.project(a + aside * 50.0F);  // mm: far enough to tell its direction on the picture
  if (!from || !to || !from_aside || !on.isInPicture(*from) || !on.isInPicture(*to)) return;
  const ImVec2 direction = *from_aside - *from;
  const ImVec2 along = *to - *from;
  const ImVec2 size = textSize(on.ui.fonts.small, words);
  const float long_enough = size.x + on.ui.px(18.0F);
  if (length(direction) < 1.0F || length(along) < long_enough) return;  // seen end on, or shorter than its figure

  const float away = on.ui.px(34.0F + 26.0F * static_cast<float>(row));  // room for a figure from row to row
  const ImVec2 out = times(direction, away / length(direction));
  const ImVec2 start = *from + out;
  const ImVec2 end = *to + out;
  const ImVec2 pad{on.ui.px(4.0F), on.ui.px(1.0F)};
  const ImVec2 middle = times(start + end, 0.5F);
  const ImVec2 low = rounded(middle - times(size, 0.5F));
  if (!on.isFree({low - pad, low + size + pad})) return;
  on.write("dimension", words, {low - pad, low + size + pad});

  const ImVec2 past = times(out, 1.0F + on.ui.px(6.0F) / away);  // the line of reference runs on behind the dimension's
  drawInkLine(on, *from + times(out, on.ui.px(7.5F) / away), *from + past);
  drawInkLine(on, *to + times(out, on.ui.px(7.5F) / away), *to + past);
  drawInkLine(on, start, end);
  for (const ImVec2 at : {start, end}) drawTick(on.ui, on.list, at, 4.0F);
  on.list.AddRectFilled(low - pad, low + size + pad, toU32(on.ui.colours->paper), on.ui.px(2.0F));
  drawText(on.list, on.ui.fonts.small, low, on.ui.colours->ink, words);
}

Fonts buildFonts(ImFontAtlas& atlas, float scale) {
  static const FontFile regular = findFont("Inter", "Regular");  // once a program: each scale asks for the same
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
