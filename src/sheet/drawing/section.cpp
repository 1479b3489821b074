#include "sheet/drawing/section.h"

#include <array>
#include <cmath>

#include "plan/panes.h"
#include "plan/weather/weather_skin.h"
#include "sheet/paper/dimension.h"
#include "sheet/paper/spread.h"
#include "sheet/words.h"

namespace sillwright::sheet {
namespace {

constexpr double kAbove = 110, kGlass = 125;  // of the wall shown past the opening's edge, and of the unit, mm
constexpr double kFloor = 30;                 // under a sill that stands on the floor
constexpr double kHeading = 7;
constexpr double kBesideEdge = 4.5;  // from what is drawn to its names
constexpr std::array<Detail, 3> kDetails{Detail::Head, Detail::Jamb, Detail::Sill};

/// Whether a cut there would run along a mullion or a transom.
bool alongBar(const plan::UnitParts& parts, plan::Side side, double at) {
  for (std::size_t i = 0; i < parts.bar.size(); ++i) {
    const plan::UnitRect& bar = parts.bar[i];
    const bool mullion = i < parts.mullions;
    if (mullion != plan::isLevel(side)) continue;
    if (mullion ? at >= bar.x0 && at <= bar.x1 : at >= bar.z0 && at <= bar.z1) return true;
  }
  return false;
}

/// The packer to cut through: one beside no mullion or transom, near a third of the side.
double cutAlong(const plan::OpeningPlan& planned, plan::Side side, double size) {
  const plan::UnitParts parts = plan::partsOf(planned.unit);
  double best = size * 0.3;
  double off = std::numeric_limits<double>::infinity();
  for (const auto& point : planned.packing.points) {
    if (point.side != side || alongBar(parts, side, point.at)) continue;
    const double away = std::abs(point.at - size * 0.3);
    if (away < off) {
      off = away;
      best = point.at;
    }
  }
  return best;
}

/// Of a joint the frame's depth with a little round it.
Box windowOf(const Section& section, const Joint& joint) {
  const plan::UnitSpec& unit = section.planned.unit;
  const plan::Stand& stand = section.planned.stand;
  const double out = unit.stands - 14, in = unit.stands + unit.frame.depth + 14;
  const double at = joint.at + (section.level() ? stand.x : stand.z);
  return section.level() ? Box{at - kAbove, out, at + kAbove, in} : Box{out, at - kAbove, in, at + kAbove};
}

Box windowOf(const Section& section) {
  const auto& spec = section.wall;
  // As far out as anything stands: boards with the head flashing's turn-down past them, or the frame.
  const double out = -(std::max({spec.cladding.cavity + spec.cladding.thickness, section.size.head_reach,
                                 -section.planned.unit.stands}) +
                       14);
  const double in = spec.depth() + 8;
  switch (section.detail) {
    case Detail::Head: {
      const double head = section.size.opening_height;
      return {out, head - kGlass, in, head + kAbove};
    }
    case Detail::Sill:
      return {out, section.size.sill_flashing ? -kAbove : -kFloor, in, kGlass};
    case Detail::Jamb:
      return {-kAbove + 10, out, kGlass, in};
    default:
      return {};
  }
}

void drawHeading(const Section& section, const std::string& words, const Box& room, const Scale& scale) {
  const Box box =
      section.painter.text({room.x0, room.y0 + kHeadingLetters.capitals},
                           section.painter.fitted(words, room.width() - 12, kHeadingLetters), kHeadingLetters);
  section.painter.text({box.x1 + 3, room.y0 + kHeadingLetters.capitals}, scale.name, {});
}

void drawCaptions(const Section& section) {
  if (section.detail == Detail::Jamb) return;  // its heading says it
  const Box shown = section.shown();
  if (section.level()) {
    section.painter.text({shown.x0, shown.y1 + 4.4}, "from above, outside below", {.ink = grey(0.25)});
    return;
  }
  // Beside each other under a drawing that is narrower than both.
  const double left = std::min(shown.x0, shown.middle().x - section.painter.widthOf("outside") - 1);
  const double right = std::max(shown.x1, shown.middle().x + section.painter.widthOf("inside") + 1);
  section.painter.text({left, shown.y1 + 4.4}, "outside", {.ink = grey(0.25)});
  section.painter.text({right, shown.y1 + 4.4}, "inside", {.align = Align::Right, .ink = grey(0.25)});
}

constexpr double kNameLine = 3.4;
constexpr double kNameGap = 0.9;

/// The names at one side of the drawing, from the top down.
struct NameColumn {
  double edge = 0;   // where their leaders end
  double way = -1;   // from the drawing to them
  double width = 0;  // room for their words
  std::vector<const Named*> names;

