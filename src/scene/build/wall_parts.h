/// The parts of one wall, and what its layers share: where it stands, its corners, its top line, its cut-outs.
///
/// Sheets are drawn 1 mm thick, which is thicker than they are, so that a close-up can tell them apart. Room for them
/// is taken from the back of what lies outside them (the cladding's back, the fin): outer faces and sizes given stay
/// true.
#pragma once

#include <vector>

#include "plan/plan.h"
#include "plan/weather/weather_skin.h"
#include "scene/build/corners.h"
#include "scene/build/strips.h"
#include "scene/solids.h"

namespace sillwright::scene {

inline constexpr double kSheet = 1.0;         ///< Drawn thickness of a membrane.
inline constexpr double kMembraneFace = 2.3;  ///< Outermost face of the membrane with its laps, before the studs.
inline constexpr double kFinBack = 4.2;       ///< Back of fin and boards: room for flashings over the membrane.
inline constexpr double kFinThickness = 3.0;
inline constexpr double kSkirt = plan::kSkirt;
inline constexpr double kBoardCover = 180.0;  ///< Visible height of a cladding board.

/// What one opening takes out of a wall's layers, in the wall's axes.
struct CutOut {
  std::int32_t opening = -1;
  Rect framed;                ///< The framed opening, as high as its highest corner.
  plan::HeadLine head{0, 0};  ///< Of the framed opening, from its lower left corner.
  bool steel_lintel = false;
  bool flashed = true;  ///< The membrane is folded into it.
  Rect fin;             ///< Outside of the fin: boards that run over it make room for it.
  std::vector<Strip> lining;
  std::vector<Strip> membrane;
  std::vector<Strip> clad;
  std::vector<Strip> battens;
};

/// Everything that the layers of a wall are made from. The plan must outlive it.
struct WallStage {
  Bench bench;
  const job::Wall* wall = nullptr;
  const plan::WallPlan* planned = nullptr;
  WallEnds ends;
  std::array<const plan::WallSpec*, 2> other{};  ///< The walls met at each end; null where there is none.
  std::array<const job::Eave*, 2> other_eave{};
  Line top;                  ///< The top of the plate, over the frame's length.
  std::vector<CutOut> cuts;  ///< Left to right.
  const practice::Practice* practice = nullptr;
  bool finished = false;  ///< Cladding, membrane and lining are there from the start.
  double run_lap = 0;     ///< Of a membrane's run over the one below.
};

/// How far a wall's cladding stands off its studs, at its back and its front, as drawn.
struct CladdingDepth {
  double back = 0;
  double front = 0;
};
[[nodiscard]] CladdingDepth claddingDepth(const plan::WallSpec& spec);

/// The unit's outside, in its wall's axes, at its planned stand.
[[nodiscard]] Rect unitOutside(const job::Opening& opening, const plan::OpeningPlan& planned);

void addMembers(const WallStage& stage);
void addLining(const WallStage& stage);
void addMembrane(const WallStage& stage);
void addCladding(const WallStage& stage);
void addBattens(const WallStage& stage);
void addEave(const WallStage& stage);

/// The floor: one slab under each ring of walls that closes, a strip along every other wall.
void addFloors(Scene& scene, const std::vector<WallStage>& stages);

}  // namespace sillwright::scene
