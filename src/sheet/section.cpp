#include "sheet/section.h"

#include <array>
#include <map>
#include <numbers>

#include "plan/weather_skin.h"
#include "scene/build.h"
#include "sheet/dimension.h"
#include "sheet/marks.h"
#include "sheet/section_parts.h"
#include "sheet/slice.h"
#include "sheet/spread.h"
#include "sheet/words.h"

namespace sillwright::sheet {
namespace {

constexpr double kAbove = 110, kGlass = 125;  // of the wall shown past the opening's edge, and of the unit, mm
constexpr double kHeading = 7;

std::string windClass(const job::Job& job) {
  const auto* name = job.wind ? std::get_if<std::string>(&*job.wind) : nullptr;
  return name != nullptr ? *name : std::string{};
}

/// The packer to cut through: a middle one where there is one, near a third of the side.
double cutAlong(const plan::Packing& packing, plan::Side side, double size) {
  double best = size * 0.3;
  double off = std::numeric_limits<double>::infinity();
  for (const auto& point : packing.points) {
    if (point.side != side) continue;
    const double away = std::abs(point.at - size * 0.3);
    if (away < off) {
      off = away;
      best = point.at;
    }
  }
  return best;
}

Box windowOf(const Section& section) {
  const auto& spec = section.wall;
  const double out = -(spec.cladding.cavity + spec.cladding.thickness + 40);
  const double in = spec.depth() + 18;
  switch (section.detail) {
    case Detail::Head: {
      const double head = section.size.opening_height;
      return {out, head - kGlass, in, head + kAbove};
    }
    case Detail::Sill:
      return {out, -kAbove, in, kGlass};
    case Detail::Jamb:
      return {-kAbove + 10, out, kGlass, in};
  }
  return {};
}

void drawHeading(const Section& section, const Box& room) {
  static constexpr std::array<const char*, 3> kWords{"Head", "Left jamb, from above", "Sill"};
  Lettering how;
  how.capitals = letter::kBody;
  how.weight = Weight::Bold;
  const std::string words = std::string(kWords[static_cast<std::size_t>(section.detail)]);
  const Box box = section.painter.text({room.x0, room.y0 + how.capitals}, words, how);
  section.painter.text({box.x1 + 3, room.y0 + how.capitals}, "1:5", {});
}

void drawCaptions(const Section& section) {
  Lettering how;
  how.ink = grey(0.25);
  const Vec low = section.view.at(section.window.x0, section.window.y0);
  const Vec high = section.view.at(section.window.x1, section.window.y1);
  if (section.detail == Detail::Jamb) {
    how.align = Align::Centre;
    section.painter.text({(low.x + high.x) / 2, low.y + 3.6}, "outside", how);
    section.painter.text({(low.x + high.x) / 2, high.y - 1.6}, "inside", how);
    return;
  }
  section.painter.text({low.x, low.y + 3.6}, "outside", how);
  how.align = Align::Right;
  section.painter.text({high.x, low.y + 3.6}, "inside", how);
}

/// Names beside the drawing, each on a leader to what it names.
void drawNames(const Section& section, const Box& room) {
  const double left = section.view.at(section.window.x0, 0).x;
  const double right = section.view.at(section.window.x1, 0).x;
  const double middle = (left + right) / 2;
  for (int side = 0; side < 2; ++side) {
    std::vector<const Named*> names;
    for (const Named& name : section.names) {
      const bool on_left = name.side ? *name.side < 0 : name.at.x < middle;
      if (on_left == (side == 0)) names.push_back(&name);
    }
    std::sort(names.begin(), names.end(), [](const Named* a, const Named* b) { return a->at.y < b->at.y; });
    const double edge = side == 0 ? left - 3.5 : right + 3.5;
    const double width = side == 0 ? edge - 1 - room.x0 : room.x1 - edge - 1;
    std::vector<std::vector<std::string>> lines;
    std::vector<double> wanted, sizes;
    for (const Named* name : names) {
      lines.push_back(section.painter.wrap(name->words, width));
      wanted.push_back(name->at.y);
      sizes.push_back(static_cast<double>(lines.back().size()) * 3.5 + 1.2);
    }
    const auto places = spread(wanted, sizes, room.y0 + kHeading - 1.5, room.y1);
    for (std::size_t i = 0; i < names.size(); ++i) {
      const double first = places[i] - static_cast<double>(lines[i].size()) * 3.5 / 2;
      const double level = first + 3.5 / 2;
      drawLeader(section.painter, names[i]->at, {edge + (side == 0 ? 2.0 : -2.0), level}, {edge, level});
      Lettering how;
      how.align = side == 0 ? Align::Right : Align::Left;
      double y = level + how.capitals / 2;
      for (const std::string& line : lines[i]) {
        section.painter.text({edge + (side == 0 ? -0.8 : 0.8), y}, line, how);
        y += 3.5;
      }
    }
  }
}

}  // namespace

void drawSection(Book& book, std::size_t index, Detail detail, const Box& room) {
  const Subject& subject = book.subject;
  const auto& opening = subject.job.openings[index];
  const auto& planned = subject.plan.openings[index];
  const auto& wall = subject.plan.walls[planned.wall].spec;
  Section section{
      book.painter(),
      subject,
      index,
      detail,
      opening,
      planned,
      wall,
      plan::skinSizes(opening, wall, planned.unit, planned.stand, windClass(subject.job), subject.practice)};
  section.window = windowOf(section);
  const double wide = section.window.width() * kSectionScale;
  const double high = section.window.height() * kSectionScale;
  const Vec origin{room.middle().x - wide / 2 - section.window.x0 * kSectionScale,
                   room.y0 + kHeading + high + (detail == Detail::Jamb ? 3 : 0) + section.window.y0 * kSectionScale};
  section.view = {kSectionScale, origin};
  drawHeading(section, room);
  const bool level = detail == Detail::Jamb;
  const double along = level ? cutAlong(planned.packing, plan::Side::Left, planned.unit.height)
                             : cutAlong(planned.packing, plan::Side::Sill, planned.unit.width);
  section.cut_at = along + (level ? planned.stand.z : planned.stand.x);
  drawSolids(section);
  drawThinSheets(section);
  drawPackers(section);
  drawBreaks(section);
  drawCaptions(section);
  drawNames(section, room);
}

}  // namespace sillwright::sheet
