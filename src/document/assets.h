/// Where the program's own data lies: practices, demo jobs, meshes, the words of offices.
#pragma once

#include <filesystem>

namespace sillwright::document {

/// The folder of `practice`, `jobs`, `meshes`, `schedule`. The first of these that is a folder: the environment's
/// SILLWRIGHT_ASSETS, `../share/sillwright` beside the program's own folder (installed), the source tree's assets that
/// this program was built from. Where none is, the installed place is answered, so that a message can name it. A
/// SILLWRIGHT_ASSETS that is set is always taken, even where it leads nowhere: the person asked for it.
[[nodiscard]] std::filesystem::path assetsFolder();

}  // namespace sillwright::document
