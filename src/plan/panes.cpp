#include "plan/panes.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>
#include <utility>

#include "words/length.h"
#include "words/text.h"

namespace sillwright::plan {
namespace {

using job::UnitKind;

/// What a sash or a leaf is made of.
struct SashSection {
  double depth = 0;  ///< Through the wall.
  double face = 0;
  double bottom_rail = 0;  ///< 0: no deeper than the face.
};
constexpr SashSection kSliding{30, 40, 0};
constexpr SashSection kHung{40, 40, 0};
constexpr SashSection kDoorLeaf{40, 90, 200};
constexpr double kLeafClearance = 3;  // round a hung sash or leaf
constexpr double kBlade = 140;        // of a louvre, as seen

/// Sizes with each 0 replaced by its share of what the others leave of `length`.
std::vector<double> shared(std::vector<double> sizes, double length) {
  const double given = std::accumulate(sizes.begin(), sizes.end(), 0.0);
  const auto open = static_cast<double>(std::count(sizes.begin(), sizes.end(), 0.0));
  for (double& size : sizes) {
    if (size == 0 && open > 0) size = std::max(length - given, 0.0) / open;
  }
  return sizes;
}

/// The sizes given, else so many that are shared out.
std::vector<double> sizesOr(const std::vector<double>& given, std::size_t count) {
  return given.empty() ? std::vector<double>(count, 0.0) : given;
}

struct Counts {
  std::size_t columns = 1, rows = 1;
};

/// `Spec`: a job's unit or a settled one.
template <class Spec>
Counts countsOf(const Spec& unit) {
  Counts counts;
  const std::size_t lights = std::max<std::size_t>(unit.lights.size(), 1);
  counts.rows = !unit.rows.empty()      ? unit.rows.size()
                : !unit.columns.empty() ? std::max<std::size_t>(lights / unit.columns.size(), 1)
                                        : 1;
  counts.columns = unit.columns.empty() ? std::max<std::size_t>(lights / counts.rows, 1) : unit.columns.size();
  return counts;
}

template <class Spec>
Grid gridOf(const Spec& unit) {
  const Counts counts = countsOf(unit);
  const auto sizes = [](const std::vector<double>& given, std::size_t count, double length) {
    return shared(sizesOr(given, count), length);
  };
  Grid grid{{0}, {unit.height}};
  for (const double width : sizes(unit.columns, counts.columns, unit.width)) grid.x.push_back(grid.x.back() + width);
  for (const double height : sizes(unit.rows, counts.rows, unit.height)) grid.z.push_back(grid.z.back() - height);
  grid.x.back() = unit.width;
  grid.z.back() = 0;
  return grid;
}

/// Whether two parts made apart meet on a line: the last lines between columns, the first between rows.
bool isJoint(const UnitSpec& unit, std::size_t line, std::size_t lines, bool of_rows) {
  if (unit.coupled == 0 || unit.coupled_over != of_rows || line == 0 || line >= lines) return false;
  return of_rows ? line <= unit.coupled : line + unit.coupled >= lines;
}

/// A rectangle of cells that are one light.
struct Cell {
  std::size_t row = 0, column = 0, columns = 1;
  UnitKind kind = UnitKind::FixedWindow;
};

template <class Spec>
std::vector<Cell> cellsOf(const Spec& unit, std::size_t columns) {
  if (unit.lights.empty()) return {{0, 0, 1, unit.kind}};
  std::vector<Cell> cells;
  for (std::size_t i = 0; i < unit.lights.size(); ++i) {
    const bool joined = unit.lights[i] == job::Light::Joined;
    if (joined && i % columns != 0) {
      ++cells.back().columns;
    } else {
      cells.push_back(
          {i / columns, i % columns, 1, joined ? UnitKind::FixedWindow : static_cast<UnitKind>(unit.lights[i])});
    }
  }
  return cells;
}

/// A mullion or a transom by the lines between columns and rows that it lies on and ends at, rows from the top.
struct Span {
  bool upright = false;
  std::size_t line = 0, from = 0, to = 0;
};

/// Mullions run past transoms but where a light lies across their line; transoms from mullion to mullion, and one that
/// ends at the transom stands on it. Mullions first.
std::vector<Span> spansOf(std::size_t columns, std::size_t rows, const std::vector<Cell>& cells) {
  std::vector<Span> spans;
  const auto isOpen = [&](std::size_t row, std::size_t line) {  // no mullion there
    return std::any_of(cells.begin(), cells.end(), [&](const Cell& cell) {
      return cell.row == row && cell.column < line && line < cell.column + cell.columns;
    });
  };
  for (std::size_t line = 1; line < columns; ++line) {
    for (std::size_t row = 0; row < rows; ++row) {
      if (isOpen(row, line)) continue;
      std::size_t last = row;
      while (last + 1 < rows && !isOpen(last + 1, line)) ++last;
      spans.push_back({true, line, row, last + 1});
      row = last;
    }
  }
  for (std::size_t line = 1; line < rows; ++line) {
    std::size_t from = 0;
    for (std::size_t at = 1; at <= columns; ++at) {
      if (at < columns && (isOpen(line - 1, at) || isOpen(line, at))) continue;
      spans.push_back({false, line, from, at});
      from = at;
    }
  }
  return spans;
}

/// Puts the parts of one unit together, light by light.
class Division {
 public:
  explicit Division(const UnitSpec& unit) : unit_(unit) {
    parts_.head = headLineOf(unit);
    const UnitRect outside{0, 0, unit.width, unit.height};
    parts_.frame = outside.inset(faceWithin(unit.reveal ? unit.reveal->thickness : 0, outside));
    parts_.clear = parts_.frame.inset(faceWithin(unit.frame.face, parts_.frame));
    parts_.made = {parts_.frame};
    if (unit.coupled == 0) return;
    const UnitRect& frame = parts_.frame;
    parts_.made = madeParts(unit);
    for (UnitRect& part : parts_.made) {
      part = {std::max(part.x0, frame.x0), std::max(part.z0, frame.z0), std::min(part.x1, frame.x1),
              std::min(part.z1, frame.z1)};
    }
  }

