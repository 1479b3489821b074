// Keys into wishes, and their way through what can be picked. Letters are taken as typed, so that they follow the
// keyboard's layout.

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "view/session/app.h"
#include "view/values/readings.h"

namespace sillwright::view {
namespace {

constexpr float kTurnStep = 40.0F;  // as a drag of so many pixels: 12 degrees
constexpr float kSlideStep = 60.0F;
constexpr float kNearStep = 1.25F;

/// What the lesson's own keys ask for.
std::optional<Wish> lessonWishFor(char32_t key) {
  using A = LessonAct;
  constexpr std::array<std::tuple<char32_t, A, int>, 6> kKeys{{{U'.', A::Step, 1},
                                                               {U',', A::Step, -1},
                                                               {U'Q', A::Choose, 0},
                                                               {U'X', A::Exercise, 0},
                                                               {U'<', A::Pace, -1},
                                                               {U'>', A::Pace, 1}}};
  for (const auto& [typed, act, value] : kKeys) {
    if (key == typed) return LessonWish{act, value, {}};
  }
  return std::nullopt;
}

/// Whether a key that does something of its own went down: Shift, Ctrl and the like alone are no answer.
bool anyKeyDown(const InputStep& step) {
  return std::any_of(step.keys.begin(), step.keys.end(),
                     [](const KeyChanged& each) { return each.down && each.key < Key::Ctrl; });
}

/// The command of a character, typed with Shift where its key says so.
std::optional<Wish> wishFor(char32_t key, bool shift) {
  const auto named = [&](std::string_view shown) {
    const auto& all = commands();
    return std::find_if(all.begin(), all.end(), [&](const Command& each) { return each.key == shown; });
  };
  if (key >= 0x80) return std::nullopt;
  const std::string plain(1, static_cast<char>(key));
  auto found = named(shift ? "Shift " + plain : plain);
  if (found == commands().end()) found = named(plain);
  return found == commands().end() ? std::nullopt : std::optional(found->wish);
}

std::optional<Wish> layerWishFor(char32_t key) {
  for (std::size_t i = 0; i < scene::kLayers; ++i) {
    const auto layer = static_cast<scene::Layer>(i);
    if (key == static_cast<char32_t>(keyFor(layer))) return ToggleLayer{layer};
  }
  return std::nullopt;
}

/// Capitals and small letters are one key.
char32_t asCapital(char32_t typed) { return typed >= U'a' && typed <= U'z' ? typed - U'a' + U'A' : typed; }

/// Whether a wish closes a page that lies over everything: all else waits until it is gone.
bool closesPage(const Wish& wish, const Shown& shown) {
  const auto* toggle = std::get_if<Toggle>(&wish);
  return toggle != nullptr && shown.*toggle->what;
}

void followTyped(const InputStep& step, const Shown& shown, Wishes& wishes) {
  if (step.isControl()) return;
  for (const char32_t typed : step.typed) {
    const char32_t key = asCapital(typed);
    auto wish = shown.lesson.on() ? lessonWishFor(key) : std::nullopt;
    if (!wish) wish = wishFor(key, step.held && step.held->shift);
    if (!wish) wish = layerWishFor(key);
    if (wish && (!isModal(shown) || closesPage(*wish, shown))) wishes.push_back(*wish);
  }
}

void followArrows(const InputStep& step, Wishes& wishes) {
  for (const auto& [key, x, y] : {std::tuple(Key::Left, -1.0F, 0.0F), std::tuple(Key::Right, 1.0F, 0.0F),
                                  std::tuple(Key::Up, 0.0F, -1.0F), std::tuple(Key::Down, 0.0F, 1.0F)}) {
    const auto held = step.wentDown(key);
    if (held)
      wishes.push_back(held->shift ? Wish{Slide{x * kSlideStep, y * kSlideStep}}
                                   : Wish{Turn{x * kTurnStep, y * kTurnStep}});
  }
}

void followControls(const InputStep& step, const App& app, Wishes& wishes) {
  const auto with_ctrl = [&](Key key) {
    const auto held = step.wentDown(key);
    return held && held->ctrl;
  };
  if (with_ctrl(Key::Plus)) wishes.push_back(ScaleText{1.1F});
  if (with_ctrl(Key::Minus)) wishes.push_back(ScaleText{1.0F / 1.1F});
  if (with_ctrl(Key::Digit0)) wishes.push_back(ScaleText{0.0F});
  const bool asking = app.shown.asking != Asking::Nothing;
  const bool edits = !isModal(app.shown) || app.typing.field;
  const auto undo = step.wentDown(Key::Z);
  if (undo && undo->ctrl && edits) wishes.push_back(undo->shift ? Wish{DoAgain{}} : Wish{TakeBack{}});
  if (with_ctrl(Key::O) && !asking) wishes.push_back(ToggleJobsPage{});
  const auto save = step.wentDown(Key::S);
  if (save && save->ctrl) wishes.push_back(Save{save->shift});
  if (with_ctrl(Key::Y) && edits) wishes.push_back(DoAgain{});
  if (with_ctrl(Key::Q)) wishes.push_back(Close{});
  if (step.wentDown(Key::F5) && (asking || !isModal(app.shown))) wishes.push_back(ReadAgain{});
  if (step.wentDown(Key::F1) && !asking) wishes.push_back(Toggle{&Shown::keys_open});
  if (step.wentDown(Key::F9) && !isModal(app.shown)) wishes.push_back(Toggle{&Shown::folded});
  if (step.wentDown(Key::F11)) wishes.push_back(FullScreen{});
}

/// Escape lets go of one thing at a time, the uppermost first.
void followEscape(App& app, Wishes& wishes) {
  const Shown& shown = app.shown;
  const auto closes = [&](bool open, const Wish& wish) {
    if (open) wishes.push_back(wish);
    return open;
  };
  if (app.work && app.work->can_stop) {
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
  if (closes(held >= 0, LessonWish{LessonAct::TakeCard, held, {}})) return;
  if (app.focus.at != 0) {
    app.focus.at = 0;
    return;
  }
  if (closes(shown.layers_open, Toggle{&Shown::layers_open}) || closes(shown.measuring.on, ToggleMeasuring{}) ||
      closes(shown.cutting.axis.has_value(), CutWish{CutAct::Off}) ||
      closes(shown.history_open, Toggle{&Shown::history_open}) ||
      closes(shown.lesson.class_room, LessonWish{LessonAct::ClassRoom, 0, {}}) ||
      closes(shown.lesson.on(), LessonWish{LessonAct::OpenOrClose, 0, {}})) {
    return;
  }
  wishes.push_back(PickOpening{-1, false});
}

/// Tab and the arrows move among what can be picked, Enter and Space pick it.
void followFocus(App& app, const InputStep& step, Wishes& wishes) {
  const bool enter = step.enter() || step.wentDown(Key::Space);
  if (const auto held = step.wentDown(Key::Tab)) app.focus.step(held->shift);
  if (app.focus.at == 0) {
    if (isModal(app.shown)) return;
    followArrows(step, wishes);
    if (step.enter() && app.shown.lesson.exercise) wishes.push_back(LessonWish{LessonAct::Answer, 0, {}});
    if (step.wentDown(Key::Space)) wishes.push_back(LessonWish{LessonAct::Play, 0, {}});
    if (step.wentDown(Key::PageDown)) wishes.push_back(LessonWish{LessonAct::Step, 1, {}});
    if (step.wentDown(Key::PageUp)) wishes.push_back(LessonWish{LessonAct::Step, -1, {}});
    if (step.wentDown(Key::Backspace)) wishes.push_back(LessonWish{LessonAct::PutBack, 0, {}});
    return;
  }
  app.focus.activate = enter;
  const int by = (step.wentDown(Key::Right) ? 1 : 0) - (step.wentDown(Key::Left) ? 1 : 0);
  if (by != 0 && app.shown.lesson.exercise && app.shown.lesson.exercise->held >= 0) {
    const LessonWish put{LessonAct::TakeCard, app.shown.lesson.exercise->held + by, {}};
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
      {"W", "order of work", LessonWish{LessonAct::OpenOrClose, 0, {}}, 3, true},
      {"Shift W", "drops of water", LessonWish{LessonAct::Drops, 0, {}}, 3},
      {"Shift C", "class room", LessonWish{LessonAct::ClassRoom, 0, {}}, 3},
      {"Shift L", "over and over", LessonWish{LessonAct::Loop, 0, {}}, 3},
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
      {"F11", "full screen", FullScreen{}, 5},
      {"?", "keys", Toggle{&Shown::keys_open}, 5, true},
      {"=", "", Near{1.0F / kNearStep}},
      {"_", "", Near{kNearStep}},
  };
  return kAll;
}

void followKeys(App& app, const InputStep& step, const Modifiers& held, Wishes& wishes) {
  if (app.pull) {
    followPullKeys(app, step, held);
    return;
  }
  if (app.shown.lesson.playing && anyKeyDown(step) && !held.shift && !held.ctrl) {  // whichever it is
    wishes.push_back(LessonWish{LessonAct::Play, 0, {}});
    return;
  }
  followControls(step, app, wishes);
  if (!isHeld(app) && followField(app, step)) return;
  if (step.wentDown(Key::Escape)) followEscape(app, wishes);
  followFocus(app, step, wishes);
  if (app.document) followTyped(step, app.shown, wishes);
}

void Focus::step(bool backwards) {
  if (items.empty()) return;
  const auto here = std::find_if(items.begin(), items.end(), [&](const Item& item) { return item.id == at; });
  const auto count = static_cast<std::ptrdiff_t>(items.size());
  // Place −1 is the drawing: one step past either end gives the keys back to it.
  std::ptrdiff_t place = here == items.end() ? -1 : here - items.begin();
  place += backwards ? -1 : 1;
  if (place < -1) place = count - 1;
  at = place < 0 || place >= count ? 0 : items[static_cast<std::size_t>(place)].id;
  arrived = at != 0;
}

void Focus::endFrame() {
  items.swap(now);
  now.clear();
  activate = false;
  arrived = false;
  const bool there = std::any_of(items.begin(), items.end(), [&](const Item& item) { return item.id == at; });
  if (!there) at = 0;
}

}  // namespace sillwright::view
