// Typing into a field of the sheet, by keys alone.
#include "view/session/field.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <system_error>

#include "base/words.h"
#include "plan/panes.h"
#include "view/session/app.h"

namespace sillwright::view {

namespace {

constexpr std::size_t kLongestPath = 4096;  // characters; Linux takes so many bytes

std::optional<FieldOf> fieldInFocus(const Focus& focus) {
  if (focus.at == 0) return std::nullopt;
  const auto here = std::ranges::find(focus.items, focus.at, &Item::id);  // of the last frame
  return here == focus.items.end() ? std::nullopt : here->field;
}

/// The text that editing starts from: the value as it is shown.
struct ShownText {
  const App& app;

  std::string operator()(const ReadingOf& of) const {
    const auto value = valueOf(app.document->job.openings[of.opening].measured, of.reading);
    return value ? figure(*value, app.document->practice->display) : std::string{};
  }
  std::string operator()(const Dimension& of) const {
    return figure(valueOf(app.document->job, of), app.document->practice->display);
  }
  std::string operator()(std::string Shown::*of) const { return app.shown.*of; }
  std::string operator()(int PictureSize::*of) const { return std::to_string(app.shown.picture_size.*of); }
  std::string operator()(const job::KeyPlace& of) const {
    return shownText(keyAt(app.document->job, of), app.document->practice->display);
  }
  std::string operator()(PathUse use) const {
    if (!app.jobs.choices) return {};  // the page was closed
    return use == PathUse::Begin ? app.jobs.choices->fresh.string() : app.jobs.choices->folder.string() + "/";
  }
};

/// The field's text, begun where there is none.
std::string& textOf(App& app, const FieldOf& what, const std::string& first) {
  if (!app.typing.field || !(app.typing.field->what == what)) app.typing.field = Typing::Field{what, first};
  app.typing.refusal.reset();
  return app.typing.field->text;
}

void dropLast(std::string& text) {
  while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xC0U) == 0x80U) text.pop_back();
  if (!text.empty()) text.pop_back();
}

void typeInto(App& app, const FieldOf& what, const InputStep& step) {
  const auto* key = std::get_if<job::KeyPlace>(&what);
  const bool shown = std::holds_alternative<std::string Shown::*>(what);
  const bool name = key != nullptr || shown || std::holds_alternative<PathUse>(what);
  const bool of_job = shown || (key != nullptr && key->key == "name");
  const std::size_t longest = of_job ? static_cast<std::size_t>(job::kLongestName) : name ? kLongestPath : 24;
  for (const char32_t character : step.typed) {
    if (name ? character < U' ' || character == 0x7f : !isReadingCharacter(character)) continue;  // no controls
    std::string& text = textOf(app, what, "");
    if (base::countCharacters(text) < longest) base::appendUtf8(text, !name && character == U'−' ? U'-' : character);
  }
  if (step.wentDown(Key::Backspace)) dropLast(textOf(app, what, std::visit(ShownText{app}, what)));  // of what is shown
  if (step.wentDown(Key::Delete)) textOf(app, what, "").clear();  // an empty text clears the value
}

/// −1: back, 1: on, 0: stay. Where to go once the text is taken in.
int wayOut(const InputStep& step, bool typing) {
  if (const auto held = step.wentDown(Key::Tab)) return held->shift ? -1 : 1;
  if (step.enter() || step.wentDown(Key::Down)) return 1;
  if (step.wentDown(Key::Up)) return -1;
  if (typing) return 0;  // the arrows across belong to the text while there is one
  if (step.wentDown(Key::Right)) return 1;
  return step.wentDown(Key::Left) ? -1 : 0;
}

/// Takes a text in, or answers why not.
struct Take {
  App& app;
  const std::string& text;