  UnitParts parts() {
    if (unit_.lights.empty()) {
      addLight({0, 0, 1, unit_.kind}, unit_.hand, parts_.clear, true);
      return std::move(parts_);
    }
    const Grid grid = gridOf(unit_);
    const std::vector<Cell> cells = cellsOf(unit_, grid.x.size() - 1);
    addBars(grid, cells);
    for (const Cell& cell : cells) addCell(grid, cell);
    return std::move(parts_);
  }

 private:
  /// Half the face of the mullion (the transom) on a line between columns (rows): where parts are coupled the frames
  /// of both stand there.
  [[nodiscard]] double half(std::size_t line, std::size_t lines, bool of_rows) const {
    return isJoint(unit_, line, lines, of_rows) ? unit_.frame.face : unit_.mullion / 2;
  }

  /// A mullion or a transom; at a joint the two frames beside each other.
  void addBar(const UnitRect& bar, bool joint, bool upright) {
    if (!joint) return parts_.bar.push_back(bar);
    UnitRect first = bar, second = bar;
    if (upright) {
      first.x1 = second.x0 = (bar.x0 + bar.x1) / 2;
    } else {
      first.z1 = second.z0 = (bar.z0 + bar.z1) / 2;
    }
    parts_.bar.insert(parts_.bar.end(), {first, second});
  }

  void addBars(const Grid& grid, const std::vector<Cell>& cells) {
    const std::size_t columns = grid.x.size() - 1;
    const std::size_t rows = grid.z.size() - 1;
    const auto halfX = [&](std::size_t line) { return half(line, columns, false); };
    const auto halfZ = [&](std::size_t line) { return half(line, rows, true); };
    for (const Span& span : spansOf(columns, rows, cells)) {
      if (span.upright) {
        const double top = span.from == 0 ? parts_.clear.z1 : grid.z[span.from] - halfZ(span.from);
        const double foot = span.to == rows ? parts_.clear.z0 : grid.z[span.to] + halfZ(span.to);
        addBar({grid.x[span.line] - halfX(span.line), foot, grid.x[span.line] + halfX(span.line), top},
               isJoint(unit_, span.line, columns, false), true);
        parts_.mullions = parts_.bar.size();
      } else {
        const double from = span.from == 0 ? parts_.clear.x0 : grid.x[span.from] + halfX(span.from);
        const double to = span.to == columns ? parts_.clear.x1 : grid.x[span.to] - halfX(span.to);
        addBar({from, grid.z[span.line] - halfZ(span.line), to, grid.z[span.line] + halfZ(span.line)},
               isJoint(unit_, span.line, rows, true), false);
      }
    }
  }

