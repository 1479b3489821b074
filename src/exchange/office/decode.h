/// The text of a file that some other program wrote, as UTF-8.
#pragma once

#include <string>

#include "base/error.h"

namespace sillwright::exchange {

struct Decoded {
  std::string text;      ///< UTF-8 without a byte order mark.
  std::string encoding;  ///< "UTF-8", "UTF-16", "Windows-1252".
};

/// What a file that is no text is, by its first bytes: "a PDF". Empty: it may be a text.
[[nodiscard]] std::string notText(std::string_view bytes);

/// UTF-16 is told by its mark or by its zero bytes; what is no UTF-8 is taken for Windows-1252. Bytes that are none of
/// these, and files of programs (a PDF, an old workbook), are one error.
[[nodiscard]] base::Result<Decoded> decode(std::string bytes, const std::string& file);

}  // namespace sillwright::exchange