  std::string operator()(const ReadingOf& of) const {
    const practice::Display display = app.document->practice->display;
    const ParsedReading parsed = parseReading(of.reading, text, display);
    if (!parsed.good) return parsed.refusal;
    const auto value = parsed.value ? figure(*parsed.value, display) : std::string("nothing");
    edit(app,
         std::string(infoOf(of.reading).name) + " of " + app.document->job.openings[of.opening].name + " to " + value,
         [&](job::Job& job) { setValue(job.openings[of.opening].measured, of.reading, parsed.value); });
    return {};
  }
  std::string operator()(const Dimension& of) const {
    const job::Job& job = app.document->job;
    const ParsedReading parsed = parseLength(nameOf(job, of), boundsOf(job, of), text, app.document->practice->display);
    if (!parsed.good) return parsed.refusal;
    if (!parsed.value) return nameOf(job, of) + " can't be empty";  // unlike a reading
    grant(app, EditWish{.act = EditAct::Set, .dimension = of, .value = *parsed.value});
    return {};
  }
  std::string operator()(std::string Shown::*of) const {
    app.shown.*of = text;
    return {};
  }
  std::string operator()(int PictureSize::*of) const {
    int pixels = 0;
    const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), pixels);
    const bool good = failed == std::errc{} && end == text.data() + text.size();
    if (!good || pixels < kSmallestPicture || pixels > kLargestPicture)
      return "a side is " + std::to_string(kSmallestPicture) + " to " + std::to_string(kLargestPicture) + " pixels";
    app.shown.picture_size.*of = pixels;
    return {};
  }
  std::string operator()(const job::KeyPlace& of) const {
    const job::KeyText key = keyAt(app.document->job, of);
    const std::string spelled = spelledText(*key.rule, text, app.document->practice->display);
    job::Job tried = app.document->job;  // a copy tells whether the reader takes it
    const auto same = of.table == job::TableKind::Wall ? document::indexOf(tried.walls, text)
                                                       : document::indexOf(tried.openings, text);
    if (of.key == "name" && same >= 0 && same != static_cast<std::int32_t>(of.of))
      return "\"" + text + "\" is another's name already";  // names tell what is picked and what is unsaved
    const std::string refusal = job::setKey(tried, of, spelled, begunAt(*app.document, of));  // the reader's words
    if (!refusal.empty()) return labelOf(of, app.document->practice->words) + " " + refusal;
    grant(app, SetKey{of, spelled});
    return {};
  }
  std::string operator()(PathUse use) const {
    if (text.empty() || !app.jobs.choices) return {};
    std::error_code failed;
    std::filesystem::path path = app.jobs.choices->folder / text;  // an absolute one stays as it is
    if (use == PathUse::Open) {
      if (!std::filesystem::is_regular_file(path, failed)) return "there is no file " + path.string();
      grant(app, OpenJob{path});
      return {};
    }
    if (!path.has_filename()) return "a file needs a name";
    if (path.extension() != ".toml") path += document::kJobEnding;
    if (!std::filesystem::is_directory(path.parent_path(), failed)) return "there is no such folder";
    const bool fresh = use != PathUse::SaveAs && path == app.jobs.choices->fresh;  // the offered name
    if (std::filesystem::exists(path, failed) && !fresh) return "there is such a file already";
    if (use == PathUse::SaveAs) return saveAs(app, path);  // its refusal stands beside the field
    app.jobs.choices->fresh = path;                        // it is written when a starter is chosen
    return {};
  }
};

/// What can be done with the light at a place of an opening's wall, where its unit is made in one piece and has one
/// there.
void offerLight(std::vector<Offer>& offers, const document::Document& document, std::size_t index, glm::vec3 world,
                glm::vec2 at) {
  const job::Opening& opening = document.job.openings[index];
  const plan::OpeningPlan& planned = document.plan.openings[index];
  const glm::vec3 local = document.scene.walls[opening.wall].toLocal(world);
  const double x = static_cast<double>(local.x) - opening.left - planned.stand.x;  // from the unit's corner
  const double z = static_cast<double>(local.z) - opening.sill - planned.stand.z;
  const std::vector<plan::LightParts> lights = plan::partsOf(planned.unit).light;
  const auto light = std::find_if(lights.begin(), lights.end(), [&](const plan::LightParts& each) {
    return x >= each.clear.x0 && x <= each.clear.x1 && z >= each.clear.z0 && z <= each.clear.z1;
  });
  if (light == lights.end() || !opening.unit.coupled.empty()) return;
  LightWish wish{index, light->row - 1, light->column - 1};  // the plan counts from 1, the job from 0
  offers.push_back({"what this light is …", "", {OpenList{.at = at, .light = wish}}});
  for (const auto& [word, act] : {std::pair("divide this light by a mullion", LightAct::Mullion),
                                  std::pair("put a transom over its row", LightAct::Transom)}) {
    wish.act = act;
    offers.push_back({word, "", {wish}});
  }
}

