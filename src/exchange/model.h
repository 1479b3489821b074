/// The scene as files for other programs: glTF 2.0 (binary) and OBJ with its materials.
///
/// glTF: metres, Y up, as its specification asks. Nodes: the job, its walls (and "site" for what is of none), their
/// layers, under each the steps of the order of work, under those the parts, each with its name, and in `extras` what
/// it is, its layer, step and opening. A part's corners are about its own middle, which its node moves into place: so
/// they keep a micrometre however far out a house stands. OBJ: millimetres, Z up, an object a part, corners the scene's
/// own.
#pragma once

#include <optional>
#include <string>

#include "job/job.h"
#include "practice/practice.h"
#include "scene/scene.h"

namespace sillwright::exchange {

/// Empty: more than the 4 GiB that the format holds.
[[nodiscard]] std::optional<std::string> glb(const scene::Scene& scene, const job::Job& job,
                                             const practice::Practice& practice);

struct ObjFiles {
  std::string obj;
  std::string mtl;
};
/// `mtl_name`: the name the materials' file will have beside the other.
[[nodiscard]] ObjFiles objFiles(const scene::Scene& scene, const job::Job& job, const practice::Practice& practice,
                                const std::string& mtl_name);

}  // namespace sillwright::exchange
