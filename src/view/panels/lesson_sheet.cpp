#include <algorithm>
#include <string>

#include "base/words.h"
#include "view/panels/panels.h"

namespace sillwright::view {
namespace {

void line(const Panel& panel, const char* label, const std::string& words) {
  if (words.empty()) return;
  text(panel.fonts.small, panel.colours->quiet, label);
  text(panel.fonts.body, panel.colours->ink, words);
  room(panel, 2.0F);
}

void stepInFull(const Panel& panel) {
  const document::Taught& taught = *panel.taught;
  const int place = panel.shown.lesson.place;
  const auto cards = static_cast<int>(taught.cards.size());
  if (place <= 0) {
    text(panel.fonts.heading, panel.colours->ink, "The bare frame");
    text(panel.fonts.body, panel.colours->quiet, "No step is done yet. Each card adds what its step adds.");
    return;
  }
  const plan::Step& step = taught.step(taught.cards[static_cast<std::size_t>(place - 1)]);
  text(panel.fonts.small, panel.colours->quiet, "step " + std::to_string(place) + " of " + std::to_string(cards));
  text(panel.fonts.heading, panel.colours->ink, step.title);
  text(panel.fonts.body, panel.colours->ink, step.what);
  room(panel, 4.0F);
  line(panel, "parts", base::joined(step.parts, "\n"));
  line(panel, "tools", base::joined(step.tools, ", "));
  line(panel, "before the next step", step.before_going_on);
  line(panel, "take care", step.caution);
}

check::Verdict verdictOf(const plan::WaterFaults& water) {
  if (!water.leaks.empty()) return check::Verdict::Stop;
  const bool sound = water.behind_cladding.empty() && water.held.empty();
  return sound ? check::Verdict::Ready : check::Verdict::Attend;
}

void whereTheWaterGoes(const Panel& panel) {
  const document::Taught& taught = *panel.taught;
  groupHeading(panel, "Where the water goes");
  if (!taught.wet) {
    text(panel.fonts.body, panel.colours->quiet, "The unit isn't in the wall yet: keep the opening covered overnight.");
    return;
  }
  const check::Verdict verdict = verdictOf(taught.water);
  markedText(panel, verdict, panel.fonts.body, taught.water_says);
  const std::size_t more = taught.water.leaks.size();
  if (more > 1) {
    text(panel.fonts.small, panel.colours->quiet, std::to_string(more) + " places in all, ringed in the drawing");
  }
}

void chosen(const Panel& panel) {
  if (!panel.taught->refusal.empty()) text(panel.fonts.body, panel.colours->ink, panel.taught->refusal);
  if (panel.shown.lesson.what_ifs.empty()) return;
  groupHeading(panel, "Mistakes on purpose");
  for (const document::Choice& choice : panel.taught->choices) {
    if (choice.chosen) text(panel.fonts.body, panel.colours->ink, choice.words);
  }
  if (wordItem(panel, "put right again", "Backspace")) panel.wishes.push_back(LessonWish{LessonAct::PutBack, 0, {}});
}

/// A line that can be picked, with a box that shows whether it is. Answers whether it was pressed.
bool boxedLine(const Panel& panel, const std::string& name, const std::string& words, bool picked) {
  const float width = ImGui::GetContentRegionAvail().x;
  const float box = panel.fonts.body->FontSize * 0.72F;
  const float indent = box + panel.px(8.0F);
  const ImVec2 size{width, textSize(panel.fonts.body, words, width - indent).y};
  const Response response = item(panel, name, size);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const ImVec2 low{response.low.x + 1.0F, response.low.y + panel.fonts.body->FontSize * 0.16F};
  const ImVec2 high{low.x + box, low.y + box};
  list.AddRect(low, high, toU32(panel.colours->ink), 0.0F, 0, std::max(1.0F, panel.px(1.0F)));
  const ImVec2 inset{panel.px(3.0F), panel.px(3.0F)};
  if (picked) list.AddRectFilled(low + inset, high - inset, toU32(panel.colours->ink));
  drawText(list, panel.fonts.body, {response.low.x + indent, response.low.y}, panel.colours->ink, words,
           width - indent);
  return response.pressed;
}

void choices(const Panel& panel) {
  if (!panel.shown.lesson.choosing) return;
  const std::string& about = panel.shown.lesson.about;
  groupHeading(panel, about.empty() ? "What if" : "What if: the laps of the " + about);
  text(panel.fonts.small, panel.colours->quiet,
       about.empty() ? "Pick a mistake, or a flashing in the drawing, and see where the water goes."
                     : "Swap, shorten or leave out; pick it once more for all.");
  for (const document::Choice& choice : panel.taught->choices) {
    const std::string name = plan::toText(choice.what_if);
    if (!about.empty() && name.find(" " + about) == std::string::npos) continue;
    if (boxedLine(panel, name, choice.words, choice.chosen)) {
      panel.wishes.push_back(LessonWish{LessonAct::Try, 0, choice.what_if});
    }
  }
}

void questions(const Panel& panel) {
  const document::Exercise& exercise = *panel.shown.lesson.exercise;
  for (std::size_t i = 0; i < exercise.task->questions.size(); ++i) {
    const document::Question& question = exercise.task->questions[i];
    groupHeading(panel, question.asks);
    if (!question.given.empty()) text(panel.fonts.body, panel.colours->quiet, question.given);
    for (std::size_t k = 0; k < question.options.size(); ++k) {
      const std::string name = "option " + std::to_string(i + 1) + "." + std::to_string(k + 1);
      if (boxedLine(panel, name, question.options[k].words, exercise.picked[i][k])) {
        panel.wishes.push_back(LessonWish{LessonAct::Pick, static_cast<int>(i * document::kMostOptions + k), {}});
      }
    }
  }
}

/// What is said of the last answer, the score, and what can be done then.
void answered(const Panel& panel) {
  const document::Exercise& exercise = *panel.shown.lesson.exercise;
  groupHeading(panel, exercise.solved ? "Solved" : exercise.judged ? "Not right yet" : "At your last answer");
  for (const document::Said& each : exercise.said) {
    markedText(panel, each.good ? check::Verdict::Ready : check::Verdict::Stop, panel.fonts.body, each.words);
  }
  if (exercise.solved && exercise.task->level != document::Level::Judge) whereTheWaterGoes(panel);
  groupHeading(panel, "Score");
  text(panel.fonts.body, panel.colours->ink, document::scoreWords(exercise));
  typedRow(panel, panel.typing, "your name", panel.shown.trainee, TraineeName{});
  if (wordItem(panel, "keep the result as a page", "")) panel.wishes.push_back(TakeResult{});
}

void exerciseSheet(const Panel& panel) {
  const document::Exercise& exercise = *panel.shown.lesson.exercise;
  text(panel.fonts.heading, panel.colours->ink, exercise.task->title);
  text(panel.fonts.body, panel.colours->ink, exercise.task->asked);
  const char* keys =
      "Drag each card to its place. By keys: Tab to it, Enter takes it, arrows move it, Enter puts it down.";
  if (!exercise.order.empty()) text(panel.fonts.small, panel.colours->quiet, keys);
  if (exercise.tries > 0) answered(panel);
  questions(panel);
}

}  // namespace

void lessonSheet(const Panel& panel, const Layout& layout) {
  beginFittedPanel(panel, "lesson sheet", layout.sheet_at, layout.sheet_width, layout.most_height);
  if (panel.shown.lesson.exercise) {
    exerciseSheet(panel);
  } else {
    if (!panel.shown.lesson.choosing) stepInFull(panel);
    whereTheWaterGoes(panel);
    chosen(panel);
    choices(panel);
  }
  ImGui::End();
}

}  // namespace sillwright::view
