#include "view/window/frame.h"

#include <algorithm>
#include <cmath>
#include <exception>
#include <utility>

#include "base/write_file.h"
#include "document/jobs.h"
#include "document/recovery.h"
#include "scene/describe.h"
#include "view/window/picture.h"

namespace sillwright::view {
namespace {

constexpr std::uint64_t kOfSteps = std::uint64_t{1} << 63U;  // versions from here on are of steps' own scenes
constexpr int kFramesToSee = 2;  // that announce a picture: the panels find their size in the first

/// Whether anything is still to be drawn or taken in.
bool isMoving(const App& app, const Stage& stage) {
  return !app.input.empty() || app.settle > 0 || app.eye.flight.flying() || app.flash.on() ||
         app.eye.moving_seconds > 0.0F || app.lesson.coming < 1.0F || stage.wantsRefining();
}

/// What follows from the lesson; null: none is on.
const document::Taught* taughtOf(const App& app) {
  return app.shown.lesson.on() && app.lesson.taught ? &*app.lesson.taught : nullptr;
}

/// The card of the part under the pointer.
void addPartCard(const App& app, std::vector<Card>& cards) {
  const std::int64_t hovered = app.shown.look.hovered_part;
  if (hovered < 0 || app.hand.button || app.pointed.handle || app.pull || app.cut.hovered || app.shown.measuring.on) {
    return;
  }
  const document::Document& document = *app.document;
  const scene::Part& part = document.scene.parts[static_cast<std::size_t>(hovered)];
  const ImVec2 at = ImGui::GetIO().MousePos;
  cards.push_back({at, at + ImVec2{2.0F, 2.0F}, scene::describe(part, *document.practice),
                   scene::reason(part, document.job, *document.practice, document.plan)});
}

/// A handle where the cut has taken the wall away has nothing to hold on to; the one in hand stays.
void leaveOutGone(App& app) {
  const bool pulled = app.pull && !isCutPulled(app);
  if (!app.shown.look.cut || pulled || app.shown.wall < 0) return;  // without a picked wall there are no handles
  const scene::WallFrame& wall = app.document->scene.walls[static_cast<std::size_t>(app.shown.wall)];
  std::erase_if(app.pointed.handles, [&](const Handle& handle) { return isGone(app.shown.look.cut, wall, handle.at); });
}

bool isCornerOut(const App& app) {  // whether the corner detail is shown
  return app.document && app.shown.lens && app.shown.opening >= 0 && !app.shown.lesson.on();
}

/// Panels, the corner detail and the cut's handle lie over the lettering: nothing is written under them.
std::vector<Rect> roomTaken(const App& app, const std::vector<Rect>& panels, const Ui& ui) {
  std::vector<Rect> taken = panels;
  const Canvas& canvas = app.layout.canvas;
  if (isCornerOut(app)) taken.push_back(placeLens(ui, canvas, panels));
  if (!app.cut.handle || !app.shown.look.cut) return taken;
  const glm::vec3 seen = render::project(app.shown.camera, app.cut.handle->at, canvas.width, canvas.height);
  const ImVec2 half{ui.px(12.0F), ui.px(12.0F)};
  taken.push_back({ImVec2{seen.x, seen.y} - half, ImVec2{seen.x, seen.y} + half});
  return taken;
}

/// Handles of what is picked, but not in a lesson.
void followHandles(App& app) {
  app.pointed.handles.clear();  // as drawn last: the pointer of the next frame is on these
  if (app.shown.lesson.on() || app.shown.measuring.on || !app.shown.labels) return;
  app.pointed.handles =
      handlesOf(*app.document, app.shown.wall, app.shown.opening, app.shown.camera, app.shown.look.spread);
  leaveOutGone(app);
}

/// What of the lesson is drawn over the scene: names only once the parts have come that they name.
WaterShown waterOf(const App& app, float drop_seconds) {
  const LessonPlay& play = app.lesson;
  return {showsWater(app.shown.lesson) ? &play.water : nullptr, taughtOf(app), drop_seconds,
          play.step && play.coming >= 1.0F ? &*play.step : nullptr};
}

void drawMarks(App& app, Stage& stage, const Ui& ui) {  // over the scene, and under all panels
  const WaterShown water = waterOf(app, app.shown.lesson.drops ? app.lesson.drop_seconds : 0.0F);
  ImDrawList& list = *ImGui::GetBackgroundDrawList();
  stage.seen.written =
      drawLabels(ui, list, *app.document, app.shown, app.layout.canvas, water, roomTaken(app, stage.seen.panels, ui));
  followHandles(app);  // after the names: they take no room from them
  const Lettering on{ui, list, *app.document, app.shown, app.layout.canvas, {}, {}};
  if (app.flash.on()) drawFlash(on, app.flash.parts, app.flash.left / kFlashSeconds);
  drawHandles(on, app.pointed.handles, app.pointed.handle, app.pull && !isCutPulled(app) ? &*app.pull : nullptr);
  placeCutHandle(app);  // after the plane may have moved
  drawCut(on, app.cut, isCutPulled(app) ? &*app.pull : nullptr);
}

/// The panels at the edges.
void drawEdges(const App& app, const Panel& panel) {
  const bool sides = !app.shown.folded;
  if (panel.taught != nullptr) lessonStrip(panel, app.layout);  // in Tab's order
  if (app.layout.strip_width > 0.0F) wallStrip(panel, app.layout);
  if (sides && panel.taught != nullptr) lessonSheet(panel, app.layout);
  if (sides && panel.taught == nullptr) openingSheet(panel, app.layout);
  if (sides && panel.taught == nullptr) wallSheet(panel, app.layout);
  if (app.shown.layers_open) layersPanel(panel, app.layout);
  if (app.shown.history_open) historyPanel(panel, app.layout);
  if (!app.file.errors.empty()) errorsBeside(panel, app.layout, app.file.errors, app.file.lines);
  if (app.shown.cutting.axis) cutPanel(panel, app.layout);
  footLine(panel, app.layout);
  if (app.shown.tour >= 0 && !app.shown.lesson.exercise) tourPanel(panel, app.layout);  // it looks where the others lie
}

void drawPanels(App& app, Stage& stage, const Ui& ui, ImVec2 size, Wishes& wishes) {
  std::vector<Card> cards;
  addPartCard(app, cards);  // first: of all cards the last is shown
  const Panel panel{{ui, app.typing, wishes}, *app.document, app.shown, app.history, taughtOf(app), cards};
  ImGui::BeginDisabled(isModal(app.shown));  // a page has the pointer to itself
  if (app.shown.lesson.class_room) {
    classCard(panel, app.layout, app.lesson.card);
  } else {
    drawEdges(app, panel);
  }
  ImGui::EndDisabled();
  if (app.shown.keys_open) keysPage(panel, size);
  if (app.shown.paper_open) paperPage(panel, app.layout, size);
  if (app.shown.job_open) jobPage(panel, size);
  if (app.menu) menuList(panel, *app.menu, size);  // after the pages: a list may open over one
  if (app.shown.asking != Asking::Nothing) askPage(panel, size, app.file.found_says);
  drawMarks(app, stage, ui);  // after the panels, which tell where they lie
  if (!cards.empty() && !app.shown.keys_open) stage.seen.card = std::move(cards.back());
}

/// Why what was typed isn't taken, beside its field and in place of what the field says of itself; else the last card.
void showCard(const App& app, Stage& stage, const Ui& ui, ImVec2 size) {
  const auto& refusal = app.typing.refusal;
  for (const Item& item : app.focus.now) {
    if (!refusal || !(item.field == refusal->what)) continue;
    stage.seen.card = Card{item.low, item.high, "not taken", refusal->text, {}, true};
  }
  if (stage.seen.card) drawCard(ui, *stage.seen.card, size);
}

/// Whose rules a new job follows.
std::string practiceOf(const App& app) {
  if (!app.shown.new_practice.empty()) return app.shown.new_practice;
  const auto& all = app.jobs.choices->practices;
  const std::string own = app.document ? app.document->job.practice : std::string{};
  const bool known = std::ranges::any_of(all, [&](const auto& each) { return each.file == own; });
  return known || all.empty() ? own : all.front().file.string();
}

/// The corner detail over the picture, made anew where what it shows has changed.
void showCorner(const App& app, Stage& stage, const Ui& ui, const Screen& screen) {
  if (!isCornerOut(app)) return;
  const document::Document& document = *app.document;
  const auto opening = static_cast<std::size_t>(app.shown.opening);
  const scene::WallFrame& wall = document.scene.walls[document.job.openings[opening].wall];
  const Rect place = placeLens(ui, app.layout.canvas, stage.seen.panels);
  const float side = place.high.x - place.low.x;
  const float scale = pixelsPerMm(screen.scale);
  const bool inside = !isOutside(wall, app.shown.camera);
  const LensKey key{app.version, opening, *app.shown.lens, inside, app.shown.look.dark, side / scale};
  const ImTextureID picture = stage.drawLens(key, static_cast<int>(side), [&] {
    return lensOn(document, opening, key.corner, inside, key.dark, static_cast<double>(key.mm));
  });
  drawLensFrame(ui, *ImGui::GetBackgroundDrawList(), picture, place, document, opening, key.corner);
  drawLensGaps(ui, *ImGui::GetBackgroundDrawList(), place, scale, document, opening, key.corner, inside);
}

/// What a what-if has changed as it should be, left of it and from the same side, with its water.
void showRight(App& app, Stage& stage, const Ui& ui) {
  if (!app.lesson.right) return;
  constexpr float kRoom = 1.9F;  // height and width of what is seen, in the opening's
  const Canvas& canvas = app.layout.canvas;
  const float margin = ui.px(12.0F);
  const float side = std::floor(std::min(canvas.freeWidth() * 0.5F, canvas.freeHeight()) - 2.0F * margin);
  const ImVec2 at{std::round(canvas.left + margin), std::round(canvas.top + margin)};
  const ImVec2 high = at + ImVec2{side, side};
  const auto opening = static_cast<std::size_t>(app.shown.lesson.opening);
  const scene::OpeningFrame& hole = app.document->scene.openings[opening];
  Shown shown = app.shown;
  shown.look.hovered_part = -1;
  shown.camera.target = hole.centre;  // from the same side, but in its own middle
  shown.camera.distance *= kRoom * 0.5F * std::max(hole.width, hole.height) / shown.camera.halfHeight();
  const LensKey key{app.version, opening, plan::Corner::BL, false, shown.look.dark, side, shown.camera, shown.look};
  const ImTextureID picture = stage.drawLens(key, static_cast<int>(side), [&] {
    return LensView{app.lesson.right->scene, shown.camera, shown.look};
  });
  ImDrawList& list = *ImGui::GetBackgroundDrawList();
  list.AddImage(picture, at, high, {0.0F, 1.0F}, {1.0F, 0.0F});
  list.PushClipRect(at, high, true);  // its water runs on beyond what is seen of it
  Lettering on{ui, list, *app.document, shown, Canvas{.width = side, .height = side}, {}, {}, at};
  drawWater(on, {&app.lesson.right->water, &app.lesson.right->taught, app.lesson.drop_seconds, nullptr});
  list.PopClipRect();
  list.AddRect(at, high, toU32(ui.colours->ink), 0.0F, 0, std::max(1.5F, ui.px(1.6F)));
  drawPlate(
      ui, list, at,
      {{ui.px(8.0F), ui.px(4.0F)}, 0.0F, ui.colours->ink, {{ui.fonts.strong, ui.colours->ink, "as it should be"}}});
}

std::string titleOfView(const App& app) {
  const std::string& title = app.document->job.title;
  const std::string name = nameOfPicked(app);
  return (title.empty() ? app.file.path.filename().string() : title) + (name.empty() ? "" : ": " + name);
}

/// The view as it stands, into a file. Lettering grows with the picture, so that it reads as on the screen.
void drawIntoFile(const App& app, const PictureSize& size, const std::filesystem::path& file) {
  PictureOptions options;
  options.width = size.width;
  options.height = size.height;
  const float larger = static_cast<float>(size.height) / std::max(app.layout.canvas.height, 1.0F);
  options.text_scale = app.layout.scale * larger;
  Shown shown = app.shown;
  shown.look.hovered_part = -1;
  shown.look.edge_px *= std::max(1.0F, larger);  // lines grow with the lettering
  shown.measuring.hovered.reset();               // the pointer is no part of the view
  const WaterShown water = waterOf(app, kPictureDrops);
  render::writePng(file, drawView(*app.document, shown, water, options, titleOfView(app)));
}

/// Draws the picture that was asked for, once the words that announce it have been seen.
void drawAwaited(App& app) {
  if (!app.work || app.work->there.valid() || ++app.work->seen <= kFramesToSee) return;
  const PictureSize size = app.work->picture;  // copies: the work is over before it is told
  const std::filesystem::path file = app.work->file;
  app.work.reset();
  try {
    drawIntoFile(app, size, file);
    tell(app, "Written: " + file.string(), false);
    app.notice.file = file;
  } catch (const std::exception& error) {
    tell(app, error.what(), true);
  }
}

/// Takes up where the panels lie. What was looked at gets what folded panels, or another size, leave free.
void layOutAgain(App& app, const Layout& layout) {
  const Layout before = std::exchange(app.layout, layout);
  const auto same = [&](float Canvas::*side) { return before.canvas.*side == layout.canvas.*side; };
  const bool as_wide = before.folded == layout.folded && (before.strip_width > 0.0F) == (layout.strip_width > 0.0F);
  if (!app.eye.placed || (as_wide && same(&Canvas::width) && same(&Canvas::height))) return;
  for (render::Camera* each : {&app.shown.camera, &app.eye.flight.from, &app.eye.flight.to}) {  // a flight too
    *each = refitted(*each, before.canvas, layout.canvas);
  }
}

/// Moves the eye on, and counts down what is still to come.
void passTime(App& app, float seconds, bool disturbed) {
  if (app.eye.flight.flying()) app.shown.camera = fly(app.eye.flight, seconds);
  app.eye.moving_seconds = std::max(0.0F, app.eye.moving_seconds - seconds);
  app.flash.left = std::max(0.0F, app.flash.left - seconds);
  if (app.file.stale_seconds) *app.file.stale_seconds += seconds;
  app.settle = std::max(0, app.settle - 1);
  if (disturbed) disturb(app);  // after it was counted down: this frame is the first of them
}

/// The pointer and the held keys, as the panels see them once their frame has begun.
Pointer pointerNow() {
  const ImGuiIO& io = ImGui::GetIO();
  return {io.MousePos,
          ImGui::IsMousePosValid(),
          io.WantCaptureMouse,
          ImGui::GetMouseClickedCount(ImGuiMouseButton_Left) >= 2,
          {io.KeyCtrl, io.KeyShift, io.KeyAlt, io.KeySuper}};
}

/// Keys and pointer into changes and wishes.
void takeInput(App& app, const InputStep& step, Wishes& wishes) {
  Pointer pointer = pointerNow();
  pointer.over_panel |= isModal(app.shown) || app.menu;  // a page has the pointer even beside itself
  if (step.dropped) wishes.push_back(OpenJob{step.dropped->file});
  followKeys(app, step, pointer.held, wishes);  // before the pointer: keys may end what it holds
  if (app.document) {
    const bool picked = app.shown.opening >= 0;  // an exercise begins before its opening
    const StandingView first = picked ? StandingView::Outside : StandingView::House;
    const Subject subject{app.shown.wall, app.shown.opening, {}};
    if (!app.eye.placed) app.shown.camera = standAt(app.document->scene, first, subject, canvasOf(app));
    app.eye.placed = true;
    if (!isHeld(app)) followPointer(app, step, pointer, wishes);
    if (!isHeld(app)) followCut(app);  // the wall may have moved
  } else if (step.button && step.button->down) {
    app.focus.at = 0;  // as a press on a drawing does: what was typed is taken in
  }
  leaveField(app);  // after keys and pointer: either may have left it
}

/// What is written for a class room is as high as its picture asks for: 24 pixels of 768 are read from ten metres.
float textScaleOf(const App& app, const Screen& screen) {
  constexpr float kClassHeight = 480.0F;  // of a picture whose text has its usual size
  if (!app.shown.lesson.class_room) return app.shown.text_scale * screen.scale;
  return app.shown.text_scale * static_cast<float>(screen.height) / kClassHeight;
}

std::filesystem::path smallFile(const App& app, const std::filesystem::path& job) {
  return document::recoveryFile(app.file.pictures, job, ".picture");
}

/// Everything that lies over the drawing.
void drawOver(App& app, Stage& stage, const Ui& ui, ImVec2 size, Wishes& wishes) {
  const Page page{ui, app.typing, wishes};
  stage.seen.card.reset();
  if (app.document) {
    drawPanels(app, stage, ui, size, wishes);
  } else {
    if (!app.file.errors.empty()) errorPage(page, size, app.file.path, app.file.errors, app.file.lines);
    if (app.shown.keys_open) keysPage(page, size);
  }
  if (app.jobs.choices) {
    const auto picture = [&](const std::filesystem::path& job) { return stage.smallPicture(smallFile(app, job)); };
    jobsPage({page, *app.jobs.choices, practiceOf(app), app.document.has_value(), picture}, size);
  } else {
    stage.small.clear();  // textures of jobs that nobody looks at
  }
  showCard(app, stage, ui, size);
  if (app.work) {
    const Steps& steps = *app.work->steps;
    const float share = steps.of > 0 ? static_cast<float>(steps.done) / static_cast<float>(steps.of) : -1.0F;
    workPlate(ui, app.layout, wordsFor(*app.work) + (app.work->can_stop ? "   Escape stops it" : ""), share);
  } else if (!app.notice.words.empty()) {  // one plate at a time: work goes first
    noticePlate(page, app.layout, app.notice.words, app.notice.stops, app.notice.file);
  }
}

}  // namespace

void letLessonGoOn(App& app, float seconds) {
  playLesson(app.shown.lesson, app.lesson, seconds);  // time, then what follows from it, then the parts on their way
  followLesson(app);
  followComing(app);
}

bool wantsFrame(const App& app, const Stage& stage) {
  return isUnsettled(app, stage) || isLessonRunning(app.shown.lesson, app.lesson);
}

bool isUnsettled(const App& app, const Stage& stage) { return isMoving(app, stage) || app.work; }

bool isOnlyWorking(const App& app, const Stage& stage) {
  return app.work && app.work->there.valid() && !isMoving(app, stage) && !isLessonRunning(app.shown.lesson, app.lesson);
}

void keepPicture(App& app) {
  if (app.file.pictures.empty() || !app.document || app.work || app.typing.anyNotInFile(app.document->job)) return;
  const std::pair now{app.file.path, app.file.looked_at};
  if (std::exchange(app.file.pictured, now) == now) return;
  const auto file = smallFile(app, app.file.path);
  std::error_code failed;
  const auto drawn = std::filesystem::last_write_time(file, failed);
  if (!failed && drawn >= app.file.looked_at) return;  // drawn from this state of the file, or a later one
  PictureOptions options;
  options.width = kSmallWidth;
  options.height = kSmallHeight;
  options.labels = false;
  options.dark = app.shown.look.dark;
  try {
    std::filesystem::create_directories(app.file.pictures);
    const auto rgb = drawPicture(*app.document, options).value.value().rgb;
    static_cast<void>(base::writeFile(file, {reinterpret_cast<const char*>(rgb.data()), rgb.size()}));
  } catch (const std::exception&) {
    app.file.pictures.clear();  // a list without pictures is one all the same
  }
}

void frame(App& app, Stage& stage, const Screen& screen, float seconds) {
  const InputStep step = takeStep(app.input);
  const bool pointed = step.button && step.button->down;
  if (pointed) app.typing.refusal.reset();
  const bool pressed = std::any_of(step.keys.begin(), step.keys.end(), [](const KeyChanged& key) { return key.down; });
  if (pressed || (pointed && app.notice.file.empty())) app.notice = {};
  // What time and work have brought comes before the layout, and that before input and panels, which go by it.
  passTime(app, seconds, !step.empty());  // before input, which asks what this camera sees under the pointer
  followWork(app);                        // before the layout: it may bring another job
  drawAwaited(app);
  letLessonGoOn(app, seconds);
  const ImVec2 size{static_cast<float>(screen.width), static_cast<float>(screen.height)};
  const float text_scale = textScaleOf(app, screen);
  stage.gui().begin(size.x, size.y, seconds, text_scale, app.shown.look.dark, step);
  stage.seen.panels.clear();
  const Ui ui = stage.gui().ui(app.focus, &stage.seen.panels);
  const document::Lesson& lesson = app.shown.lesson;
  Layout layout = layOut(ui, size, app.shown.opening >= 0 || app.shown.wall >= 0, lesson, app.shown.folded);
  if (lesson.class_room) layout.canvas = classCanvas(layout.canvas);
  layOutAgain(app, layout);  // before input, whose pixels are of this layout

  Wishes wishes;
  takeInput(app, step, wishes);
  // What is drawn is what the panels and labels were made for; wishes change the next frame.
  Shown drawn = app.shown;
  if (app.shown.lesson.class_room) drawn.look.edge_px *= text_scale;
  drawOver(app, stage, ui, size, wishes);
  const bool moving = app.eye.flight.flying() || app.eye.moving_seconds > 0.0F || app.lesson.coming < 1.0F;
  const bool own = app.lesson.step.has_value();
  stage.draw(app.document ? &seenScene(app) : nullptr, own ? kOfSteps + app.lesson.step_version : app.version, drawn,
             screen.width, screen.height, moving);
  showCorner(app, stage, ui, screen);
  showRight(app, stage, ui);
  stage.finish();
  app.focus.endFrame();  // before wishes: a list opens at one of this frame's items

  if (!wishes.empty() && !app.notice.file.empty()) app.notice = {};
  for (const Wish& wish : wishes) {
    if (!isHeld(app) || changesNothing(wish)) grant(app, wish);  // an earlier wish of this frame may have begun work
  }
  if (!wishes.empty()) disturb(app);
  followTour(app);
  followLesson(app);
}

}  // namespace sillwright::view
