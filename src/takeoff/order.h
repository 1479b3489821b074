/// The order list: the units of a job, one a row, each part that is coupled to one a row of its own, with what each
/// size was based on.
///
/// Its first columns are those of a window schedule (their names are here, the reader is exchange/schedule.h), so that
/// the list can be read back; sizes are the job's, or the practice's where the job leaves them out.
#pragma once

#include "check/finding.h"
#include "job/job.h"
#include "plan/plan.h"
#include "takeoff/table.h"
#include "takeoff/takeoff.h"

namespace sillwright::takeoff {

/// Columns of a window schedule. Words as in the job file.
namespace column {
inline constexpr const char* kOpening = "opening";
inline constexpr const char* kWall = "wall";
inline constexpr const char* kRoom = "room";
inline constexpr const char* kLeft = "left";
inline constexpr const char* kSill = "sill";
inline constexpr const char* kFramedWidth = "framed width";
inline constexpr const char* kFramedHeight = "framed height";
inline constexpr const char* kKind = "kind";
inline constexpr const char* kLights = "lights";
inline constexpr const char* kColumns = "light widths";
inline constexpr const char* kRows = "light heights";
inline constexpr const char* kOpens = "opens";
inline constexpr const char* kHand = "hand";
inline constexpr const char* kCoupledTo = "coupled to";  ///< "W1, right": a part made apart, joined to that opening's.
inline constexpr const char* kQuantity = "quantity";
inline constexpr const char* kUnitWidth = "unit width";
inline constexpr const char* kUnitHeight = "unit height";
inline constexpr const char* kFrameDepth = "frame depth";
inline constexpr const char* kFrameFace = "frame face";
inline constexpr const char* kRevealThickness = "reveal thickness";  ///< Both reveal columns empty: bare.
inline constexpr const char* kRevealDepth = "reveal depth";
inline constexpr const char* kFin = "fin";
inline constexpr const char* kGlass = "glass thickness";
inline constexpr const char* kPanes = "glass panes";
inline constexpr const char* kSafetyGlass = "safety glass";  ///< yes, no, or empty: not said.
inline constexpr const char* kFlashing = "flashing";
inline constexpr const char* kObscure = "obscure glass";  ///< yes, no, or empty: not said.
inline constexpr const char* kColour = "colour";
inline constexpr const char* kScreens = "screens";  ///< yes, no, or empty: not said.
inline constexpr const char* kNotes = "notes";
inline constexpr const char* kMass = "weight";
// What follows, and what else the list has, is its own; a schedule may have it, and it is passed over.
inline constexpr const char* kSizesOf = "sizes are";     ///< What width and height are measured over.
inline constexpr const char* kMassFrom = "weight from";  ///< stated, or calculated from sizes: not the job's then.
inline constexpr const char* kReveal = "reveal";         ///< bare, or with: its sizes are in the columns above.
inline constexpr const char* kSpare = "clearance to spare";
inline constexpr const char* kChance = "chance of fit";
inline constexpr const char* kPeople = "people to lift";
}  // namespace column

inline constexpr const char* kStated = "stated";

/// "order width" and "order height" are the unit's own where it fits surely enough, else the largest that leaves the
/// usual gaps in the opening as it is planned or was measured; "clearance to spare" and "chance of fit" are those of
/// the unit as the job has it. All four are empty where the measurements disagree. The plan and the findings are of
/// this job.
[[nodiscard]] Table orderList(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                              const check::Findings& findings);

/// Everything that a job takes, as tables: the job's own lines, the order list, the take-off, and last what is to be
/// noted of each list, so that no note stands among a list's data.
[[nodiscard]] std::vector<Table> allLists(const job::Job& job, const practice::Practice& practice,
                                          const plan::Plan& plan, const check::Findings& findings,
                                          const TakeoffOptions& options = {});

}  // namespace sillwright::takeoff