void offerAt(Menu& menu, const App& app) {
  const document::Document& document = *app.document;
  const auto hit = hitUnder(app, {menu.at.x, menu.at.y});  // what was clicked on, even if the pointer has moved on
  const scene::Part part = hit ? seenScene(app).parts[hit->part] : scene::Part{.layer = scene::Layer::Ground};
  const auto add = [&](std::string word, Wishes wishes, std::string key = {}) {
    menu.offers.push_back({std::move(word), std::move(key), std::move(wishes)});
  };
  const CutWish across{CutAct::Along, CutAxis::X};  // upright across the wall: head and sill
  if (part.opening >= 0) {
    const auto of = static_cast<std::size_t>(part.opening);
    const PickOpening pick{part.opening, false};  // before what is of the picked one
    menu.title = document.job.openings[of].name;
    if (part.layer == scene::Layer::Unit) offerLight(menu.offers, document, of, hit->point, menu.at);
    add("look at it", {PickOpening{part.opening, true}}, "double click");
    add("cut through it", {pick, across});
    add("its order of work", {pick, LessonWish{LessonAct::OpenOrClose}});
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
  const bool whole = app.document->job.openings[light.opening].unit.lights.empty();  // its kind is the unit's own then
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

bool takeField(App& app) {
  if (!app.typing.field) return true;
  const Typing::Field field = *app.typing.field;  // a copy: taking it may open another job, and with it empty the field
  app.typing.field.reset();
  const std::string refusal = std::visit(Take{app, field.text}, field.what);
  app.typing.refusal.reset();
  if (refusal.empty()) return true;
  app.typing.field = field;  // refused: it is back in hand, to be mended
  app.typing.refusal = Typing::Field{field.what, refusal};
  return false;
}

bool followField(App& app, const InputStep& step) {
  const auto what = fieldInFocus(app.focus);
  if (!what || !(app.document || std::holds_alternative<PathUse>(*what))) return false;
  if (step.wentDown(Key::Escape) && app.typing.field) {
    app.typing.field.reset();
    app.typing.refusal.reset();
    return true;
  }
  if (step.wentDown(Key::Escape)) return false;       // with no text in hand it is the drawing's
  if (!step.isControl()) typeInto(app, *what, step);  // Ctrl Z and the like are commands
  const auto* key = std::get_if<job::KeyPlace>(&*what);
  if (key != nullptr && step.enter() && !app.typing.field &&
      !choicesOf(*app.document, keyAt(app.document->job, *key)).empty()) {
    grant(app, OpenList{.key = *key});
    return true;
  }
  const int way = wayOut(step, app.typing.field.has_value());
  if (way != 0 && takeField(app)) app.focus.step(way < 0);  // a refused text keeps the keys
  return true;
}

void leaveField(App& app) {
  if (!app.typing.field) return;
  const auto here = fieldInFocus(app.focus);
  const bool same = here && *here == app.typing.field->what;
  const bool saves = app.typing.field->what == FieldOf{PathUse::SaveAs};  // Enter alone writes a file
  if (same || (!saves && takeField(app))) return;
  app.typing.field.reset();  // refused: the value stays what it was, and the reason is shown
}

const job::Opening* Typing::inFile(const job::Job& job, std::size_t index) const {
  const job::Opening& opening = job.openings[index];
  // Nearly always where it was: a long job is not searched through for each of its openings.
  if (index < in_file.openings.size() && in_file.openings[index].name == opening.name) return &in_file.openings[index];
  const std::int32_t same = document::indexOf(in_file.openings, opening.name);
  return same < 0 ? nullptr : &in_file.openings[static_cast<std::size_t>(same)];
}

bool Typing::isTyped(const job::Job& job, std::size_t opening, TapeReading reading) const {
  const job::Opening* in = inFile(job, opening);
  const auto value = valueOf(job.openings[opening].measured, reading);
  return in != nullptr ? value != valueOf(in->measured, reading) : value.has_value();  // of a new opening all is
}

std::optional<Menu> menuOf(const App& app, const OpenList& wish) {
  Menu menu{wish.at, wish.group.has_value(), {}, {}, 0.0F, app.focus.at};
  if (wish.key) {
    const auto field = std::ranges::find(app.focus.items, std::optional<FieldOf>(*wish.key), &Item::field);
    if (field == app.focus.items.end()) return std::nullopt;
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

TourWords tourWords(int stop) { return kStops[static_cast<std::size_t>(stop)].words; }

void followTour(App& app) {
  int& at = app.shown.tour;
  if (at < 0 || !app.document || !kStops[static_cast<std::size_t>(at)].done(app)) return;
  at = at + 1 < kTourStops ? at + 1 : -1;
  if (at < 0) tell(app, "That is the tour. ? lists all keys.", false);
  disturb(app);
}

}  // namespace sillwright::view
