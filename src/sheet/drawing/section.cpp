#include "sheet/drawing/section.h"

#include <cmath>

#include "plan/panes.h"
#include "sheet/paper/dimension.h"

namespace sillwright::sheet {
namespace {

constexpr double kAbove = 110, kGlass = 125;  // of the wall shown past the opening's edge, and of the unit, mm
constexpr double kFloor = 30;                 // under a sill that stands on the floor
constexpr double kHeading = 7;                // over the drawing, mm of paper
constexpr double kSectionWide = 88;           // of the room that a section with its names has, mm of paper
constexpr double kBesideEdge = 4.5;           // from what is drawn to its names

/// Whether a cut there would run along a mullion or a transom.
bool alongBar(const plan::UnitParts& parts, plan::Side side, double at) {
  for (std::size_t i = 0; i < parts.bar.size(); ++i) {
    const plan::UnitRect& bar = parts.bar[i];
    const bool mullion = i < parts.mullions;
    if (mullion != plan::isLevel(side)) continue;  // a level side is cut upright, along mullions
    if (mullion ? at >= bar.x0 && at <= bar.x1 : at >= bar.z0 && at <= bar.z1) return true;
  }
  return false;
}

/// The packer to cut through: one beside no mullion or transom, nearest to a share of the side.
double cutAlong(const plan::OpeningPlan& planned, plan::Side side, double share) {
  const plan::UnitParts parts = plan::partsOf(planned.unit);
  const double wanted = planned.unit.lengthOf(side) * share;
  std::optional<double> best;
  for (const auto& point : planned.packing.points) {
    if (point.side != side || alongBar(parts, side, point.at)) continue;
    if (!best || std::abs(point.at - wanted) < std::abs(*best - wanted)) best = point.at;
  }
  return best.value_or(wanted);  // there are bars beside all packers, or no packers
}

/// How far in and out, or of a level section how far along the wall, it goes on; of a joint the frame's depth with a
/// little round it.
Box windowOf(const Section& section) {
  const auto& spec = section.wall;
  const plan::UnitSpec& unit = section.planned.unit;
  const plan::Stand& stand = section.planned.stand;
  if (section.is(Detail::Upright) || section.is(Detail::Across)) {
    const double out = unit.stands - 14, in = unit.stands + unit.frame.depth + 14;  // the frame, and 14 mm round it
    const double at = section.cut.joint + (section.level() ? stand.x : stand.z);
    return section.level() ? Box{at - kAbove, out, at + kAbove, in} : Box{out, at - kAbove, in, at + kAbove};
  }
  // As far out as anything stands: boards with the head flashing's turn-down past them, or the frame.
  const double clad = spec.cladding.cavity + spec.cladding.thickness;
  const double out = -std::max({clad, section.size.head_reach, -unit.stands}) - 14;
  const double in = spec.depth() + 8;  // and a little of the room
  const double head = section.size.opening_height;
  if (section.is(Detail::Head)) return {out, head - kGlass, in, head + kAbove};
  if (section.is(Detail::Jamb)) return {-kAbove + 10, out, kGlass, in};  // level: along the wall first, then through it
  return {out, section.size.sill_flashing ? -kAbove : -kFloor, in, kGlass};  // under a floor nothing hangs
}

void drawHeading(const Section& section, const Box& room, const Scale& scale) {
  Painter& painter = section.painter;
  const Vec at{room.x0, room.y0 + kHeadingLetters.capitals};
  const std::string words = painter.fitted(section.cut.name, room.width() - 12, kHeadingLetters);
  painter.text({painter.text(at, words, kHeadingLetters).x1 + 3, at.y}, scale.name);
}

void drawCaptions(const Section& section) {
  if (section.is(Detail::Jamb)) return;  // its heading says it
  const Box shown = section.shown();
  const auto caption = [&](double x, const char* words, Align align) {
    section.painter.text({x, shown.y1 + 4.4}, words, {.align = align, .ink = grey(0.25)});
  };
  if (section.level()) return caption(shown.x0, "from above, outside below", Align::Left);
  // Beside each other under a drawing that is narrower than both.
  const double middle = shown.middle().x;
  caption(std::min(shown.x0, middle - section.painter.widthOf("outside") - 1), "outside", Align::Left);
  caption(std::max(shown.x1, middle + section.painter.widthOf("inside") + 1), "inside", Align::Right);
}

constexpr double kNameGap = 0.75;  // mm between two names

/// The names at one side of the drawing, from the top down.
struct NameColumn {
  Painter& painter;
  double edge = 0;   // where their leaders end
  double way = -1;   // from the drawing to them
  double width = 0;  // room for their words
  std::vector<const Named*> names{};

