// Keys into wishes, and their way through what can be picked. Letters are taken as typed, so that they follow the
// keyboard's layout.

#include <algorithm>
#include <string_view>
#include <tuple>

#include "view/session/app.h"
#include "view/values/readings.h"

namespace sillwright::view {
namespace {

constexpr float kTurnStep = 40.0F;  // as a drag of so many pixels: 12 degrees
constexpr float kSlideStep = 60.0F;
constexpr float kNearStep = 1.25F;

/// The command of a character, typed with Shift where its key says so; a lesson's own while one is on.
std::optional<Wish> wishFor(char key, bool shift, bool in_lesson) {
  const auto named = [&](std::string_view shown) {
    return std::ranges::find_if(
        commands(), [&](const Command& each) { return each.key == shown && (in_lesson || each.group != kLessonKeys); });
  };
  const std::string plain(1, key);
  auto found = named(shift ? "Shift " + plain : plain);
  if (found == commands().end()) found = named(plain);  // Shift may be what makes the sign, as of ? and +
  return found == commands().end() ? std::nullopt : std::optional(found->wish);
}

/// Whether a wish closes a page that lies over everything: all else waits until it is gone.
bool closesPage(const Wish& wish, const Shown& shown) {
  const auto* toggle = std::get_if<Toggle>(&wish);
  return toggle != nullptr && shown.*toggle->what;
}

void followTyped(const InputStep& step, const Shown& shown, Wishes& wishes) {
  if (step.isControl()) return;
  for (const char32_t typed : step.typed) {
    if (typed >= 0x80) continue;                        // no command has such a key
    const bool small = typed >= U'a' && typed <= U'z';  // one key with its capital
    const auto key = static_cast<char>(small ? typed - U'a' + U'A' : typed);
    auto wish = wishFor(key, step.held && step.held->shift, shown.lesson.on());
    const std::size_t layer = kLayerKeys.find(key);  // none of these is a command's
    if (!wish && layer != std::string_view::npos) wish = ToggleLayer{static_cast<scene::Layer>(layer)};
    if (wish && (!isModal(shown) || closesPage(*wish, shown))) wishes.push_back(*wish);
  }
}

void followArrows(const InputStep& step, Wishes& wishes) {
  for (const auto& [key, x, y] : {std::tuple(Key::Left, -1.0F, 0.0F), std::tuple(Key::Right, 1.0F, 0.0F),
                                  std::tuple(Key::Up, 0.0F, -1.0F), std::tuple(Key::Down, 0.0F, 1.0F)}) {
    const auto held = step.wentDown(key);
    const float by = held && held->shift ? kSlideStep : kTurnStep;
    if (held) wishes.push_back(Turn{x * by, y * by, held->shift});
  }
}

void followControls(const InputStep& step, const App& app, Wishes& wishes) {
  const auto with_ctrl = [&](Key key) {
    const auto held = step.wentDown(key);
    return held && held->ctrl ? held : std::nullopt;
  };
  if (with_ctrl(Key::Plus)) wishes.push_back(ScaleText{1.1F});
  if (with_ctrl(Key::Minus)) wishes.push_back(ScaleText{1.0F / 1.1F});
  if (with_ctrl(Key::Digit0)) wishes.push_back(ScaleText{0.0F});
  const bool asking = app.shown.asking != Asking::Nothing;
  const bool edits = !isModal(app.shown) || app.typing.field;  // over a page the field has its own undo
  const auto undo = with_ctrl(Key::Z);
  if (undo && edits) wishes.push_back(undo->shift ? Wish{DoAgain{}} : Wish{TakeBack{}});
  if (with_ctrl(Key::O) && !asking) wishes.push_back(ToggleJobsPage{});          // a question is answered first
  if (const auto save = with_ctrl(Key::S)) wishes.push_back(Save{save->shift});  // Shift: over another's
  if (with_ctrl(Key::Y) && edits) wishes.push_back(DoAgain{});
  if (with_ctrl(Key::Q)) wishes.push_back(Close{});
  if (step.wentDown(Key::F5) && (asking || !isModal(app.shown))) wishes.push_back(ReadAgain{});
  if (step.wentDown(Key::F1) && !asking) wishes.push_back(Toggle{&Shown::keys_open});
  if (step.wentDown(Key::F9) && !isModal(app.shown)) wishes.push_back(Toggle{&Shown::folded});
  if (step.wentDown(Key::F11)) wishes.push_back(Toggle{&Shown::full_screen});
}

/// Escape lets go of one thing at a time, the uppermost first.
void followEscape(App& app, Wishes& wishes) {
  const Shown& shown = app.shown;
  const auto closes = [&](bool open, const Wish& wish) {
    if (open) wishes.push_back(wish);
    return open;
  };
  if (app.work && app.work->can_stop) {  // before all else: its plate says so
    app.work->steps->stop = true;
    return;
  }
  if (app.menu) {  // the keys go back to where they came from
    app.focus.at = app.menu->from;
    app.menu.reset();
    return;
  }
  if (closes(shown.asking != Asking::Nothing, Stay{}) || closes(shown.paper_open, Toggle{&Shown::paper_open}) ||
      closes(shown.job_open, Toggle{&Shown::job_open}) || closes(shown.jobs_open && app.document, ToggleJobsPage{}) ||
      closes(shown.keys_open, Toggle{&Shown::keys_open})) {
    return;
  }
  const int held = shown.lesson.exercise ? shown.lesson.exercise->held : -1;
  if (closes(held >= 0, LessonWish{LessonAct::TakeCard, held})) return;  // put down where it was taken
  if (std::exchange(app.focus.at, 0U) != 0) return;                      // the keys go back to the drawing
  const bool closed = closes(shown.layers_open, Toggle{&Shown::layers_open}) ||
                      closes(shown.measuring.on, ToggleMeasuring{}) ||
                      closes(shown.cutting.axis.has_value(), CutWish{CutAct::Off}) ||
                      closes(shown.history_open, Toggle{&Shown::history_open}) ||
                      closes(shown.lesson.class_room, LessonWish{LessonAct::ClassRoom}) ||
                      closes(shown.lesson.on(), LessonWish{LessonAct::OpenOrClose});
  if (!closed) wishes.push_back(PickOpening{-1, false});
}

/// Tab and the arrows move among what can be picked, Enter and Space pick it.
void followFocus(App& app, const InputStep& step, Wishes& wishes) {
  if (const auto held = step.wentDown(Key::Tab)) app.focus.step(held->shift);
  if (app.focus.at == 0) {
    if (isModal(app.shown)) return;  // the drawing is covered
    followArrows(step, wishes);
    if (step.enter() && app.shown.lesson.exercise) wishes.push_back(LessonWish{LessonAct::Answer});
    if (step.wentDown(Key::Space)) wishes.push_back(LessonWish{LessonAct::Play});
    if (step.wentDown(Key::PageDown)) wishes.push_back(LessonWish{LessonAct::Step, 1});
    if (step.wentDown(Key::PageUp)) wishes.push_back(LessonWish{LessonAct::Step, -1});
    if (step.wentDown(Key::Backspace)) wishes.push_back(LessonWish{LessonAct::PutBack});
    return;
  }
  app.focus.activate = step.enter() || step.wentDown(Key::Space);
  const int by = (step.wentDown(Key::Right) ? 1 : 0) - (step.wentDown(Key::Left) ? 1 : 0);
  if (by != 0 && app.shown.lesson.exercise && app.shown.lesson.exercise->held >= 0) {
    const LessonWish put{LessonAct::TakeCard, app.shown.lesson.exercise->held + by};
    wishes.insert(wishes.end(), {put, put});  // and in hand again: the keys stay on it
    return;
  }
  if (step.wentDown(Key::Down) || step.wentDown(Key::Right)) app.focus.step(false);
  if (step.wentDown(Key::Up) || step.wentDown(Key::Left)) app.focus.step(true);
}

}  // namespace

const std::vector<Command>& commands() {
  static const std::vector<Command> kAll{
      {"F", "house", Stand{StandingView::House}, 0, true},
      {"O", "outside", Stand{StandingView::Outside}, 0, true},
      {"I", "inside", Stand{StandingView::Inside}, 0, true},
      {"A", "above", Stand{StandingView::Above}},
      {"L", "left end", Stand{StandingView::LeftEnd}},
      {"R", "right end", Stand{StandingView::RightEnd}},
      {"+", "nearer", Near{1.0F / kNearStep}},
      {"-", "further", Near{kNearStep}},
      {"B", "previous", PickNeighbour{true}, 1, true},
      {"N", "next", PickNeighbour{false}, 1, true},
      {"Shift N", "next thing against it", NextTrouble{1}, 1},
      {"Shift B", "previous thing against it", NextTrouble{-1}, 1},
      {"H", "head", Stand{StandingView::Head}, 1},
      {"S", "sill", Stand{StandingView::Sill}, 1},
      {"J", "jamb", Stand{StandingView::Jamb}, 1},
      {"C", "corner", Stand{StandingView::Corner}, 1},
      {"U", "corner detail", NextLens{}, 1},
      {"K", "cut", CutWish{CutAct::Next}, 2, true},
      {"Shift K", "the cut's other side", CutWish{CutAct::Turn}, 2},
      {"Y", "layers", Toggle{&Shown::layers_open}, 2, true},
      {"V", "pull the layers apart", PullApart{}, 2},
      {"M", "draw gaps larger", Magnify{0.0}, 2},
      {"D", "distance", ToggleMeasuring{}, 2},
      {"W", "order of work", LessonWish{LessonAct::OpenOrClose}, 3, true},
      {"Shift W", "drops of water", LessonWish{LessonAct::Drops}, 3},
      {"Shift C", "class room", LessonWish{LessonAct::ClassRoom}, 3},
      {"Shift L", "over and over", LessonWish{LessonAct::Loop}, 3},
      {"Ctrl Z", "undo", TakeBack{}, 3},
      {"Ctrl Y", "redo", DoAgain{}, 3},
      {"Z", "history", Toggle{&Shown::history_open}, 3},
      {"Ctrl O", "jobs", ToggleJobsPage{}, 4, true},
      {"", "this job's keys and stock", Toggle{&Shown::job_open}, 4},
      {"Ctrl S", "save", Save{}, 4},
      {"P", "print/export", Toggle{&Shown::paper_open}, 4, true},
      {"F5", "reload", ReadAgain{}, 4},
      {"T", "labels", Toggle{&Shown::labels}, 5},
      {"E", "dark", ToggleDark{}, 5},
      {"Ctrl -", "smaller text", ScaleText{1.0F / 1.1F}, 5},
      {"Ctrl +", "larger text", ScaleText{1.1F}, 5},
      {"F9", "panels", Toggle{&Shown::folded}, 5},
      {"F11", "full screen", Toggle{&Shown::full_screen}, 5},
      {"?", "keys", Toggle{&Shown::keys_open}, 5, true},
      {".", "a card on", LessonWish{LessonAct::Step, 1}, kLessonKeys},
      {",", "a card back", LessonWish{LessonAct::Step, -1}, kLessonKeys},
      {"<", "play slower", LessonWish{LessonAct::Pace, -1}, kLessonKeys},
      {">", "play faster", LessonWish{LessonAct::Pace, 1}, kLessonKeys},
      {"Q", "mistakes to try; a flashing picked: its own", LessonWish{LessonAct::Choose}, kLessonKeys},
      {"X", "exercise: put the cards in order", LessonWish{LessonAct::Exercise}, kLessonKeys},
      {"=", "", Near{1.0F / kNearStep}},  // + without Shift on a US keyboard; no word, so that no list has it twice
      {"_", "", Near{kNearStep}},         // and − with it
  };
  return kAll;
}

void followKeys(App& app, const InputStep& step, const Modifiers& held, Wishes& wishes) {
  // While it is down, and nothing else happens.
  if (step.wentDown(Key::F2) && !app.pull && !app.work && !isModal(app.shown)) return showSaved(app, true);
  if (!step.keys.empty() || step.button || step.focus) showSaved(app, false);  // its release may be lost
  if (app.pull) return followPullKeys(app, step, held);                        // all keys are its own
  // Shift, Ctrl and the like alone are no answer.
  const auto answers = [](const KeyChanged& each) { return each.down && each.key < Key::Shift; };
  if (app.shown.lesson.playing && std::ranges::any_of(step.keys, answers) && !held.shift && !held.ctrl) {
    wishes.push_back(LessonWish{LessonAct::Play});
    return;
  }
  followControls(step, app, wishes);  // before fields: Ctrl S saves what is in hand too
  if (!isHeld(app) && followField(app, step)) return;
  if (step.wentDown(Key::Escape)) followEscape(app, wishes);
  followFocus(app, step, wishes);
  if (app.document) followTyped(step, app.shown, wishes);
}

void Focus::step(bool backwards) {
  if (items.empty()) return;
  const auto here = std::ranges::find(items, at, &Item::id);
  const auto count = static_cast<std::ptrdiff_t>(items.size());
  // Place −1 is the drawing: one step past either end gives the keys back to it.
  std::ptrdiff_t place = here == items.end() ? -1 : here - items.begin();
  place += backwards ? -1 : 1;
  if (place < -1) place = count - 1;  // back from the drawing: the last item
  at = place < 0 || place >= count ? 0 : items[static_cast<std::size_t>(place)].id;
  arrived = at != 0;  // it is then scrolled into sight
}

void Focus::endFrame() {
  items.swap(now);
  now.clear();
  activate = false;  // both hold for one frame
  arrived = false;
  if (std::ranges::find(items, at, &Item::id) == items.end()) at = 0;  // else keys would go nowhere
}

}  // namespace sillwright::view
