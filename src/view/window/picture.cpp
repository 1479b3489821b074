#include "view/window/picture.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

#include "base/words.h"
#include "render/renderer.h"
#include "scene/describe.h"
#include "view/marks/marks.h"
#include "view/values/readings.h"
#include "view/window/frame.h"

namespace sillwright::view {

namespace {

constexpr float kMostPictureText = 6.0F;  // a letter's texture has its bounds
constexpr int kSamples = 4;               // a pixel

/// "J1, J2": what a wrong name could have been; the first few.
std::string namesOf(const std::vector<job::Opening>& all) {
  constexpr std::size_t kMost = 12;
  const std::span<const job::Opening> first(all.data(), std::min(all.size(), kMost));
  return base::joined(first, ", ", &job::Opening::name) + (all.size() > kMost ? ", …" : "");
}

void refuse(std::vector<base::Error>& errors, std::string key, std::string say) {
  errors.push_back({{}, {}, std::move(key), std::move(say)});
}

StandingView viewOf(const PictureOptions& options) { return options.view.value_or(StandingView::House); }

/// Whether a step is shown as it is best seen, with its parts named.
bool showsStep(const PictureOptions& options) { return options.step && !options.view && !options.cut; }

Subject subjectOf(const document::Document& document, const PictureOptions& options, std::vector<base::Error>& errors) {
  Subject subject;
  const auto& all = document.job.openings;
  if (options.opening) subject.opening = document::indexOf(all, *options.opening);
  if (options.opening && subject.opening < 0)
    refuse(errors, "opening", "there is no opening \"" + *options.opening + "\"; there are " + namesOf(all));
  if (isCloseUp(viewOf(options)) && !options.opening)
    refuse(errors, "view", std::string("the view \"") + wordFor(viewOf(options)) + "\" needs an opening to look at");
  return subject;
}

void checkSize(const PictureOptions& options, std::vector<base::Error>& errors) {
  const auto good = [](int side) { return side >= kSmallestPicture && side <= kLargestPicture; };
  if (good(options.width) && good(options.height)) return;
  refuse(errors, "size",
         "a picture is " + std::to_string(kSmallestPicture) + " to " + std::to_string(kLargestPicture) +
             " pixels a side, not " + std::to_string(options.width) + " × " + std::to_string(options.height));
}

/// "Boatshed at the jetty: J2, outside"
std::string titleOf(const document::Document& document, const PictureOptions& options) {
  std::string title = document.job.title.empty() ? document.job.file : document.job.title;
  title += options.opening ? ": " + *options.opening + ", " : ": ";
  title += showsStep(options) ? "step " + std::to_string(*options.step) : wordFor(viewOf(options));
  if (!options.cut) return title;
  const char letter = letterOf(options.cut->axis.value_or(CutAxis::X));
  return title + ", cut at " + letter + " " + figure(options.cut->at, document.practice->display);
}

/// A round length that is about `most` pixels long, mm.
double roundLength(double mm_per_pixel, double most) {
  const double longest = mm_per_pixel * most;
  const double decade = std::pow(10.0, std::floor(std::log10(longest)));
  for (const double step : {5.0, 2.0, 1.0}) {
    if (step * decade <= longest) return step * decade;
  }
  return decade;  // the last step is 1, so only rounding comes here
}

/// Title and, for the distance of what is looked at, a scale bar: small, in the lower left corner.
void drawTitle(const Ui& ui, const document::Document& document, const std::string& title,
               const PictureOptions& options, const render::Camera& camera) {
  ImDrawList& list = *ImGui::GetBackgroundDrawList();
  const auto height = static_cast<float>(options.height);
  const float margin = ui.px(14.0F);
  const float line = ui.fonts.small->FontSize;
  const float base = height - margin;
  const double mm_per_pixel = 2.0 * static_cast<double>(camera.halfHeight()) / static_cast<double>(height);
  const double mm = roundLength(mm_per_pixel, static_cast<double>(ui.px(110.0F)));
  const auto bar = static_cast<float>(mm / mm_per_pixel);
  const std::string length = figure(mm, document.practice->display) +
                             (document.practice->display == practice::Display::Millimetres ? " mm" : "");
  const float length_left = margin + bar + ui.px(7.0F);
  const ImVec2 pad{ui.px(6.0F), ui.px(4.0F)};
  const float right =
      std::max(length_left + textSize(ui.fonts.small, length).x, margin + textSize(ui.fonts.small, title).x);
  list.AddRectFilled({margin - pad.x, base - line * 2.0F - pad.y}, {right + pad.x, base + pad.y},
                     toU32(ui.colours->ground), ui.px(2.0F));
  const ImU32 ink = toU32(ui.colours->ink);
  const float weight = std::max(1.0F, ui.px(1.0F));
  list.AddLine({margin, base}, {margin + bar, base}, ink, weight);
  for (const float x : {margin, margin + bar}) list.AddLine({x, base - ui.px(4.0F)}, {x, base + weight}, ink, weight);
  drawText(list, ui.fonts.small, {length_left, base - line * 0.75F}, ui.colours->quiet, length);
  drawText(list, ui.fonts.small, {margin, base - line * 2.0F}, ui.colours->quiet, title);
}

bool wantsWater(const PictureOptions& options) { return options.water || !options.what_ifs.empty(); }

/// Where a caption's lines are broken, pixels.
float captionWidth(const PictureOptions& options, float scale) {
  return std::min((showsStep(options) ? 300.0F : 440.0F) * scale, static_cast<float>(options.width) * 0.42F);
}

/// What the step is, and where the water goes: in the upper left corner, for a handout.
void drawCaption(const Ui& ui, const PictureOptions& options, const document::Lesson& lesson,
                 const document::Taught& taught) {
  const Colour ink = ui.colours->ink;
  const float wrap = captionWidth(options, ui.scale);
  Plate plate{{ui.px(12.0F), ui.px(9.0F)}, wrap, ui.colours->rule};
  plate.foot = ui.px(4.0F);
  const auto add = [&](ImFont* font, std::string words) {
    plate.lines.push_back({font, ink, std::move(words), false, ui.px(4.0F)});
  };
  if (options.step && *options.step > 0) {
    const plan::Step& step = taught.step(taught.cards[static_cast<std::size_t>(*options.step - 1)]);
    add(ui.fonts.heading, std::to_string(*options.step) + "  " + step.title);
    add(ui.fonts.body, step.what);
  }
  for (const plan::WhatIf& each : lesson.what_ifs) add(ui.fonts.strong, "What if: " + plan::toText(each));
  if (wantsWater(options) && taught.wet) add(ui.fonts.body, taught.water_says);
  if (plate.lines.empty()) return;
  drawPlate(ui, *ImGui::GetBackgroundDrawList(), {ui.px(14.0F), ui.px(14.0F)}, plate);
}

/// What of a lesson is pictured; `taught` is empty where none is.
struct Pictured {
  Subject subject;
  document::Lesson lesson;
  std::optional<document::Taught> taught;
  std::optional<document::StepView> step;
};

/// Steps and what-ifs that the opening has not are told.
void takeLesson(const document::Document& document, const PictureOptions& options, Pictured& pictured,
                std::vector<base::Error>& errors) {
  if (!options.step && !wantsWater(options)) return;
  if (pictured.subject.opening < 0) {
    if (!options.opening) refuse(errors, "opening", "a step, the water or a what-if wants an opening to look at");
    return;
  }
  pictured.lesson.opening = pictured.subject.opening;
  pictured.lesson.place = options.step.value_or(static_cast<int>(plan::kStepKinds));  // all done
  pictured.lesson.what_ifs = options.what_ifs;
  pictured.taught = document::teach(document, pictured.lesson);
  const auto steps = static_cast<int>(pictured.taught->steps.size());
  if (options.step && (*options.step < 0 || *options.step > steps)) {
    refuse(errors, "step",
           "the order of work of " + *options.opening + " has the steps 1 to " + std::to_string(steps) +
               ", and 0 for the bare frame; not " + std::to_string(*options.step));
  }
  if (!pictured.taught->refusal.empty()) refuse(errors, "what-if", pictured.taught->refusal);
}

/// What of the picture is left for the drawing: a step's caption has its place at the left.
Canvas canvasOf(const PictureOptions& options, bool own_view) {
  Canvas canvas{.width = static_cast<float>(options.width), .height = static_cast<float>(options.height)};
  const bool captioned = own_view && options.labels && options.caption && options.step.value_or(0) > 0;
  if (captioned) canvas.left = captionWidth(options, options.text_scale) + 40.0F * options.text_scale;
  return canvas;
}

/// Where the eye stands, and what it is shown.
Shown shownOf(const document::Document& document, const PictureOptions& options, const Pictured& pictured) {
  const Subject& subject = pictured.subject;
  const Canvas canvas = canvasOf(options, pictured.step.has_value());
  Shown shown;
  shown.opening = subject.opening;
  shown.camera =
      pictured.step ? standAt(*pictured.step, canvas) : standAt(document.scene, viewOf(options), subject, canvas);
  if (options.spread > 0.0F && subject.opening < 0) {  // out from every wall, as far as the outermost layer goes
    const scene::Box& all = document.scene.bounds;
    scene::Box reach = all;
    for (const scene::WallFrame& wall : document.scene.walls) {
      const glm::vec3 out = wall.inward * render::spreadOffset(scene::Layer::Eave, options.spread);
      reach.hold(all.low + out), reach.hold(all.high + out);
    }
    shown.camera = framed(shown.camera, reach.corners(), canvas);
  }
  shown.look.dark = options.dark;
  shown.look.hidden_layers = options.hidden_layers;
  shown.look.spread = options.spread;
  shown.look.shadow = !pictured.step;  // of walls that a step leaves out
  shown.look.edge_px *= std::max(1.0F, options.text_scale);
  shown.labels = options.labels;
  if (options.cut) {
    shown.cutting = cutFrom(document.scene, *options.cut, -1, subject.opening, shown.camera);  // the eye's side
    shown.camera = facingCut(document.scene, shown.cutting, viewOf(options), subject, canvas, shown.camera);
  }
  shown.look.cut = planeOf(document.scene, shown.cutting);
  shown.lesson = pictured.lesson;
  if (pictured.taught) {
    shown.look.hidden_steps = pictured.taught->hidden_steps;
    shown.look.lit_step = pictured.step ? pictured.step->lit : pictured.taught->lit_step;
  }
  return shown;
}

/// Layers that are pulled apart are told apart from the side, out to the unit's, and what they are is seen without
/// words.
void showApart(document::StepView& step, const scene::WallFrame& wall, float spread) {
  const glm::vec3 out = wall.inward * render::spreadOffset(scene::Layer::Unit, spread);
  step.yaw_degrees += 20.0F;  // square on, layers would cover one another
  const std::vector<glm::vec3> before = step.focus;
  for (const glm::vec3& place : before) step.focus.push_back(place + out);  // both ends of the way are to be seen
  step.lit.reset();
  step.notes.clear();
  step.lines.clear();
}

/// Draws the document as it stands.
render::Image drawScene(const document::Document& document, const PictureOptions& options, Pictured& pictured) {
  const std::optional<document::Taught>& taught = pictured.taught;
  const auto opening = static_cast<std::size_t>(pictured.subject.opening);
  if (showsStep(options)) {
    pictured.step =
        document::stepView(document, *taught, opening, *options.step, wantsWater(options) ? 1.0F : document::kStillWay);
    const scene::WallFrame& wall = document.scene.walls[document.job.openings[opening].wall];
    if (options.spread > 0.0F) showApart(*pictured.step, wall, options.spread);
  }
  std::vector<scene::WaterLine> lines;
  if (taught && wantsWater(options))
    lines = scene::waterLines(document.scene, document.job, opening, taught->there, taught->water);
  const Shown shown = shownOf(document, options, pictured);
  const WaterShown water{wantsWater(options) ? &lines : nullptr, taught ? &*taught : nullptr,
                         lines.empty() ? 0.0F : kPictureDrops, pictured.step ? &*pictured.step : nullptr};
  return drawView(document, shown, water, options, titleOf(document, options));
}

/// Names, dimensions, title and caption over a picture.
void letter(const document::Document& document, const Shown& shown, const WaterShown& water,
            const PictureOptions& options, const std::string& title) {
  const Canvas canvas = canvasOf(options, water.step != nullptr);
  Gui gui;
  Focus focus;
  const float scale = std::clamp(options.text_scale, 0.5F, kMostPictureText);
  gui.begin(canvas.width, canvas.height, 1.0F / 60.0F, scale, shown.look.dark, {});
  const Ui ui = gui.ui(focus);
  drawLabels(ui, *ImGui::GetBackgroundDrawList(), document, shown, canvas, water);
  if (shown.labels && options.caption && !title.empty()) drawTitle(ui, document, title, options, shown.camera);
  if (shown.labels && options.caption && water.taught != nullptr) drawCaption(ui, options, shown.lesson, *water.taught);
  gui.end();
}

/// Draws until nothing changes any more; panels take a few frames to find their sizes.
void comeToRest(App& app, Stage& stage, const Screen& screen) {
  constexpr int kMostFrames = 60;
  for (int i = 0; i < kMostFrames && isUnsettled(app, stage); ++i) frame(app, stage, screen, 1.0F / 60.0F);
}

}  // namespace

render::Image drawView(const document::Document& document, const Shown& shown, const WaterShown& water,
                       const PictureOptions& options, const std::string& title) {
  const scene::Scene& scene = water.step != nullptr ? water.step->scene : document.scene;
  render::Renderer renderer;  // of its own: nothing of the viewer's is sent again for it
  render::Target target(options.width, options.height, kSamples);
  renderer.upload(scene);
  renderer.cut(scene, shown.look);
  target.begin();
  renderer.draw(shown.camera, shown.look, options.width, options.height);
  target.resolve();
  if (shown.labels || document.drawn_deviation > 1 || shown.look.spread > 0)  // a drawing that isn't true says so
    letter(document, shown, water, options, title);
  return {options.width, options.height, target.read()};
}

std::optional<scene::Layer> layerNamed(std::string_view word, const practice::Words& words) {
  for (std::size_t i = 0; i < scene::kLayers; ++i) {
    const auto layer = static_cast<scene::Layer>(i);
    if (word == scene::nameOf(layer) || word == wordFor(layer, words)) return layer;
  }
  return std::nullopt;
}

std::string layerWords() {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < scene::kLayers; ++i) words.emplace_back(scene::nameOf(static_cast<scene::Layer>(i)));
  return base::joined(words);
}

