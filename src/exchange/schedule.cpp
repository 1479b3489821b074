#include "exchange/schedule.h"

#include <map>
#include <set>
#include <sstream>

#include "document/edits.h"
#include "exchange/office/schedule_fields.h"
#include "job/rewrite.h"
#include "plan/panes.h"
#include "words/text.h"

namespace sillwright::exchange {
namespace {

constexpr double kBetween = 300;      // openings set side by side, mm; common practice, no source
constexpr double kMostOfOne = 1'000;  // openings of one row

class ScheduleReader : ScheduleFields {
 public:
  ScheduleReader(const Grid& grid, ScheduleFor target) : ScheduleFields(grid, std::move(target)) {
    if (target_.job == nullptr) return;  // for a new job all names are free
    for (const auto& wall : target_.job->walls) known_walls_.push_back(wall.name);
    for (const auto& opening : target_.job->openings) names_.insert(opening.name);
  }

  ScheduleReading run() {
    ScheduleReading reading;
    reading.heading = headingOf(grid_, officeWords().columns, target_.map);  // a person sees it though rows are wrong
    if (!reading.heading) {
      fail({}, {}, "no header row: no row names two columns or more");
    } else {
      heading_ = *reading.heading;
      reading.samples = samples();
      if (checkHeading()) {  // a heading that is wrong makes every row wrong
        readRows();
        checkAnswers();  // reading the rows marks the answers that fit something
        tellTaken();
      }
    }
    std::stable_sort(errors_.begin(), errors_.end(), [](const base::Error& a, const base::Error& b) {
      return std::pair(a.at.line, a.at.column) < std::pair(b.at.line, b.at.column);
    });
    if (errors_.empty()) reading.schedule.value = std::move(schedule_);
    reading.schedule.errors = std::move(errors_);
    return reading;
  }

 private:
  static constexpr std::size_t kMostNotes = 50;  // of more nobody reads any

  void note(std::string say) {
    const std::size_t told = schedule_.notes.size();
    if (told == kMostNotes) say = "more is passed over than is told here";
    if (told <= kMostNotes) schedule_.notes.push_back(std::move(say));
  }

  std::vector<std::string> samples() const {
    std::vector<std::string> texts(heading_.columns.size());
    for (std::size_t row = heading_.row + 1; row < rows_.size(); ++row) {
      if (rows_[row].size() < 2) continue;  // a title between rows
      for (std::size_t i = 0; i < std::min(texts.size(), rows_[row].size()); ++i) {
        if (texts[i].empty()) texts[i] = saidIn(rows_[row][i].text);
      }
    }
    return texts;
  }

  /// What no row tells, and what was taken in its place.
  void tellTaken() {
    const auto tell = [&](bool taken, std::string say) {
      if (taken) schedule_.taken.push_back(std::move(say));
    };
    const std::string openings = words::count(set_beside_, "opening");
    const std::string by_gaps = words::count(by_gaps_, "row"), alike = words::count(alike_, "row");
    tell(set_beside_ > 0, "no place is told for " + openings + ": side by side, to be moved");
    tell(by_gaps_ > 0, "one size is told in " + by_gaps + ": the other follows by the usual gaps of the rule set");
    tell(hand_by_letter_, "hands are taken as seen from outside");
    tell(panels_by_letter_, "letters of panels are taken as seen from outside");
    tell(alike_ > 0, "sizes of lights are not told in " + alike + ": they share the unit alike");
  }

  // Rows.

  void readRows() {
    bool any = false;
    for (row_ = heading_.row + 1; row_ < rows_.size(); ++row_) {
      if (rows_[row_].empty() || isHeadingAgain()) continue;
      if (saysNothing()) {
        note(rowWords() + " is passed over, it has no size: " + base::quote(firstSaid()));
        continue;
      }
      any = true;
      readOpening();
      if (schedule_.openings.size() > job::kMostOpenings) {  // asked here: one row may add a thousand
        fail({}, {}, "too many openings: a job has at most " + std::to_string(job::kMostOpenings));
        return;
      }
    }
    if (schedule_.openings.empty() && errors_.empty())
      fail({}, {}, std::string("no openings: there is no row below the header") + (any ? " but of quantity 0" : ""));
    for (const Column& column : heading_.columns) {
      if (column.ours.empty() && !column.heading.empty())
        note("column " + base::quote(column.heading) + " is passed over");
    }
  }

