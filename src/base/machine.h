/// Whether the machine gives what the libraries that draw take for granted.
#pragma once

#include <cstddef>

namespace sillwright::base {

/// Asks for `mebibytes` of memory and `threads` threads at once, and gives them back. Throws std::bad_alloc, or
/// std::runtime_error in one sentence, where it gets less: graphics drivers and text libraries end the program by a
/// signal, or wait for ever, where they are refused later.
void needRoom(std::size_t mebibytes, unsigned threads);

}  // namespace sillwright::base
