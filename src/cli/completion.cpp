// Completion for shells, made of the description of the verbs that the parser has too.
#include <algorithm>

#include "base/words.h"
#include "cli/verbs.h"

namespace sillwright::cli {
namespace {

/// The text for a string in single quotes, without what these scripts give a meaning of their own.
std::string plain(std::string text) {
  std::replace(text.begin(), text.end(), '\'', '"');
  std::replace_if(
      text.begin(), text.end(), [](char c) { return c == '[' || c == ']' || c == ':'; }, ' ');
  return text;
}

std::string forBash(const std::vector<VerbWords>& verbs) {
  std::string values, options;
  for (const VerbWords& verb : verbs) {
    options += "    " + verb.name + ") words='" + base::joined(verb.options, " ", &OptionWords::name) + "' ;;\n";
    for (const OptionWords& option : verb.options) {
      if (!option.takes_value) continue;  // a flag has none to complete
      values += "    '" + verb.name + " " + option.name + "') COMPREPLY=($(compgen -W '" +
                base::joined(option.choices, " ") + "' -- \"$now\")); return ;;\n";
    }
  }
  return "# Completion of sillwright for bash.\n_sillwright() {\n"
         "  local now=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} verb=${COMP_WORDS[1]} words\n"
         "  COMPREPLY=()\n"
         "  [ \"$COMP_CWORD\" -eq 1 ] && verb=\n"
         "  case \"$verb $before\" in\n" +
         values + "  esac\n  case \"$verb\" in\n    '') words='" + base::joined(verbs, " ", &VerbWords::name) +
         " --help --version' ;;\n" + options +
         "  esac\n"
         "  # Without an answer of ours bash offers files.\n"
         "  if [ -z \"$verb\" ] || [[ $now == -* ]]; then COMPREPLY=($(compgen -W \"$words\" -- \"$now\")); fi\n"
         "}\ncomplete -o default -F _sillwright sillwright\n";
}

std::string forZsh(const std::vector<VerbWords>& verbs) {
  std::string named, options;
  for (const VerbWords& verb : verbs) {
    named += "    '" + verb.name + ":" + plain(verb.about) + "'\n";
    options += "    " + verb.name + ") _arguments";
    for (const OptionWords& option : verb.options) {
      const std::string value = option.choices.empty() ? "_files" : "(" + base::joined(option.choices, " ") + ")";
      options += " \\\n      '" + option.name + "[" + plain(option.about) + "]" +
                 (option.takes_value ? ":value:" + value : "") + "'";
    }
    options += " \\\n      '*:file:_files' ;;\n";
  }
  return "#compdef sillwright\n# Completion of sillwright for zsh.\n_sillwright() {\n  local -a verbs=(\n" + named +
         "  )\n  if (( CURRENT == 2 )); then\n    _describe verb verbs\n    _files\n    return\n  fi\n"
         "  shift words\n  (( CURRENT-- ))\n  case $words[1] in\n" +
         options +
         "  esac\n}\n"
         "# Loaded by its name, or sourced.\n"
         "if [ \"$funcstack[1]\" = _sillwright ]; then _sillwright \"$@\"; else compdef _sillwright sillwright; fi\n";
}

std::string forFish(const std::vector<VerbWords>& verbs) {
  std::string out = "# Completion of sillwright for fish.\n";
  for (const VerbWords& verb : verbs) {
    out += "complete -c sillwright -n __fish_use_subcommand -a " + verb.name + " -d '" + plain(verb.about) + "'\n";
    for (const OptionWords& option : verb.options) {
      out += "complete -c sillwright -n '__fish_seen_subcommand_from " + verb.name + "' -l " + option.name.substr(2) +
             " -d '" + plain(option.about) + "'";
      if (option.takes_value)
        out += option.choices.empty() ? " -r" : " -xa '" + base::joined(option.choices, " ") + "'";  // -r offers files
      out += "\n";
    }
  }
  return out;
}

}  // namespace

std::string completionFor(const std::string& shell, const std::vector<VerbWords>& verbs) {
  if (shell == "bash") return forBash(verbs);
  return shell == "zsh" ? forZsh(verbs) : forFish(verbs);
}

}  // namespace sillwright::cli
