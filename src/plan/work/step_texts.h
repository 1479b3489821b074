/// The words of each step of the order of work, for one opening.
///
/// Inside the room: orderOfWork asks for one step after the other. Sizes come from the plan, limits from the practice,
/// names from the practice's words; where the practice names no limit the text says what is looked at and no figure.
#pragma once

#include <initializer_list>
#include <string>
#include <vector>

#include "plan/work/order_of_work.h"
#include "words/text.h"

namespace sillwright::plan {

struct StepTexts {
  const job::Job& job;
  const job::Opening& opening;
  const OpeningPlan& planned;
  const WallSpec& wall;
  const practice::Practice& practice;
  const practice::Words& words = practice.words;

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
  [[nodiscard]] std::string within(const practice::Rule& most, const practice::Rule& over = {}) const;
  /// Whether the screws go through the fin, and not at the packers.
  [[nodiscard]] bool throughFin() const;
  /// What of the unit a head flashing turns down over: its fin, or the frame where it has none.
  [[nodiscard]] std::string outermost() const;
  /// What closes the opening above.
  [[nodiscard]] std::string overHead() const;
  /// Whether the flashings at sill and jambs go in with the unit.
  [[nodiscard]] bool flashingsGoIn() const;
  /// What comes out for lifting: "leaf", "sliding panels".
  [[nodiscard]] std::string panelWord() const;
  /// "sliding panel, about 32 kg", "2 leaves, up to 40 kg each".
  [[nodiscard]] std::string panelsPart() const;
  [[nodiscard]] const char* first() const;
  [[nodiscard]] const char* other() const;
  [[nodiscard]] std::vector<std::string> packersOn(Side side) const;
  /// Screws and where they go on a side: "3 screws 8g x 75 at 150, 520, 890 mm up the left jamb".
  [[nodiscard]] std::vector<std::string> screwsOn(Side side) const;
  [[nodiscard]] std::vector<std::string> piecesOf(std::initializer_list<PieceKind> kinds) const;

  /// Each fills in the step that it is given.
  void checkFraming(Step& s) const;
  void readOpening(Step& s) const;
  void checkOldOpening(Step& s) const;
  void takeOut(Step& s) const;
  void trims(Step& s) const;
  [[nodiscard]] std::string courses() const;
  void membrane(Step& s) const;
  void packSill(Step& s) const;
  void firstJamb(Step& s) const;
  void flashingsOnUnit(Step& s) const;
  void sillFlashing(Step& s) const;
  void doorPan(Step& s) const;
  void jambFlashings(Step& s) const;
  void panelsOut(Step& s) const;
  void panelsIn(Step& s) const;
  void boreReveal(Step& s) const;
  void liftIn(Step& s) const;
  void fixFirstJamb(Step& s) const;
  void fixOtherJamb(Step& s) const;
  void headFlashing(Step& s) const;
  void headFlap(Step& s) const;
  void tryOpening(Step& s) const;
  void readAgain(Step& s) const;
  void sealInside(Step& s) const;
  void cladding(Step& s) const;
};

}  // namespace sillwright::plan
