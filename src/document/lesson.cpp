#include "document/lesson.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <set>

#include "scene/water_lines.h"
#include "words/text.h"

namespace sillwright::document {
namespace {

using plan::StepKind;

bool has(std::span<const StepKind> kinds, StepKind kind) {
  return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

/// Bits of the steps that aren't done: those of the opening, and any that its house has elsewhere. Steps that this
/// opening has no use for don't hold back what others show.
std::uint32_t hiddenAfter(std::span<const StepKind> done, std::span<const StepKind> right) {
  std::uint32_t hidden = 0;
  for (std::size_t i = 0; i < plan::kStepKinds; ++i) {
    const auto kind = static_cast<StepKind>(i);  // a step that this opening hasn't goes up to the furthest done
    const bool skipped = !done.empty() && !has(right, kind) && kind <= *std::max_element(done.begin(), done.end());
    if (!skipped && !has(done, kind)) hidden |= scene::bitOf(scene::partStep(kind));
  }
  return hidden;
}

/// What can be done wrong, each once: laps turned, pieces forgotten, laps cut short.
std::vector<Choice> choicesOn(const plan::Weather& weather, const std::vector<plan::WhatIf>& chosen,
                              const practice::Practice& practice) {
  const plan::Skin& skin = weather.skin;
  std::vector<Choice> all;
  std::set<std::string> told;
  const auto add = [&](plan::WhatIf what_if, std::string words) {
    if (!told.insert(plan::toText(what_if)).second || !plan::applyWhatIf(skin, what_if).ok()) return;
    const bool is_chosen = std::find(chosen.begin(), chosen.end(), what_if) != chosen.end();
    all.push_back({std::move(what_if), std::move(words), is_chosen});
  };
  for (const plan::ForbiddenSwap& each : plan::forbiddenSwaps(skin)) {
    add(each.swap, each.swap.second + " behind " + each.swap.first);
  }
  for (const plan::Sheet& sheet : skin.sheets) {
    const bool piece = sheet.kind != plan::SheetKind::MembraneRun && sheet.kind != plan::SheetKind::UnitFace &&
                       sheet.kind != plan::SheetKind::Fin && sheet.kind != plan::SheetKind::Cladding;
    if (piece) add(plan::LeaveOutSheet{sheet.name}, "no " + sheet.name);
  }
  for (const plan::Lap& lap : weather.laps) {
    const double by = std::ceil(lap.lap) + 5;  // no lap is left, and a gap that can be seen
    add(plan::ShortenLap{lap.upper, by}, lap.upper + " cut " + words::length(by, practice.display) + " short");
  }
  return all;
}

/// The skin as it was done: the cards' order, then what was done wrong.
plan::Skin skinOf(const plan::Skin& right, const Lesson& lesson, std::span<const StepKind> cards, Taught& taught) {
  plan::Skin skin = right;
  const bool whole = cards.size() == taught.steps.size();     // an exercise may be of some cards only
  if (lesson.exercise && lesson.exercise->judged && whole) {  // earlier, the skin would tell the order
    skin = plan::skinInOrder(right, cards);
    taught.skin_changed = true;
  }
  if (lesson.what_ifs.empty()) return skin;
  auto changed = plan::applyWhatIf(skin, lesson.what_ifs);
  if (!changed.ok()) {  // the skin stays, and `refusal` says why
    for (const base::Error& error : changed.errors) taught.refusal += (taught.refusal.empty() ? "" : " ") + error.say;
    return skin;
  }
  taught.skin_changed = true;
  return std::move(*changed.value);
}

/// The sheets of a skin that are on after some cards.
plan::Skin partOf(const plan::Skin& skin, std::span<const StepKind> done) {
  plan::Skin part = skin;  // sheets keep their order
  std::erase_if(part.sheets, [&](const plan::Sheet& sheet) { return !has(done, sheet.step); });
  return part;
}

}  // namespace

const plan::Step& Taught::step(StepKind kind) const {
  const auto found =
      std::find_if(steps.begin(), steps.end(), [&](const plan::Step& each) { return each.kind == kind; });
  assert(!steps.empty());
  return found == steps.end() ? steps.front() : *found;  // the job may have been changed since
}

Taught teach(const Document& document, const Lesson& lesson) {
  const auto index = static_cast<std::size_t>(lesson.opening);
  assert(lesson.on() && index < document.plan.openings.size());
  const plan::OpeningPlan& planned = document.plan.openings[index];
  Taught taught;
  taught.steps = plan::orderOfWork(document.job, document.plan, index, *document.practice);
  const std::vector<StepKind> right = plan::stepsAt(planned);
  taught.cards = lesson.exercise ? lesson.exercise->order : right;

  const auto place = static_cast<std::size_t>(std::clamp(lesson.place, 0, static_cast<int>(taught.cards.size())));
  const std::span<const StepKind> done(lesson.exercise ? right.data() : taught.cards.data(),
                                       lesson.exercise ? right.size() : place);
  taught.hidden_steps = hiddenAfter(done, right);  // an exercise shows all as done, however its cards lie
  const bool to_find = lesson.exercise && !lesson.what_ifs.empty();                       // faults are to be found
  if (to_find) taught.hidden_steps |= scene::bitOf(scene::partStep(StepKind::Cladding));  // it would cover the laps
  if (place > 0 && place < taught.cards.size()) taught.lit_step = scene::partStep(done.back());

  taught.skin = skinOf(planned.weather.skin, lesson, taught.cards, taught);
  taught.choices = choicesOn(planned.weather, lesson.what_ifs, *document.practice);
  taught.there = partOf(taught.skin, done);
  const bool answered = !lesson.exercise || (lesson.exercise->judged && lesson.exercise->solved);
  taught.wet = answered && planned.isFlashed() && has(done, StepKind::LiftIn);  // water would tell the answer
  if (taught.wet) {
    taught.water = plan::traceWater(taught.there);
    if (!taught.water.held.empty()) {  // what holds so in the work as it is planned is no mistake
      const plan::Water usual = plan::traceWater(partOf(planned.weather.skin, done));
      std::erase_if(taught.water.held, [&](const plan::Leak& leak) {
        return std::any_of(usual.held.begin(), usual.held.end(),
                           [&](const plan::Leak& one) { return one.say == leak.say; });
      });
    }
    taught.water_says = plan::explain(taught.water, taught.there);
  }
  if (lesson.exercise && lesson.exercise->judged) taught.faults = plan::orderFaults(taught.cards);
  return taught;
}

std::vector<StepKind> shuffled(std::span<const StepKind> right, std::uint32_t round) {
  std::vector<StepKind> cards(right.begin(), right.end());
  std::mt19937 bits(0x51a7U + round);  // any fixed number would do: each round is the same everywhere
  do {
    deal(cards, bits);
  } while (cards.size() > 1 && std::equal(cards.begin(), cards.end(), right.begin()));  // a single card has one order
  return cards;
}

}  // namespace sillwright::document
