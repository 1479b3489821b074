#include "cli/verbs.h"

namespace sillwright::cli {

// In a file of its own: the commit changes more often than anything that is slow to compile.
const char* version() { return SILLWRIGHT_VERSION; }

}  // namespace sillwright::cli
