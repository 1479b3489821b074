// Keeping the water out: where it gets in, laps and upstands against their least and against the water that the wind
// holds up, heads, corners, rolls, doors, and what the wind class requires of cladding and heads.

#include "check/rules.h"
#include "plan/weather/skin.h"
#include "plan/work/order_of_work.h"

namespace sillwright::check {
namespace {

plan::Side sideOf(const plan::Skin& skin, const plan::Leak& leak) {  // the one nearest to the leak
  if (leak.z >= skin.opening_height) return plan::Side::Head;
  if (leak.x_high <= 0) return plan::Side::Left;
  if (leak.x_low >= skin.opening_width) return plan::Side::Right;
  return leak.z <= skin.opening_height / 2 ? plan::Side::Sill : plan::Side::Head;  // within its width: the nearer
}

/// " At the left, 1060 mm above the sill."
std::string placeWords(const Bench& bench, const plan::Skin& skin, const plan::Leak& leak) {
  const bool above = leak.z >= 0;
  return std::string(" This is at the ") + toWord(sideOf(skin, leak)) + ", " + bench.len(std::abs(leak.z)) +
         (above ? " above" : " below") + " the sill.";
}

std::string leakRemedy(const plan::Skin& skin, const plan::Leak& leak) {
  if (leak.lower < 0) return "Put a sheet behind it that carries the water out over the one below.";
  const auto name = [&](std::int32_t sheet) { return skin.sheets[static_cast<std::size_t>(sheet)].name; };
  if (leak.upper < 0) return "Seal the upper edge of the " + name(leak.lower) + ".";
  return "Lap the " + name(leak.upper) + " outside the " + name(leak.lower) + ".";
}

/// Whether the sill's flashing lies below the place, and so should have brought the water out.
bool aboveSillFlashing(const plan::Skin& skin, const plan::Leak& leak) {
  return std::any_of(skin.sheets.begin(), skin.sheets.end(), [&](const plan::Sheet& sheet) {
    if (sheet.kind != plan::SheetKind::SillFlashing) return false;
    const plan::Rect box = plan::boxOf(sheet);
    return leak.x_high > box.x0 && leak.x_low < box.x1 && leak.z >= box.z0;
  });
}

/// Leaks of one fault at several places are said once: of those `held`, which come out behind the cladding, only what
/// the sill's flashing should have had needs attention.
void judgeLeaks(Bench& bench, const std::vector<plan::Leak>& leaks, bool held) {
  const auto& skin = bench.planned().weather.skin;
  for (std::size_t i = 0; i < leaks.size(); ++i) {
    const plan::Leak& leak = leaks[i];
    const auto same = [&](const plan::Leak& before) { return before.say == leak.say; };
    if (std::any_of(leaks.begin(), leaks.begin() + static_cast<std::ptrdiff_t>(i), same)) continue;  // said already
    const bool lost = held && aboveSillFlashing(skin, leak);
    bench.add(!held  ? Severity::Stop
              : lost ? Severity::Attend
                     : Severity::Note,
              "water",
              leak.say + placeWords(bench, skin, leak) +
                  (lost ? " The sill's flashing should have brought it out." : std::string{}),
              {}, leakRemedy(skin, leak), sideOf(skin, leak));
  }
}

void judgeLaps(Bench& bench) {
  for (const auto& lap : bench.planned().weather.laps) {
    if (!lap.least || !below(lap.lap, *lap.least)) continue;  // it has no least, or laps enough
    const auto [laps, least] = bench.apart(lap.lap, *lap.least);
    bench.attend("lap", "The " + lap.upper + " laps the " + lap.lower + " by " + laps + "; the least is " + least + ".",
                 {lap.lap, *lap.least, "mm", lap.source},
                 "Cut the " + lap.upper + " longer by " + bench.len(*lap.least - lap.lap) + ".");
  }
}

void judgeMeasure(Bench& bench, const char* what, double value, const practice::Rule& least, plan::Side side) {
  if (!least || !below(value, least->value)) return;
  const auto [is, wanted] = bench.apart(value, least->value);
  bench.attend("flashing", std::string("The ") + what + " is " + is + "; the least is " + wanted + ".",
               {value, least->value, "mm", &*least}, "Cut it longer by " + bench.len(least->value - value) + ".", side);
}

/// Pieces past the opening, past the unit where the rule is about that; and the cladding over the head's upstand.
void judgeLengths(Bench& bench) {
  const auto& rules = bench.practice.weather;
  const auto& flashing = rules.flashing;
  for (const auto& piece : bench.planned().weather.pieces) {
    const double past = (piece.length - bench.opening().width) / 2;  // past each end
    if (piece.kind == plan::PieceKind::SillFlashing) {
      judgeMeasure(bench, "sill flashing past the opening at each end", past, flashing.sill_past.least, piece.side);
    }
    if (piece.kind != plan::PieceKind::HeadFlashing) continue;
    // In a slope it is cut as long as the practice has it past both ends.
    if (!bench.opening().head)
      judgeMeasure(bench, "head flashing past the opening at each end", past, flashing.head_past.least, piece.side);
    const double upstand = piece.folds.empty() ? 0 : piece.folds.front();  // the first fold goes up the wall
    judgeMeasure(bench, "cladding over the head flashing's upstand", upstand - rules.cladding.head_gap.value,
                 rules.cladding.over_upstand_least, piece.side);
  }
}

/// What stands between wind-held water and the inside, and its height or lap.
std::vector<std::pair<const char*, double>> barriers(const Bench& bench) {
  const auto& rules = bench.practice.weather;
  const auto& weather = bench.planned().weather;
  std::vector<std::pair<const char*, double>> all;
  for (const auto& piece : weather.pieces) {
    const bool on_floor = piece.kind == plan::PieceKind::SillPan && bench.opening().sill <= 0;
    if (piece.kind == plan::PieceKind::SillFlashing || on_floor) {  // of its pan, where that is a piece by itself
      all.push_back({on_floor ? "the sill pan's inner upstand" : "the sill flashing's inner upstand",
                     rules.flashing.sill_upstand.value});
    }
    if (piece.kind == plan::PieceKind::HeadFlashing) {
      if (!piece.folds.empty()) all.push_back({"the head flashing's upstand", piece.folds.front()});
      if (!listed(rules.flashing.head_sealed_in, windClass(bench)))  // a sealed one needs no height
        all.push_back({"the head flashing's turn-down over the unit", rules.flashing.head_turn_down.usual.value});
    }
  }
  all.push_back({"the lap of the membrane's runs", rules.membrane.lap.usual.value});
  return all;
}

/// h = p / (ρ g): where what the wind holds up is higher than an upstand or lap, the seal inside keeps the wind from
/// pushing it over. The order of work has that seal; that it has to be airtight is worth a note.
void judgeHeadOfWater(Bench& bench) {
  const auto& pressure = bench.planned().wind.water_kpa;
  if (!pressure) return bench.notJudged("laps and upstands against the water that wind holds up");
  const double head = plan::headOfWater(*pressure);
  std::string said;
  double least = head;  // the lowest of what is too low
  for (const auto& [what, height] : barriers(bench)) {
    if (!below(height, head)) continue;
    said += (said.empty() ? "" : ", ") + std::string(what) + " is " + bench.len(height);
    least = std::min(least, height);
  }
  if (said.empty()) return;  // all are higher than the water
  const auto& wind = bench.practice.strength.wind;
  const auto* found = wind.find(windClass(bench));
  bench.note("head of water",
             "Wind at " + number(*pressure, 3) + " kPa can hold up " + bench.len(std::round(head)) +
                 " of water: " + said + ".",
             {least, head, "mm", found != nullptr ? practice::pressures(wind, *found, false).from_water : nullptr},
             "Seal the gap airtight from inside, all round: then the wind can't push water over.", {},
             "Indicative: the unit's own water test and the flashing details of your code come first.");
}

void judgeHead(Bench& bench) {
  const auto& head = bench.planned().weather.head;
  bench.note("head flashing", head.why, {.figure = head.source}, "", plan::Side::Head);
  if (head.needed && listed(bench.practice.weather.flashing.head_sealed_in, windClass(bench))) {
    bench.note("head flashing",
               "In wind class " + std::string(windClass(bench)) + " the head " + bench.words().flashing +
                   " is sealed to the " + (bench.planned().unit.fin > 0 ? bench.words().fin : "frame") + ".",
               {}, {}, plan::Side::Head);
  }
}

void judgeCorners(Bench& bench) {
  const auto& bare = bench.planned().weather.bare_corners;
  if (bare.empty()) return;
  bench.note("bare corners",
             "Each 45° cut of the " + bench.words().membrane +
                 " leaves a triangle of bare timber in the depth "
                 "of the opening: at the " +
                 base::joined(bare, " and the ") + " nothing covers it.",
             {}, "Tape the corners both ways before the unit goes in.", plan::Side::Head);
}

void judgeRolls(Bench& bench) {
  for (const auto& piece : bench.planned().weather.pieces) {
    if (!piece.too_wide) continue;
    bench.attend("flashing width",
                 "The " + piece.name + " wants a strip " + bench.len(piece.width) + " wide, and no roll at hand is.",
                 {},
                 "Bring a wider roll, or lay two strips, the lower one first, lapped and sealed along their length.",
                 piece.side);
    return;  // both jambs come from one roll
  }
}

void judgeDoorSill(Bench& bench) {
  const auto& outside = bench.opening().outside;
  if (!bench.planned().unit.isDoor() || outside == job::Outside::Ground) return;  // on the ground nothing is turned up
  if (!outside) return bench.notTold("what the door opens on to (a turn-up at its sill on a deck or balcony)");
  const auto* upstand = bench.practice.weather.door_upstand.at(windClass(bench));
  if (upstand == nullptr) return bench.notJudged("turn-up at the door's sill");
  bench
      .note("door sill",
            "On a deck or balcony what keeps the floor dry is turned up " + bench.len(upstand->value) +
                " in wind class " + std::string(windClass(bench)) + ", or the door stands that much lower outside.",
            {0, upstand->value, "mm", upstand}, "", plan::Side::Sill)
      .measured.reset();  // 0 stood for nothing measured
}

/// Gaps that want a backing rod behind the sealant.
void judgeSealing(Bench& bench) {
  const auto& from = bench.practice.weather.sealing.backing_from;
  if (!from) return;  // the practice asks for no backing
  const double widest = bench.planned().stand.gaps.widestSealed();
  if (!above(widest, from->value)) return;
  bench.note("sealing", "Gaps are up to " + bench.len(widest) + ": behind the sealant goes a backing rod.",
             {widest, from->value, "mm", &*from});
}

/// A new unit in an old hole: what is told, because it can't be seen.
void judgeReplacement(Bench& bench) {
  const auto& words = bench.words();
  bench.note("replacement",
             "A new unit in an old hole: " + words.lining + " and " + plan::wordFor(bench.wall().spec.cladding, words) +
                 " stay. Not judged, it can't be seen: " + words.membrane + " and " + words.flashing +
                 "s behind them, the frame round the hole, what the " + words.fixing + "s go into behind the old " +
                 words.lining + ".",
             {}, "Find the studs before drilling. Where the old unit leaked or the wall is wet, open it up.");
  const std::vector<std::string> old = plan::oldHouseCautions(bench.job, bench.practice);
  if (!old.empty()) {
    const auto& hazards = bench.practice.safety.hazards;
    const auto& year = hazards.asbestos_before ? hazards.asbestos_before : hazards.lead_paint_before;
    bench.attend("old paint and board", base::joined(old, " "), {.figure = year ? &*year : nullptr},
                 bench.job.built ? "Have paint and board tested before work begins."
                                 : "Have them tested, or say in the job when the house was built.");
  }
  if (bench.planned().unit.fin <= 0) return;
  bench.attend("flashing",
               "The unit has a " + words.fin + " of " + bench.len(bench.planned().unit.fin) +
                   ", and the cladding stays: it has no wall to lie on.",
               {}, "Order it without, or take the cladding off round the opening.");
}

}  // namespace

void judgeWeather(Bench& bench) {
  if (bench.planned().inside) return;  // no rain reaches an inside wall
  if (bench.planned().existing) {
    judgeReplacement(bench);  // the old skin can't be seen
    judgeSealing(bench);
    return;
  }
  judgeLeaks(bench, bench.planned().water.leaks, false);
  judgeLeaks(bench, bench.planned().water.behind_cladding, true);
  judgeLaps(bench);
  judgeLengths(bench);
  judgeHeadOfWater(bench);
  judgeHead(bench);
  if (bench.opening().head && !bench.planned().lintel)  // the plates are its head
    bench.notJudged("how the head flashing goes up under the roof's edge");
  judgeCorners(bench);
  judgeRolls(bench);
  judgeDoorSill(bench);
  judgeSealing(bench);
}

}  // namespace sillwright::check
