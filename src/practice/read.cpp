#include "practice/read.h"
#include "base/read_file.h"

#include <algorithm>
#include <system_error>
#include <variant>

#include "job/read.h"
#include "job/toml_text.h"
#include "practice/groups.h"

namespace sillwright::practice {

namespace {

constexpr const char* kExtension = ".toml";
constexpr std::string_view kDisplayWords[] = {"millimetres", "inch fractions"};  // in the order of Display

void readAll(Fields& fields, Practice& into) {
  fields.requiredText("name", into.name);
  fields.requiredText("title", into.title);
  if (const auto display = fields.requiredWord("display", kDisplayWords)) {
    into.display = static_cast<Display>(*display);
  }
  fields.group("words", [&](Fields& group) { readWords(group, into.words); });
  fields.group("framing", [&](Fields& group) { readFraming(group, into.framing); });
  fields.group("unit", [&](Fields& group) { readUnit(group, into.unit); });
  fields.group("clearance", [&](Fields& group) { readClearance(group, into.clearance); });
  fields.group("survey", [&](Fields& group) { readSurvey(group, into.survey); });
  fields.group("packing", [&](Fields& group) { readPacking(group, into.packing); });
  fields.groupIfThere("opening_tolerance", [&](Fields& group) { readOpeningTolerance(group, into.opening_tolerance); });
  fields.groupIfThere("installed_tolerance",
                      [&](Fields& group) { readInstalledTolerance(group, into.installed_tolerance); });
  fields.groupIfThere("wind", [&](Fields& group) { readWind(group, into.strength.wind); });
  fields.groupIfThere("fixing", [&](Fields& group) { readFixing(group, into.strength.fixing); });
  fields.groupIfThere("fixing_design", [&](Fields& group) { readFixingDesign(group, into.strength.fixing_design); });
  fields.each("gauge", into.strength.gauges, readGauge);
  fields.group("stock", [&](Fields& group) { readStock(group, into.strength, into.stock); });
  fields.groupIfThere("timber", [&](Fields& group) { readTimber(group, into.strength.timber); });
  fields.group("weather", [&](Fields& group) { readWeather(group, into.strength.wind, into.weather); });
  fields.group("safety", [&](Fields& group) { readSafety(group, into.safety); });
}

base::Result<Practice> failed(std::string file, std::string say) {
  return {std::nullopt, {{std::move(file), {}, {}, std::move(say)}}};
}

/// A name with a slash or the extension is a path; a bare name is one of those that come with the program.
bool isPath(const std::string& name) {
  const bool ends = name.size() >= 5 && name.compare(name.size() - 5, 5, kExtension) == 0;
  return ends || name.find('/') != std::string::npos;
}

std::filesystem::path folderOf(const std::filesystem::path& assets) {
  return assets / "practice";
}

}  // namespace

base::Result<Practice> read(std::string_view text, std::string file) {
  const auto tree = job::parseToml(text);
  if (const auto* fault = std::get_if<job::SyntaxFault>(&tree)) {
    return {{}, {{std::move(file), fault->at, "", fault->say}}};
  }
  job::Mistakes mistakes(file, {});
  Practice practice;
  practice.file = std::move(file);
  const job::Path root;
  Fields fields(mistakes, std::get<toml::table>(tree), root);
  readAll(fields, practice);
  fields.finish();
  if (mistakes.empty()) {
    return {std::move(practice), {}};
  }
  return {{}, std::move(mistakes).take()};
}

base::Result<Practice> readFile(const std::filesystem::path& path) {
  const auto text = base::loadText(path, kLargestFile);
  return text.ok() ? read(*text.value, path.string()) : base::Result<Practice>{{}, text.errors};
}

base::Result<Practice> load(const std::string& name, const std::filesystem::path& assets,
                            const std::filesystem::path& job_folder) {
  if (isPath(name)) {
    return readFile(job_folder / name);
  }
  const std::vector<std::string> known = names(assets);
  if (std::find(known.begin(), known.end(), name) != known.end()) {
    return readFile(folderOf(assets) / (name + kExtension));
  }
  std::string list;
  for (const std::string& each : known) {
    list += (list.empty() ? "" : ", ") + each;
  }
  return failed({}, "there is no practice \"" + name + "\"; " +
                        (list.empty() ? "none were found in " + folderOf(assets).string()
                                      : "there are: " + list + "; or name a .toml file beside the job"));
}

std::vector<std::string> names(const std::filesystem::path& assets) {
  std::vector<std::string> found;
  std::error_code problem;
  std::filesystem::directory_iterator at(folderOf(assets), problem);
  const std::filesystem::directory_iterator end;
  for (; !problem && at != end; at.increment(problem)) {
    if (at->path().extension() == kExtension) {
      found.push_back(at->path().stem().string());
    }
  }
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace sillwright::practice