  [[nodiscard]] std::string firstSaid() const {
    std::string said;
    for (std::size_t i = 0; i < rows_[row_].size() && said.empty(); ++i) said = saidIn(rows_[row_][i].text);
    return said;
  }

  /// A page's header once more.
  [[nodiscard]] bool isHeadingAgain() const {
    const CsvRow& row = rows_[row_];
    const CsvRow& head = rows_[heading_.row];
    return row.size() == head.size() && std::equal(row.begin(), row.end(), head.begin(),
                                                   [](const auto& a, const auto& b) { return a.text == b.text; });
  }

  /// A title between rows, a total, a remark.
  [[nodiscard]] bool saysNothing() const {
    const auto said = [&](std::string_view name) {
      const CsvField* field = fieldOf(name);
      return field != nullptr && !saidIn(field->text).empty();
    };
    return !(said(order::kKind) && said(order::kOpening)) && std::none_of(std::begin(kPlaces), std::end(kPlaces), said);
  }

  void readOpening() {
    const std::size_t width = rows_[heading_.row].size();
    if (rows_[row_].size() > std::max(width, heading_.columns.size())) {  // one comma too many shifts what follows
      fail(rows_[row_][heading_.columns.size()].at, rowWords(),
           "has " + std::to_string(rows_[row_].size()) + " fields, the header " + std::to_string(width));
    }
    const std::size_t count = quantity();
    if (count == 0) return;
    if (!textOf(order::kCoupledTo).empty()) return readCoupled();  // it is no opening
    job::Opening opening;
    opening.wall = wallIndex(name(order::kWall, nameOf(order::kWall)));
    readPlace(opening, count);
    readRoom(opening);
    readUnit(opening.unit);
    readSizes(opening);
    checkLights(opening.unit);            // the lights must have room in the sizes
    opening.sill = sill(opening.height);  // a head less the height tells the sill
    opening.place = rows_[row_].front().at;
    for (const std::string& one : namesIn(nameOf(order::kOpening), count)) put(opening, name(order::kOpening, one));
  }

  void put(job::Opening opening, const std::string& as) {
    opening.name = as;
    if (!as.empty() && !names_.insert(as).second) {  // an empty name was told
      failAt(order::kOpening,
             "a second opening named " + base::quote(as) + (target_.job != nullptr ? ", here or in the job" : ""));
    }
    if (!placed_) opening.left = besideOthers(opening);  // each of a row's openings goes beside the last
    schedule_.openings.push_back(std::move(opening));
  }

  std::size_t quantity() {
    const double count = number(order::kQuantity, job::whole(0, kMostOfOne), false).value_or(1);
    if (count == 0) note(rowWords() + " is passed over, its quantity is 0");
    return static_cast<std::size_t>(count);
  }

  void readPlace(job::Opening& opening, std::size_t count) {
    placed_ = !textOf(order::kLeft).empty() || !target_.side_by_side;
    if (!placed_) return;
    if (count > 1)
      failAt(order::kQuantity, std::to_string(count) + " openings can't stand at one place: give each its row");
    opening.left = number(order::kLeft, holdsOf<job::Opening>("left"), true).value_or(0);
  }

