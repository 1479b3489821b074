#include <cassert>
#include <cmath>
#include <numeric>
#include <set>
#include <utility>

#include "base/words.h"
#include "plan/panes.h"
#include "words/text.h"

namespace sillwright::plan {
namespace {

using job::UnitKind;

/// The sizes given, else so many that are shared out.
std::vector<double> sizesOr(const std::vector<double>& given, std::size_t count) {
  return given.empty() ? std::vector<double>(count, 0.0) : given;
}

/// The sizes of so many lights in `length`: those of no size given share what the others leave.
std::vector<double> shared(const std::vector<double>& named, std::size_t count, double length) {
  std::vector<double> sizes = sizesOr(named, count);
  const double given = std::accumulate(sizes.begin(), sizes.end(), 0.0);
  const auto open = static_cast<double>(std::count(sizes.begin(), sizes.end(), 0.0));  // 0: a share of what is left
  std::replace(sizes.begin(), sizes.end(), 0.0, open > 0 ? std::max(length - given, 0.0) / open : 0);
  return sizes;
}

/// The lines that bound so many lights, from `from`.
std::vector<double> linesBetween(const std::vector<double>& sizes, std::size_t count, double from, double to) {
  std::vector<double> lines = shared(sizes, count, std::abs(to - from));
  double at = from;
  for (double& line : lines) at += std::copysign(std::exchange(line, at), to - from);
  lines.push_back(to);  // the sum's rounding must not reach the frame
  return lines;
}

struct Counts {
  std::size_t columns = 1, rows = 1;
};

/// `Spec`: a job's unit or a settled one.
template <class Spec>
Counts countsOf(const Spec& unit) {
  Counts counts;
  const std::size_t lights = std::max<std::size_t>(unit.lights.size(), 1);
  counts.rows = !unit.rows.empty()      ? unit.rows.size()  // rows given, else told by columns
                : !unit.columns.empty() ? std::max<std::size_t>(lights / unit.columns.size(), 1)
                                        : 1;
  counts.columns = unit.columns.empty() ? std::max<std::size_t>(lights / counts.rows, 1) : unit.columns.size();
  return counts;
}

template <class Spec>
Grid laidOut(const Spec& unit) {
  const Counts counts = countsOf(unit);
  return {linesBetween(unit.columns, counts.columns, 0, unit.width),
          linesBetween(unit.rows, counts.rows, unit.height, 0)};
}

template <class Spec>
std::vector<Cell> cellsIn(const Spec& unit) {
  if (unit.lights.empty()) return {{0, 0, 1, unit.kind}};
  const std::size_t columns = countsOf(unit).columns;
  std::vector<Cell> cells;
  for (std::size_t i = 0; i < unit.lights.size(); ++i) {
    const bool joined = unit.lights[i] == job::Light::Joined;
    if (joined && i % columns != 0) {  // first in a row it has none to join: lightsFault tells
      ++cells.back().columns;
    } else {
      cells.push_back(
          {i / columns, i % columns, 1, joined ? UnitKind::FixedWindow : static_cast<UnitKind>(unit.lights[i])});
    }
  }
  return cells;
}

std::string sizesFault(const std::vector<double>& sizes, double length, const char* key, const char* along) {
  if (sizes.empty()) return {};
  const double given = std::accumulate(sizes.begin(), sizes.end(), 0.0);
  const auto open = static_cast<double>(std::count(sizes.begin(), sizes.end(), 0.0));
  const auto is = [&](const char* than) {
    return std::string(key) + " come to " + job::toText(given) + " mm, " + than + " the unit's " + along + " of " +
           job::toText(length) + " mm";
  };
  if (open == 0 && std::abs(given - length) > 1) return is("not") + ": let one of them be 0, what is left";
  if (open > 0 && length - given < open * kLeastLight) return is("which leaves less than 100 mm a light of");
  if (std::any_of(sizes.begin(), sizes.end(), [](double size) { return size > 0 && size < kLeastLight; })) {
    return std::string(key) + " of less than 100 mm have no room for glass";
  }
  return {};
}

/// A light that opens and would be cut by a head that isn't level.
std::string headFault(const job::Unit& unit) {
  if (!unit.head) return {};
  const HeadLine line = headLineOf(unit);
  const Grid grid = linesOf(unit);
  for (const Cell& cell : cellsIn(unit)) {
    const std::size_t end = std::min(cell.column + cell.columns, grid.x.size() - 1);  // the grid isn't judged yet
    const bool cut = grid.z[std::min(cell.row, grid.z.size() - 1)] > line.lowest(grid.x[cell.column], grid.x[end]);
    if (cut && opens(cell.kind)) return "only a fixed light can reach up to a head that follows the roof";
  }
  return {};
}

/// Glass whose panes don't agree with each other, or that is told of a light that isn't there, or twice of one.
std::string glassFault(const job::Unit& unit) {
  const Counts counts = countsOf(unit);
  std::set<std::pair<double, double>> there;
  for (std::size_t i = 0; i < counts.rows * counts.columns; ++i) {
    if (i < unit.lights.size() && unit.lights[i] == job::Light::Joined) continue;  // it is part of its left one
    there.emplace(i / counts.columns + 1, i % counts.columns + 1);
  }
  const auto disagrees = [](const job::Glass& glass) {
    const auto& each = glass.each;
    return !each.empty() && (each.size() != static_cast<std::size_t>(glass.panes) ||
                             *std::min_element(each.begin(), each.end()) != glass.thickness);
  };
  const std::string fault = "`each` has as many panes as `panes` says, the thinnest as thick as `thickness`";
  if (unit.glass && disagrees(*unit.glass)) return fault;
  for (const job::LightGlass& glass : unit.glass_of) {
    const auto row = static_cast<std::size_t>(glass.row), column = static_cast<std::size_t>(glass.column);
    if (disagrees(glassIn(unit.glass.value_or(job::Glass{}), {glass}, row, column))) return fault;
    if (there.erase({glass.row, glass.column}) > 0) continue;  // a second of the same finds it gone
    return "glass_of names the light [" + job::toText(glass.row) + ", " + job::toText(glass.column) +
           "], which is not there or was named before";
  }
  return {};
}

/// Letters that don't suit what the unit has of panels.
std::string configurationFault(const job::Unit& unit) {
  if (!unit.configuration) return {};
  const std::string& letters = *unit.configuration;
  const std::vector<Cell> cells = cellsIn(unit);
  const auto any = [&](auto is) {
    return is(unit.kind) || std::any_of(cells.begin(), cells.end(), [&](const Cell& cell) { return is(cell.kind); });
  };
  const auto only = [&](const char* of) { return letters.find_first_not_of(of) == std::string::npos; };
  const bool folds = any([](UnitKind kind) { return kind == UnitKind::FoldingDoor; });
  const bool suits =
      folds ? only("LR") && letters.find("RL") == std::string::npos : only("XO") && !only("X") && !only("O");
  const bool counted = !unit.panels || static_cast<std::size_t>(*unit.panels) == letters.size();
  if (suits && counted && any(panelsMeet) != folds && letters.size() >= 2) return {};
  return "configuration has a letter a panel: X and O of those that slide, or L and then R of those that fold";
}

/// Parts that don't line up with the unit that they are coupled to.
std::string coupledFault(const job::Unit& unit) {
  const bool over = unit.coupled.front().side == job::CoupledAt::Over;
  for (const job::Coupled& part : unit.coupled) {
    if ((part.side == job::CoupledAt::Over) != over) return "coupled parts stand all at the right, or all over";
    if (!(over ? part.height : part.width) || (over ? part.width : part.height)) {  // the other size is the unit's
      return over ? "a part coupled over says its height alone" : "a part coupled at the right says its width alone";
    }
  }
  double parts_kg = 0;
  for (const job::Coupled& part : unit.coupled) parts_kg += part.mass_kg.value_or(0);
  if (unit.mass_kg && parts_kg >= *unit.mass_kg) return "the coupled parts weigh no less than the whole unit";
  const Counts counts = countsOf(unit);
  if ((over ? counts.columns : counts.rows) == 1) return {};
  return over ? "parts are coupled over a single column of lights only"
              : "parts are coupled to a single row of lights only";
}

}  // namespace

Grid linesOf(const job::Unit& unit) { return laidOut(unit); }
Grid gridOf(const UnitSpec& unit) { return laidOut(unit); }
std::vector<Cell> cellsOf(const UnitSpec& unit) { return cellsIn(unit); }

bool isJoint(const UnitSpec& unit, std::size_t line, std::size_t lines, bool of_rows) {
  if (unit.coupled == 0 || unit.coupled_over != of_rows || line == 0 || line >= lines) return false;
  return of_rows ? line <= unit.coupled : line + unit.coupled >= lines;
}

std::vector<BarSpan> spansOf(std::size_t columns, std::size_t rows, const std::vector<Cell>& cells) {
  std::vector<BarSpan> spans;
  const auto isOpen = [&](std::size_t row, std::size_t line) {  // no mullion there
    return std::any_of(cells.begin(), cells.end(), [&](const Cell& cell) {
      return cell.row == row && cell.column < line && line < cell.column + cell.columns;
    });
  };
  for (std::size_t line = 1; line < columns; ++line) {
    for (std::size_t row = 0; row < rows; ++row) {
      if (isOpen(row, line)) continue;
      std::size_t last = row;
      while (last + 1 < rows && !isOpen(last + 1, line)) ++last;  // past transoms, until a light lies across
      spans.push_back({true, line, row, last + 1});
      row = last;
    }
  }
  for (std::size_t line = 1; line < rows; ++line) {
    std::size_t from = 0;
    for (std::size_t at = 1; at <= columns; ++at) {  // a transom goes on where a mullion is missing above or below
      if (at < columns && (isOpen(line - 1, at) || isOpen(line, at))) continue;
      spans.push_back({false, line, from, at});
      from = at;
    }
  }
  return spans;
}

std::vector<double> lightWidths(const UnitSpec& unit) {
  return shared(unit.columns, countsOf(unit).columns, unit.width);
}

std::vector<double> lightHeights(const UnitSpec& unit) { return shared(unit.rows, countsOf(unit).rows, unit.height); }

bool anyOpens(const UnitSpec& unit) {
  const std::vector<Cell> cells = cellsIn(unit);
  return std::any_of(cells.begin(), cells.end(), [](const Cell& cell) { return opens(cell.kind); });
}

std::vector<UnitRect> madeParts(const UnitSpec& unit) {
  const Grid grid = gridOf(unit);
  std::vector<UnitRect> parts{{0, 0, unit.width, unit.height}};
  for (std::size_t i = 0; i < unit.coupled; ++i) {
    UnitRect& whole = parts.back();  // what is left of it
    UnitRect part = whole;
    if (unit.coupled_over) {
      whole.z1 = part.z0 = grid.z[unit.coupled - i];
    } else {
      whole.x1 = part.x0 = grid.x[grid.x.size() - 1 - unit.coupled + i];
    }
    parts.push_back(part);
  }
  return parts;
}

std::vector<UnitSpec> madeSpecs(const UnitSpec& unit) {
  assert(unit.coupled == 0 || unit.lights.size() > unit.coupled);  // settleUnit names a light for each part
  const std::vector<UnitRect> made = madeParts(unit);
  std::vector<UnitSpec> specs(made.size(), unit);
  const auto coupled = static_cast<std::ptrdiff_t>(unit.coupled);
  const auto leaveOut = [&](auto& all) {     // the first of one column, the last of one row
    if (all.size() <= unit.coupled) return;  // shared out: no sizes are given
    const auto from = unit.coupled_over ? all.begin() : all.end() - coupled;
    all.erase(from, from + coupled);
  };
  for (std::size_t i = 0; i < made.size() && coupled > 0; ++i) {
    UnitSpec& spec = specs[i];
    spec.width = made[i].width();
    spec.height = made[i].height();
    spec.coupled = 0;
    // A coupled part has the kind of its one light: the last in the row, or the first from the top down.
    const std::size_t light = unit.coupled_over ? unit.coupled - i : unit.lights.size() - 1 - unit.coupled + i;
    if (i > 0) {
      spec.kind = static_cast<UnitKind>(unit.lights[light]);
      spec.glass =
          glassIn(unit.glass, unit.glass_of, unit.coupled_over ? light + 1 : 1, unit.coupled_over ? 1 : light + 1);
    }
    // The lights at a row's ends hang from the frame, also once the parts are made apart.
    if (!unit.coupled_over && (i == 0 || i + 1 == made.size())) spec.hand = i == 0 ? job::Hand::Left : job::Hand::Right;
    leaveOut(spec.lights);
    leaveOut(unit.coupled_over ? spec.rows : spec.columns);
    std::erase_if(spec.glass_of, [&](job::LightGlass& one) {
      if (unit.coupled_over) return (one.row -= static_cast<double>(coupled)) < 1;  // its row in the main part
      return one.column > static_cast<double>(spec.lights.size());
    });
    if (i == 0 && spec.lights.size() > 1) continue;  // the main part may be divided
    if (i == 0) {
      spec.glass = glassIn(unit.glass, spec.glass_of, 1, 1);
      if (!spec.lights.empty()) spec.kind = static_cast<UnitKind>(spec.lights.front());
    }
    spec.lights.clear(), spec.columns.clear(), spec.rows.clear(), spec.glass_of.clear();  // it is its unit's kind
  }
  return specs;
}

std::string partsWords(const UnitSpec& unit, practice::Display display) {
  if (unit.coupled == 0) return {};
  return base::joined(madeSpecs(unit), " + ", [&](const UnitSpec& part) {
    return (part.lights.empty() ? words::nameOf(part.kind) : std::string("main part")) + " " +
           words::size(part.width, part.height, display);
  });
}

BarLines barLines(const UnitSpec& unit) {
  BarLines into;
  const Grid grid = gridOf(unit);
  const std::size_t columns = grid.x.size() - 1;
  const std::vector<Cell> cells = cellsOf(unit);
  for (const BarSpan& span : spansOf(columns, grid.z.size() - 1, cells)) {
    if (span.upright) {
      into.bar.push_back({true, grid.x[span.line], grid.z[span.to], grid.z[span.from]});
    } else {
      into.bar.push_back({false, grid.z[span.line], grid.x[span.from], grid.x[span.to]});
    }
  }
  std::optional<UnitParts> parts;                   // worked out only where panels meet
  for (std::size_t i = 0; i < cells.size(); ++i) {  // the glass between the bars, cut where panels meet
    const Cell& cell = cells[i];
    UnitRect light{grid.x[cell.column], grid.z[cell.row + 1], grid.x[cell.column + cell.columns], grid.z[cell.row]};
    const auto meet = [&](double at) {
      into.bar.push_back({true, at, light.z0, light.z1});
      into.light.push_back({light.x0, light.z0, at, light.z1});
      light.x0 = at;
    };
    const bool two = cell.kind != UnitKind::StackingDoor && unit.configuration.size() <= 2;  // they meet in the middle
    if (unit.lights.empty() && panelsMeet(cell.kind) && two) {
      meet(unit.width / 2);
    } else if (panelsMeet(cell.kind)) {
      if (!parts) parts = partsOf(unit);
      const std::span<const Sash> sashes = parts->sashesOf(parts->light[i]);
      for (std::size_t next = 1; next < sashes.size(); ++next) {
        meet((sashes[next - 1].outside.x1 + sashes[next].outside.x0) / 2);  // stiles lap: their middle
      }
    }
    into.light.push_back(light);
  }
  return into;
}

std::vector<double> endsOn(Side side, const BarLines& lines, const UnitSpec& unit) {
  std::vector<double> at;
  const double far = side == Side::Head ? unit.height : unit.width;
  for (const BarLine& bar : lines.bar) {
    const bool first = side == Side::Sill || side == Side::Left;
    const bool ends = first ? bar.from <= 0 : bar.to >= far;
    if (bar.upright == isLevel(side) && ends && bar.at < unit.lengthOf(side)) at.push_back(bar.at);
  }
  std::sort(at.begin(), at.end());
  return at;
}

std::vector<double> bearings(const UnitSpec& unit) {
  if (unit.lights.empty() && !panelsMeet(unit.kind)) return {};  // one light without meeting stiles
  return endsOn(Side::Sill, barLines(unit), unit);
}

std::string lightsFault(const job::Unit& unit) {
  if (!unit.coupled.empty()) {
    if (std::string fault = coupledFault(unit); !fault.empty()) return fault;
    job::Unit whole = unit;  // the grid of all parts is what is laid out: a part's light is judged as any other
    const Divided all = dividedWithParts(unit);
    std::tie(whole.lights, whole.columns, whole.rows) = std::tie(all.lights, all.columns, all.rows);
    whole.coupled.clear();
    return lightsFault(whole);
  }
  for (const auto faultOf : {configurationFault, headFault, glassFault}) {
    if (std::string fault = faultOf(unit); !fault.empty()) return fault;
  }
  if (unit.lights.empty()) {
    return unit.columns.empty() && unit.rows.empty() ? "" : "columns and rows divide a unit whose lights are named";
  }
  const Counts counts = countsOf(unit);
  if (counts.columns * counts.rows != unit.lights.size()) {
    return words::count(static_cast<long>(unit.lights.size()), "light") + " for " +
           words::count(static_cast<long>(counts.rows), "row") + " of " + std::to_string(counts.columns);
  }
  for (std::size_t i = 0; i < unit.lights.size(); i += counts.columns) {
    if (unit.lights[i] == job::Light::Joined) return "the first light of a row has none at its left to be joined with";
  }
  const std::string wide = sizesFault(sizesOr(unit.columns, counts.columns), unit.width, "columns", "width");
  return wide.empty() ? sizesFault(sizesOr(unit.rows, counts.rows), unit.height, "rows", "height") : wide;
}

std::string lightsWords(const UnitSpec& unit) {
  const auto one = [&](UnitKind kind, std::string_view word) {
    const bool folds = kind == UnitKind::FoldingDoor;
    std::string panels;
    if ((folds || panelsMeet(kind)) && !unit.configuration.empty()) {
      panels = (word.empty() ? "" : " ") + unit.configuration;
    } else if (folds || kind == UnitKind::StackingDoor) {
      panels = (word.empty() ? "" : " of ") + words::count(unit.panels, "panel");
    }
    return std::string(word) + panels;
  };
  if (unit.lights.empty()) return one(unit.kind, "");
  const std::size_t columns = countsOf(unit).columns;
  std::string said;
  for (std::size_t i = 0; i < unit.lights.size(); ++i) {
    if (i > 0) said += i % columns == 0 ? " over " : " | ";
    const std::string_view word = job::kLightWords[static_cast<std::size_t>(unit.lights[i])];
    said += unit.lights[i] == job::Light::Joined ? word : one(static_cast<UnitKind>(unit.lights[i]), word);
  }
  return said;
}

}  // namespace sillwright::plan