  void addCell(const Grid& grid, const Cell& cell) {
    const std::size_t end = cell.column + cell.columns;
    const std::size_t columns = grid.x.size() - 1, rows = grid.z.size() - 1;
    const bool bottom = cell.row + 1 == rows;
    const UnitRect clear{cell.column == 0 ? parts_.clear.x0 : grid.x[cell.column] + half(cell.column, columns, false),
                         bottom ? parts_.clear.z0 : grid.z[cell.row + 1] + half(cell.row + 1, rows, true),
                         end == columns ? parts_.clear.x1 : grid.x[end] - half(end, columns, false),
                         cell.row == 0 ? parts_.clear.z1 : grid.z[cell.row] - half(cell.row, rows, true)};
    // At an end of a row a casement hangs from the frame, not from a mullion: common practice, no source.
    job::Hand hand = unit_.hand;
    if (cell.kind == UnitKind::CasementWindow && columns > 1) {
      if (cell.column == 0) hand = job::Hand::Left;
      if (end == columns && cell.column > 0) hand = job::Hand::Right;
    }
    addLight(cell, hand, clear, bottom);
  }

  void addLight(const Cell& cell, job::Hand hand, const UnitRect& clear, bool at_sill) {
    LightParts& light = parts_.light.emplace_back();
    light = {cell.kind,          hand, clear,   parts_.sash.size(), 0,
             parts_.pane.size(), 0,    at_sill, cell.row + 1,       cell.column + 1};
    fill(light);
    parts_.glass.resize(parts_.pane.size(), glassIn(unit_.glass, unit_.glass_of, light.row, light.column));
    light.sashes = parts_.sash.size() - light.first_sash;
    light.panes = parts_.pane.size() - light.first_pane;
  }

  Sash& addSash(const UnitRect& outside, const SashSection& section, Motion motion) {
    UnitRect pane = outside.inset(faceWithin(section.face, outside));
    if (section.bottom_rail > 0) pane.z0 = outside.z0 + std::min(section.bottom_rail, outside.height() / 3);
    parts_.sash.push_back({outside, section.depth, parts_.pane.size(), motion, false, 0});
    parts_.pane.push_back(pane);
    return parts_.sash.back();
  }

  /// The letters of its panels. Left out, of those that slide the one furthest from the hand stands still.
  [[nodiscard]] std::string configurationOf(const LightParts& light) const {
    const bool left = light.hand == job::Hand::Left;
    if (!unit_.configuration.empty()) return unit_.configuration;
    const auto panels =
        static_cast<std::size_t>(panelsMeet(light.kind) && light.kind != UnitKind::StackingDoor ? 2 : unit_.panels);
    std::string letters(panels, light.kind != UnitKind::FoldingDoor ? 'X' : left ? 'L' : 'R');
    if (light.kind != UnitKind::FoldingDoor) (left ? letters.back() : letters.front()) = 'O';
    return letters;
  }

