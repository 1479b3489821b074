// Typing into a field of the sheet, by keys alone.

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <system_error>

#include "base/words.h"
#include "view/session/app.h"
#include "view/values/readings.h"
#include "view/values/settings.h"

namespace sillwright::view {
namespace {

constexpr std::size_t kLongestPath = 4096;

std::optional<FieldOf> fieldInFocus(const Focus& focus) {
  if (focus.at == 0) return std::nullopt;
  const auto here =
      std::find_if(focus.items.begin(), focus.items.end(), [&](const Item& item) { return item.id == focus.at; });
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
  std::string operator()(const NameOf& of) const {
    return of.wall ? app.document->job.walls[of.of].name : app.document->job.openings[of.of].name;
  }
  std::string operator()(const TraineeName&) const { return app.shown.trainee; }
  std::string operator()(const PictureSide& of) const {
    const PictureSize& size = app.shown.picture_size;
    return std::to_string(of.height ? size.height : size.width);
  }
  std::string operator()(const job::KeyPlace& of) const {
    return shownText(keyAt(app.document->job, of), app.document->practice->display);
  }
  std::string operator()(const PathOf& of) const {
    if (!app.jobs.choices) return {};
    return of.use == PathUse::Begin ? app.jobs.choices->fresh.string() : app.jobs.choices->folder.string() + "/";
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
  const bool path = std::holds_alternative<PathOf>(what);
  const bool key = std::holds_alternative<job::KeyPlace>(what);
  const bool name = path || key || std::holds_alternative<NameOf>(what) || std::holds_alternative<TraineeName>(what);
  const std::size_t longest = path || key ? kLongestPath : name ? static_cast<std::size_t>(job::kLongestName) : 24;
  for (const char32_t character : step.typed) {
    if (!name && !isReadingCharacter(character)) continue;
    if (name && (character < U' ' || character == 0x7f)) continue;
    std::string& text = textOf(app, what, "");
    if (base::countCharacters(text) < longest) base::appendUtf8(text, !name && character == U'−' ? U'-' : character);
  }
  if (step.wentDown(Key::Backspace)) dropLast(textOf(app, what, std::visit(ShownText{app}, what)));
  if (step.wentDown(Key::Delete)) textOf(app, what, "").clear();
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
    const ParsedReading parsed = parseReading(of.reading, text, app.document->practice->display);
    if (!parsed.good) return parsed.refusal;
    if (valueOf(app.document->job.openings[of.opening].measured, of.reading) != parsed.value) {
      grant(app, TypeReading{of.opening, of.reading, parsed.value});
    }
    return {};
  }
  std::string operator()(const Dimension& of) const {
    const job::Job& job = app.document->job;
    const ParsedReading parsed = parseLength(nameOf(job, of), boundsOf(job, of), text, app.document->practice->display);
    if (!parsed.good) return parsed.refusal;
    if (!parsed.value) return nameOf(job, of) + " can't be empty";
    grant(app, EditWish{.act = EditAct::Set, .dimension = of, .value = *parsed.value});
    return {};
  }
  std::string operator()(const NameOf& of) const {
    const job::Job& job = app.document->job;
    const auto taken = [&](const auto& all) {
      const std::int32_t same = document::indexOf(all, text);
      return same >= 0 && same != static_cast<std::int32_t>(of.of);
    };
    if (text.find_first_not_of(' ') == std::string::npos) return "a name can't be empty";
    if (of.wall ? taken(job.walls) : taken(job.openings)) return "\"" + text + "\" is another's name already";
    grant(app, EditWish{.act = EditAct::Rename, .of = of.of, .wall = of.wall, .name = text});
    return {};
  }
  std::string operator()(const TraineeName&) const {
    app.shown.trainee = text;
    return {};
  }
  std::string operator()(const PictureSide& of) const {
    int pixels = 0;
    const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), pixels);
    const bool good = failed == std::errc{} && end == text.data() + text.size();
    if (!good || pixels < kSmallestPicture || pixels > kLargestPicture) {
      return "a side is " + std::to_string(kSmallestPicture) + " to " + std::to_string(kLargestPicture) + " pixels";
    }
    (of.height ? app.shown.picture_size.height : app.shown.picture_size.width) = pixels;
    return {};
  }
  std::string operator()(const job::KeyPlace& of) const {
    const job::KeyText key = keyAt(app.document->job, of);
    const std::string spelled = spelledText(*key.rule, text, app.document->practice->display);
    job::Job tried = app.document->job;
    const std::string refusal = job::setKey(tried, of, spelled, begunAt(*app.document, of));
    if (!refusal.empty()) return labelOf(of, app.document->practice->words) + " " + refusal;
    grant(app, SetKey{of, spelled});
    return {};
  }
  std::string operator()(const PathOf& of) const {
    if (text.empty() || !app.jobs.choices) return {};
    std::error_code failed;
    std::filesystem::path path = app.jobs.choices->folder / text;  // an absolute one stays as it is
    if (of.use == PathUse::Open) {
      if (!std::filesystem::is_regular_file(path, failed)) return "there is no file " + path.string();
      grant(app, OpenJob{path});
      return {};
    }
    if (!path.has_filename()) return "a file needs a name";
    if (path.extension() != ".toml") path += document::kJobEnding;
    if (!std::filesystem::is_directory(path.parent_path(), failed)) return "there is no such folder";
    const bool fresh = of.use != PathUse::SaveAs && path == app.jobs.choices->fresh;
    if (std::filesystem::exists(path, failed) && !fresh) return "there is such a file already";
    if (of.use == PathUse::SaveAs) return saveAs(app, path);
    app.jobs.choices->fresh = path;
    return {};
  }
};

}  // namespace