  /// To the right of the last opening on its wall, of the job or of this schedule.
  double besideOthers(const job::Opening& opening) {
    auto [at, fresh] = wall_ends_.emplace(opening.wall, 0.0);
    if (fresh && target_.job != nullptr) {  // the first on its wall goes beside the job's own
      for (const job::Opening& other : target_.job->openings) {
        if (target_.job->walls[other.wall].name == schedule_.walls[opening.wall])
          at->second = std::max(at->second, other.left + other.width);
      }
    }
    const double left = std::min(at->second + kBetween, job::kLongestWall);  // the check tells what is past its end
    at->second = left + opening.width;
    ++set_beside_;
    return left;
  }

  void readRoom(job::Opening& opening) {
    const std::string text = textOf(order::kRoom);
    if (text.empty()) return;
    const std::string meant = ours(text, officeWords().rooms);
    opening.room = oneOf<job::Room>(job::kRoomWords, meant);
    if (plainWords(text) == meant && opening.room) return;           // our own word needs no tag
    opening.tag = line(order::kRoom, holdsOf<job::Opening>("tag"));  // the text tells more than the kind: "Bed 2"
    if (!opening.room) note(rowWords() + ": " + base::quote(text) + " is no kind of room; it is the opening's tag");
  }

  /// The one that isn't told follows from the other.
  void readSizes(job::Opening& opening) {
    const std::size_t mistakes = errors_.size();
    const auto framed_width = number(order::kFramedWidth, holdsOf<job::Opening>("width"), false);
    const auto framed_height = number(order::kFramedHeight, holdsOf<job::Opening>("height"), false);
    const auto unit_width = number(order::kUnitWidth, holdsOf<job::Unit>("width"), false);
    const auto unit_height = number(order::kUnitHeight, holdsOf<job::Unit>("height"), false);
    needSizes(order::kFramedWidth, order::kUnitWidth);
    needSizes(order::kFramedHeight, order::kUnitHeight);
    opening.width = opening.unit.width = framed_width.value_or(unit_width.value_or(0));
    opening.height = opening.unit.height = framed_height.value_or(unit_height.value_or(0));
    if (target_.practice != nullptr) {  // without one needSizes asked for both sizes
      job::Opening from_unit = opening;
      from_unit.unit.width = unit_width.value_or(opening.width);
      from_unit.unit.height = unit_height.value_or(opening.height);
      document::sizeOpening(from_unit, *target_.practice);
      opening.width = framed_width.value_or(from_unit.width);
      opening.height = framed_height.value_or(from_unit.height);
      document::sizeUnit(opening, *target_.practice);
      by_gaps_ += framed_width && framed_height && unit_width && unit_height ? 0 : 1;
    }
    opening.unit.width = unit_width.value_or(opening.unit.width);  // the gaps change nothing that was told
    opening.unit.height = unit_height.value_or(opening.unit.height);
    if (errors_.size() == mistakes) checkFollowing(opening);  // where a size is missing a stand-in was taken
  }

  /// A size at its bound may have another beyond it.
  void checkFollowing(const job::Opening& opening) {
    const job::Holds& bounds = holdsOf<job::Unit>("width");
    for (const double size : {opening.width, opening.height, opening.unit.width, opening.unit.height}) {
      if (size >= bounds.from && size <= bounds.to) continue;
      fail(rows_[row_].front().at, rowWords(),
           "the other size follows as " + job::toText(size) + " mm; must be " + job::describe(bounds));
    }
  }

  /// Both sizes are needed, or one from which the other follows.
  void needSizes(const char* framed, const char* unit) {
    const auto said = [&](std::string_view name) {
      const Told it = told(name);
      return it.by != name || !it.text.empty();
    };
    const bool follows = target_.practice != nullptr;  // the usual gaps make one size of the other
    if (follows && (said(framed) || said(unit))) return;
    for (const char* name : {framed, unit}) {
      if ((!follows || tells(name)) && !said(name))
        failAt(name, "empty; must be " + job::describe(holdsOf<job::Unit>("width")));
    }
  }