  /// Panels side by side. One that slides goes to the nearest that stands still, in a track so far from its as there
  /// are panels on the way; where tracks differ the stiles stand behind each other, else they meet edge to edge.
  void slide(const LightParts& light) {
    const std::string letters = configurationOf(light);
    const auto panels = static_cast<int>(letters.size());
    std::vector<int> way;  // to the panel that stands still, in panels, to the right positive
    for (int i = 0; i < panels; ++i) {
      way.push_back(2 * panels);
      for (int k = 0; k < panels; ++k) {
        const int off = std::abs(k - i) - std::abs(way.back());
        const bool nearer = off < 0 || (off == 0 && (k > i) == (light.hand == job::Hand::Left));
        if (letters[static_cast<std::size_t>(k)] == 'O' && nearer) way.back() = k - i;
      }
    }
    int lapped = 0;
    const auto laps = [&](int i) {
      return std::abs(way[static_cast<std::size_t>(i)]) != std::abs(way[static_cast<std::size_t>(i) + 1]);
    };
    for (int i = 0; i + 1 < panels; ++i) lapped += laps(i) ? 1 : 0;
    const UnitRect clear = light.clear;
    const double face = faceWithin(kSliding.face, {0, 0, clear.width() / panels, clear.height()});
    const double width = (clear.width() + lapped * face) / panels;
    double x = clear.x0;
    for (int i = 0; i < panels; ++i) {
      const int to = way[static_cast<std::size_t>(i)];
      Sash& sash = addSash({x, clear.z0, i + 1 == panels ? clear.x1 : x + width, clear.z1}, {kSliding.depth, face, 0},
                           to == 0  ? Motion::Stays
                           : to > 0 ? Motion::SlidesRight
                                    : Motion::SlidesLeft);
      sash.track = std::abs(to);
      if (i + 1 < panels) x += width - (laps(i) ? face : 0);
    }
  }

  /// The lower sash slides up behind the upper, which slides down or stands still.
  void hang(const UnitRect& clear, bool both) {
    const double face = faceWithin(kSliding.face, {0, 0, clear.width(), clear.height() / 2});
    const double height = (clear.height() + face) / 2;
    addSash({clear.x0, clear.z0, clear.x1, clear.z0 + height}, {kSliding.depth, face, 0}, Motion::SlidesUp).track = 1;
    addSash({clear.x0, clear.z1 - height, clear.x1, clear.z1}, {kSliding.depth, face, 0},
            both ? Motion::SlidesDown : Motion::Stays);
  }

  /// A letter a leaf, the side that it hangs at or folds to.
  void leaves(const LightParts& light, const std::string& letters, Motion motion) {
    const UnitRect hung = light.clear.inset(faceWithin(kLeafClearance, light.clear));
    const double width = hung.width() / static_cast<double>(letters.size());
    for (std::size_t i = 0; i < letters.size(); ++i) {
      const double x = hung.x0 + static_cast<double>(i) * width;
      Sash& leaf = addSash({x, hung.z0, x + width, hung.z1}, kDoorLeaf, motion);
      leaf.left = letters[i] == 'L';
      // From the jamb that they are hinged to every second one comes out with its hinges.
      leaf.turned = motion == Motion::Folds && (leaf.left ? i : letters.size() - 1 - i) % 2 == 1;
      leaf.inwards = unit_.opens.value_or(motion == Motion::Folds ? job::Way::Out : job::Way::In) == job::Way::In;
    }
  }

  void hung(const LightParts& light, Motion motion) {
    Sash& sash = addSash(light.clear.inset(faceWithin(kLeafClearance, light.clear)), kHung, motion);
    const bool in = motion == Motion::HungBelow || motion == Motion::TiltsAndTurns;
    sash.left = light.hand == job::Hand::Left;
    sash.inwards = unit_.opens.value_or(in ? job::Way::In : job::Way::Out) == job::Way::In;
  }

  void blades(const UnitRect& clear) {
    const double count = std::max(std::round(clear.height() / kBlade), 1.0);
    const double height = clear.height() / count;
    for (int i = 0; i < static_cast<int>(count); ++i) {
      parts_.pane.push_back({clear.x0, clear.z0 + i * height, clear.x1, clear.z0 + (i + 1) * height});
    }
  }

