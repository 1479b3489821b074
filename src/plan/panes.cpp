#include "plan/panes.h"

#include <cmath>
#include <utility>

#include "base/words.h"
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
constexpr SashSection kSliding{30, 40, 0};  // these sizes are common practice, no source
constexpr SashSection kHung{40, 40, 0};
constexpr SashSection kDoorLeaf{40, 90, 200};
constexpr double kLeafClearance = 3;  // round a hung sash or leaf
constexpr double kBlade = 140;        // of a louvre, as seen

/// Puts the parts of one unit together, light by light.
class Division {
 public:
  explicit Division(const UnitSpec& unit) : unit_(unit) {
    parts_.head = headLineOf(unit);
    parts_.restrictor = unit.restrictor;
    const UnitRect outside{0, 0, unit.width, unit.height};
    parts_.frame = parts_.in_reveal = outside.inset(faceWithin(unit.reveal ? unit.reveal->thickness : 0, outside));
    if (unit.sub_sill) parts_.frame.z0 += faceWithin(unit.sub_sill->height, parts_.in_reveal);
    parts_.clear = parts_.frame.inset(faceWithin(unit.frame.face, parts_.frame));
    parts_.made = {parts_.frame};
    if (unit.coupled == 0) return;
    const UnitRect& frame = parts_.frame;
    parts_.made = madeParts(unit);
    for (UnitRect& part : parts_.made) {  // they bound the unit; the frame lies within the reveal
      part = {std::max(part.x0, frame.x0), std::max(part.z0, frame.z0), std::min(part.x1, frame.x1),
              std::min(part.z1, frame.z1)};
    }
  }

  UnitParts parts() {
    const std::vector<Cell> cells = cellsOf(unit_);
    for (const BarSpan& span : spansOf(columns_, rows_, cells)) addBar(span);
    for (const Cell& cell : cells) addCell(cell);
    return std::move(parts_);
  }

 private:
  /// Half the face of the mullion (the transom) on a line between columns (rows): where parts are coupled the frames
  /// of both stand there.
  [[nodiscard]] double half(std::size_t line, bool of_rows) const {
    if (isJoint(unit_, line, of_rows ? rows_ : columns_, of_rows)) return unit_.frame.face;
    return (of_rows ? unit_.transom : unit_.mullion) / 2;
  }

  // Where what lies beside a line between columns or rows begins or ends; at the unit's ends inside its frame.
  [[nodiscard]] double rightOf(std::size_t line) const {
    return line == 0 ? parts_.clear.x0 : grid_.x[line] + half(line, false);
  }
  [[nodiscard]] double leftOf(std::size_t line) const {
    return line == columns_ ? parts_.clear.x1 : grid_.x[line] - half(line, false);
  }
  [[nodiscard]] double under(std::size_t line) const {
    return line == 0 ? parts_.clear.z1 : grid_.z[line] - half(line, true);
  }
  [[nodiscard]] double over(std::size_t line) const {
    return line == rows_ ? parts_.clear.z0 : grid_.z[line] + half(line, true);
  }

  /// A mullion or a transom; at a joint the two frames beside each other.
  void addBar(const BarSpan& span) {
    const UnitRect bar = span.upright
                             ? UnitRect{leftOf(span.line), over(span.to), rightOf(span.line), under(span.from)}
                             : UnitRect{rightOf(span.from), under(span.line), leftOf(span.to), over(span.line)};
    if (!isJoint(unit_, span.line, span.upright ? columns_ : rows_, !span.upright)) {
      parts_.bar.push_back(bar);
    } else {
      UnitRect first = bar, second = bar;  // left and right, or over and under: half each
      (span.upright ? first.x1 : first.z1) = (span.upright ? bar.x0 + bar.x1 : bar.z0 + bar.z1) / 2;
      (span.upright ? second.x0 : second.z0) = span.upright ? first.x1 : first.z1;
      parts_.bar.insert(parts_.bar.end(), {first, second});
    }
    if (span.upright) parts_.mullions = parts_.bar.size();  // spansOf gives mullions first
  }

