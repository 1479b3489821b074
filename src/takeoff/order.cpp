#include "takeoff/order.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <iterator>
#include <optional>
#include <string_view>

#include "base/words.h"
#include "check/judge.h"
#include "plan/panes.h"
#include "practice/figure.h"
#include "words/text.h"

namespace sillwright::takeoff {
namespace {

/// Columns that a person at a screen doesn't look for in an order.
constexpr std::string_view kDetails[] = {
    column::kWall,       column::kLeft,      column::kSill,       column::kFramedWidth, column::kFramedHeight,
    column::kFrameDepth, column::kFrameFace, column::kFin,        column::kSafetyGlass, column::kMassFrom,
    column::kPeople,     column::kUnitWidth, column::kUnitHeight, column::kQuantity,    column::kSizesOf,
    column::kReveal,     column::kColumns,   column::kRows};

/// One row, cell by cell, with the columns noted at the first row.
class Row {
 public:
  explicit Row(Table& table) : table_(table), first_(table.rows.empty()) { table.rows.emplace_back(); }

  void text(const char* name, std::string value) {
    add({name, Holds::Text}, value.empty() ? Cell{} : Cell{std::move(value)});
  }
  void figure(Column column, std::optional<double> value) { add(std::move(column), value ? Cell{*value} : Cell{}); }
  void length(const char* name, std::optional<double> value, int decimals = 0) {
    figure({name, Holds::Length, decimals}, value);
  }
  void number(const char* name, std::optional<double> value, int decimals = 0) {
    figure({name, Holds::Number, decimals}, value);
  }

 private:
  void add(Column column, Cell cell) {
    column.detail = std::find(std::begin(kDetails), std::end(kDetails), column.name) != std::end(kDetails);
    if (first_) table_.columns.push_back(std::move(column));
    table_.rows.back().push_back(std::move(cell));
  }

  Table& table_;
  bool first_;
};

template <class Words, class Word>
std::string wordOf(const Words& words, const std::optional<Word>& word) {
  return word ? std::string(words[static_cast<std::size_t>(*word)]) : std::string{};
}

std::string yesOrNo(const std::optional<bool>& value) { return !value ? "" : *value ? "yes" : "no"; }

bool asksForSafetyGlass(const plan::UnitSpec& unit, const std::vector<check::Finding>& findings) {
  const auto asks = [](const check::Finding& finding) { return finding.about == "safety glass"; };
  return unit.glass.safety == true || std::any_of(findings.begin(), findings.end(), asks);
}

std::string basisOf(const plan::AsBuilt& as_built) {
  if (as_built.from == plan::ShapeFrom::Planned) return "planned size";
  if (as_built.from == plan::ShapeFrom::Mixed) return "partly measured";
  const plan::Trust trust = as_built.trust;
  if (trust == plan::Trust::Suspect || trust == plan::Trust::Disputed) return "measurements disagree";
  return trust == plan::Trust::Unchecked ? "measured, not checked" : "measured";
}

/// Rounds to so many parts of one, so that the file shows no digits that mean nothing.
double rounded(double value, double parts) { return std::round(value * parts) / parts; }

/// What a row orders: a unit, or one of the parts that are coupled to one.
struct Ordered {
  const job::Opening& opening;
  const plan::OpeningPlan& planned;
  plan::UnitSpec spec;
  std::size_t part = 0;  ///< 0: the unit itself.