  void fill(const LightParts light) {
    switch (light.kind) {
      case UnitKind::SlidingWindow:
      case UnitKind::SlidingDoor:
      case UnitKind::StackingDoor:
        return slide(light);
      case UnitKind::AwningWindow:
        return hung(light, Motion::HungAbove);
      case UnitKind::HopperWindow:
        return hung(light, Motion::HungBelow);
      case UnitKind::CasementWindow:
        return hung(light, Motion::HungAside);
      case UnitKind::TiltTurnWindow:
        return hung(light, Motion::TiltsAndTurns);
      case UnitKind::SingleHungWindow:
      case UnitKind::DoubleHungWindow:
        return hang(light.clear, light.kind == UnitKind::DoubleHungWindow);
      case UnitKind::LouvreWindow:
        return blades(light.clear);
      case UnitKind::HingedDoor:
        return leaves(light, light.hand == job::Hand::Left ? "L" : "R", Motion::HungAside);
      case UnitKind::DoubleDoors:
        return leaves(light, "LR", Motion::HungAside);
      case UnitKind::FoldingDoor:
        return leaves(light, configurationOf(light), Motion::Folds);
      case UnitKind::FixedWindow:
        parts_.pane.push_back(light.clear);
    }
  }

  const UnitSpec& unit_;
  UnitParts parts_;
};

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
  const Grid grid = gridOf(unit);
  for (const Cell& cell : cellsOf(unit, grid.x.size() - 1)) {
    const std::size_t end = std::min(cell.column + cell.columns, grid.x.size() - 1);
    const bool cut = grid.z[std::min(cell.row, grid.z.size() - 1)] > line.lowest(grid.x[cell.column], grid.x[end]);
    if (cut && opens(cell.kind)) return "only a fixed light can reach up to a head that follows the roof";
  }
  return {};
}

}  // namespace

double faceWithin(double face, const UnitRect& rect) {
  return std::min(face, 0.2 * std::min(rect.width(), rect.height()));
}

Grid linesOf(const job::Unit& unit) { return gridOf(unit); }

UnitParts partsOf(const UnitSpec& unit) { return Division(unit).parts(); }

std::vector<double> lightWidths(const UnitSpec& unit) {
  return shared(sizesOr(unit.columns, countsOf(unit).columns), unit.width);
}

std::vector<double> lightHeights(const UnitSpec& unit) {
  return shared(sizesOr(unit.rows, countsOf(unit).rows), unit.height);
}

/// What the panels between those that stand still leave when they have slid away, where it is widest.
static UnitRect widestRun(const UnitRect& clear, std::span<const Sash> sashes) {
  UnitRect widest{clear.x0, clear.z0, clear.x0, clear.z1};
  double from = clear.x0;
  const auto end = [&](double to) {
    if (to - from > widest.width()) widest.x0 = from, widest.x1 = to;
  };
  for (const Sash& sash : sashes) {
    if (sash.motion != Motion::Stays) continue;
    end(sash.outside.x0);
    from = sash.outside.x1;
  }
  end(clear.x1);
  return widest;
}

std::optional<UnitRect> clearOpening(const UnitParts& parts, const LightParts& light) {
  if (light.sashes == 0) return std::nullopt;
  const Sash& sash = parts.sash[light.first_sash];
  UnitRect open = light.clear;
  const std::span<const Sash> sashes = parts.sashesOf(light);
  if (sash.motion == Motion::Folds) {  // the leaves stand side by side at the jambs
    for (const Sash& leaf : sashes) (leaf.left ? open.x0 : open.x1) += leaf.left ? leaf.depth : -leaf.depth;
    if (open.x0 >= open.x1) return std::nullopt;
  } else if (hangsAside(sash.motion)) {
    return open;
  } else if (panelsMeet(light.kind)) {
    open = widestRun(light.clear, sashes);
  } else if (sash.motion == Motion::SlidesUp) {
    open.z1 = std::max(open.z0, open.z1 - sash.outside.height());
  } else {
    return std::nullopt;
  }
  return open;
}

std::optional<UnitRect> clearOpening(const UnitParts& parts) {
  std::optional<UnitRect> largest;
  for (const LightParts& light : parts.light) {
    const auto clear = clearOpening(parts, light);
    if (clear && (!largest || clear->area() > largest->area())) largest = clear;
  }
  return largest;
}

