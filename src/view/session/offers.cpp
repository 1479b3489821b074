// The lists that open at a place: what can be done with what lies there, the commands of a group, what can fill a light.

#include <span>

#include "plan/panes.h"
#include "scene/pick.h"
#include "view/session/app.h"
#include "view/values/words.h"

namespace sillwright::view {
namespace {

/// The light at a place of an opening's wall; empty where the unit has none there.
std::optional<LightWish> lightAt(const document::Document& document, std::size_t index, glm::vec3 world) {
  const job::Opening& opening = document.job.openings[index];
  const plan::OpeningPlan& planned = document.plan.openings[index];
  const glm::vec3 local = document.scene.walls[opening.wall].toLocal(world);
  const double x = static_cast<double>(local.x) - opening.left - planned.stand.x;
  const double z = static_cast<double>(local.z) - opening.sill - planned.stand.z;
  for (const plan::LightParts& light : plan::partsOf(planned.unit).light) {
    const plan::UnitRect& clear = light.clear;
    if (x < clear.x0 || x > clear.x1 || z < clear.z0 || z > clear.z1) continue;
    return LightWish{index, light.row - 1, light.column - 1};
  }
  return std::nullopt;
}

void offerLight(std::vector<Offer>& offers, const App& app, const LightWish& light, glm::vec2 at) {
  const job::Unit& unit = app.document->job.openings[light.opening].unit;
  if (!unit.coupled.empty()) return;
  const auto add = [&](const char* word, LightAct act) {
    LightWish wish = light;
    wish.act = act;
    offers.push_back({word, "", {wish}});
  };
  offers.push_back({"what this light is …", "", {OfferFills{light, at}}});
  add("divide this light by a mullion", LightAct::Mullion);
  add("divide its row by a transom", LightAct::Transom);
  if (light.column > 0) add("join it with the light at its left", LightAct::Join);
}

void offerOpening(std::vector<Offer>& offers, std::int32_t opening) {
  const auto of = static_cast<std::size_t>(opening);
  const PickOpening pick{opening, false};
  offers.push_back({"look at it", "double click", {PickOpening{opening, true}}});
  offers.push_back({"cut through it", "", {pick, CutWish{CutAct::Along, CutAxis::X}}});
  offers.push_back({"its order of work", "", {pick, LessonWish{LessonAct::OpenOrClose, 0, {}}}});
  offers.push_back({"its sheets as PDF", "", {TakeSheets{.opening = opening}}});
  offers.push_back({"copy it", "", {EditWish{.act = EditAct::CopyOpening, .of = of}}});
  offers.push_back({"remove it", "", {EditWish{.act = EditAct::RemoveOpening, .of = of}}});
}

void offerWall(std::vector<Offer>& offers, std::int32_t wall) {
  const auto of = static_cast<std::size_t>(wall);
  offers.push_back({"look at it", "double click", {PickWall{wall, true}}});
  offers.push_back({"cut through it", "", {PickWall{wall, false}, CutWish{CutAct::Along, CutAxis::X}}});
  offers.push_back({"add an opening", "", {EditWish{.act = EditAct::AddOpening, .of = of}}});
  offers.push_back({"add a wall after it", "", {EditWish{.act = EditAct::AddWall, .of = of}}});
}

}  // namespace

Menu menuAt(const App& app, glm::vec2 at) {
  Menu menu{at, false, {}, {}};
  const document::Document& document = *app.document;
  const render::Ray ray = rayAt(app.shown.camera, app.layout, {at.x, at.y});
  const auto hit = scene::pick(seenScene(app), ray.from, ray.direction, render::shownUnder(app.shown.look));
  const scene::Part* part = hit ? &seenScene(app).parts[hit->part] : nullptr;
  if (part != nullptr && part->opening >= 0) {
    const auto of = static_cast<std::size_t>(part->opening);
    menu.title = document.job.openings[of].name;
    const auto light = part->layer == scene::Layer::Unit ? lightAt(document, of, hit->point) : std::nullopt;
    if (light) offerLight(menu.offers, app, *light, at);
    offerOpening(menu.offers, part->opening);
  } else if (part != nullptr && part->wall >= 0) {
    menu.title = document.job.walls[static_cast<std::size_t>(part->wall)].name;
    offerWall(menu.offers, part->wall);
  }
  if (part != nullptr && part->layer != scene::Layer::Ground) {
    menu.offers.push_back({"hide " + wordFor(part->layer, document.practice->words), std::string(1, keyFor(part->layer)),
                           {ToggleLayer{part->layer}}});
  }
  if (app.shown.look.hidden_layers != 0) menu.offers.push_back({"show all layers", "", {ShowAllLayers{}}});
  menu.offers.push_back({"the whole house", "F", {Stand{StandingView::House}}});
  return menu;
}

Menu menuOf(const OfferGroup& wish) {
  Menu menu{wish.at, true, {}, {}};
  for (const Command& each : commands()) {
    if (each.group == wish.group && each.word[0] != 0) menu.offers.push_back({each.word, each.key, {each.wish}});
  }
  return menu;
}

Menu menuOf(const App& app, const OfferFills& wish) {
  Menu menu{wish.at, false, "This light is", {}};
  const job::Unit& unit = app.document->job.openings[wish.light.opening].unit;
  for (std::size_t i = 0; i < static_cast<std::size_t>(job::Light::Joined); ++i) {
    LightWish light = wish.light;
    light.filled = static_cast<job::Light>(i);
    const auto words = unit.lights.empty() ? std::span(job::kKindWords) : std::span(job::kLightWords).first(14);
    menu.offers.push_back({std::string(words[i]), "", {light}});
  }
  return menu;
}

}  // namespace sillwright::view
