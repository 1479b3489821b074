#include "practice/read.h"

#include <algorithm>
#include <system_error>
#include <variant>

#include "base/read_file.h"
#include "job/toml_text.h"
#include "practice/checks.h"
#include "practice/read_figures.h"

namespace sillwright::practice {

namespace {

constexpr const char* kExtension = ".toml";

base::Result<Practice> failed(std::string file, std::string say) {
  return {std::nullopt, {{std::move(file), {}, {}, std::move(say)}}};
}

std::filesystem::path folderOf(const std::filesystem::path& assets) {
  return assets / "practice";
}

}  // namespace

bool isPath(const std::string& name) {
  return name.ends_with(kExtension) || name.find('/') != std::string::npos;
}

base::Result<Practice> read(std::string_view text, std::string file) {
  const auto tree = job::parseToml(text);
  if (const auto* fault = std::get_if<job::SyntaxFault>(&tree)) {
    return {{}, {{std::move(file), fault->at, "", fault->say}}};
  }
  job::Mistakes mistakes(file);
  Practice practice;
  practice.file = std::move(file);
  const job::Path root;
  const auto& table = std::get<toml::table>(tree);
  job::TableReader(mistakes, table, job::tableOf<Practice>(), root).read(practice);
  check(practice, table, mistakes);
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
