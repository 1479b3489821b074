// Keys into wishes. Letters are taken as typed, so that they follow the keyboard's layout.

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include "view/session/app.h"
#include "view/values/words.h"

namespace sillwright::view {
namespace {

constexpr float kTurnStep = 40.0F;  // as a drag of so many pixels: 12 degrees
constexpr float kSlideStep = 60.0F;
constexpr float kNearStep = 1.25F;

struct KeyWish {
  char32_t key;
  Wish wish;
};

const std::vector<KeyWish>& keyWishes() {
  static const std::vector<KeyWish> kAll{{U'F', Stand{StandingView::House}},
                                         {U'O', Stand{StandingView::Outside}},
                                         {U'I', Stand{StandingView::Inside}},
                                         {U'A', Stand{StandingView::Above}},
                                         {U'L', Stand{StandingView::LeftEnd}},
                                         {U'R', Stand{StandingView::RightEnd}},
                                         {U'H', Stand{StandingView::Head}},
                                         {U'S', Stand{StandingView::Sill}},
                                         {U'J', Stand{StandingView::Jamb}},
                                         {U'C', Stand{StandingView::Corner}},
                                         {U'N', PickNeighbour{false}},
                                         {U'B', PickNeighbour{true}},
                                         {U'Y', ToggleLayersPanel{}},
                                         {U'T', ToggleLabels{}},
                                         {U'E', ToggleDark{}},
                                         {U'M', Magnify{0.0}},
                                         {U'W', LessonWish{LessonAct::OpenOrClose, 0, {}}},
                                         {U'U', NextLens{}},
                                         {U'V', PullApart{}},
                                         {U'Z', ToggleHistory{}},
                                         {U'D', ToggleMeasuring{}},
                                         {U'P', TogglePaperPage{}},
                                         {U'K', CutWish{CutAct::Next}},
                                         {U'?', ToggleKeysPage{}},
                                         {U'+', Near{1.0F / kNearStep}},
                                         {U'=', Near{1.0F / kNearStep}},
                                         {U'-', Near{kNearStep}},
                                         {U'_', Near{kNearStep}}};
  return kAll;
}

/// Keys that the lesson has for itself while it is on.
const std::vector<KeyWish>& lessonKeyWishes() {
  static const std::vector<KeyWish> kAll{
      {U'.', LessonWish{LessonAct::Step, 1, {}}},    {U',', LessonWish{LessonAct::Step, -1, {}}},
      {U'P', LessonWish{LessonAct::Play, 0, {}}},    {U'D', LessonWish{LessonAct::Drops, 0, {}}},
      {U'Q', LessonWish{LessonAct::Choose, 0, {}}},  {U'U', LessonWish{LessonAct::PutBack, 0, {}}},
      {U'X', LessonWish{LessonAct::Exercise, 0, {}}}};
  return kAll;
}

std::optional<Wish> wishIn(const std::vector<KeyWish>& all, char32_t key) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const KeyWish& each) { return each.key == key; });
  return found == all.end() ? std::nullopt : std::optional(found->wish);
}

std::optional<Wish> layerWishFor(char32_t key) {
  for (std::size_t i = 0; i < scene::kLayers; ++i) {
    const auto layer = static_cast<scene::Layer>(i);
    if (key == static_cast<char32_t>(keyFor(layer))) return ToggleLayer{layer};
  }
  return std::nullopt;
}

/// Capitals and small letters are one key.
char32_t asCapital(char32_t typed) {
  return typed >= U'a' && typed <= U'z' ? typed - U'a' + U'A' : typed;
}

void followTyped(const InputStep& step, bool lesson, Wishes& wishes) {
  if (step.held && (step.held->ctrl || step.held->alt || step.held->super)) return;
  for (const char32_t typed : step.typed) {
    const char32_t key = asCapital(typed);
    auto wish = lesson ? wishIn(lessonKeyWishes(), key) : std::nullopt;
    if (!wish) wish = wishIn(keyWishes(), key);
    if (!wish) wish = layerWishFor(key);
    if (key == U'K' && step.held && step.held->shift) wish = CutWish{CutAct::Turn};
    if (wish) wishes.push_back(*wish);
  }
}

