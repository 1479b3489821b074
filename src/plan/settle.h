/// Settling what the job left out: the job's own values, else the practice's, and which ones those were.
///
/// The rooms above work on a WallSpec and a UnitSpec, in which every size is there. Each size that came from the
/// practice stands in `assumed`, so that the person is told; none is ever filled in without a word.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "plan/shape.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// A size the job left out and the practice gave. The figure lives in the practice, which must outlive this.
struct Assumption {
  const char* key = "";  ///< As the job file would name it: "spacing", "unit.fin".
  const practice::Figure* figure = nullptr;
};

struct WallSpec {
  double length = 0;
  std::vector<job::TopPoint> top;
  job::StudSection stud;  ///< Of the row that the unit is fixed to: the outer one.
  std::optional<job::SecondRow> second_row;
  double spacing = 0;
  job::PlateCount plates;
  double lining = 0;
  double level = 0;  ///< Its floor's, above the ground storey's.
  job::Cladding cladding;
  std::vector<Assumption> assumed;

  /// Both rows of studs and the gap between them.
  [[nodiscard]] double frameDepth() const {
    return stud.depth + (second_row ? second_row->gap + second_row->depth : 0);
  }
  /// Frame plus lining: how deep a reveal has to be.
  [[nodiscard]] double depth() const { return frameDepth() + lining; }
};

/// The kind that the job says, else the one that its thickness and cavity tell of.
[[nodiscard]] job::CladdingKind kindOf(const job::Cladding& cladding);
[[nodiscard]] bool isBrick(const job::Cladding& cladding);
/// What it is called: the practice's cladding, or brickwork.
[[nodiscard]] const std::string& wordFor(const job::Cladding& cladding, const practice::Words& words);

/// The aluminium frame's outside face stands so far before the studs where the job doesn't say. Common practice, no
/// source.
inline constexpr double kFrameProud = 35;
/// In brick veneer it stands so far past the cavity, beside the bricks. Common practice, no source.
inline constexpr double kFrameIntoBrick = 10;

/// How a unit is divided into lights.
struct Divided {
  std::vector<job::Light> lights;     ///< Row by row from the top left; empty: one, of the unit's kind.
  std::vector<double> columns, rows;  ///< As the job gives them; 0: a share of what is left.
};

struct UnitSpec : Divided {
  job::UnitKind kind = job::UnitKind::FixedWindow;
  double width = 0, height = 0;  ///< To the highest corner.
  std::optional<job::Head> head;
  int panels = 3;                                 ///< Of a stacking or a folding door.
  std::string configuration;                      ///< As the job gives it; else empty.
  std::optional<job::Way> opens;                  ///< Empty: as its kind does.
  std::size_t coupled = 0;                        ///< The last columns, or the first rows, that are parts made apart.
  bool coupled_over = false;                      ///< They are rows.
  std::vector<std::optional<double>> coupled_kg;  ///< Their weights, where the job gives them.
  double mullion = 0, transom = 0;                ///< Their faces.
  std::optional<double> restrictor;
  job::FrameSection frame;
  double stands = -kFrameProud;  ///< y of the frame's outside face.
  std::optional<job::Reveal> reveal;
  std::optional<job::SubSill> sub_sill;
  double fin = 0;
  job::Glass glass;
  std::vector<job::LightGlass> glass_of;  ///< Lights whose glass differs.
  job::Hand hand = job::Hand::Left;
  std::optional<job::FixingSchedule> fixing;
  std::vector<Assumption> assumed;

  [[nodiscard]] bool isDoor() const { return job::isDoor(kind); }
  /// Of a side of the frame, and of the sub-sill under it.
  [[nodiscard]] double frameAt(Side side) const {
    return frame.face + (side == Side::Sill && sub_sill ? sub_sill->height : 0);
  }
  /// Of its side along x (sill and head) or up a jamb; 0 where a triangle has no jamb.
  [[nodiscard]] double lengthOf(Side side) const {
    if (isLevel(side)) return width;
    if (!head) return height;
    return side == Side::Left ? head->left : head->right;
  }
};

/// The glass of a light, by its row from the top and its place in it, both from 1.
[[nodiscard]] job::Glass glassIn(const job::Glass& unit, const std::vector<job::LightGlass>& glass_of, std::size_t row,
                                 std::size_t column);

/// "2 × 4 mm toughened", "6 mm laminated, obscure", "5 mm, safety": as far as the job says it.
[[nodiscard]] std::string glassWords(const job::Glass& glass, practice::Display display);
/// "all: 6 mm + 4 mm, gap 12 mm" of a unit that says more than thickness and panes; of each light whose glass differs:
/// "row 2, light 1: 6 mm laminated". Empty: there is nothing to say.
[[nodiscard]] std::string glassByLight(const UnitSpec& unit, practice::Display display);

/// With the lights of the parts that are coupled to it: the grid of the whole.
[[nodiscard]] Divided dividedWithParts(const job::Unit& unit);

[[nodiscard]] WallSpec settleWall(const job::Wall& wall, const practice::Practice& practice);
/// y of a frame's outside face in the wall, where the job doesn't say.
[[nodiscard]] double usualStand(const job::Wall& wall);
[[nodiscard]] UnitSpec settleUnit(const job::Unit& unit, const practice::Practice& practice,
                                  double stands = -kFrameProud);

/// The lintel over an opening: the job's, else the practice's for its width (with the assumption noted in `assumed`).
/// Empty where neither names one.
[[nodiscard]] std::optional<job::Lintel> settleLintel(const job::Opening& opening, const practice::Practice& practice,
                                                      std::vector<Assumption>& assumed);

}  // namespace sillwright::plan
