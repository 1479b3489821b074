#include "view/marks/drawing.h"

#include <algorithm>
#include <array>
#include <cmath>

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

void drawRing(ImDrawList& list, ImVec2 centre, float radius) {
  list.AddCircle(centre, radius * 0.85F, toU32(kPlannedRing), 24, radius * 0.42F);
}

void drawMark(ImDrawList& list, ImVec2 centre, float radius, check::Verdict verdict, const Palette& colours,
              check::Basis basis) {
  if (basis == check::Basis::Planned) {
    list.AddCircle(centre, radius * 1.05F, toU32(kPlannedRing), 24, radius * 0.3F);
    radius *= 0.62F;
  }
  const ImU32 colour = toU32(colourOf(verdict));
  switch (verdict) {
    case check::Verdict::Ready:
      list.AddCircleFilled(centre, radius, colour, 24);
      return;
    case check::Verdict::Attend: {
      const ImVec2 top{centre.x, centre.y - radius * 1.1F};
      const ImVec2 right{centre.x + radius * 1.1F, centre.y + radius * 0.85F};
      const ImVec2 left{centre.x - radius * 1.1F, centre.y + radius * 0.85F};
      list.AddTriangleFilled(top, right, left, colour);
      list.AddTriangle(top, right, left, toU32(colours.ink), std::max(1.0F, radius * 0.2F));
      return;
    }
    case check::Verdict::Stop: {
      const ImVec2 half{radius * 0.9F, radius * 0.9F};
      list.AddRectFilled(centre - half, centre + half, colour);
      return;
    }
  }
}

void drawMark(ImDrawList& list, ImVec2 centre, float radius, check::Severity severity, const Palette& colours) {
  if (severity != check::Severity::Note) {
    const bool stop = severity == check::Severity::Stop;
    drawMark(list, centre, radius, stop ? check::Verdict::Stop : check::Verdict::Attend, colours);
    return;
  }
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
  ImVec2 at = low + plate.pad;
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

}  // namespace

const Palette& palette(bool dark) { return dark ? kEvening : kDay; }

Colour colourOf(check::Verdict verdict) {
  constexpr std::array<Colour, 3> kColours{{{0x00, 0x9E, 0x73}, {0xE6, 0x9F, 0x00}, {0xD5, 0x5E, 0x00}}};
  return kColours[static_cast<std::size_t>(verdict)];
}

}  // namespace sillwright::view