bool anyOpens(const UnitSpec& unit) {
  if (unit.lights.empty()) return opens(unit.kind);
  return std::any_of(unit.lights.begin(), unit.lights.end(), [](job::Light light) {
    return light != job::Light::Joined && opens(static_cast<UnitKind>(light));
  });
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
  const std::vector<UnitRect> made = madeParts(unit);
  std::vector<UnitSpec> specs(made.size(), unit);
  const auto coupled = static_cast<std::ptrdiff_t>(unit.coupled);
  const auto leaveOut = [&](auto& all) {  // the first of one column, the last of one row
    if (all.size() <= unit.coupled) return;
    const auto from = unit.coupled_over ? all.begin() : all.end() - coupled;
    all.erase(from, from + coupled);
  };
  for (std::size_t i = 0; i < made.size() && coupled > 0; ++i) {
    UnitSpec& spec = specs[i];
    spec.width = made[i].width();
    spec.height = made[i].height();
    spec.coupled = 0;
    // Of the coupled ones the kind of their one light: the last in the row, or from the top down.
    const std::size_t light = unit.coupled_over ? unit.coupled - i : unit.lights.size() - 1 - unit.coupled + i;
    if (i > 0) {
      spec.kind = static_cast<UnitKind>(unit.lights[light]);
      spec.glass =
          glassIn(unit.glass, unit.glass_of, unit.coupled_over ? light + 1 : 1, unit.coupled_over ? 1 : light + 1);
    }
    // As the row has it: hung from the frame at its ends.
    if (!unit.coupled_over && (i == 0 || i + 1 == made.size())) spec.hand = i == 0 ? job::Hand::Left : job::Hand::Right;
    leaveOut(spec.lights);
    leaveOut(unit.coupled_over ? spec.rows : spec.columns);
    std::erase_if(spec.glass_of, [&](job::LightGlass& one) {
      if (unit.coupled_over) return (one.row -= static_cast<double>(coupled)) < 1;
      return one.column > static_cast<double>(spec.lights.size());
    });
    if (i == 0 && spec.lights.size() > 1) continue;
    if (i == 0) {
      spec.glass = glassIn(unit.glass, spec.glass_of, 1, 1);
      if (!spec.lights.empty()) spec.kind = static_cast<UnitKind>(spec.lights.front());
    }
    spec.lights.clear(), spec.columns.clear(), spec.rows.clear(), spec.glass_of.clear();
  }
  return specs;
}

std::string partsWords(const UnitSpec& unit, practice::Display display) {
  std::string said;
  for (const UnitSpec& part : madeSpecs(unit)) {
    if (unit.coupled == 0) break;
    said += (said.empty() ? "" : " + ") + (part.lights.empty() ? words::nameOf(part.kind) : std::string("main part")) +
            " " + words::size(part.width, part.height, display);
  }
  return said;
}