base::Result<render::Image> drawPicture(const document::Document& document, const PictureOptions& options) {
  base::Result<render::Image> result;
  Pictured pictured;
  pictured.subject = subjectOf(document, options, result.errors);
  checkSize(options, result.errors);
  takeLesson(document, options, pictured, result.errors);
  if (!result.errors.empty()) return result;

  std::optional<document::Tried> tried;
  if (pictured.taught && pictured.taught->skin_changed)
    tried = document::Tried{static_cast<std::size_t>(pictured.subject.opening), pictured.taught->skin};
  std::optional<document::Document> changed;
  if (tried || options.magnify != document.deviation) {  // only then is the document copied
    changed = document;
    changed->deviation = options.magnify;
    document::tryOn(*changed, std::move(tried));
  }
  result.value = drawScene(changed ? *changed : document, options, pictured);
  return result;
}

base::Result<render::Image> picture(const document::Document& document, const PictureOptions& options) {
  const render::Offscreen context;
  return drawPicture(document, options);
}

void drawFilm(document::Document document, std::size_t opening, const FilmOptions& options,
              const std::function<bool(const render::Image& picture, int step, int steps)>& take) {
  App app;
  app.document = std::move(document);
  app.shown.opening = static_cast<std::int32_t>(opening);
  app.shown.look.dark = options.dark;
  app.eye.placed = true;
  Stage stage;
  stage.hurried = false;  // each picture is kept, so each is a good one
  const Screen screen{options.width, options.height, 1.0F};
  const float tick = 1.0F / static_cast<float>(options.a_second);
  app.layout.canvas = {.width = static_cast<float>(screen.width), .height = static_cast<float>(screen.height)};
  app.eye.instant = true;  // it begins where its first card is seen from
  grant(app, LessonWish{LessonAct::ClassRoom});
  grant(app, LessonWish{LessonAct::Go, options.first});
  while (isUnsettled(app, stage)) frame(app, stage, screen, tick);  // panels find their sizes before the first picture
  app.eye.instant = false;
  app.lesson.coming = 0.0F;  // its parts come, though the eye did not fly
  document::Lesson& lesson = app.shown.lesson;
  lesson.pace = options.pace;
  lesson.playing = true;
  const int steps = static_cast<int>(app.lesson.taught->cards.size());
  render::Image picture{options.width, options.height, stage.target().read()};
  while (lesson.playing && lesson.place <= options.last) {
    if (!take(picture, lesson.place, steps)) return;
    if (isUnsettled(app, stage) || isLessonMoving(lesson, app.lesson)) {
      frame(app, stage, screen, tick);
      picture.rgb = stage.target().read();
    } else {
      letLessonGoOn(app, tick);  // nothing moves: time passes without a picture
    }
  }
}