  void addCell(const Cell& cell) {
    const std::size_t end = cell.column + cell.columns;
    // At an end of a row a casement hangs from the frame, not from a mullion: common practice, no source.
    job::Hand hand = unit_.hand;
    if (cell.kind == UnitKind::CasementWindow && columns_ > 1) {
      if (cell.column == 0) hand = job::Hand::Left;
      if (end == columns_ && cell.column > 0) hand = job::Hand::Right;
    }
    const UnitRect clear{rightOf(cell.column), over(cell.row + 1), leftOf(end), under(cell.row)};
    LightParts& light = parts_.light.emplace_back();
    light = {cell.kind, hand, clear, parts_.sash.size(), 0, parts_.pane.size(), 0, cell.row + 1, cell.column + 1};
    fill(light);  // adds the sashes and panes that are counted below
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
      way.push_back(2 * panels);  // further than any panel can be
      for (int k = 0; k < panels; ++k) {
        const int off = std::abs(k - i) - std::abs(way.back());  // 0: as far either way, the hand decides
        const bool nearer = off < 0 || (off == 0 && (k > i) == (light.hand == job::Hand::Left));
        if (letters[static_cast<std::size_t>(k)] == 'O' && nearer) way.back() = k - i;
      }
    }
    int lapped = 0;                 // how many neighbours lap: each such pair shares a stile's face
    const auto laps = [&](int i) {  // their tracks differ
      return std::abs(way[static_cast<std::size_t>(i)]) != std::abs(way[static_cast<std::size_t>(i) + 1]);
    };
    for (int i = 0; i + 1 < panels; ++i) lapped += laps(i) ? 1 : 0;
    const UnitRect clear = light.clear;
    const double face = faceWithin(kSliding.face, {0, 0, clear.width() / panels, clear.height()});
    const double width = (clear.width() + lapped * face) / panels;  // laps are covered twice
    double x = clear.x0;                                            // the left edge of the next panel
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
    const double height = (clear.height() + face) / 2;  // their meeting rails stand behind each other
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
    const bool in = motion == Motion::HungBelow || motion == Motion::TiltsAndTurns;  // these usually open inwards
    sash.left = light.hand == job::Hand::Left;
    sash.inwards = unit_.opens.value_or(in ? job::Way::In : job::Way::Out) == job::Way::In;
  }

  void blades(const UnitRect& clear) {
    const double count = std::max(std::round(clear.height() / kBlade), 1.0);  // whole ones of about that height
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
  const Grid grid_ = gridOf(unit_);
  const std::size_t columns_ = grid_.x.size() - 1, rows_ = grid_.z.size() - 1;
  UnitParts parts_;
};

}  // namespace

double faceWithin(double face, const UnitRect& rect) {
  return std::min(face, 0.2 * std::min(rect.width(), rect.height()));  // some glass is always left
}

UnitParts partsOf(const UnitSpec& unit) { return Division(unit).parts(); }

/// What the panels between those that stand still leave when they have slid away, where it is widest.
static UnitRect widestRun(const UnitRect& clear, std::span<const Sash> sashes) {
  UnitRect widest{clear.x0, clear.z0, clear.x0, clear.z1};  // nothing open yet
  double from = clear.x0;
  const auto end = [&](double to) {
    if (to - from > widest.width()) widest.x0 = from, widest.x1 = to;
  };
  for (const Sash& sash : sashes) {
    if (sash.motion != Motion::Stays) continue;  // it can be slid away
    end(sash.outside.x0);
    from = sash.outside.x1;
  }
  end(clear.x1);
  return widest;
}

std::optional<UnitRect> clearOpening(const UnitParts& parts, const LightParts& light) {
  if (light.sashes == 0) return std::nullopt;
  const Sash& sash = parts.sash[light.first_sash];  // of those that slide up, fold or hang it tells of all
  UnitRect open = light.clear;
  const double most = parts.restrictor.value_or(HUGE_VAL);
  const std::span<const Sash> sashes = parts.sashesOf(light);
  if (sash.motion == Motion::SlidesUp) {
    open.z1 = std::clamp(open.z1 - sash.outside.height(), open.z0, open.z0 + most);  // raised, it covers the top
    return open;
  }
  if (sash.motion == Motion::Folds) {  // the leaves stand side by side at the jambs
    for (const Sash& leaf : sashes) (leaf.left ? open.x0 : open.x1) += leaf.left ? leaf.depth : -leaf.depth;
    if (open.x0 >= open.x1) return std::nullopt;
  } else if (panelsMeet(light.kind)) {
    open = widestRun(light.clear, sashes);
  } else if (!hangsAside(sash.motion)) {  // one hung above or below hangs in the way
    return std::nullopt;
  }
  open.x1 = std::min(open.x1, open.x0 + most);  // a restrictor lets it no wider
  return open;
}

std::optional<double> airOpening(const UnitParts& parts, const LightParts& light) {
  const UnitRect& clear = light.clear;
  if (opens(light.kind) && light.sashes == 0) {  // blades: turned level, each takes its thickness
    const double blades = static_cast<double>(light.panes) * parts.glass[light.first_pane].thickness;
    return clear.width() * std::max(clear.height() - blades, 0.0);
  }
  const bool hung =
      light.sashes == 1 && parts.sash[light.first_sash].motion != Motion::Stays && !panelsMeet(light.kind);
  if (hung && parts.restrictor) {
    return std::min(clear.area(), *parts.restrictor * (clear.width() + clear.height()));  // a slot, two triangles
  }
  const auto open = clearOpening(parts, light);
  return open ? std::optional(open->area()) : std::nullopt;
}

std::optional<UnitRect> clearOpening(const UnitParts& parts) {
  std::optional<UnitRect> largest;
  for (const LightParts& light : parts.light) {
    const auto clear = clearOpening(parts, light);
    if (clear && (!largest || clear->area() > largest->area())) largest = clear;
  }
  return largest;
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
  std::vector<std::string> said;
  for (const LightParts& light : parts.light) {
    std::vector<std::string> of;
    if (const auto clear = clearOpening(parts, light))
      of.push_back(words::size(clear->width(), clear->height(), display));
    if (const auto air = airOpening(parts, light)) of.push_back(words::number(*air * 1e-6, 2) + " m² for air");
    if (of.empty()) continue;
    const std::string where = "row " + std::to_string(light.row) + ", light " + std::to_string(light.column) + ": ";
    said.push_back((parts.light.size() > 1 ? where : "") + base::joined(of));
  }
  return base::joined(said, "; ");
}

}  // namespace sillwright::plan
