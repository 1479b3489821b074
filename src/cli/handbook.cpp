// The order of work as a book: a picture a step, steps that are alike once.

#include "sheet/handbook.h"

#include <algorithm>
#include <tuple>

#include "cli/drawing_verbs.h"
#include "cli/files.h"
#include "scene/describe.h"
#include "words/text.h"

namespace sillwright::cli {
namespace {

constexpr int kWide = 800;  // pixels of a picture that is 88 mm wide on paper
constexpr int kHigh = static_cast<int>(kWide / sheet::kStepShape);
constexpr float kLetters = 1.6F;  // their size in it: 2 mm high on paper
constexpr std::uint32_t kAroundWork = 1U << static_cast<unsigned>(scene::Layer::Cladding) |
                                      1U << static_cast<unsigned>(scene::Layer::Battens) |
                                      1U << static_cast<unsigned>(scene::Layer::Ground);
constexpr float kLaidOut = 110.0F;  // mm between the layers of the picture of the parts

/// A step at the openings where it reads the same, parts aside.
struct Card {
  plan::Step step;
  int place = 0;  ///< Its number at the first of them, from 1.
  std::vector<std::size_t> openings;
  std::vector<std::vector<std::string>> parts;  ///< At each.
};

/// Those of one opening, or in the crew's order of all.
std::vector<Card> cardsOf(const document::Document& document, std::optional<std::size_t> only) {
  std::vector<Card> cards;
  const auto read = [](const plan::Step& s) { return std::tie(s.kind, s.title, s.what, s.before_going_on, s.caution); };
  const auto add = [&](std::size_t opening, std::optional<plan::StepKind> kind) {
    int place = 0;
    for (const plan::Step& step : plan::orderOfWork(document.job, document.plan, opening, *document.practice)) {
      ++place;  // a step that is left out below has its number, too
      if (kind && step.kind != *kind) continue;
      auto same =
          std::find_if(cards.begin(), cards.end(), [&](const Card& card) { return read(card.step) == read(step); });
      if (same == cards.end()) same = cards.insert(same, {step, place, {}, {}});
      same->openings.push_back(opening);
      same->parts.push_back(step.parts);
    }
  };
  if (only) {
    add(*only, std::nullopt);
    return cards;
  }
  for (const plan::CrewTask& task : plan::crewOrder(document.plan)) {
    for (const plan::StepKind kind : task.steps) {
      for (const std::size_t opening : task.openings) add(opening, kind);
    }
  }
  return cards;
}

/// Units, packers, screws, flashings and tapes, those alike together.
std::vector<sheet::CountedPart> laidReady(const document::Document& document, std::optional<std::size_t> only) {
  std::vector<sheet::CountedPart> ready;
  const auto add = [&](const std::string& words) {
    auto same = std::find_if(ready.begin(), ready.end(), [&](const auto& each) { return each.words == words; });
    if (same == ready.end()) same = ready.insert(same, {0, words});
    ++same->count;
  };
  for (std::size_t i = 0; i < document.job.openings.size(); ++i) {
    const plan::UnitSpec& unit = document.plan.openings[i].unit;
    if (!only || *only == i) {
      add(words::unitName(unit.kind, unit.lights) + " " + words::size(unit, document.practice->display));
    }
  }
  for (const scene::Part& part : document.scene.parts) {
    const bool wanted = part.opening >= 0 && (!only || part.opening == static_cast<std::int32_t>(*only));
    const bool brought = part.layer == scene::Layer::Packing || part.layer == scene::Layer::Fixing ||
                         part.layer == scene::Layer::Flashing;
    if (wanted && brought) add(scene::describe(part, *document.practice));
  }
  return ready;
}

/// A step's drawing with its parts named; pulled apart, all that there then is.
sheet::Pixels drawn(const document::Document& document, std::size_t opening, int place, bool apart = false) {
  view::PictureOptions options;
  options.width = apart ? 2 * kWide : kWide;  // it goes over both columns
  options.height = apart ? kWide : kHigh;
  options.opening = document.job.openings[opening].name;
  options.step = place;
  options.spread = apart ? kLaidOut : 0.0F;
  if (apart) options.hidden_layers = kAroundWork;  // they would hide the parts
  options.caption = false;
  options.text_scale = kLetters;
  render::Image image = std::move(*view::drawPicture(document, options).value);  // the opening and the step are there
  return {image.width, image.height, std::move(image.rgb)};
}

sheet::HandbookStep stepOf(const document::Document& document, const Card& card, bool crew) {
  const auto nameOf = [&](std::size_t opening) { return document.job.openings[opening].name; };
  const std::size_t first = card.openings.front();
  sheet::HandbookStep step{card.step, {}, {}, drawn(document, first, card.place)};
  if (crew) step.where = "At " + base::joined(card.openings, ", ", nameOf);
  if (card.openings.size() > 1) step.where += "; drawn: " + nameOf(first);
  const bool alike =
      std::all_of(card.parts.begin(), card.parts.end(), [&](const auto& parts) { return parts == card.parts.front(); });
  for (std::size_t i = 0; i < card.openings.size() && !alike; ++i) {
    step.differs.push_back(nameOf(card.openings[i]) + ": " + base::joined(card.parts[i], "; "));
  }
  return step;
}

sheet::Handbook handbookOf(const document::Document& document, std::optional<std::size_t> only) {
  sheet::Handbook book;
  // It begins with what must not be begun.
  for (std::size_t i = 0; i < document.job.openings.size(); ++i) {
    const check::Finding* stop = check::holdOf(document.findings, i);
    if ((only && *only != i) || stop == nullptr) continue;
    book.hold.push_back("HOLD " + document.job.openings[i].name + ": " + stop->say + " " + stop->remedy);
  }
  book.title = only ? document.job.openings[*only].name : "All openings";
  if (only) book.wall = document.job.walls[document.job.openings[*only].wall].name;
  book.parts = laidReady(document, only);
  const render::Offscreen context;
  if (only) {
    const auto steps = plan::stepsAt(document.plan.openings[*only]).size();
    book.laid_out = drawn(document, *only, static_cast<int>(steps), true);
  }
  const std::vector<Card> cards = cardsOf(document, only);
  for (const Card& card : cards) {
    Progress::tell("step " + std::to_string(book.steps.size() + 1) + " of " + std::to_string(cards.size()));
    book.steps.push_back(stepOf(document, card, !only));
  }
  return book;
}

}  // namespace

int handbook(const HandbookOptions& options) {
  endingOf(options.out, {".pdf"});
  if (options.opening.empty() != options.crew) refuse("handbook wants --opening NAME, or --crew for the whole job.");
  const auto doc = loaded(options.job, options.how, document::Depth::Scene);
  sheet::Wanted wanted;
  wanted.opening = chosen(doc.job.openings, options.opening, "opening");
  wanted.paper = options.paper == "letter" ? sheet::PaperSize::Letter : sheet::PaperSize::A4;
  const sheet::Handbook book = handbookOf(doc, wanted.opening);
  wanted.handbook = &book;
  const auto files =
      sheet::draw({doc.job, *doc.practice, doc.plan, doc.findings, doc.scene}, wanted, sheet::Format::Pdf);
  writeFile(options.out, files.front());  // a PDF is one file
  return kReady;
}

}  // namespace sillwright::cli
