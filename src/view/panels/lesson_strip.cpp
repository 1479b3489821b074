#include <algorithm>
#include <array>
#include <cmath>

#include "base/words.h"
#include "view/panels/panels.h"

namespace sillwright::view {

namespace {

constexpr int kMostCards = static_cast<int>(plan::kStepKinds);
constexpr int kWordLines = 3;  // of a card's title

/// How the cards lie in a width: as high for every opening, so that nothing jumps from one to the next.
struct Cards {
  float gap = 0.0F;
  float width = 0.0F;
  float height = 0.0F;
  int columns = 1;
  int rows = 1;
};

Cards cardsIn(const Ui& ui, float width, int number, bool with_titles) {  // `number` of them, of kMostCards at most
  const float inner = width - 2.0F * ui.px(14.0F);
  Cards cards;
  cards.gap = ui.px(4.0F);
  const float least = ui.px(with_titles ? 64.0F : 26.0F);
  cards.columns = std::clamp(static_cast<int>((inner + cards.gap) / (least + cards.gap)), 1, kMostCards);
  cards.rows = (kMostCards + cards.columns - 1) / cards.columns;  // by the most there can be: all openings alike
  // The rows there is room for are filled by the cards there are: wide ones hold their words whole.
  cards.columns = std::max(1, (std::clamp(number, 1, kMostCards) + cards.rows - 1) / cards.rows);
  cards.width = std::floor((inner + cards.gap) / static_cast<float>(cards.columns) - cards.gap);
  const float words = with_titles ? static_cast<float>(kWordLines) * ui.fonts.small->FontSize : 0.0F;
  cards.height = ui.fonts.body->FontSize + words + ui.px(9.0F);
  return cards;
}

float controlHeight(const Ui& ui) { return ui.fonts.body->FontSize + ui.px(11.0F); }  // of the line above the cards

/// The few words a foreman would say, cut to the card; where the work stands is told by line and mark as well as by
/// tone.
void drawCardFace(const Panel& panel, ImDrawList& list, const Response& at, int place, plan::StepKind kind) {
  const document::Lesson& lesson = panel.shown.lesson;
  const bool playing = !lesson.exercise;  // an exercise tells nothing of what is done
  const bool now = playing && place == lesson.place - 1 && lesson.place < static_cast<int>(panel.taught->cards.size());
  const bool up = now || (!playing && lesson.exercise->held == place);
  const bool done = playing && !now && place < lesson.place;
  const float line = up ? std::max(2.0F, panel.px(2.0F)) : 1.0F;
  const Colour ground = up ? panel.colours->picked : panel.colours->paper;
  list.AddRectFilled(at.low, at.high, toU32(at.hovered ? panel.colours->hovered : ground), panel.px(2.0F));
  list.AddRect(at.low, at.high, toU32(line > 1.0F ? panel.colours->ink : panel.colours->rule), panel.px(2.0F), 0, line);
  const Colour ink = playing && !now && !done ? panel.colours->quiet : panel.colours->ink;
  const ImVec2 pad{panel.px(5.0F), panel.px(3.0F)};
  const std::string number = playing ? std::to_string(place + 1) : std::string{};
  drawText(list, panel.fonts.strong, at.low + pad, ink, number);
  if (done && at.high.x - at.low.x > panel.px(36.0F)) {  // a tick beside the number
    const float s = panel.px(4.0F);
    const ImVec2 t{at.high.x - pad.x - 2.0F * s, at.low.y + pad.y + panel.fonts.body->FontSize * 0.55F};
    const std::array<ImVec2, 3> tick{{{t.x, t.y}, {t.x + s * 0.7F, t.y + s * 0.8F}, {t.x + s * 2.0F, t.y - s}}};
    list.AddPolyline(tick.data(), 3, toU32(panel.colours->ink), 0, panel.px(1.6F));
  }
  const auto& faults = panel.taught->faults;
  if (std::ranges::find(faults, kind, &plan::OrderFault::done) != faults.end()) {
    drawMark(list, {at.high.x - panel.px(9.0F), at.low.y + panel.px(10.0F)}, panel.px(4.5F), check::Verdict::Stop,
             *panel.colours);
  }
  const float top = at.low.y + pad.y + (number.empty() ? panel.px(2.0F) : panel.fonts.body->FontSize);
  if (top + panel.fonts.small->FontSize > at.high.y) return;  // a card without room for titles
  const float height = static_cast<float>(kWordLines) * panel.fonts.small->FontSize + panel.px(1.0F);
  list.PushClipRect({at.low.x + pad.x, top}, {at.high.x - pad.x, top + height}, true);
  drawText(list, panel.fonts.small, {at.low.x + pad.x, top}, ink, panel.taught->step(kind).title,
           at.high.x - at.low.x - 2.0F * pad.x);
  list.PopClipRect();
}

/// The place of the card under the pointer, as the cards lie; −1: there is none.
int placeUnderPointer(const Panel& panel) {
  int place = -1;
  for (const auto& each : panel.focus->items) {
    if (!each.name.starts_with("card ")) continue;  // items have no other mark of what they are
    ++place;
    if (ImGui::IsMouseHoveringRect(each.low, each.high, false)) return place;
  }
  return -1;
}

/// A card of an exercise that is pulled away goes with the pointer, and to the place where it is let go.
void dragged(const Panel& panel, const Response& card, int place) {
  if (ImGui::IsItemDeactivated()) {  // it was let go in this frame
    const int to = placeUnderPointer(panel);
    if (to < 0 || to == place) return;  // beside the cards, or a click, which `pressed` tells
    const int held = panel.shown.lesson.exercise->held;
    if (held >= 0 && held != place) panel.wishes.push_back(LessonWish{LessonAct::TakeCard, held});  // put down first
    if (held != place) panel.wishes.push_back(LessonWish{LessonAct::TakeCard, place});              // taken up …
    panel.wishes.push_back(LessonWish{LessonAct::TakeCard, to});                                    // … and put there
    return;
  }
  if (!ImGui::IsItemActive() || !ImGui::IsMouseDragging(ImGuiMouseButton_Left)) return;
  const ImVec2 pointer = ImGui::GetIO().MousePos;
  const ImVec2 half{(card.high.x - card.low.x) * 0.5F, (card.high.y - card.low.y) * 0.5F};
  drawCardFace(panel, *ImGui::GetForegroundDrawList(), {false, true, pointer - half, pointer + half}, place,
               panel.taught->cards[static_cast<std::size_t>(place)]);
}

/// A card can be pressed, and the pointer drawn across the cards with its button down: the work follows.
void card(const Panel& panel, ImVec2 at, ImVec2 size, int place, bool with_title) {
  const plan::StepKind kind = panel.taught->cards[static_cast<std::size_t>(place)];
  ImGui::SetCursorScreenPos(at);
  const Response response = item(panel, std::string("card ") + plan::toWord(kind), size);
  drawCardFace(panel, *ImGui::GetWindowDrawList(), response, place, kind);
  if (!with_title && response.hovered)
    panel.cards.push_back({response.low, response.high, panel.taught->step(kind).title});
  if (panel.shown.lesson.exercise) {
    if (response.pressed) panel.wishes.push_back(LessonWish{LessonAct::TakeCard, place});
    if (!response.pressed) dragged(panel, response, place);
    return;
  }
  const bool drawn_over = ImGui::IsMouseDown(ImGuiMouseButton_Left) &&
                          ImGui::IsMouseHoveringRect(response.low, response.high) &&
                          ImGui::IsWindowHovered(ImGuiHoveredFlags_AllowWhenBlockedByActiveItem);
  const bool here = panel.shown.lesson.place == place + 1;  // while it is held down, one wish a card is enough
  if ((response.pressed || drawn_over) && !here) panel.wishes.push_back(LessonWish{LessonAct::Go, place + 1});
}

struct Control {
  const char* word;
  const char* key;
  LessonWish wish;
  bool on = false;
};

std::vector<Control> controlsFor(const document::Lesson& lesson) {
  if (lesson.exercise) {
    return {{"answer", "Enter", {LessonAct::Answer}, lesson.exercise->judged},
            {"again, shuffled", "", {LessonAct::Again}},
            {"leave the exercise", "X", {LessonAct::Exercise}}};
  }
  if (lesson.playing) {
    return {{"rest", "any key", {LessonAct::Play}},
            {"slower", "<", {LessonAct::Pace, -1}},
            {"faster", ">", {LessonAct::Pace, 1}},
            {"again and again", "Shift L", {LessonAct::Loop}, lesson.loop}};
  }
  return {{"start", "", {LessonAct::Go}},
          {"back", ",", {LessonAct::Step, -1}},
          {"on", ".", {LessonAct::Step, 1}},
          {"play", "Space", {LessonAct::Play}},
          {"class room", "Shift C", {LessonAct::ClassRoom}},
          {"drops", "Shift W", {LessonAct::Drops}, lesson.drops},
          {"what if", "Q", {LessonAct::Choose}, lesson.choosing || !lesson.what_ifs.empty()},
          {"exercise", "X", {LessonAct::Exercise}}};
}

/// Pulls the layers apart: a line with a mark on it, dragged or pressed.
void spreadSlider(const Panel& panel, float right) {
  const float spread = panel.shown.look.spread;
  const char* words = "pulled apart";
  const float bar = panel.px(96.0F);
  const float width = wordItemSize(panel, words, "V").x + panel.px(12.0F) + bar;
  if (ImGui::GetCursorScreenPos().x + width > right) return;  // without room for it there is still its key
  panel.offer(words, "V", PullApart{}, spread > 0.0F);
  ImGui::SameLine(0.0F, panel.px(12.0F));
  const auto share = slider(panel, "pull apart", bar, spread / kMostSpread);
  const float wanted = share ? std::round(*share * kMostSpread / 5.0F) * 5.0F : spread;  // in steps of 5 mm
  if (wanted != spread) panel.wishes.push_back(PullApart{wanted});
}

void controls(const Panel& panel, ImVec2 at, float right) {
  const job::Opening& opening = panel.document.job.openings[static_cast<std::size_t>(panel.shown.lesson.opening)];
  const std::string heading = (panel.shown.lesson.exercise ? "Exercise: " : "Order of work: ") + opening.name;
  ImGui::SetCursorScreenPos(at);
  text(panel.fonts.strong, panel.colours->ink, heading);
  float x = at.x + textSize(panel.fonts.strong, heading).x + panel.px(22.0F);
  for (const Control& control : controlsFor(panel.shown.lesson)) {
    const float needed = wordItemSize(panel, control.word, control.key).x;
    if (x + needed > right) break;  // a word without room is still a key
    ImGui::SetCursorScreenPos({x, at.y});
    panel.offer(control.word, control.key, control.wish, control.on);
    x += needed + panel.px(14.0F);
  }
  ImGui::SetCursorScreenPos({x + panel.px(8.0F), at.y});
  spreadSlider(panel, right);
}

void line(const Panel& panel, const char* label, const std::string& words) {  // nothing where there are no words
  if (words.empty()) return;
  saySmall(panel, label);
  say(panel, words);
  room(panel, 2.0F);
}

void stepInFull(const Panel& panel) {
  const document::Taught& taught = *panel.taught;
  const int place = panel.shown.lesson.place;
  const auto cards = static_cast<int>(taught.cards.size());
  if (place <= 0) {
    title(panel, "The bare frame");
    sayQuietly(panel, "No step is done yet. Each card adds what its step adds.");
    return;
  }
  const plan::Step& step = taught.step(taught.cards[static_cast<std::size_t>(place - 1)]);
  saySmall(panel, "step " + std::to_string(place) + " of " + std::to_string(cards));
  title(panel, step.title);
  say(panel, step.what);
  room(panel, 4.0F);
  line(panel, "parts", base::joined(step.parts, "\n"));
  line(panel, "tools", base::joined(step.tools, ", "));
  line(panel, "before the next step", step.before_going_on);
  line(panel, "take care", step.caution);
}

void whereTheWaterGoes(const Panel& panel) {
  const document::Taught& taught = *panel.taught;
  groupHeading(panel, "Where the water goes");
  if (!taught.wet) return sayQuietly(panel, "The unit isn't in the wall yet: keep the opening covered overnight.");
  const std::size_t more = taught.water.leaks.size();
  const bool slight = !taught.water.behind_cladding.empty() || !taught.water.held.empty();
  const check::Verdict verdict = slight ? check::Verdict::Attend : check::Verdict::Ready;
  markedText(panel, more > 0 ? check::Verdict::Stop : verdict, panel.fonts.body, taught.water_says);
  if (more > 1) saySmall(panel, std::to_string(more) + " places in all, ringed in the drawing");
}

void chosen(const Panel& panel) {
  if (!panel.taught->refusal.empty()) say(panel, panel.taught->refusal);
  if (panel.shown.lesson.what_ifs.empty()) return;
  groupHeading(panel, "Mistakes on purpose");
  for (const document::Choice& choice : panel.taught->choices) {
    if (choice.chosen) say(panel, choice.words);
  }
  panel.offer("put right again", "Backspace", LessonWish{LessonAct::PutBack});
}

void choices(const Panel& panel) {
  if (!panel.shown.lesson.choosing) return;
  const std::string& about = panel.shown.lesson.about;
  groupHeading(panel, about.empty() ? "What if" : "What if: the laps of the " + about);
  saySmall(panel, about.empty() ? "Pick a mistake, or a flashing in the drawing, and see where the water goes."
                                : "Swap, shorten or leave out; pick it once more for all.");
  for (const document::Choice& choice : panel.taught->choices) {
    const std::string name = plan::toText(choice.what_if);
    if (!about.empty() && name.find(" " + about) == std::string::npos) continue;  // its spelling names the sheet
    if (markedRow(panel, name, tickBox(panel, choice.chosen), choice.words).pressed)
      panel.wishes.push_back(LessonWish{LessonAct::Try, 0, choice.what_if});
  }
}

void questions(const Panel& panel) {
  const document::Exercise& exercise = *panel.shown.lesson.exercise;
  for (std::size_t i = 0; i < exercise.task->questions.size(); ++i) {
    const document::Question& question = exercise.task->questions[i];
    groupHeading(panel, question.asks);
    if (!question.given.empty()) sayQuietly(panel, question.given);
    for (std::size_t k = 0; k < question.options.size(); ++k) {
      const std::string name = "option " + std::to_string(i + 1) + "." + std::to_string(k + 1);
      if (markedRow(panel, name, tickBox(panel, exercise.picked[i][k]), question.options[k].words).pressed)
        panel.wishes.push_back(LessonWish{LessonAct::Pick, static_cast<int>(i * document::kMostOptions + k)});
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
  say(panel, document::scoreWords(exercise));
  typedRow(panel, "your name", panel.shown.trainee, &Shown::trainee);
  panel.offer("keep the result as a page", "", TakeResult{});
}

void exerciseSheet(const Panel& panel) {
  const document::Exercise& exercise = *panel.shown.lesson.exercise;
  title(panel, exercise.task->title);
  say(panel, exercise.task->asked);
  if (!exercise.order.empty())
    saySmall(panel,
             "Drag each card to its place. By keys: Tab to it, Enter takes it, arrows move it, Enter puts it down.");
  if (exercise.tries > 0) answered(panel);
  questions(panel);
}

}  // namespace

float lessonHeight(const Ui& ui, float width, bool with_cards, bool with_titles) {
  const Cards cards = cardsIn(ui, width, kMostCards, with_titles);
  const float rows = with_cards ? static_cast<float>(cards.rows) : 0.0F;
  return controlHeight(ui) + rows * (cards.height + cards.gap) + ui.px(14.0F);
}

void lessonStrip(const Panel& panel, const Layout& layout) {
  beginPanel(panel, "lesson", layout.lesson_at, layout.lesson_size, false);
  const ImVec2 origin{layout.lesson_at.x + panel.px(14.0F), layout.lesson_at.y + panel.px(9.0F)};
  controls(panel, origin, layout.lesson_at.x + layout.lesson_size.x - panel.px(14.0F));
  const int number = static_cast<int>(panel.taught->cards.size());
  const Cards cards = cardsIn(panel, layout.lesson_size.x, number, layout.with_titles);
  for (int i = 0; i < number; ++i) {
    const ImVec2 at{
        origin.x + static_cast<float>(i % cards.columns) * (cards.width + cards.gap),
        origin.y + controlHeight(panel) + static_cast<float>(i / cards.columns) * (cards.height + cards.gap)};
    card(panel, at, {cards.width, cards.height}, i, layout.with_titles);
  }
  ImGui::End();
}

void lessonSheet(const Panel& panel, const Layout& layout) {
  beginFittedPanel(panel, "lesson sheet", layout.sheet_at, layout.sheet_width, layout.most_height);
  if (panel.shown.lesson.exercise) {
    exerciseSheet(panel);
  } else {
    if (!panel.shown.lesson.choosing) stepInFull(panel);  // the list of mistakes needs the room
    whereTheWaterGoes(panel);
    chosen(panel);
    choices(panel);
  }
  ImGui::End();
}

void classCard(const Panel& panel, const Layout& layout, const LessonCard& card) {
  const Canvas& canvas = layout.canvas;
  const ImVec2 low{0.0F, canvas.height - canvas.bottom};
  const ImVec2 pad{panel.px(20.0F), panel.px(8.0F)};
  const float width = canvas.width - 2.0F * pad.x;
  const Colour ink = panel.colours->ink;
  beginPanel(panel, "class card", low, {canvas.width, canvas.bottom}, false);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const std::string place =
      std::to_string(panel.shown.lesson.place) + " of " + std::to_string(panel.taught->cards.size());
  drawText(list, panel.fonts.heading, low + pad, ink, card.title);
  drawText(list, panel.fonts.body, {low.x + pad.x + width - textSize(panel.fonts.body, place).x, low.y + pad.y},
           panel.colours->quiet, place);
  const float top = low.y + pad.y + panel.fonts.heading->FontSize + panel.px(3.0F);
  const auto height = [&](ImFont* what, ImFont* why) {
    return textSize(what, card.what, width).y + textSize(why, card.why, width).y;
  };
  const bool fits = height(panel.fonts.body, panel.fonts.strong) < canvas.height - pad.y - top;  // else smaller letters
  ImFont* const font = fits ? panel.fonts.body : panel.fonts.small;
  drawText(list, font, {low.x + pad.x, top}, ink, card.what, width);
  drawText(list, fits ? panel.fonts.strong : font, {low.x + pad.x, top + textSize(font, card.what, width).y}, ink,
           card.why, width);
  ImGui::End();
}

}  // namespace sillwright::view
