#include "practice/read.h"

#include <algorithm>
#include <exception>
#include <fstream>
#include <iterator>
#include <system_error>

#include "practice/groups.h"

namespace sillwright::practice {

namespace {

constexpr const char* kExtension = ".toml";

void readAll(Fields& fields, Practice& into) {
  fields.requiredText("name", into.name);
  fields.requiredText("title", into.title);
  const auto display = fields.word("display", {"millimetres", "inch fractions"}, true);
  into.display = display == std::size_t{1} ? Display::InchFractions : Display::Millimetres;
  fields.group("words", [&](Fields& group) { readWords(group, into.words); });
  fields.group("framing", [&](Fields& group) { readFraming(group, into.framing); });
  fields.group("unit", [&](Fields& group) { readUnit(group, into.unit); });
  fields.group("clearance", [&](Fields& group) { readClearance(group, into.clearance); });
  fields.group("survey", [&](Fields& group) { readSurvey(group, into.survey); });
  fields.group("packing", [&](Fields& group) { readPacking(group, into.packing); });
  fields.groupIfThere("opening_tolerance", [&](Fields& group) { readOpeningTolerance(group, into.opening_tolerance); });
  fields.groupIfThere("installed_tolerance",
                      [&](Fields& group) { readInstalledTolerance(group, into.installed_tolerance); });
  fields.group("stock", [&](Fields& group) { readStock(group, into.stock); });
}

job::Result<Practice> failed(std::string file, std::string say) {
  return {std::nullopt, {{std::move(file), {}, {}, std::move(say)}}};
}

bool inOrderOfFile(const job::Error& a, const job::Error& b) {
  return a.at.line != b.at.line ? a.at.line < b.at.line : a.at.column < b.at.column;
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

job::Result<Practice> read(std::string_view text, std::string file) {
  try {
    const toml::table root = toml::parse(text, file);
    Log log{file, {}};
    Practice practice;
    practice.file = std::move(file);
    Fields fields(log, root, "");
    readAll(fields, practice);
    fields.finish();
    if (!log.errors.empty()) {
      std::stable_sort(log.errors.begin(), log.errors.end(), inOrderOfFile);
      return {std::nullopt, std::move(log.errors)};
    }
    return {std::move(practice), {}};
  } catch (const toml::parse_error& error) {
    Log log{std::move(file), {}};
    log.add(error.source(), "", std::string(error.description()));
    return {std::nullopt, std::move(log.errors)};
  }
}

job::Result<Practice> readFile(const std::filesystem::path& path) {
  std::error_code problem;
  const std::string name = path.string();
  if (std::filesystem::is_directory(path, problem)) {
    return failed(name, "this is a folder; a practice file is expected");
  }
  const std::uintmax_t size = std::filesystem::file_size(path, problem);
  if (problem) {
    return failed(name, "can't be read: " + problem.message());
  }
  if (size > kLargestFile) {
    return failed(name, "larger than " + std::to_string(kLargestFile >> 20) + " MiB; no practice is");
  }
  std::ifstream stream(path, std::ios::binary);
  if (!stream) {
    return failed(name, "can't be opened for reading");
  }
  const std::string text((std::istreambuf_iterator<char>(stream)), std::istreambuf_iterator<char>());
  if (stream.bad()) {
    return failed(name, "can't be read to its end");
  }
  return read(text, name);
}

job::Result<Practice> load(const std::string& name, const std::filesystem::path& assets,
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