  [[nodiscard]] double heightOf(const Named& name) const { return painter.heightOf(name.words, width) + kNameGap; }
  [[nodiscard]] double height() const {
    double high = 0;
    for (const Named* name : names) high += heightOf(*name);
    return high;
  }
};

/// Moves the names nearest to the other side there, until this side has room for its own.
void relieve(NameColumn& full, NameColumn& other, double room) {
  while (full.names.size() > 1 && full.height() > room) {  // one name stays, however high it is
    const auto nearest = std::ranges::min_element(full.names, {}, [&](const Named* a) { return a->at.x * full.way; });
    other.names.push_back(*nearest);
    full.names.erase(nearest);
  }
}

/// Leaves out what any eye knows (bead, sash) where there is no room for all names at a side.
void dropMinor(NameColumn& column, double room) {
  for (auto at = column.names.begin(); at != column.names.end() && column.height() > room;) {
    at = (*at)->minor ? column.names.erase(at) : at + 1;
  }
}

void drawColumn(NameColumn& column, double top, double bottom) {
  std::ranges::sort(column.names, {}, [](const Named* name) { return name->at.y; });  // so that leaders don't cross
  std::vector<double> wanted, sizes;
  for (const Named* name : column.names) {
    wanted.push_back(name->at.y);
    sizes.push_back(column.heightOf(*name));
  }
  const auto places = spread(wanted, sizes, top, bottom);
  const Lettering how{.align = column.way < 0 ? Align::Right : Align::Left};
  const double left = column.way < 0 ? column.edge - 0.8 - column.width : column.edge + 0.8;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double level = places[i] - (sizes[i] - kNameGap - how.capitals * kLeading) / 2;  // of its first line
    drawLeader(column.painter, column.names[i]->at, {column.edge - column.way * 2.0, level}, {column.edge, level});
    column.painter.paragraph({left, level - how.capitals / 2}, column.width, column.names[i]->words, how);
  }
}

/// A section of an opening, nothing drawn of it yet.
Section sectionOf(Book& book, std::size_t index, const CutAt& at) {
  const Subject& subject = book.subject;
  const auto& opening = subject.job.openings[index];
  const auto& planned = subject.plan.openings[index];
  const auto& wall = subject.plan.walls[planned.wall].spec;
  Section section{
      book.painter(), subject,
      index,          at,
      opening,        planned,
      wall,           plan::skinSizes(subject.job, opening, wall, planned.unit, planned.stand, subject.practice)};
  if (opening.head && at.detail == Detail::Head) {  // as it is where it is cut
    section.size.opening_height = section.size.head.at(at.cut);
    section.size.unit_top = section.size.unit_bottom + section.size.unit_head.at(at.cut - section.size.unit_left);
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
    for (std::size_t from = 0, end = 0; end < name->size(); from = end + 1) {
      end = std::min(name->find(' ', from), name->size());
      most = std::max(most, painter.widthOf(name->substr(from, end - from)));
    }
  }
  return most + 0.5;  // a little more, so that it isn't broken
}

/// Names beside the drawing, each on a leader to what it names.
void drawNames(const Section& section, const Box& room) {
  const Group group = section.painter.group("notes");
  const double left_edge = section.view.at(section.window.x0, 0).x;
  const double right_edge = section.view.at(section.window.x1, 0).x;
  NameColumn left{section.painter, left_edge - 3.5, -1, left_edge - kBesideEdge - room.x0};
  NameColumn right{section.painter, right_edge + 3.5, 1, room.x1 - right_edge - kBesideEdge};
  for (const Named& name : section.names) {
    const bool on_left = name.side ? *name.side < 0 : name.at.x < (left_edge + right_edge) / 2;
    (on_left ? left : right).names.push_back(&name);
  }
  // On the left the heading stands over the names.
  const double left_top = room.y0 + kHeading - 1.5;
  // A jamb's heading is long: leaders to the right run clear of it.
  const double right_top = section.level() ? left_top : room.y0;
  relieve(right, left, room.y1 - right_top);
  relieve(left, right, room.y1 - left_top);
  dropMinor(left, room.y1 - left_top);  // what still has no room after both were relieved
  dropMinor(right, room.y1 - right_top);
  drawColumn(left, left_top, room.y1);
  drawColumn(right, right_top, room.y1);
}

}  // namespace