  double sill(double height) {
    const job::Holds& holds = holdsOf<job::Opening>("sill");
    if (!textOf(order::kSill).empty() || textOf(column::kHead).empty())  // where both are told the sill counts
      return number(order::kSill, holds, true).value_or(0);
    const double below = number(column::kHead, holds, true).value_or(0) - height;
    if (below < holds.from)
      failAt(column::kHead, "the sill follows as " + job::toText(below) + " mm; must be " + job::describe(holds));
    return below;
  }

  /// A part that is made apart, joined to the unit of a row above: "W1, right".
  void readCoupled() {
    const std::string text = nameOf(order::kCoupledTo);
    for (job::Opening& to : schedule_.openings) {  // a part must stand below the row that it is joined to
      const bool over = text == to.name + ", over";
      if (!over && text != to.name + ", right") continue;
      job::Unit part, &unit = to.unit;
      readUnit(part);
      const auto own = number(over ? order::kUnitHeight : order::kUnitWidth, holdsOf<job::Unit>("width"), true);
      (over ? unit.height : unit.width) += own.value_or(0);  // a unit's size is that of all its parts
      if (part.glass && part.glass != unit.glass)
        note(rowWords() + ": the glass of a coupled part is told in the job, as that of its light");
      unit.coupled.push_back({part.kind, over ? job::CoupledAt::Over : job::CoupledAt::Right, over ? std::nullopt : own,
                              over ? own : std::nullopt, part.mass_kg});
      return checkLights(unit);  // the unit has grown, its lights with it
    }
    failAt(order::kCoupledTo,
           "must be an opening of a row above, right or over, as \"W1, right\"; found " + base::quote(text));
  }

  /// Its kind, and how it is divided: either may stand in the other's column.
  void readKind(job::Unit& unit) {
    bool any = false;
    for (const char* column : {order::kKind, order::kLights}) {
      const std::string text = textOf(column);
      const std::string meant = column == order::kKind ? ours(text, officeWords().kinds) : std::string{};
      if (const auto kind = oneOf<job::UnitKind>(job::kKindWords, meant)) {
        unit.kind = *kind;
        any = true;
        continue;
      }
      if (text.empty() && (column == order::kLights || !textOf(order::kLights).empty())) continue;
      const std::string* answer = answerFor(text);  // a person's answer stands in for the text
      const LightsSaid said = lightsIn(answer != nullptr ? *answer : text);
      const bool asks = said.asks.ends_with('?') || (column == order::kLights && !said.asks.empty());
      if (asks) return failAt(column, base::quote(text) + ": " + said.asks);
      if ((!said.kind || !said.asks.empty()) && column == order::kKind)  // a list of our kinds helps more
        return failWord(column, text, meant, job::kKindWords);
      if (said.kind && !any) unit.kind = *said.kind;  // a kind from its own column stands
      any = any || said.kind;
      if (!said.lights.empty()) unit.lights = said.lights;
      if (said.rows > 1) unit.rows.assign(said.rows, 0);
      if (said.panels) unit.panels = said.panels;
      if (!said.configuration.empty()) unit.configuration = said.configuration;
      panels_by_letter_ = panels_by_letter_ || unit.configuration;  // told: some count them from inside
    }
    if (!any) return failWord(order::kKind, textOf(order::kKind), {}, job::kKindWords);
    readLightSizes(unit);
    // The panels of other kinds are told by their letters; two of what slides go without saying.
    const auto isCounted = [](auto kind_or_light) {
      const auto kind = static_cast<job::UnitKind>(kind_or_light);
      return kind == job::UnitKind::StackingDoor || kind == job::UnitKind::FoldingDoor;
    };
    const bool counted = isCounted(unit.kind) || std::any_of(unit.lights.begin(), unit.lights.end(), isCounted);
    if (!unit.panels || counted || unit.configuration) return;
    if (!plan::panelsMeet(unit.kind) || unit.panels != 2)
      failAt(order::kLights, std::to_string(*unit.panels) + " panels: which of them slide? As \"OXXO\"");
    unit.panels.reset();  // two that slide are what the kind has anyway
  }

