#include "support.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <sstream>

namespace sillwright::practice::test {

namespace {

/// A header line and the lines below it. The first of a text has no header.
struct Section {
  std::string header;
  std::vector<std::string> lines;
};

std::vector<Section> sectionsOf(const std::string& text) {
  std::vector<Section> sections(1);
  for (const std::string& line : linesOf(text)) {
    if (!line.empty() && line.front() == '[') {
      sections.push_back({line, {}});
    } else {
      sections.back().lines.push_back(line);
    }
  }
  return sections;
}

/// "sill_past" of `sill_past.usual = …`; empty for what is no key.
std::string keyOf(const std::string& line) {
  const std::size_t end = line.find_first_of(". =");
  return end == std::string::npos || line.front() == '#' ? std::string() : line.substr(0, end);
}

bool names(const Section& section, const std::string& key) {
  return std::any_of(section.lines.begin(), section.lines.end(),
                     [&key](const std::string& line) { return keyOf(line) == key; });
}

bool isLeftOut(const std::string& header, const std::vector<std::string>& without) {
  const std::string name = header.substr(header.find_first_not_of('['), header.find(']') - header.rfind('[') - 1);
  return std::any_of(without.begin(), without.end(), [&name](const std::string& group) {
    return name == group || name.compare(0, group.size() + 1, group + ".") == 0;
  });
}

}  // namespace

std::string fileText(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

std::vector<std::string> linesOf(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) {
    lines.push_back(line);
  }
  return lines;
}

std::string allLines(const std::vector<base::Error>& errors) {
  std::string lines;
  for (const base::Error& error : errors) {
    lines += toLine(error) + "\n";
  }
  return lines;
}

std::vector<std::filesystem::path> filesIn(const std::filesystem::path& folder, const std::string& extension) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == extension) {
      files.push_back(entry.path());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

std::string completed(const std::string& fragment) {
  std::vector<Section> sections = sectionsOf(fragment);
  std::vector<std::string> without;
  for (const std::string& line : sections.front().lines) {
    const std::string mark = "# without ";
    if (line.compare(0, mark.size(), mark) == 0) {
      without.push_back(line.substr(mark.size()));
    }
  }
  std::vector<Section> base = sectionsOf(fileText(kFolder / "least.toml"));
  for (std::size_t i = 1; i < base.size(); ++i) {
    const auto own = std::find_if(sections.begin(), sections.end(),
                                  [&](const Section& section) { return section.header == base[i].header; });
    if (isLeftOut(base[i].header, without)) {
      continue;
    }
    if (own == sections.end()) {
      sections.push_back(base[i]);
    } else if (base[i].header.compare(0, 2, "[[") != 0) {
      std::copy_if(base[i].lines.begin(), base[i].lines.end(), std::back_inserter(own->lines),
                   [&own](const std::string& line) { return !keyOf(line).empty() && !names(*own, keyOf(line)); });
    }
  }
  std::string text;
  for (const Section& section : sections) {
    text += section.header.empty() ? std::string() : section.header + "\n";
    for (const std::string& line : section.lines) {
      text += line + "\n";
    }
  }
  return text;
}

}  // namespace sillwright::practice::test
