// The lists that open at a place.

#include <algorithm>
#include <array>
#include <span>

#include "plan/panes.h"
#include "scene/pick.h"
#include "view/session/app.h"
#include "view/values/readings.h"
#include "view/values/settings.h"

namespace sillwright::view {

namespace {

/// What can be done with the light at a place of an opening's wall, where its unit is made in one piece and has one
/// there.
void offerLight(std::vector<Offer>& offers, const document::Document& document, std::size_t index, glm::vec3 world,
                glm::vec2 at) {
  const job::Opening& opening = document.job.openings[index];
  const plan::OpeningPlan& planned = document.plan.openings[index];
  const glm::vec3 local = document.scene.walls[opening.wall].toLocal(world);
  const double x = static_cast<double>(local.x) - opening.left - planned.stand.x;
  const double z = static_cast<double>(local.z) - opening.sill - planned.stand.z;
  const std::vector<plan::LightParts> lights = plan::partsOf(planned.unit).light;
  const auto light = std::find_if(lights.begin(), lights.end(), [&](const plan::LightParts& each) {
    return x >= each.clear.x0 && x <= each.clear.x1 && z >= each.clear.z0 && z <= each.clear.z1;
  });
  if (light == lights.end() || !opening.unit.coupled.empty()) return;
  LightWish wish{index, light->row - 1, light->column - 1};
  offers.push_back({"what this light is …", "", {OpenList{.at = at, .light = wish}}});
  for (const auto& [word, act] : {std::pair("divide this light by a mullion", LightAct::Mullion),
                                  std::pair("put a transom over its row", LightAct::Transom)}) {
    wish.act = act;
    offers.push_back({word, "", {wish}});
  }
}

void offerAt(Menu& menu, const App& app) {
  const document::Document& document = *app.document;
  const render::Ray ray = rayAt(app.shown.camera, app.layout, {menu.at.x, menu.at.y});
  const auto hit = scene::pick(seenScene(app), ray.from, ray.direction, render::shownUnder(app.shown.look));
  const scene::Part part = hit ? seenScene(app).parts[hit->part] : scene::Part{.layer = scene::Layer::Ground};
  const auto add = [&](std::string word, Wishes wishes, std::string key = {}) {
    menu.offers.push_back({std::move(word), std::move(key), std::move(wishes)});
  };
  const CutWish across{CutAct::Along, CutAxis::X};
  if (part.opening >= 0) {
    const auto of = static_cast<std::size_t>(part.opening);
    const PickOpening pick{part.opening, false};
    menu.title = document.job.openings[of].name;
    if (part.layer == scene::Layer::Unit) offerLight(menu.offers, document, of, hit->point, menu.at);
    add("look at it", {PickOpening{part.opening, true}}, "double click");
    add("cut through it", {pick, across});
    add("its order of work", {pick, LessonWish{LessonAct::OpenOrClose, 0, {}}});
    add("its sheets as PDF", {TakeSheets{.opening = part.opening}});
    add("copy it", {EditWish{.act = EditAct::CopyOpening, .of = of}});
    add("remove it", {EditWish{.act = EditAct::RemoveOpening, .of = of}});
  } else if (part.wall >= 0) {
    const auto of = static_cast<std::size_t>(part.wall);
    menu.title = document.job.walls[of].name;
    add("look at it", {PickWall{part.wall, true}}, "double click");
    add("cut through it", {PickWall{part.wall, false}, across});
    add("add an opening", {EditWish{.act = EditAct::AddOpening, .of = of}});
    add("add a wall after it", {EditWish{.act = EditAct::AddWall, .of = of}});
  }
  if (part.layer != scene::Layer::Ground) {
    add("hide " + wordFor(part.layer, document.practice->words), {ToggleLayer{part.layer}},
        std::string(1, keyFor(part.layer)));
  }
  if (app.shown.look.hidden_layers != 0) add("show all layers", {ShowAllLayers{}});
  add("the whole house", {Stand{StandingView::House}}, "F");
}

void offerFills(Menu& menu, const App& app, LightWish light) {
  menu.title = "This light is";
  const bool whole = app.document->job.openings[light.opening].unit.lights.empty();
  for (std::size_t i = 0; i < std::size(job::kKindWords); ++i) {
    light.filled = static_cast<job::Light>(i);
    menu.offers.push_back({std::string(whole ? job::kKindWords[i] : job::kLightWords[i]), "", {light}});
  }
}

void offerChoices(Menu& menu, const App& app, const job::KeyPlace& place) {
  const practice::Display display = app.document->practice->display;
  const job::KeyText key = keyAt(app.document->job, place);
  const std::string now = shownText(key, display);
  for (const std::string& each : choicesOf(*app.document, key)) {
    menu.offers.push_back({each, each == now ? "now" : "", {SetKey{place, spelledText(*key.rule, each, display)}}});
  }
  if (!key.rule->required) menu.offers.push_back({"left out", key.text.empty() ? "now" : "", {SetKey{place, {}}}});
}

}  // namespace

std::optional<Menu> menuOf(const App& app, const OpenList& wish) {
  Menu menu{wish.at, wish.group.has_value(), {}, {}, 0.0F, app.focus.at};
  if (wish.key) {
    const auto& items = app.focus.items;
    const auto field =
        std::find_if(items.begin(), items.end(), [&](const Item& each) { return each.field == FieldOf{*wish.key}; });
    if (field == items.end()) return std::nullopt;
    menu = {{field->low.x, field->high.y}, false, {}, {}, field->high.x - field->low.x, field->id};
    offerChoices(menu, app, *wish.key);
  } else if (wish.light) {
    offerFills(menu, app, *wish.light);
  } else if (!wish.group) {
    offerAt(menu, app);
  }
  for (const Command& each : commands()) {
    if (wish.group == each.group && each.word[0] != 0) menu.offers.push_back({each.word, each.key, {each.wish}});
  }
  return menu;
}

// The first start's tour: five things, each done by the person on the job that is open.

namespace {

struct Stop {
  TourWords words;
  bool (*done)(const App&);
};

constexpr std::array<Stop, 5> kStops{{
    {{"Pick an opening", "Click a window or a door, in the drawing or in the list at the left."},
     [](const App& app) { return app.shown.opening >= 0; }},
    {{"Change its size", "Drag one of the handles on its edges, and watch the sheet at the right."},
     [](const App& app) { return app.history.canUndo(); }},
    {{"Undo that", "Press Ctrl Z. Nothing reaches the file before Ctrl S."},
     [](const App& app) { return app.history.canRedo(); }},
    {{"Look inside", "Press K: the wall is cut through what is picked. K again turns the cut, Escape ends it."},
     [](const App& app) { return app.shown.cutting.axis.has_value(); }},
    {{"See the order of work", "Press W for the cards, then the full stop to lay one after the other."},
     [](const App& app) { return app.shown.lesson.on() && app.shown.lesson.place > 0; }},
}};

}  // namespace

TourWords tourWords(int stop) { return kStops[static_cast<std::size_t>(stop)].words; }

void followTour(App& app) {
  int& at = app.shown.tour;
  if (at < 0 || !app.document || !kStops[static_cast<std::size_t>(at)].done(app)) return;
  at = at + 1 < kTourStops ? at + 1 : -1;
  if (at < 0) tell(app, "That is the tour. ? lists all keys.", false);
  disturb(app);
}

}  // namespace sillwright::view
