/// The lesson: the order of work at one opening played card by card, and what the water does when something is done
/// wrong.
///
/// A lesson is a small value that a person changes; `teach` answers everything that follows from it and the document:
/// which parts are there, on which skin the water runs, where, and the sentence that says why. The plan itself is never
/// changed by it.
#pragma once

#include <cstdint>
#include <optional>
#include <random>
#include <span>
#include <string>
#include <vector>

#include "document/document.h"
#include "document/exercise.h"
#include "plan/weather/what_if.h"
#include "plan/work/order_of_work.h"

namespace sillwright::document {

struct Lesson {
  std::int32_t opening = -1;  ///< −1: no lesson is on.
  int place = 0;              ///< Cards done: 0 none, as many as there are: all.
  bool playing = false;
  float since = 0.0F;       ///< Seconds of playing that the card has lain there.
  float pace = 1.0F;        ///< 1: as fast as the cards are read.
  bool loop = false;        ///< After the last card it begins again.
  bool watching = false;    ///< Cards rest, and the water is watched on what is built.
  bool class_room = false;  ///< The drawing alone with the card's few words, large.
  bool drops = true;        ///< Drops run.
  bool choosing = false;    ///< The list of what-ifs is open.
  std::string about;        ///< The sheet that was picked for it; empty: the list is of all.
  std::vector<plan::WhatIf> what_ifs;
  std::optional<Exercise> exercise;

  [[nodiscard]] bool on() const { return opening >= 0; }
};

/// Something that can be done wrong at this opening, in words for a list.
struct Choice {
  plan::WhatIf what_if;
  std::string words;
  bool chosen = false;
};

/// What follows from a lesson.
struct Taught {
  std::vector<plan::Step> steps;            ///< In the right order.
  std::vector<plan::StepKind> cards;        ///< As the cards lie.
  std::uint32_t hidden_steps = 0;           ///< As render::Look.
  std::optional<scene::PartStep> lit_step;  ///< As render::Look.
  bool skin_changed = false;                ///< The scene is built with `skin` in place of the plan's.
  plan::Skin skin;                          ///< Everything on, as it was done.
  plan::Skin there;                         ///< What of it is on after the cards done.
  bool wet = false;                         ///< The unit stands in the wall: water is run.
  plan::Water water;                        ///< On `there`.
  std::string water_says;                   ///< Where it gets in and why, or that it is shed.
  std::vector<plan::OrderFault> faults;     ///< Of an exercise that was answered for.
  std::vector<Choice> choices;
  std::string refusal;  ///< A what-if that can't be done here, in words.

  [[nodiscard]] const plan::Step& step(plan::StepKind kind) const;
};

/// The lesson must be of one of the document's openings.
[[nodiscard]] Taught teach(const Document& document, const Lesson& lesson);

/// Shuffles. By std::shuffle the page would deal other cards than the program: each library has its own.
template <class Card>
void deal(std::vector<Card>& cards, std::mt19937& bits) {
  for (std::size_t i = cards.size(); i > 1; --i) std::swap(cards[i - 1], cards[bits() % i]);
}
/// The cards of an exercise's round, shuffled: never in the right order. The same round is always the same.
[[nodiscard]] std::vector<plan::StepKind> shuffled(std::span<const plan::StepKind> right, std::uint32_t round);

}  // namespace sillwright::document
