/// The words of each step of the order of work, for one opening.
///
/// Inside the room: orderOfWork asks for one step after the other. Sizes come from the plan, limits from the practice,
/// names from the practice's words; where the practice names no limit the text says what is looked at and no figure.
#pragma once

#include <string>
#include <vector>

#include "plan/work/order_of_work.h"
#include "words/length.h"

namespace sillwright::plan {

struct StepTexts {
  const job::Job& job;
  const job::Opening& opening;
  const OpeningPlan& planned;
  const WallSpec& wall;
  const practice::Practice& practice;

  [[nodiscard]] Step step(StepKind kind) const;

 private:
  /// The jamb on the other side.
  [[nodiscard]] static Side across(Side jamb);
  [[nodiscard]] std::string len(double mm) const;
  template <class Sized>
  [[nodiscard]] std::string size(const Sized& of) const {
    return words::size(of, practice.display);
  }
  /// ", at most 4 mm in 2000 mm" where both figures are named; else nothing.
  [[nodiscard]] std::string within(const practice::Rule& most) const;
  [[nodiscard]] std::string within(const practice::Rule& most, const practice::Rule& over) const;
  [[nodiscard]] const char* unitWord() const;
  /// Whether the screws go through the fin, and not at the packers.
  [[nodiscard]] bool throughFin() const;
  /// What of the unit a head flashing turns down over: its fin, or the frame where it has none.
  [[nodiscard]] std::string outermost() const;
  /// Whether the flashings at sill and jambs go in with the unit.
  [[nodiscard]] bool flashingsGoIn() const;
  /// What is taken out of a unit too heavy to be lifted whole.
  /// Whether what comes out for lifting hangs on hinges; else it slides.
  [[nodiscard]] bool leavesOut() const;
  /// What comes out for lifting: "leaf", "sliding panels".
  [[nodiscard]] std::string panelWord() const;
  /// "sliding panel, about 32 kg", "2 leaves, up to 40 kg each".
  [[nodiscard]] std::string panelsPart() const;
  [[nodiscard]] const char* first() const;
  [[nodiscard]] const char* other() const;
  [[nodiscard]] std::vector<std::string> packersOn(Side side) const;
  /// Screws and where they go on a side: "3 screws 8g x 75 at 150, 520, 890 mm up the left jamb".
  [[nodiscard]] std::vector<std::string> screwsOn(Side side) const;
  [[nodiscard]] std::string pieceWords(const Piece& piece) const;
  [[nodiscard]] std::vector<std::string> piecesOf(PieceKind kind) const;

  [[nodiscard]] Step checkFraming() const;
  [[nodiscard]] Step readOpening() const;
  [[nodiscard]] Step checkOldOpening() const;
  [[nodiscard]] Step takeOut() const;
  [[nodiscard]] Step trims() const;
  [[nodiscard]] std::string courses() const;
  [[nodiscard]] Step membrane() const;
  [[nodiscard]] Step packSill() const;
  [[nodiscard]] Step firstJamb() const;
  [[nodiscard]] Step flashingsOnUnit() const;
  [[nodiscard]] Step sillFlashing() const;
  [[nodiscard]] Step doorPan() const;
  [[nodiscard]] Step jambFlashings() const;
  [[nodiscard]] Step panelsOut() const;
  [[nodiscard]] Step panelsIn() const;
  [[nodiscard]] Step boreReveal() const;
  [[nodiscard]] Step liftIn() const;
  [[nodiscard]] Step fixFirstJamb() const;
  [[nodiscard]] Step fixOtherJamb() const;
  [[nodiscard]] Step headFlashing() const;
  [[nodiscard]] Step headFlap() const;
  [[nodiscard]] Step tryOpening() const;
  [[nodiscard]] Step readAgain() const;
  [[nodiscard]] Step sealInside() const;
  [[nodiscard]] Step cladding() const;
};

}  // namespace sillwright::plan