std::vector<CutAt> sectionsOf(const Subject& subject, std::size_t index) {
  const auto& planned = subject.plan.openings[index];
  constexpr double kShare = 0.3, kLeft = 0.1, kRight = 0.9;  // of a side, clear of its corners
  const bool raked = subject.job.openings[index].head.has_value();
  const auto across = [&](double share) { return cutAlong(planned, plan::Side::Sill, share) + planned.stand.x; };
  const auto headAt = [&](double cut) {  // elsewhere it is higher or lower
    const std::string where = raked ? ", cut " + subject.figure(std::round(cut)) + " from the left" : "";
    return CutAt{.name = "Head" + where, .detail = Detail::Head, .cut = cut};
  };
  std::vector<CutAt> all{headAt(across(raked ? kLeft : kShare)),
                         {.name = "Left jamb from above, outside below",
                          .detail = Detail::Jamb,
                          .cut = cutAlong(planned, plan::Side::Left, kShare) + planned.stand.z},
                         {.name = "Sill", .detail = Detail::Sill, .cut = across(kShare)}};
  if (raked) all.push_back(headAt(across(kRight)));
  for (CutAt& joint : jointsOf(planned.unit)) {
    joint.cut += joint.detail == Detail::Upright ? planned.stand.z : planned.stand.x;  // from the opening, not the unit
    all.push_back(std::move(joint));
  }
  return all;
}

Scale sectionScale(Book& book, std::size_t index) {
  static const std::array<Scale, 3> kScales{{{1 / 5.0, "1:5"}, {1 / 7.5, "1:7.5"}, {1 / 10.0, "1:10"}}};
  const double word = longestWord(book.painter(), book.subject.practice.words);
  const double wide = std::max(sectionOf(book, index, {.detail = Detail::Sill}).window.width(),
                               sectionOf(book, index, {.detail = Detail::Jamb}).window.width());
  const auto hasRoom = [&](const Scale& scale) {
    return (kSectionWide - wide * scale.per_mm) / 2 - kBesideEdge >= word;  // names stand at both of its sides
  };
  const auto* found = std::ranges::find_if(kScales, hasRoom);
  return found == kScales.end() ? kScales.back() : *found;
}

void drawSection(Book& book, std::size_t index, const CutAt& at, const Box& room, const Scale& scale) {
  if (book.counting()) return;
  Section section = sectionOf(book, index, at);
  const double wide = section.window.width() * scale.per_mm;
  const double high = section.window.height() * scale.per_mm;
  section.view = {scale.per_mm,
                  {room.middle().x - wide / 2 - section.window.x0 * scale.per_mm,
                   room.y0 + kHeading + high + section.window.y0 * scale.per_mm}};
  static constexpr std::array kGroups{"head section", "jamb section", "sill section", "joint section", "joint section"};
  const Group group = section.painter.group(kGroups[static_cast<std::size_t>(at.detail)]);
  drawHeading(section, room, scale);
  // Packers lie over the sheets that run under them; names come last, when all that has one has noted it.
  const std::vector<scene::CutFace> faces = cutFaces(section);
  drawFromScene(section, faces, false);
  drawThinSheets(section);
  drawFromScene(section, faces, true);
  drawSealing(section);
  drawBreaks(section);
  drawCaptions(section);
  drawNames(section, room);
}

}  // namespace sillwright::sheet
