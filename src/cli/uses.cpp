#include "cli/uses.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <random>
#include <tuple>

#include "base/in_parallel.h"
#include "check/judge.h"
#include "cli/text.h"
#include "exchange/check_json.h"
#include "plan/plan.h"
#include "scene/build/build.h"
#include "sheet/words.h"

namespace sillwright::cli {

namespace {

using practice::Listed;

// --- the house that figures are tried on: small, as all of it is planned again for each figure

constexpr std::array<double, 9> kWidths{600, 910, 1210, 1600, 1810, 2410, 3000, 4110, 4500};
constexpr std::array<double, 4> kHeights{590, 1210, 1560, 2060};
constexpr std::array<double, 7> kSills{30, 1200, 700, 450, 850, 1200, 30};
constexpr std::array<double, 4> kAboveGround{100, 1200, 2600, 2500};
constexpr double kWallLength = 60'000;
constexpr std::size_t kOpeningsInWall = 12;

/// Throws the same dice on every machine.
class Dice {
 public:
  explicit Dice(std::size_t seed) : next_(static_cast<std::uint32_t>(seed + 1)) {}
  template <class List>
  auto of(const List& list) {
    return list[next_() % std::size(list)];
  }
  template <class Enum>
  Enum word(std::size_t words) {
    return static_cast<Enum>(next_() % words);
  }
  bool oneIn(unsigned times) { return next_() % times == 0; }
  double upTo(unsigned most) { return static_cast<double>(next_() % (most + 1)); }

