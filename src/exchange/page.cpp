#include "exchange/page.h"

#include <filesystem>
#include <string_view>

#include "base/write_file.h"
#include "exchange/json.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "practice/read.h"

namespace sillwright::exchange {
namespace {

constexpr std::string_view kPlace = "@JOB@";  // page.html has it in a script element of data
constexpr const char* kFolder = "/job";       // in the file system that the page's module has in memory

/// The job's text, naming the practice that the document is worked out by: one that was chosen in place of the job's
/// own is a name, or a file that lies beside the job in the page.
base::Result<std::string> textOf(const document::Document& document, const std::string& practice) {
  const base::Result<job::Job> read = job::read(*document.text, document.job.file);
  if (!read.ok() || read.value->practice == practice) return {*document.text, {}};  // the page tells the mistakes
  job::Job chosen = *read.value;
  chosen.practice = practice;
  return job::rewrite(*document.text, *read.value, chosen);
}

/// The template with the files in it; the first is `job`. Empty: the template has no place for them.
std::string filledPage(std::string_view page, const std::map<std::string, std::string>& files, const std::string& job) {
  const auto at = page.find(kPlace);
  if (at == std::string_view::npos) return {};
  std::string data;
  JsonWriter json(data);
  json.beginObject().member("job", job).key("files").beginObject();
  for (const auto& [name, text] : files) {
    // A name is the person's: it is written as a value would be, which escapes it.
    std::string quoted;
    JsonWriter(quoted).value(std::string_view(name));
    json.key(std::string_view(quoted).substr(1, quoted.size() - 2)).value(std::string_view(text));
  }
  json.endObject().endObject();
  // "</script>" or "<!--" in a text would end the data where it stands; in JSON the sign may be written so.
  std::string safe;
  for (const char c : data) safe += c == '<' ? std::string("\\u003c") : std::string(1, c);
  return std::string(page.substr(0, at)) + safe + std::string(page.substr(at + kPlace.size()));
}

}  // namespace

std::string pagePath(const document::Document& document) {
  return (std::filesystem::path(kFolder) / document.path.filename()).string();
}

base::Result<std::map<std::string, std::string>> pageFiles(const document::Document& document) {
  std::map<std::string, std::string> files;
  std::vector<base::Error> errors;
  const auto add = [&](const std::string& place, const base::Result<std::string>& text) {
    errors.insert(errors.end(), text.errors.begin(), text.errors.end());
    if (text.ok()) files.emplace((std::filesystem::path(kFolder) / place).lexically_normal().string(), *text.value);
  };
  const auto addFile = [&](const std::string& place, const std::string& named) {  // `place` is seen from kFolder
    add(place, base::loadText(document.path.parent_path() / named, practice::kLargestFile));
  };
  const std::filesystem::path practice = document.job.practice;  // its name, or its path from the job's folder
  const std::string place = practice.is_absolute() ? "./" + practice.filename().string() : practice.string();
  add(document.path.filename().string(), textOf(document, place));                     // the job must name that place
  if (practice::isPath(document.job.practice)) addFile(place, document.job.practice);  // the module has the others
  for (const job::Opening& opening : document.job.openings) {  // a mesh that many units share is added once
    if (opening.unit.mesh) addFile(*opening.unit.mesh, *opening.unit.mesh);
  }
  if (!errors.empty()) return {{}, std::move(errors)};  // every file that is missing is told
  return {std::move(files), {}};
}

base::Result<std::string> pageOf(const document::Document& document, std::map<std::string, std::string> more) {
  constexpr std::uintmax_t kLargest = std::uintmax_t{64} << 20;  // bytes; the module's code is in the template
  const std::filesystem::path form = document.assets / "pocket" / "page.html";
  if (!std::filesystem::is_regular_file(form)) {
    return {{}, {{form.string(), {}, {}, "there is no page to fill; sh third_party/pocket.sh makes it"}}};
  }
  auto page = base::loadText(form, kLargest);
  auto files = pageFiles(document);
  if (!page.ok() || !files.ok()) return {{}, page.ok() ? std::move(files.errors) : std::move(page.errors)};
  files.value->merge(more);  // it keeps the job's own where paths are the same
  return {filledPage(*page.value, *files.value, pagePath(document)), {}};
}

}  // namespace sillwright::exchange
