/// Inside the room: TOML text to a tree, with the one mistake that stops it told as a SyntaxFault.
///
/// Only readers include this: it brings toml++ with it.
#pragma once

#include <toml++/toml.h>
#include <string>
#include <string_view>
#include <variant>

#include "base/error.h"
#include "job/job.h"

namespace sillwright::job {

/// Why a text is no TOML, without file and key.
struct SyntaxFault {
  base::Place at;
  std::string say;
};

/// Parses TOML 1.0. A byte order mark and CRLF line ends are fine and don't count in places.
///
/// toml++ stops at its first mistake, so there is one. Two things are looked at before it: that the text is UTF-8
/// (to name the very byte), and that no key has more than 16 dotted parts, because a tree as deep as a long enough
/// key overflows the stack when it is taken down.
[[nodiscard]] std::variant<toml::table, SyntaxFault> parseToml(std::string_view text);

}  // namespace sillwright::job
