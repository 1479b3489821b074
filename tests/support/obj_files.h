/// An OBJ and its materials as texts.
#pragma once

#include <string>
#include <string_view>

#include "exchange/model.h"

namespace sillwright::testing {

struct ObjFiles {
  std::string obj, mtl;
};

inline ObjFiles objFiles(const scene::Scene& scene, const job::Job& job, const practice::Practice& practice,
                         const std::string& mtl_name) {
  ObjFiles files;
  files.mtl = exchange::obj(scene, job, practice, mtl_name, [&](std::string_view piece) { files.obj += piece; });
  return files;
}

}  // namespace sillwright::testing