  [[nodiscard]] std::vector<std::string> lines(Painter& painter, const Named& name) const {
    return painter.wrap(name.words, width);
  }
  [[nodiscard]] double height(Painter& painter) const {
    double high = 0;
    for (const Named* name : names) {
      high += static_cast<double>(lines(painter, *name).size()) * kNameLine + kNameGap;
    }
    return high;
  }
};

/// Moves the names nearest to the other side there, until this side has room for its own.
void relieve(Painter& painter, NameColumn& full, NameColumn& other, double room) {
  while (full.names.size() > 1 && full.height(painter) > room) {
    const auto nearest = std::min_element(full.names.begin(), full.names.end(), [&](const Named* a, const Named* b) {
      return a->at.x * full.way < b->at.x * full.way;
    });
    other.names.push_back(*nearest);
    full.names.erase(nearest);
  }
}

void drawColumn(Painter& painter, NameColumn& column, double top, double bottom) {
  std::sort(column.names.begin(), column.names.end(), [](const Named* a, const Named* b) { return a->at.y < b->at.y; });
  std::vector<double> wanted, sizes;
  for (const Named* name : column.names) {
    wanted.push_back(name->at.y);
    sizes.push_back(static_cast<double>(column.lines(painter, *name).size()) * kNameLine + kNameGap);
  }
  const auto places = spread(wanted, sizes, top, bottom);
  const Lettering how{.align = column.way < 0 ? Align::Right : Align::Left};
  for (std::size_t i = 0; i < column.names.size(); ++i) {
    const auto lines = column.lines(painter, *column.names[i]);
    const double level = places[i] - static_cast<double>(lines.size() - 1) * kNameLine / 2;
    drawLeader(painter, column.names[i]->at, {column.edge - column.way * 2.0, level}, {column.edge, level});
    double y = level + how.capitals / 2;
    for (const std::string& line : lines) {
      painter.text({column.edge + column.way * 0.8, y}, line, how);
      y += kNameLine;
    }
  }
}

/// Leaves out what any eye knows (bead, sash) where there is no room for all names at a side.
void dropMinor(Painter& painter, NameColumn& column, double room) {
  for (std::size_t i = 0; i < column.names.size() && column.height(painter) > room;) {
    if (column.names[i]->minor) {
      column.names.erase(column.names.begin() + static_cast<std::ptrdiff_t>(i));
    } else {
      ++i;
    }
  }
}

/// A section of an opening, nothing drawn of it yet.
Section sectionOf(Book& book, std::size_t index, Detail detail) {
  const Subject& subject = book.subject;
  const auto& opening = subject.job.openings[index];
  const auto& planned = subject.plan.openings[index];
  const auto& wall = subject.plan.walls[planned.wall].spec;
  Section section{
      book.painter(), subject,
      index,          detail,
      opening,        planned,
      wall,           plan::skinSizes(subject.job, opening, wall, planned.unit, planned.stand, subject.practice)};
  if (opening.head && detail == Detail::Head) {  // as it is where it is cut
    const double x = cutAlong(planned, plan::Side::Sill, planned.unit.width) + planned.stand.x;
    section.size.opening_height = section.size.head.at(x);
    section.size.unit_top = section.size.unit_bottom + section.size.unit_head.at(x - section.size.unit_left);
  }
  section.window = windowOf(section);
  return section;
}

/// Width of the longest word among the names of layers, which no line breaks.
double longestWord(Painter& painter, const practice::Words& words) {
  double most = 0;
  for (const std::string* name :
       {&words.lining, &words.membrane, &words.flashing, &words.cladding, &words.reveal, &words.fin, &words.lintel,
        &words.jamb_stud, &words.bearing_stud, &words.sill_trimmer, &words.packer}) {
    for (std::size_t from = 0; from < name->size();) {
      const std::size_t end = std::min(name->find(' ', from), name->size());
      most = std::max(most, painter.widthOf(name->substr(from, end - from)));
      from = end + 1;
    }
  }
  return most + 0.5;
}

/// Names beside the drawing, each on a leader to what it names.
void drawNames(const Section& section, const Box& room) {
  const Group group = section.painter.group("notes");
  const double left_edge = section.view.at(section.window.x0, 0).x;
  const double right_edge = section.view.at(section.window.x1, 0).x;
  NameColumn left{left_edge - 3.5, -1, left_edge - kBesideEdge - room.x0, {}};
  NameColumn right{right_edge + 3.5, 1, room.x1 - right_edge - kBesideEdge, {}};
  for (const Named& name : section.names) {
    const bool on_left = name.side ? *name.side < 0 : name.at.x < (left_edge + right_edge) / 2;
    (on_left ? left : right).names.push_back(&name);
  }
  // On the left the heading stands over the names.
  const double left_top = room.y0 + kHeading - 1.5;
  // A jamb's heading is long: leaders to the right run clear of it.
  const double right_top = section.level() ? left_top : room.y0;
  relieve(section.painter, right, left, room.y1 - right_top);
  relieve(section.painter, left, right, room.y1 - left_top);
  dropMinor(section.painter, left, room.y1 - left_top);
  dropMinor(section.painter, right, room.y1 - right_top);
  drawColumn(section.painter, left, left_top, room.y1);
  drawColumn(section.painter, right, right_top, room.y1);
}

}  // namespace

Scale sectionScale(Book& book, std::size_t index) {
  static const std::array<Scale, 3> kScales{{{1 / 5.0, "1:5"}, {1 / 7.5, "1:7.5"}, {1 / 10.0, "1:10"}}};
  const double word = longestWord(book.painter(), book.subject.practice.words);
  for (const Scale& scale : kScales) {
    const bool room = std::all_of(kDetails.begin(), kDetails.end(), [&](Detail detail) {
      const Section section = sectionOf(book, index, detail);
      return (kSectionWide - section.window.width() * scale.per_mm) / 2 - kBesideEdge >= word;
    });
    if (room) return scale;
  }
  return kScales.back();
}

static void drawIn(Section& section, const std::string& words, const Box& room, const Scale& scale) {
  const double wide = section.window.width() * scale.per_mm;
  const double high = section.window.height() * scale.per_mm;
  const Vec origin{room.middle().x - wide / 2 - section.window.x0 * scale.per_mm,
                   room.y0 + kHeading + high + section.window.y0 * scale.per_mm};
  section.view = {scale.per_mm, origin};
  static constexpr std::array kGroups{"head section", "jamb section", "sill section", "joint section", "joint section"};
  const Group group = section.painter.group(kGroups[static_cast<std::size_t>(section.detail)]);
  drawHeading(section, words, room, scale);
  drawFromScene(section, false);
  drawThinSheets(section);
  drawFromScene(section, true);
  drawSealing(section);
  drawBreaks(section);
  drawCaptions(section);
  drawNames(section, room);
}

void drawSection(Book& book, std::size_t index, Detail detail, const Box& room, const Scale& scale) {
  static constexpr std::array<const char*, 3> kWords{"Head", "Left jamb from above, outside below", "Sill"};
  Section section = sectionOf(book, index, detail);
  const auto& planned = section.planned;
  const double along = section.level() ? cutAlong(planned, plan::Side::Left, planned.unit.lengthOf(plan::Side::Left))
                                       : cutAlong(planned, plan::Side::Sill, planned.unit.width);
  section.cut_at = along + (section.level() ? planned.stand.z : planned.stand.x);
  std::string words = kWords[static_cast<std::size_t>(detail)];
  if (section.opening.head && detail == Detail::Head) {  // elsewhere it is higher or lower
    words += ", cut " + figure(std::round(section.cut_at), section.display()) + " from the left";
  }
  drawIn(section, words, room, scale);
}

void drawSection(Book& book, std::size_t index, const Joint& joint, const Box& room, const Scale& scale) {
  Section section = sectionOf(book, index, joint.detail);
  section.window = windowOf(section, joint);
  section.cut_at = joint.cut + (section.level() ? section.planned.stand.z : section.planned.stand.x);
  drawIn(section, joint.name, room, scale);
}

}  // namespace sillwright::sheet