  /// A figure of the opening, which stands in the unit's row alone.
  [[nodiscard]] std::optional<double> own(double value) const {
    return part == 0 ? std::optional(value) : std::nullopt;
  }
};

/// What follows from the opening's shape; empty where its measurements disagree: nothing is ordered by them. Coupled
/// parts keep their sizes across the joint, and the unit has what they leave.
void addFit(Row& row, const Ordered& at) {
  const plan::OpeningPlan& planned = at.planned;
  const bool trusted = check::shapeIsTrusted(planned.as_built);
  const auto& stand = planned.stand;
  const auto size = [&](double order, double whole, double part) {
    const bool own = at.part > 0 && part < whole;              // across a joint: a coupled part keeps its size
    const double ordered = own ? part : order - whole + part;  // the others keep theirs
    return trusted && order > 0 && ordered > 0 ? std::optional(rounded(ordered, 100)) : std::nullopt;
  };
  row.length("order width", size(stand.order[0], planned.unit.width, at.spec.width));
  row.length("order height", size(stand.order[1], planned.unit.height, at.spec.height));
  row.text("based on", basisOf(planned.as_built));
  row.length(column::kSpare, trusted ? std::optional(rounded(stand.spare, 10)) : std::nullopt, 1);
  row.figure({column::kChance, Holds::Share, 3}, trusted ? std::optional(rounded(stand.chance, 1e4)) : std::nullopt);
}

void addOpening(Row& row, const job::Job& job, const Ordered& at) {
  const job::Opening& opening = at.opening;
  row.text(column::kOpening, opening.name + (at.part == 0 ? "" : "-" + std::to_string(at.part + 1)));
  row.text(column::kWall, job.walls[opening.wall].name);
  row.text(column::kRoom, wordOf(job::kRoomWords, opening.room));
  row.length(column::kLeft, at.own(opening.left));
  row.length(column::kSill, at.own(opening.sill));
  row.length(column::kFramedWidth, at.own(opening.width));
  row.length(column::kFramedHeight, at.own(opening.height));
  row.text(column::kCoupledTo,
           at.part == 0 ? "" : opening.name + (at.planned.unit.coupled_over ? ", over" : ", right"));
}

/// Sizes of lights between the middles of mullions, "605 mm | 605 mm | 600 mm": finer than they are built, so that they
/// still come to the unit's.
std::string sizesText(const std::vector<double>& sizes, practice::Display display) {
  const bool inches = display == practice::Display::InchFractions;
  return base::joined(sizes, " | ", [&](double mm) {
    return inches ? words::number(mm / practice::kInch, 3) + " in" : words::number(mm, 2) + " mm";
  });
}

void addUnit(Row& row, const job::Unit& unit, const Ordered& at, practice::Display display) {
  const plan::UnitSpec& spec = at.spec;
  const bool coupled = !unit.coupled.empty();
  // A door among its lights, which the unit is judged by, is told there.
  row.text(column::kKind, words::nameOf(at.part == 0 ? unit.kind : spec.kind));
  row.text(column::kLights, plan::lightsWords(spec));
  row.text(column::kColumns, spec.columns.empty() ? "" : sizesText(plan::lightWidths(spec), display));
  row.text(column::kRows, spec.rows.empty() ? "" : sizesText(plan::lightHeights(spec), display));
  row.text(column::kOpens, wordOf(job::kWayWords, unit.opens));
  const bool at_end = coupled && spec.kind == job::UnitKind::CasementWindow;  // hung from the end, whatever is said
  row.text(column::kHand, wordOf(job::kHandWords, at_end ? std::optional(spec.hand) : unit.hand));
  row.number(column::kQuantity, 1);  // a row is of one opening
  row.text(column::kSizesOf, !spec.reveal ? "over the frame"
                             : coupled    ? "over the reveal, which runs round all parts"
                                          : "over the reveal");
  row.length(column::kUnitWidth, spec.width);
  row.length(column::kUnitHeight, spec.height);
  row.length(column::kFrameDepth, spec.frame.depth);
  row.length(column::kFrameFace, spec.frame.face);
  row.length(column::kRevealThickness, spec.reveal ? std::optional(spec.reveal->thickness) : std::nullopt);
  row.length(column::kRevealDepth, spec.reveal ? std::optional(spec.reveal->depth) : std::nullopt);
  row.length(column::kFin, spec.fin);
  row.length(column::kGlass, spec.glass.panes > 0 ? std::optional(spec.glass.thickness) : std::nullopt);
  row.number(column::kPanes, spec.glass.panes > 0 ? std::optional(double(spec.glass.panes)) : std::nullopt);
  row.text(column::kSafetyGlass, yesOrNo(spec.glass.safety));
  row.text(column::kObscure, yesOrNo(spec.glass.obscure));
  row.text(column::kFlashing, wordOf(job::kFlashingWords, unit.flashing));
  row.text(column::kColour, unit.colour.value_or(""));
  row.text(column::kScreens, yesOrNo(unit.screens));
  std::vector<std::string> notes;  // what no column of a schedule holds
  if (spec.sub_sill) {
    notes.push_back("on a sub-sill " + words::length(spec.sub_sill->height, display) + " high, " +
                    words::length(spec.sub_sill->depth, display) + " deep, which is in its height");
  }
  if (spec.head) {
    notes.push_back(words::size(spec, display) + ", heights from the left" +
                    (spec.head->peaked() ? ", peak at " + words::length(spec.head->peak_x, display) : std::string{}));
  }
  if (unit.notes) notes.push_back(*unit.notes);
  row.text(column::kNotes, base::joined(notes, "; "));
}

/// "ultimate 1.4 kPa, serviceability 0.8 kPa, rain 0.15 kPa": as far as the job's wind says it. Where the practice
/// works with allowable stress the label shows its design pressure alone.
std::string labelAsked(const job::Job& job, const plan::WindLoad& wind, const practice::Practice& practice) {
  const bool allowable = practice.strength.fixing_design.method == practice::Method::Allowable;
  std::vector<std::string> asked;
  const auto add = [&](const char* name, const std::optional<double>& kpa) {
    // Rounded up: a label that is a hair below what is asked doesn't do.
    if (kpa) asked.push_back(std::string(name) + " " + words::number(std::ceil(*kpa * 100 - 1e-6) / 100, 2) + " kPa");
  };
  const auto* name = job.wind ? std::get_if<std::string>(&*job.wind) : nullptr;
  const auto* named = name != nullptr ? practice.strength.wind.find(*name) : nullptr;
  const practice::Rule none;  // of a wind that has no class
  const practice::Rule& rating = named == nullptr   ? none
                                 : wind.near_corner ? named->corner_rating_kpa
                                                    : named->rating_kpa;
  if (!allowable) add("ultimate", rating ? std::optional(rating->value) : wind.ultimate_kpa);
  add(allowable ? "design pressure" : "serviceability", wind.serviceability_kpa);
  add("rain", wind.water_kpa);
  if (job.bushfire) asked.push_back(*job.bushfire);
  return base::joined(asked);
}

/// "maker's: 10g x 75 at most 450 mm apart, 100 mm from corners, at jambs and head".
std::string scheduleWords(const job::FixingSchedule& schedule, practice::Display display) {
  const auto length = [&](double mm) { return words::length(mm, display); };
  std::string said(job::kScheduleByWords[static_cast<std::size_t>(schedule.by)]);
  said += "'s: " + (schedule.screw ? *schedule.screw + " " : std::string{}) + "at most " + length(schedule.spacing) +
          " apart";
  if (schedule.from_corner) said += ", " + length(*schedule.from_corner) + " from corners";
  std::vector<std::string> sides;
  for (const job::FixedSide side : schedule.sides) sides.push_back(wordOf(job::kFixedSideWords, std::optional(side)));
  if (!sides.empty()) said += ", at " + words::listed(sides);
  if (schedule.through) said += ", through the " + wordOf(job::kFixedThroughWords, schedule.through);
  return said;
}

/// What the site and the practice ask of the unit, and how it comes to be fixed.
void addAsked(Row& row, const job::Job& job, const practice::Practice& practice, const Ordered& at) {
  const plan::OpeningPlan& planned = at.planned;
  const practice::HeatLimit* heat = practice.unit.heatFor(job.heat);
  // At most, W/m2K.
  row.number("u value asked", heat != nullptr ? std::optional(heat->u_value_most.value) : std::nullopt, 2);
  row.text("label asked", labelAsked(job, planned.wind, practice));
  row.text("glass by light", plan::glassByLight(at.spec, practice.display));
  row.text("coupled parts", at.part == 0 ? plan::partsWords(planned.unit, practice.display) : std::string{});
  const auto& schedule = planned.unit.fixing;
  row.text("fixing schedule", schedule ? scheduleWords(*schedule, practice.display) : std::string{});
}

/// Whose the lists are, so that a folder of files and a workbook say it.
Table jobTable(const job::Job& job) {
  Table table{"job", "The job", {{"key"}, {"value"}}};
  const auto add = [&](const char* key, const std::optional<std::string>& value) {
    if (value) table.rows.push_back({std::string(key), *value});
  };
  add("title", job.title);
  add("address", job.address);
  add("revision", job.revision);
  add("date", job.date ? std::optional(words::dateWords(*job.date)) : std::nullopt);
  add("by", job.by);
  add("notes", job.notes);
  return table;
}

Table notesOf(const std::vector<Table>& tables) {
  Table notes{"notes", "Notes", {{"list"}, {"note"}}};
  for (const Table& table : tables) {
    for (const std::string& note : table.notes) notes.rows.push_back({table.name, note});
  }
  return notes;
}

}  // namespace

Table orderList(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                const check::Findings& findings) {
  assert(plan.openings.size() == job.openings.size() && findings.openings.size() == job.openings.size());
  Table table{"order list", "Units to order", {}};
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    const job::Opening& opening = job.openings[i];
    const plan::OpeningPlan& planned = plan.openings[i];
    const plan::UnitMass& mass = planned.mass;
    Ordered at{opening, planned, {}};
    for (plan::UnitSpec& spec : plan::madeSpecs(planned.unit)) {
      at.spec = std::move(spec);
      Row row(table);  // the first one names the columns
      addOpening(row, job, at);
      const check::Finding* stop = check::holdOf(findings, i);  // none: it may be ordered
      row.text("to order", stop != nullptr ? "HOLD: " + stop->say : std::string{});
      addUnit(row, opening.unit, at, practice.display);
      const bool stated =
          at.part == 0 ? mass.stated && planned.unit.coupled == 0 : planned.unit.coupled_kg[at.part - 1].has_value();
      const double kg = mass.parts_kg.empty() ? mass.total_kg : mass.parts_kg[at.part];
      row.figure({column::kMass, Holds::Mass, 1}, stated ? kg : rounded(kg, 10));  // stated: as it was given
      row.text(column::kMassFrom, stated ? kStated : "calculated from sizes");
      row.text(column::kReveal, planned.unit.reveal ? "with" : "bare");
      row.text("safety glass asked", asksForSafetyGlass(at.spec, findings.openings[i]) ? "yes" : "no");
      addAsked(row, job, practice, at);
      addFit(row, at);
      row.text(column::kPeople,
               mass.parts_team.empty() ? plan::liftedBy(mass) : plan::liftedBy(mass.parts_team[at.part]));
      ++at.part;
    }
  }
  if (!table.rows.empty()) {
    table.notes = {
        "The order sizes are the unit's own where it fits, else the largest that leaves the usual gaps.",
        "What is held is not ordered before its cause is mended; where measurements disagree there is no size."};
  }
  return table;
}

std::vector<Table> allLists(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                            const check::Findings& findings, const TakeoffOptions& options) {
  std::vector<Table> tables{jobTable(job), orderList(job, practice, plan, findings)};
  std::vector<Table> taken = tablesOf(takeOff(job, practice, plan, options), job, practice);
  std::move(taken.begin(), taken.end(), std::back_inserter(tables));
  tables.push_back(notesOf(tables));  // last: it gathers from those before it
  return tables;
}

}  // namespace sillwright::takeoff
