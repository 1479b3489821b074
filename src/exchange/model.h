/// A job as files for other programs: glTF 2.0 (binary), OBJ with its materials, IFC4 (a STEP file), DXF.
///
/// glTF: metres, Y up, as its specification asks. Nodes: the job, its walls (and "site" for what is of none), their
/// layers, under each the steps of the order of work, under those the parts. Each has a name of its own, and in
/// `extras` what it is. A wall's node puts it into the world; a part's scales a shape that all parts alike share, and
/// moves it to its place in the wall's axes: so corners keep a micrometre however far out a house stands. In a model of
/// more than 5,000 parts those of a wall that are of one kind, shape, layer and step share a node
/// (EXT_mesh_gpu_instancing), and no normals are told: by the specification faces are then flat; the job names its
/// openings once, and "openings" of a node has in pairs the place of one among those (−1: none) and how many of the
/// instances are its own. OBJ: millimetres, Z up, a group a wall, an object a part, corners the scene's own.
#pragma once

#include <optional>
#include <string>

#include "base/write_file.h"
#include "document/document.h"
#include "job/job.h"
#include "practice/practice.h"
#include "scene/scene.h"

namespace sillwright::exchange {

/// Empty: more than the 4 GiB that the format holds.
[[nodiscard]] std::optional<std::string> glb(const scene::Scene& scene, const job::Job& job,
                                             const practice::Practice& practice);

/// An OBJ, which `sink` takes, can be too large to be held. Answers the file of its materials, which will be called
/// `mtl_name` and lie beside it.
[[nodiscard]] std::string obj(const scene::Scene& scene, const job::Job& job, const practice::Practice& practice,
                              const std::string& mtl_name, const base::Sink& sink);

[[nodiscard]] std::string ifc(const document::Document& document);
[[nodiscard]] std::string dxf(const document::Document& document);

}  // namespace sillwright::exchange