  /// Told once the unit's sizes are.
  void checkLights(const job::Unit& unit) {
    if (std::string fault = plan::lightsFault(unit); !fault.empty()) failAt(order::kLights, std::move(fault));
  }

  void readLightSizes(job::Unit& unit) {
    bool told = false;
    for (const auto& [column, sizes] :
         {std::pair(order::kColumns, &unit.columns), std::pair(order::kRows, &unit.rows)}) {
      const std::string text = textOf(column);
      if (text.empty()) continue;
      told = true;
      sizes->clear();
      std::istringstream in(text);
      for (std::string one; std::getline(in, one, '|');) {
        const auto size = lengthIn(one, writtenIn(column));
        if (!size || *size < 0)
          return failAt(column, "must be lengths with | between them, found " + base::quote(text));
        sizes->push_back(*size);
      }
    }
    alike_ += unit.lights.empty() || told ? 0 : 1;  // told to the person: they share the unit alike
  }

  void readUnit(job::Unit& unit) {
    readKind(unit);
    unit.opens = word<job::Way>(order::kOpens, job::kWayWords, false);
    unit.hand = word<job::Hand>(order::kHand, job::kHandWords, false, officeWords().hands);
    hand_by_letter_ = hand_by_letter_ || (unit.hand && !isAmong(plainWords(textOf(order::kHand)), job::kHandWords));
    unit.flashing = word<job::Flashing>(order::kFlashing, job::kFlashingWords, false);
    if (const auto frame = pair<job::FrameSection>(order::kFrameDepth, "depth", order::kFrameFace, "face"))
      unit.frame = {(*frame)[0], (*frame)[1]};
    if (const auto reveal = pair<job::Reveal>(order::kRevealThickness, "thickness", order::kRevealDepth, "depth"))
      unit.reveal = {(*reveal)[0], (*reveal)[1]};
    unit.fin = number(order::kFin, holdsOf<job::Unit>("fin"), false);
    unit.colour = line(order::kColour, holdsOf<job::Unit>("colour"));
    unit.screens = yesOrNo(order::kScreens);
    unit.notes = line(order::kNotes, holdsOf<job::Unit>("notes"));
    readGlass(unit);
    // A mass that was worked out is the order list's, not the job's.
    const std::string from = textOf(order::kMassFrom);
    if (from.empty() || from == takeoff::kStated) readMass(unit);
  }

  void readMass(job::Unit& unit) {
    const bool pounds = target_.practice != nullptr && target_.practice->display != practice::Display::Millimetres;
    if (pounds && !textOf(order::kMass).empty()) failAt(order::kMass, "kg or lb? the heading has to say it");
    const job::Holds holds = holdsOf<job::Unit>("mass");
    unit.mass_kg = number(column::kKilograms, holds, false);  // this heading names the unit itself
    if (!unit.mass_kg) unit.mass_kg = number(order::kMass, holds, false);
    const auto lb = number(column::kPounds, job::number(holds.from, 2 * holds.to, "lb"), false);
    if (lb) unit.mass_kg = std::max(holds.from, std::round(*lb * practice::kPound * 100) / 100);
  }

  void readGlass(job::Unit& unit) {
    const std::string text = textOf(order::kGlass);
    const bool figure = text.empty() || lengthIn(text, writtenIn(order::kGlass)).has_value();
    if (!figure) return readGlassWords(unit, text);
    const auto safety = yesOrNo(order::kSafetyGlass);
    const auto obscure = yesOrNo(order::kObscure);
    if (const auto two = pair<job::Glass>(order::kGlass, "thickness", order::kPanes, "panes")) {
      unit.glass = job::Glass{(*two)[0], static_cast<int>((*two)[1]), safety, obscure};
    } else if (safety || obscure) {
      failAt(safety ? order::kSafetyGlass : order::kObscure,
             "the glass itself is not named: glass thickness and glass panes are empty");
    }
  }

