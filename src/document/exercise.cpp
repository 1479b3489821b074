#include "document/exercise.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "base/words.h"
#include "words/text.h"

namespace sillwright::document {
namespace {

using plan::StepKind;

std::string titleOf(const Task& task, StepKind kind) {
  for (const plan::Step& step : task.steps) {
    if (step.kind == kind) return base::quote(step.title);
  }
  return base::quote(plan::toWord(kind));
}

/// Answers how many cards break nothing.
int judgeOrder(Exercise& exercise) {
  const Task& task = *exercise.task;
  const std::vector<plan::OrderFault> faults = plan::orderFaults(exercise.order);
  if (faults.empty()) {
    exercise.said.push_back({true, "This order can be built: nothing in it stands in the way of anything else."});
    return outOf(task);
  }
  std::map<int, const plan::OrderFault*> broken;  // a fault of each card that lies too early, by its place
  for (const plan::OrderFault& fault : faults) broken.emplace(plan::stepNumber(exercise.order, fault.done), &fault);
  const auto& [place, first] = *broken.begin();  // the map has them by place
  std::string says = "This order can't be built. The first card that breaks it is card " + std::to_string(place) + ", ";
  says += titleOf(task, first->done) + ": it is now before " + titleOf(task, first->before);
  exercise.said.push_back({false, says + ", and should be after it. " + first->why});
  const auto more = static_cast<long>(broken.size()) - 1;
  if (more > 0) exercise.said.push_back({false, "Too early too: " + words::count(more, "more card") + "."});
  return outOf(task) - static_cast<int>(broken.size());  // a card with several faults counts once
}

/// Answers how many of the things that it asks for are right.
int judgeQuestion(Exercise& exercise, const Question& question, const std::vector<bool>& picked) {
  int found = 0;
  int wanted = 0;  // counts what is right; of one answer only whether any was picked
  int wrong = 0;
  for (std::size_t i = 0; i < question.options.size(); ++i) {
    const Option& option = question.options[i];
    wanted += option.right ? 1 : 0;
    if (!picked[i]) continue;
    ++(option.right ? found : wrong);
    exercise.said.push_back({option.right, option.words + ": " + option.why});
  }
  const int missing = question.several ? wanted - found : found + wrong == 0 ? 1 : 0;
  if (missing > 0) {
    exercise.said.push_back({false, question.several ? std::to_string(missing) + " more to be found."
                                                     : "Not answered yet: " + question.asks});
  }
  return std::max(0, found - wrong);  // who picks everything earns nothing
}

std::string asHtml(std::string_view text) {  // apostrophes may stay: no attribute stands in them
  std::string html;
  for (const char c : base::printable(text)) {  // which shows what would turn the direction of reading
    const bool sign = std::string_view("&<>\"").find(c) != std::string_view::npos;
    html += sign ? "&#" + std::to_string(static_cast<int>(c)) + ";" : std::string(1, c);
  }
  return html;
}

std::string element(const char* name, std::string_view text) {
  return std::string("<") + name + ">" + asHtml(text) + "</" + name + ">\n";
}

}  // namespace

Exercise begin(std::shared_ptr<const Task> task) {
  Exercise exercise;
  exercise.order = task->start;  // `task` is moved away below
  for (const Question& question : task->questions) exercise.picked.emplace_back(question.options.size(), false);
  exercise.task = std::move(task);
  return exercise;
}

void moveCard(std::vector<StepKind>& cards, int from, int to) {
  const auto size = static_cast<int>(cards.size());  // the page's script may ask for any place
  if (from < 0 || to < 0 || from >= size || to >= size || from == to) return;
  const StepKind card = cards[static_cast<std::size_t>(from)];
  cards.erase(cards.begin() + from);
  cards.insert(cards.begin() + to, card);  // the cards between move by one
}

void takeCard(Exercise& exercise, int place) {
  if (exercise.solved || place < 0 || place >= static_cast<int>(exercise.order.size())) return;
  exercise.judged = false;  // what was said is of another order
  if (exercise.held >= 0) moveCard(exercise.order, exercise.held, place);
  exercise.held = exercise.held < 0 ? place : -1;
}

void pick(Exercise& exercise, std::size_t question, std::size_t option) {
  if (exercise.solved || question >= exercise.picked.size() || option >= exercise.picked[question].size()) return;
  exercise.judged = false;  // what was said is of other picks
  std::vector<bool>& picked = exercise.picked[question];
  const bool now = !picked[option];
  if (!exercise.task->questions[question].several) picked.assign(picked.size(), false);  // only one may be picked
  picked[option] = now;
}

void answer(Exercise& exercise, double seconds) {
  if (exercise.solved) return;
  const Task& task = *exercise.task;
  exercise.held = -1;
  exercise.said.clear();
  int right = task.level == Level::Order ? judgeOrder(exercise) : 0;
  for (std::size_t i = 0; i < task.questions.size(); ++i) {
    right += judgeQuestion(exercise, task.questions[i], exercise.picked[i]);
  }
  if (exercise.tries++ == 0) exercise.first_right = right;  // later ones know what was said
  exercise.seconds = seconds;
  exercise.judged = true;
  exercise.solved = right == outOf(task);  // nothing wrong is picked either: that takes one off
}

int outOf(const Task& task) {
  auto all = static_cast<int>(task.steps.size());  // only exercises of cards have steps
  for (const Question& question : task.questions) {
    all += static_cast<int>(
        std::count_if(question.options.begin(), question.options.end(), [](const auto& each) { return each.right; }));
  }
  return all;
}

std::string scoreWords(const Exercise& exercise) {
  const auto time = std::lround(exercise.seconds);
  return "Right at the first answer: " + std::to_string(exercise.first_right) + " of " +
         std::to_string(outOf(*exercise.task)) + ". Answers given: " + std::to_string(exercise.tries) +
         ". Time: " + std::to_string(time / 60) + " min " + std::to_string(time % 60) + " s.";
}

std::string resultPage(const Exercise& exercise, const std::string& trainee, const std::string& date) {
  const Task& task = *exercise.task;
  std::string html =
      "<!DOCTYPE html>\n<html lang=\"en\">\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
      "<style>body{font:1rem/1.5 sans-serif;max-width:42em;margin:2em auto;padding:0 1em}</style>\n";
  html += element("title", task.title) + element("h1", task.title) + element("p", trainee + ", " + date);
  html += element("p", task.asked) + element("h2", exercise.solved ? "Solved" : "Not solved");
  html += element("p", scoreWords(exercise)) + "<ol>\n";
  for (const StepKind kind : exercise.order) html += element("li", titleOf(task, kind));
  html += "</ol>\n" + element("h2", "What was said of the last answer") + "<ul>\n";
  for (const Said& each : exercise.said) html += element("li", each.words);
  return html + "</ul>\n</html>\n";
}

}  // namespace sillwright::document