BarLines barLines(const UnitSpec& unit) {
  BarLines into;
  const Grid grid = gridOf(unit);
  const std::size_t columns = grid.x.size() - 1;
  const std::vector<Cell> cells = cellsOf(unit, columns);
  for (const Span& span : spansOf(columns, grid.z.size() - 1, cells)) {
    if (span.upright) {
      into.bar.push_back({true, grid.x[span.line], grid.z[span.to], grid.z[span.from]});
    } else {
      into.bar.push_back({false, grid.z[span.line], grid.x[span.from], grid.x[span.to]});
    }
  }
  std::optional<UnitParts> parts;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const Cell& cell = cells[i];
    UnitRect light{grid.x[cell.column], grid.z[cell.row + 1], grid.x[cell.column + cell.columns], grid.z[cell.row]};
    const auto meet = [&](double at) {
      into.bar.push_back({true, at, light.z0, light.z1});
      into.light.push_back({light.x0, light.z0, at, light.z1});
      light.x0 = at;
    };
    const bool two = cell.kind != UnitKind::StackingDoor && unit.configuration.size() <= 2;
    if (unit.lights.empty() && panelsMeet(cell.kind) && two) {
      meet(unit.width / 2);
    } else if (panelsMeet(cell.kind)) {
      if (!parts) parts = partsOf(unit);
      const std::span<const Sash> sashes = parts->sashesOf(parts->light[i]);
      for (std::size_t next = 1; next < sashes.size(); ++next) {
        meet((sashes[next - 1].outside.x1 + sashes[next].outside.x0) / 2);
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
  if (unit.lights.empty() && !panelsMeet(unit.kind)) return {};
  return endsOn(Side::Sill, barLines(unit), unit);
}

/// Glass that is told of a light that isn't there, or twice of one.
static std::string glassFault(const job::Unit& unit, const Counts& counts) {
  std::set<std::pair<double, double>> there;
  for (std::size_t i = 0; i < counts.rows * counts.columns; ++i) {
    if (i < unit.lights.size() && unit.lights[i] == job::Light::Joined) continue;
    there.emplace(i / counts.columns + 1, i % counts.columns + 1);
  }
  for (const job::LightGlass& glass : unit.glass_of) {
    if (there.erase({glass.row, glass.column}) > 0) continue;
    return "glass_of names the light [" + job::toText(glass.row) + ", " + job::toText(glass.column) +
           "], which is not there or was named before";
  }
  return {};
}

/// Letters that don't suit what the unit has of panels.
static std::string configurationFault(const job::Unit& unit) {
  if (!unit.configuration) return {};
  const std::string& letters = *unit.configuration;
  const auto any = [&](auto is) {
    return is(unit.kind) || std::any_of(unit.lights.begin(), unit.lights.end(), [&](job::Light light) {
             return light != job::Light::Joined && is(static_cast<UnitKind>(light));
           });
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
static std::string coupledFault(const job::Unit& unit) {
  if (unit.coupled.empty()) return {};
  const bool over = unit.coupled.front().side == job::CoupledAt::Over;
  for (const job::Coupled& part : unit.coupled) {
    if ((part.side == job::CoupledAt::Over) != over) return "coupled parts stand all at the right, or all over";
    if (!(over ? part.height : part.width) || (over ? part.width : part.height)) {
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

std::string lightsFault(const job::Unit& whole) {
  if (std::string fault = coupledFault(whole); !fault.empty()) return fault;
  if (std::string fault = configurationFault(whole); !fault.empty()) return fault;
  if (std::string fault = headFault(whole); !fault.empty()) return fault;
  job::Unit unit = whole;
  Divided divided = dividedWithParts(whole);
  unit.lights = std::move(divided.lights);
  unit.columns = std::move(divided.columns);
  unit.rows = std::move(divided.rows);
  if (std::string fault = glassFault(unit, countsOf(unit)); !fault.empty()) return fault;
  if (unit.lights.empty()) {
    return unit.columns.empty() && unit.rows.empty() ? std::string{}
                                                     : "columns and rows divide a unit whose lights are named";
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

std::string opensWords(const UnitParts& parts, const LightParts& light) {
  const std::span<const Sash> sashes = parts.sashesOf(light);
  if (sashes.empty()) return opens(light.kind) ? "blades turn" : "";
  const Sash& sash = sashes.front();
  const std::string way = sash.inwards ? "in" : "out";
  const std::string side = sash.left ? "left" : "right";
  std::string letters;
  for (const Sash& one : sashes) {
    letters += one.motion == Motion::Folds ? (one.left ? 'L' : 'R') : one.motion == Motion::Stays ? 'O' : 'X';
  }
  switch (sash.motion) {
    case Motion::HungAbove:
      return "hung at the head, opens " + way;
    case Motion::HungBelow:
      return "hung at the foot, opens " + way;
    case Motion::HungAside:
      return sashes.size() > 1 ? "a pair, opens " + way : "hung at the " + side + ", opens " + way;
    case Motion::TiltsAndTurns:
      return "tilts " + way + " at its head or turns " + way + " at the " + side;
    case Motion::Folds:
      return "folds " + way + ": " + letters;
    case Motion::SlidesUp:
      return sashes.back().motion == Motion::Stays ? "the lower sash slides up" : "both sashes slide";
    default:
      return "slides " + letters;
  }
}

std::string clearWords(const UnitParts& parts, practice::Display display) {
  std::string said;
  for (const LightParts& light : parts.light) {
    const auto clear = clearOpening(parts, light);
    if (!clear) continue;
    said += said.empty() ? "" : "; ";
    if (parts.light.size() > 1)
      said += "row " + std::to_string(light.row) + ", light " + std::to_string(light.column) + ": ";
    said += words::size(clear->width(), clear->height(), display);
  }
  return said;
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
