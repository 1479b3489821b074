#include "plan/settle.h"

#include <cmath>

#include "base/words.h"
#include "words/text.h"

namespace sillwright::plan {

namespace {

/// Takes sizes from the job where it names them, else from the practice, and notes which.
class Settler {
 public:
  explicit Settler(std::vector<Assumption>& assumed) : assumed_(assumed) {}

  double size(const std::optional<double>& named, const char* key, const practice::Figure& figure) {
    return named ? *named : assume(key, figure);
  }
  double assume(const char* key, const practice::Figure& figure) {
    assumed_.push_back({key, &figure});
    return figure.value;
  }
  int assumeCount(const char* key, const practice::Figure& figure) {
    return static_cast<int>(std::lround(assume(key, figure)));  // a practice's figures are all doubles
  }

 private:
  std::vector<Assumption>& assumed_;
};

/// Whether it is safety glass where the job names its type alone: of wired glass that isn't known.
void settleSafety(job::Glass& glass) {
  if (glass.safety || !glass.type || *glass.type == job::GlassType::Wired) return;
  glass.safety = *glass.type != job::GlassType::Float;
}

}  // namespace

job::CladdingKind kindOf(const job::Cladding& cladding) {
  // No board and no sheet is so thick: what is stands by itself, while the frame shrinks behind it.
  constexpr double kMasonryFrom = 70;
  const bool masonry = cladding.thickness >= kMasonryFrom && cladding.cavity > 0;  // veneer has a cavity behind it
  return cladding.kind.value_or(masonry ? job::CladdingKind::BrickVeneer : job::CladdingKind::Boards);
}

bool isBrick(const job::Cladding& cladding) { return kindOf(cladding) == job::CladdingKind::BrickVeneer; }

const std::string& wordFor(const job::Cladding& cladding, const practice::Words& words) {
  static const std::string brickwork = "brickwork";
  return isBrick(cladding) ? brickwork : words.cladding;
}

double usualStand(const job::Wall& wall) {
  return wall.cladding && isBrick(*wall.cladding) ? -wall.cladding->cavity - kFrameIntoBrick : -kFrameProud;
}

job::Glass glassIn(const job::Glass& unit, const std::vector<job::LightGlass>& glass_of, std::size_t row,
                   std::size_t column) {
  job::Glass glass = unit;
  for (const job::LightGlass& differs : glass_of) {  // its row and column are doubles, as the file's numbers
    if (differs.row != static_cast<double>(row) || differs.column != static_cast<double>(column)) continue;
    glass.thickness = differs.thickness.value_or(glass.thickness);
    glass.panes = differs.panes.value_or(glass.panes);
    if (differs.thickness || differs.panes || !differs.each.empty()) glass.each = differs.each;  // its panes differ
    if (differs.gap) glass.gap = differs.gap;
    if (differs.u_value) glass.u_value = differs.u_value;
    if (differs.obscure) glass.obscure = differs.obscure;
    if (differs.type) glass.type = differs.type;
    if (differs.safety || differs.type) glass.safety = differs.safety;  // another type has its own
  }
  settleSafety(glass);
  return glass;
}

std::string glassWords(const job::Glass& glass, practice::Display display) {
  if (glass.panes <= 0) return "none";
  const auto each = [&](double mm) { return words::length(mm, display); };
  std::string said = !glass.each.empty() ? base::joined(glass.each, " + ", each)
                     : glass.panes > 1   ? std::to_string(glass.panes) + " × " + each(glass.thickness)
                                         : each(glass.thickness);
  if (glass.type) said.append(" ").append(job::kGlassTypeWords[static_cast<std::size_t>(*glass.type)]);
  const bool implied = glass.type && glass.type != job::GlassType::Wired;  // its type tells whether it is safe
  if (glass.safety == true && !implied) said += ", safety";
  if (glass.obscure == true) said += ", obscure";
  if (glass.gap) said += ", gap " + each(*glass.gap);
  if (glass.u_value) said += ", U-value " + words::number(*glass.u_value, 2) + " W/m²K";
  return said;
}

std::string glassByLight(const UnitSpec& unit, practice::Display display) {
  const bool made_up = !unit.glass.each.empty() || unit.glass.gap || unit.glass.u_value;
  std::string said = made_up ? "all: " + glassWords(unit.glass, display) : std::string{};
  for (const job::LightGlass& one : unit.glass_of) {
    const auto row = static_cast<std::size_t>(one.row);
    const auto column = static_cast<std::size_t>(one.column);
    said += (said.empty() ? "row " : "; row ") + std::to_string(row) + ", light " + std::to_string(column) + ": " +
            glassWords(glassIn(unit.glass, unit.glass_of, row, column), display);
  }
  return said;
}

Divided dividedWithParts(const job::Unit& unit) {
  Divided all{unit.lights, unit.columns, unit.rows};
  if (unit.coupled.empty()) return all;
  if (all.lights.empty()) all.lights = {static_cast<job::Light>(unit.kind)};  // Light has UnitKind's values
  const bool over = unit.coupled.front().side == job::CoupledAt::Over;        // `lightsFault` refuses a mix of sides
  std::vector<double>& sizes = over ? all.rows : all.columns;
  if (sizes.empty()) sizes.assign(all.lights.size(), 0);  // 0: a share of what is left
  for (const job::Coupled& part : unit.coupled) {
    const auto at_lights = over ? all.lights.begin() : all.lights.end();  // lights run from the top left
    all.lights.insert(at_lights, static_cast<job::Light>(part.kind));
    sizes.insert(over ? sizes.begin() : sizes.end(), (over ? part.height : part.width).value_or(0));
  }
  return all;
}

WallSpec settleWall(const job::Wall& wall, const practice::Practice& practice) {
  const practice::Framing& rules = practice.framing;
  WallSpec spec;
  Settler settle(spec.assumed);
  spec.length = wall.length;
  spec.top = wall.top;
  spec.stud = wall.stud ? *wall.stud
                        : job::StudSection{.depth = settle.assume("stud.depth", rules.stud_depth),
                                           .thickness = settle.assume("stud.thickness", rules.stud_thickness)};
  spec.second_row = wall.second_row;
  spec.spacing = settle.size(wall.spacing, "spacing", rules.spacing);
  spec.plates = wall.plates ? *wall.plates
                            : job::PlateCount{.top = settle.assumeCount("plates.top", rules.top_plates),
                                              .bottom = settle.assumeCount("plates.bottom", rules.bottom_plates)};
  spec.lining = settle.size(wall.lining, "lining", rules.lining);
  spec.level = wall.level.value_or(0);
  spec.cladding = wall.cladding
                      ? *wall.cladding
                      : job::Cladding{.thickness = settle.assume("cladding.thickness", rules.cladding_thickness),
                                      .cavity = settle.assume("cladding.cavity", rules.cavity)};
  return spec;
}

UnitSpec settleUnit(const job::Unit& unit, const practice::Practice& practice, double stands) {
  const practice::UnitDefaults& usual = practice.unit;
  UnitSpec spec;
  Settler settle(spec.assumed);
  spec.kind = unit.kind;
  spec.width = unit.width;
  spec.height = unit.height;
  spec.head = unit.head;
  spec.frame = unit.frame ? *unit.frame
                          : job::FrameSection{.depth = settle.assume("unit.frame.depth", usual.frame_depth),
                                              .face = settle.assume("unit.frame.face", usual.frame_face)};
  spec.stands = unit.stands.value_or(stands);
  spec.reveal = unit.reveal;
  spec.sub_sill = unit.sub_sill;
  spec.fin = settle.size(unit.fin, "unit.fin", usual.fin);
  if (unit.glass) {
    spec.glass = *unit.glass;
  } else {
    spec.glass.thickness = settle.assume("unit.glass.thickness", usual.glass_thickness);
    spec.glass.panes = settle.assumeCount("unit.glass.panes", usual.glass_panes);
  }
  settleSafety(spec.glass);
  spec.glass_of = unit.glass_of;
  spec.fixing = unit.fixing;
  spec.configuration = unit.configuration.value_or("");
  spec.panels = unit.panels.value_or(unit.configuration ? static_cast<int>(spec.configuration.size()) : spec.panels);
  spec.opens = unit.opens;
  static_cast<Divided&>(spec) = dividedWithParts(unit);  // coupled parts are further lights of one grid
  // With a door in it, it stands on the floor, and is gone through and fallen out of, as a door.
  for (const job::Light light : spec.lights) {
    const auto kind = static_cast<job::UnitKind>(light);
    if (!spec.isDoor() && light != job::Light::Joined && job::isDoor(kind)) spec.kind = kind;
  }
  spec.coupled = unit.coupled.size();
  for (const job::Coupled& part : unit.coupled) spec.coupled_kg.push_back(part.mass_kg);
  spec.coupled_over = spec.coupled > 0 && unit.coupled.front().side == job::CoupledAt::Over;
  spec.mullion = unit.mullion.value_or(spec.frame.face);
  spec.transom = unit.transom.value_or(spec.mullion);
  spec.restrictor = unit.restrictor;
  spec.hand = unit.hand.value_or(job::Hand::Left);
  return spec;
}

std::optional<job::Lintel> settleLintel(const job::Opening& opening, const practice::Practice& practice,
                                        std::vector<Assumption>& assumed) {
  if (opening.lintel) return opening.lintel;
  for (const practice::LintelDefault& usual : practice.framing.lintels) {
    if (opening.width > usual.up_to) continue;  // they rise: the first that reaches is the least
    Settler settle(assumed);
    return job::Lintel{.depth = settle.assume("lintel.depth", usual.depth),
                       .thickness = settle.assume("lintel.thickness", usual.thickness),
                       .plies = settle.assumeCount("lintel.plies", usual.plies)};
  }
  return std::nullopt;
}

}  // namespace sillwright::plan
