/// Completion for shells, made of the description of the verbs that the parser has too.
#pragma once

#include <string>
#include <vector>

namespace sillwright::cli {

struct OptionWords {
  std::string name;  ///< "--out"
  std::string about;
  bool takes_value = false;
  std::vector<std::string> choices;  ///< Of the value; empty: a file's name or anything.
};

struct VerbWords {
  std::string name;
  std::string about;
  std::vector<OptionWords> options;
};

/// A script for "bash", "zsh" or "fish".
[[nodiscard]] std::string completionFor(const std::string& shell, const std::vector<VerbWords>& verbs);

}  // namespace sillwright::cli