void followArrows(const InputStep& step, Wishes& wishes) {
  struct Arrow {
    Key key;
    float x;
    float y;
  };
  constexpr std::array kArrows{Arrow{Key::Left, -1.0F, 0.0F}, Arrow{Key::Right, 1.0F, 0.0F},
                               Arrow{Key::Up, 0.0F, -1.0F}, Arrow{Key::Down, 0.0F, 1.0F}};
  for (const Arrow& arrow : kArrows) {
    const auto held = step.wentDown(arrow.key);
    if (!held) continue;
    if (held->shift) {
      wishes.push_back(Slide{arrow.x * kSlideStep, arrow.y * kSlideStep});
    } else {
      wishes.push_back(Turn{arrow.x * kTurnStep, arrow.y * kTurnStep});
    }
  }
}

void followControls(const InputStep& step, Wishes& wishes) {
  const auto with_ctrl = [&](Key key) {
    const auto held = step.wentDown(key);
    return held && held->ctrl;
  };
  if (with_ctrl(Key::Plus)) wishes.push_back(ScaleText{1.1F});
  if (with_ctrl(Key::Minus)) wishes.push_back(ScaleText{1.0F / 1.1F});
  if (with_ctrl(Key::Digit0)) wishes.push_back(ScaleText{0.0F});
  const auto undo = step.wentDown(Key::Z);
  if (undo && undo->ctrl) wishes.push_back(undo->shift ? Wish{DoAgain{}} : Wish{TakeBack{}});
  if (with_ctrl(Key::O)) wishes.push_back(ToggleJobsPage{});
  const auto save = step.wentDown(Key::S);
  if (save && save->ctrl) wishes.push_back(Save{save->shift});
  if (with_ctrl(Key::Y)) wishes.push_back(DoAgain{});
  if (with_ctrl(Key::Q)) wishes.push_back(Close{});
  if (step.wentDown(Key::F5)) wishes.push_back(ReadAgain{});
  if (step.wentDown(Key::F1)) wishes.push_back(ToggleKeysPage{});
}

/// Escape lets go of one thing at a time, the uppermost first.
void followEscape(App& app, Wishes& wishes) {
  if (app.work && app.work->can_stop) {
    app.work->steps->stop = true;
  } else if (app.shown.asking != Asking::Nothing) {
    wishes.push_back(Stay{});
  } else if (app.shown.paper_open) {
    wishes.push_back(TogglePaperPage{});
  } else if (app.shown.jobs_open && app.document) {
    wishes.push_back(ToggleJobsPage{});
  } else if (app.shown.keys_open) {
    wishes.push_back(ToggleKeysPage{});
  } else if (app.focus.at != 0) {
    app.focus.at = 0;
  } else if (app.shown.layers_open) {
    wishes.push_back(ToggleLayersPanel{});
  } else if (app.shown.measuring.on) {
    wishes.push_back(ToggleMeasuring{});
  } else if (app.shown.cutting.axis) {
    wishes.push_back(CutWish{CutAct::Off});
  } else if (app.shown.history_open) {
    wishes.push_back(ToggleHistory{});
  } else if (app.shown.lesson.on()) {
    wishes.push_back(LessonWish{LessonAct::OpenOrClose, 0, {}});
  } else {
    wishes.push_back(PickOpening{-1, false});
  }
}

/// Tab and the arrows move among what can be picked, Enter and Space pick it.
void followFocus(App& app, const InputStep& step, Wishes& wishes) {
  const bool enter = step.wentDown(Key::Enter) || step.wentDown(Key::KeypadEnter) || step.wentDown(Key::Space);
  if (const auto held = step.wentDown(Key::Tab)) app.focus.step(held->shift);
  if (app.focus.at == 0) {
    followArrows(step, wishes);
    return;
  }
  app.focus.activate = enter;
  if (step.wentDown(Key::Down) || step.wentDown(Key::Right)) app.focus.step(false);
  if (step.wentDown(Key::Up) || step.wentDown(Key::Left)) app.focus.step(true);
}

}  // namespace

void followKeys(App& app, const InputStep& step, const Modifiers& held, Wishes& wishes) {
  if (app.pull) {
    followPullKeys(app, step);
    return;
  }
  if (app.cut.held) {
    followCutKeys(app.cut, app.shown, app.document->scene, step, pullStep(held, *app.document->practice));
    return;
  }
  followControls(step, wishes);
  if (!isHeld(app) && followField(app, step)) return;
  if (step.wentDown(Key::Escape)) followEscape(app, wishes);
  followFocus(app, step, wishes);
  if (app.document) followTyped(step, app.shown.lesson.on(), wishes);
}

}  // namespace sillwright::view