 private:
  std::minstd_rand next_;
};

job::Measured readings(const job::Opening& opening, Dice& dice) {
  const auto off = [&] { return dice.upTo(12) - 6; };
  const double diagonal = std::hypot(opening.width, opening.height);
  job::Measured read;
  for (auto& width : read.widths) width = opening.width + off() / 3;
  for (auto& height : read.heights) height = opening.height + off() / 3;
  for (auto& each : read.diagonals) each = diagonal + off() / 3;
  read.out_of_level = off() / 3;
  read.out_of_plumb = {off() / 3, off() / 3};
  read.out_of_plumb_in = {2 * off(), 2 * off()};
  read.by = dice.word<job::Instrument>(std::size(job::kInstrumentWords));
  return read;
}

job::Installed setReadings(const job::Unit& unit, Dice& dice) {
  job::Installed read;
  const double diagonal = std::hypot(unit.width, unit.height);
  read.diagonals = {diagonal, diagonal + dice.upTo(12)};
  read.out_of_level = dice.upTo(6);
  read.out_of_plumb = {dice.upTo(6), -dice.upTo(6)};
  return read;
}

void fillUnit(job::Unit& unit, Dice& dice) {
  if (dice.oneIn(2)) unit.reveal = job::Reveal{18, 100};
  if (dice.oneIn(3)) unit.fin = 30;
  if (dice.oneIn(2)) unit.glass = job::Glass{dice.of(std::array{3.0, 5.0, 6.0}), 1, false};
  if (dice.oneIn(2)) {
    const double kpa = dice.of(std::array{0.2, 1.2, 9.0});
    unit.label = job::Label{kpa, kpa, dice.of(std::array{0.05, 0.9}), 2.0};
  }
  if (dice.oneIn(4)) unit.mass_kg = dice.of(std::array{24.0, 45.0, 120.0});
  if (dice.oneIn(2)) unit.flashing = job::Flashing::OnWall;
  unit.screens = unit.flashing.has_value();
}

/// So light and small that one person lifts it, and high up.
void liftedByOne(job::Opening& opening) {
  opening.width = 350;
  opening.height = 620;
  opening.sill = 1200;
  opening.unit.kind = job::UnitKind::FixedWindow;
  opening.unit.width = 330;
  opening.unit.height = 600;
  opening.unit.mass_kg = 24;
  opening.unit.glass = job::Glass{6, 1, false};
}

job::Opening anOpening(std::size_t wall, std::size_t at) {
  const std::size_t number = wall * kOpeningsInWall + at;
  Dice dice(number);
  job::Opening opening;
  opening.wall = wall;
  opening.name = std::to_string(wall) + "." + std::to_string(at);
  opening.left = 250 + static_cast<double>(at) * kWallLength / kOpeningsInWall;
  auto& unit = opening.unit;
  constexpr std::size_t kCommonKinds = 6;  // in all walls but the last, which has the others
  const bool last = wall + 1 == kAboveGround.size();
  unit.kind = static_cast<job::UnitKind>(last ? (at + kCommonKinds) % std::size(job::kKindWords) : at % kCommonKinds);
  const bool door = job::isDoor(unit.kind);
  opening.width = kWidths[number % std::size(kWidths)];
  opening.height = door ? 2110 : dice.of(kHeights);
  opening.sill = door ? 0 : kSills[number % std::size(kSills)];
  unit.width = opening.width - dice.of(std::array{-8.0, 10.0, 20.0, 40.0, 70.0});
  unit.height = opening.height - dice.of(std::array{10.0, 20.0, 40.0});
  const std::size_t room = 5 * number % (std::size(job::kRoomWords) + 1);
  if (room < std::size(job::kRoomWords)) opening.room = static_cast<job::Room>(room);
  if (!dice.oneIn(4)) opening.outside = dice.word<job::Outside>(std::size(job::kOutsideWords));
  fillUnit(unit, dice);
  if (dice.oneIn(2)) opening.measured = readings(opening, dice);
  if (dice.oneIn(2)) opening.installed = setReadings(unit, dice);
  if (wall == 1 && at == 9) opening.existing = true;
  if (at == 3) liftedByOne(opening);
  if (at % 6 == 3) opening.left += kWallLength / kOpeningsInWall - opening.width - 150;  // beside the next one, a door
  return opening;
}

job::Wall aWall(std::size_t index) {
  Dice dice(index);
  job::Wall wall;
  wall.name = std::to_string(index);
  wall.length = kWallLength;
  const double top = index == 1 ? 2790 : 3600;
  wall.top = {{0, top}, {kWallLength, top}};
  wall.at_y = static_cast<double>(index / 2) * 2 * kWallLength;  // two walls meet at a corner
  wall.turn_degrees = index % 2 == 0 ? 0 : 90;
  if (index != 0) wall.cladding = job::Cladding{index >= 2 ? 110.0 : 16.0, index == 1 ? 0.0 : 45.0};
  if (index >= 2) wall.eave = job::Eave{2700, dice.of(std::array{300.0, 900.0})};
  wall.above_ground = kAboveGround[index];
  if (index == 3) wall.level = 2700;
  if (index != 1) wall.supports = job::Supports{dice.of(std::array{2000.0, 6000.0, 14'000.0}), 1.2};
  return wall;
}

job::Job probe(std::size_t walls) {
  job::Job job;
  for (std::size_t wall = 0; wall < walls; ++wall) {
    job.walls.push_back(aWall(wall));
    for (std::size_t i = 0; i < kOpeningsInWall; ++i) job.openings.push_back(anOpening(wall, i));
  }
  return job;
}

/// What of a practice the probe has to name for a figure to count: a class, a grade, a gauge, a header.
auto focusOf(const Listed& listed) {
  return std::tuple(listed.wind, listed.heat, listed.bushfire, listed.grade, listed.gauge, listed.span);
}

void focus(job::Job& job, const practice::Practice& practice, const Listed& listed) {
  const auto& classes = practice.strength.wind.classes;
  job.wind.reset();
  if (!classes.empty()) job.wind = classes[classes.size() / 2].name;
  if (!listed.wind.empty()) job.wind = std::string(listed.wind);
  const auto named = [](std::string_view name) {
    return name.empty() ? std::nullopt : std::optional(std::string(name));
  };
  job.heat = named(listed.heat);
  job.bushfire = named(listed.bushfire);
  for (auto& wall : job.walls) {
    wall.timber.reset();
    if (listed.grade != nullptr) wall.timber = listed.grade->name;
  }
  job.stock.reset();
  if (listed.gauge != nullptr) {
    auto& screws = job.stock.emplace().screws;
    for (const double length : listed.gauge->lengths)
      screws.push_back(listed.gauge->name + " x " + job::toText(length));
  }
  const auto* span = listed.span;
  for (auto& opening : job.openings) {
    opening.lintel.reset();
    if (span != nullptr) opening.lintel = job::Lintel{span->depth, span->thickness, span->plies};
  }
}

/// What else a figure may be.
std::vector<double> otherValues(const Listed& listed) {
  const double is = listed.figure->value;
  const bool whole = listed.holds.form == job::Form::WholeFigure;
  const std::vector<double> wished =
      whole ? std::vector{is + 1, is - 1, 4 * is, 1.0}
            : std::vector{0.5 * is, 2 * is, 1.04 * is, 10 * is, 0.1 * is, is + 5, is + 5000};
  std::vector<double> other;
  for (const double wish : wished) {
    const double value = std::clamp(wish, listed.holds.from, listed.holds.to);
    if (value != is) other.push_back(value);
  }
  return other;
}

// --- what comes of it

using Said = std::map<std::string, std::string>;

/// All that the findings say, by what they are about. What isn't judged and what is filled in uses no figure.
Said saidBy(const check::Findings& findings) {
  Said said;
  for (const auto* lists : {&findings.walls, &findings.openings}) {
    for (const auto& list : *lists) {
      for (const auto& finding : list) {
        if (finding.about == "not judged" || finding.about == "taken from the rule set") continue;
        said[finding.about] += finding.say + finding.remedy + job::toText(finding.measured.value_or(0)) + "|" +
                               job::toText(finding.limit.value_or(0)) + "\n";
      }
      for (auto& [about, text] : said) text += "\n";  // which opening says it counts too
    }
  }
  return said;
}

std::vector<std::string> differing(const Said& before, const Said& after) {
  std::vector<std::string> abouts;
  for (const auto& [about, text] : before) {
    const auto found = after.find(about);
    if (found == after.end() || found->second != text) abouts.push_back(about);
  }
  for (const auto& [about, text] : after) {
    if (before.find(about) == before.end()) abouts.push_back(about);
  }
  std::sort(abouts.begin(), abouts.end());
  return abouts;
}

constexpr std::array<const char*, 4> kElsewhere{"the plan", "the sheets", "the order of work", "the drawing"};

/// All that is made of the job in one of kElsewhere.
std::string madeIn(std::size_t place, const job::Job& job, const practice::Practice& practice) {
  std::string text;
  if (place == 0) {
    exchange::reportJob(job, practice, [&](std::string_view piece) { text += piece; }, {1});
    return text;
  }
  if (place == 1) return sheet::windWords(job, practice);  // the only figure that a sheet says and the plan doesn't
  if (place == 2) {
    const plan::Plan plan = plan::makePlan(job, practice, {1});
    for (std::size_t i = 0; i < job.openings.size(); ++i) text += stepsText(job, practice, plan, i, 1000);
    return text;
  }
  job::Job drawn = job;
  drawn.walls.front().cladding = job::Cladding{110, 45};  // of brick, which is drawn with sizes of its own
  for (const auto& solid : scene::build(drawn, practice, plan::makePlan(drawn, practice, {1}), {}).solids) {
    const auto* bytes = reinterpret_cast<const char*>(solid.corner.data());
    text.append(bytes, sizeof solid.corner);
  }
  return text;
}

/// What `make` gives where the figure has another value.
template <class Make>
auto with(const Listed& listed, double value, const Make& make) {
  const double is = std::exchange(listed.figure->value, value);
  auto made = make();
  listed.figure->value = is;
  return made;
}

/// Tries figures on a practice of its own.
class Trial {
 public:
  explicit Trial(const practice::Practice& practice) : practice_(practice), figures_(practice::figuresOf(practice_)) {}

  Use of(std::size_t index) {
    const Listed& listed = figures_[index];
    if (!focus_ || *focus_ != focusOf(listed)) {
      focus_ = focusOf(listed);
      focus(job_, practice_, listed);
      focus(less_, practice_, listed);
      said_ = judged();
      made_ = {};
    }
    const auto values = otherValues(listed);
    for (const double value : values) {
      auto abouts = differing(said_, with(listed, value, [&] { return judged(); }));
      if (!abouts.empty()) return {std::move(abouts), {}};
    }
    for (std::size_t place = 0; place < kElsewhere.size(); ++place) {
      auto& made = made_[place];
      if (!made) made = madeIn(place, less_, practice_);
      const auto differs = [&](double value) {
        return with(listed, value, [&] { return madeIn(place, less_, practice_); }) != *made;
      };
      if (std::any_of(values.begin(), values.end(), differs)) return {{}, kElsewhere[place]};
    }
    return {};
  }

 private:
  [[nodiscard]] Said judged() const {
    return saidBy(check::judge(job_, practice_, plan::makePlan(job_, practice_, {1}), {1}));
  }

  practice::Practice practice_;
  std::vector<Listed> figures_;
  job::Job job_ = probe(kAboveGround.size());
  job::Job less_ = probe(2);  ///< What isn't judged is in every opening's plan.
  std::optional<decltype(focusOf({}))> focus_;
  Said said_;
  std::array<std::optional<std::string>, kElsewhere.size()> made_;
};

}  // namespace

std::vector<Use> usesOf(const practice::Practice& practice) {
  practice::Practice copy = practice;
  std::vector<Use> uses(practice::figuresOf(copy).size());
  constexpr std::size_t kWorthATrial = 40;  // what they are compared with is made once a stretch
  base::inParallel(uses.size(), kWorthATrial, {}, [&](std::size_t first, std::size_t last) {
    Trial trial(practice);
    for (std::size_t i = first; i < last; ++i) uses[i] = trial.of(i);
  });
  return uses;
}

}  // namespace sillwright::cli