bool takeField(App& app) {
  if (!app.typing.field) return true;
  const Typing::Field field = *app.typing.field;
  app.typing.field.reset();
  const std::string refusal = std::visit(Take{app, field.text}, field.what);
  if (!refusal.empty()) {
    app.typing.field = field;
    app.typing.refusal = Typing::Refusal{field.what, refusal};
    return false;
  }
  app.typing.refusal.reset();
  return true;
}

bool followField(App& app, const InputStep& step) {
  const auto what = fieldInFocus(app.focus);
  if (!what || !(app.document || std::holds_alternative<PathOf>(*what))) return false;
  if (step.wentDown(Key::Escape) && app.typing.field) {
    app.typing.field.reset();
    app.typing.refusal.reset();
    return true;
  }
  if (step.wentDown(Key::Escape)) return false;
  if (!step.isControl()) typeInto(app, *what, step);
  const auto* key = std::get_if<job::KeyPlace>(&*what);
  if (key != nullptr && step.enter() && !app.typing.field &&
      !choicesOf(*app.document, keyAt(app.document->job, *key)).empty()) {
    grant(app, OpenList{.key = *key});
    return true;
  }
  const int way = wayOut(step, app.typing.field.has_value());
  if (way != 0 && takeField(app)) app.focus.step(way < 0);
  return true;
}

void leaveField(App& app) {
  if (!app.typing.field) return;
  const auto here = fieldInFocus(app.focus);
  const bool same = here && *here == app.typing.field->what;
  const auto* path = std::get_if<PathOf>(&app.typing.field->what);
  const bool saves = path != nullptr && path->use == PathUse::SaveAs;  // Enter alone writes a file
  if (same || (!saves && takeField(app))) return;
  app.typing.field.reset();  // refused: the value stays what it was, and the reason is shown
}

const job::Opening* Typing::inFile(const job::Job& job, std::size_t index) const {
  const job::Opening& opening = job.openings[index];
  // Nearly always where it was: a long job is not searched through for each of its openings.
  if (index < in_file.openings.size() && in_file.openings[index].name == opening.name) {
    return &in_file.openings[index];
  }
  const std::int32_t same = document::indexOf(in_file.openings, opening.name);
  return same < 0 ? nullptr : &in_file.openings[static_cast<std::size_t>(same)];
}

bool Typing::isTyped(const job::Job& job, std::size_t opening, TapeReading reading) const {
  const job::Opening* in = inFile(job, opening);
  const auto value = valueOf(job.openings[opening].measured, reading);
  return in != nullptr ? value != valueOf(in->measured, reading) : value.has_value();
}

}  // namespace sillwright::view