// A picture of the viewer itself, panels and all.

base::Result<render::Image> screenPicture(const std::filesystem::path& path, const std::filesystem::path& assets,
                                          const PictureOptions& options) {
  const render::Offscreen context;
  base::Result<render::Image> result;
  App app = open(path, assets);
  if (!app.document) {
    result.errors = app.file.errors;
    return result;
  }
  app.eye.instant = true;
  app.shown.text_scale = options.text_scale;
  app.shown.look.dark = options.dark;
  app.shown.look.hidden_layers = options.hidden_layers;
  app.shown.labels = options.labels;
  Stage stage;
  const Screen screen{options.width, options.height, 1.0F};
  comeToRest(app, stage, screen);  // views need the layout, which the first frame makes
  if (options.opening) {
    const Subject subject = subjectOf(*app.document, options, result.errors);
    if (!result.errors.empty()) return result;
    grant(app, PickOpening{subject.opening, true});
  }
  app.shown.look.spread = options.spread;
  if (options.step || options.water || !options.what_ifs.empty()) {
    grant(app, LessonWish{LessonAct::OpenOrClose});
    if (options.step) grant(app, LessonWish{LessonAct::Go, *options.step});
    for (const plan::WhatIf& each : options.what_ifs) grant(app, LessonWish{LessonAct::Try, 0, each});
    if (!options.what_ifs.empty()) grant(app, LessonWish{LessonAct::Choose});
    comeToRest(app, stage, screen);
  }
  if (options.magnify != 1) grant(app, Magnify{options.magnify});
  // The view that was asked for comes after the lesson, which has flown to its own.
  grant(app, Stand{options.view.value_or(StandingView::House)});
  if (options.cut) {
    comeToRest(app, stage, screen);
    app.shown.cutting = cutFrom(app.document->scene, *options.cut, app.shown.wall, app.shown.opening, app.shown.camera);
    grant(app, Stand{options.view.value_or(StandingView::House)});  // close-ups turn to the cut
  }
  disturb(app);  // what was set without a wish is drawn
  comeToRest(app, stage, screen);
  result.value = render::Image{options.width, options.height, stage.target().read()};
  return result;
}

}  // namespace sillwright::view