  /// Glass in an office's words. What they don't tell fully is left to the rule set, and the words stay as a note.
  void readGlassWords(job::Unit& unit, const std::string& text) {
    const GlassWords words = glassIn(text, grid_.decimal_comma);
    const job::Holds& thickness = holdsOf<job::Glass>("thickness");
    auto panes = words.panes;  // their own column counts more than the words
    if (const auto told = number(order::kPanes, holdsOf<job::Glass>("panes"), false)) panes = static_cast<int>(*told);
    if (words.thickness && panes && *words.thickness >= thickness.from && *words.thickness <= thickness.to) {
      unit.glass = job::Glass{*words.thickness, *panes, yesOrNo(order::kSafetyGlass), yesOrNo(order::kObscure)};
      if (words.safety) unit.glass->safety = true;
      if (words.obscure) unit.glass->obscure = true;
    } else {
      note(rowWords() + ": " + base::quote(text) + " doesn't tell thickness and panes; it is kept as the unit's note");
    }
    const std::string all = unit.notes ? *unit.notes + "; glass: " + text : "glass: " + text;
    if (static_cast<double>(base::countCharacters(all)) > holdsOf<job::Unit>("notes").to) {
      failAt(order::kGlass, "the words are too long to be kept with the unit's notes");
    }
    unit.notes = all;  // whoever orders the glass needs the words, understood or not
  }

  std::size_t wallIndex(std::string wall) {
    if (target_.job != nullptr && !wall.empty() && !isAmong(wall, known_walls_)) {
      const auto same = std::find_if(known_walls_.begin(), known_walls_.end(),
                                     [&](std::string_view known) { return plainWords(known) == plainWords(wall); });
      const auto meant = base::nearest(wall, known_walls_);
      const std::string ask = meant.empty() ? "" : "; did you mean " + base::quote(meant) + "?";
      if (same != known_walls_.end())  // "North" can only be "north"
        wall = *same;
      else
        failAt(order::kWall, "the job has no wall " + base::quote(wall) + ask);
    }
    const auto [at, fresh] = wall_index_.emplace(wall, schedule_.walls.size());  // walls are numbered as they come
    if (fresh) schedule_.walls.push_back(wall);
    return at->second;
  }

  Schedule schedule_;
  std::vector<std::string_view> known_walls_;
  bool placed_ = true;           // the row's opening: its place is told
  long set_beside_ = 0;          // openings whose place was not told
  bool hand_by_letter_ = false;  // "LH" is said by some as seen from inside
  bool panels_by_letter_ = false;
  long alike_ = 0;    // rows that don't tell the sizes of their lights
  long by_gaps_ = 0;  // rows of which a size follows by the usual gaps
  std::map<std::string, std::size_t> wall_index_;
  std::map<std::size_t, double> wall_ends_;
  std::set<std::string> names_;
};

}  // namespace

std::string describeColumns() {
  std::vector<std::string_view> columns;
  for (const Term& term : officeWords().columns) {
    if (term.asks.empty() && !isListed(term.ours, officeWords().passed_over)) columns.push_back(term.ours);
  }
  return "Columns, in any order, under these or other usual names: " + base::joined(columns) +
         ". Needed are opening, kind, left, sill or head, and the size of the unit or of the framed opening; a wall "
         "where none is named for all. Lengths in mm unless heading or figure names a unit; safety glass yes or no.";
}

CountNames scheduleNames(const std::vector<Answer>& map) { return namesOf(officeWords().columns, map); }

ScheduleReading readSchedule(const Grid& grid, ScheduleFor target) {
  return ScheduleReader(grid, std::move(target)).run();
}

std::string openingsToml(const Schedule& schedule) {
  std::string out;
  for (const std::string& taken : schedule.taken) out += "# In the schedule " + taken + ".\n";
  for (const job::Opening& opening : schedule.openings) {
    out += (out.empty() ? "" : "\n") + job::write(opening, schedule.walls[opening.wall]);
  }
  return out;
}

}  // namespace sillwright::exchange
