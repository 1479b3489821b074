/// An exercise: what a trainee is asked at one opening, what was done about it so far, and what is said of that.
///
/// A task is made once, of an exercise's file and its job (exercise_file.h). An exercise is a small value that a person
/// changes: cards are moved or answers picked, and then it is answered for, as often as it takes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "plan/weather/what_if.h"
#include "plan/work/order_of_work.h"

namespace sillwright::document {

enum class Level : std::uint8_t {
  Order,  ///< Cards are put in order.
  Laps,   ///< The wall was done wrong: what is wrong with it is to be found.
  Judge   ///< Questions on a measured opening.
};
inline constexpr std::string_view kLevelWords[] = {"order", "laps", "judge"};

inline constexpr std::size_t kMostOptions = 16;  ///< Of a question.

struct Option {
  std::string words;
  bool right = false;
  std::string why;  ///< Told to whoever picks it.
};

struct Question {
  std::string asks;
  std::string given;  ///< What one has to know for it; may be empty.
  std::vector<Option> options;
  bool several = false;  ///< All that are right are to be picked, else the one.
};

struct Task {
  std::string title;
  std::string asked;  ///< What is to be done, in words.
  Level level = Level::Order;
  std::vector<plan::Step> steps;      ///< The cards in their usual order; empty but for Level::Order.
  std::vector<plan::StepKind> start;  ///< As they lie at first.
  std::vector<plan::WhatIf> wrong;    ///< How the wall was done.
  std::vector<Question> questions;    ///< Empty for Level::Order.
};

struct Said {
  bool good = false;
  std::string words;
  bool operator==(const Said&) const = default;
};

struct Exercise {
  std::shared_ptr<const Task> task;
  std::vector<plan::StepKind> order;      ///< The cards as they lie.
  int held = -1;                          ///< Place of the card in hand, from 0; −1: none.
  std::vector<std::vector<bool>> picked;  ///< Of each question, of each option.
  bool judged = false;                    ///< It was answered for as it lies.
  bool solved = false;                    ///< And is right: nothing moves any more.
  int tries = 0;
  int first_right = 0;  ///< What was right at the first answer, of `outOf`.
  double seconds = 0;   ///< From the start to the last answer.
  std::vector<Said> said;
  bool operator==(const Exercise&) const = default;
};

[[nodiscard]] Exercise begin(std::shared_ptr<const Task> task);

/// Moves the card at `from` to where the card at `to` lies.
void moveCard(std::vector<plan::StepKind>& cards, int from, int to);
/// Takes the card at a place in hand, or puts the one in hand there.
void takeCard(Exercise& exercise, int place);
/// Picks an option or lets go of it. Ones that there are not are passed over.
void pick(Exercise& exercise, std::size_t question, std::size_t option);
/// Answers for what lies there, so many seconds after the start. An order that can't be built is told by the first
/// card that breaks it.
void answer(Exercise& exercise, double seconds);

/// How many things there are to get right: cards, faults to find, questions.
[[nodiscard]] int outOf(const Task& task);
/// "Right at the first answer: 11 of 13. Answers given: 3. Time: 4 min 12 s."
[[nodiscard]] std::string scoreWords(const Exercise& exercise);
/// What is kept of it: a page of HTML that needs no other file. All texts may be any.
[[nodiscard]] std::string resultPage(const Exercise& exercise, const std::string& trainee, const std::string& date);

}  // namespace sillwright::document
