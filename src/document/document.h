/// The document: one job with everything that follows from it, as one value.
///
/// `load` runs the whole chain once (read, practice, plan, judge, scene); after an edit of the job `rebuild` runs the
/// rest of it again. Nothing here draws or needs a window: the check and export verbs use it too.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "check/finding.h"
#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"
#include "scene/build/build.h"
#include "scene/mesh/mesh.h"
#include "scene/scene.h"

namespace sillwright::document {

/// A skin that is looked at in place of an opening's own (lesson.h). The plan and the findings stay the job's.
struct Tried {
  std::size_t opening = 0;
  plan::Skin skin;
};

struct Document {
  std::filesystem::path path;                          ///< The job file.
  std::filesystem::path assets;                        ///< As assetsFolder().
  std::shared_ptr<const std::string> text;             ///< What it held when `job` was read. Shared as `practice` is.
  std::shared_ptr<const practice::Practice> practice;  ///< Shared: copies of the document point at one practice.
  job::Job job;
  plan::Plan plan;  ///< Points into `practice`.
  check::Findings findings;
  scene::MeshLibrary meshes;
  scene::Scene scene;
  scene::Blocks blocks;             ///< Of `scene`.
  std::optional<job::Job> planned;  ///< That plan, findings and scene are of; empty: they are of none.
  double deviation = 1;             ///< How many times as large as they are deviations are wanted in the drawing.
  std::optional<Tried> tried;
  double drawn_deviation = 1;  ///< How many times they are: no more than fits (scene/build/magnify.h).
};

/// How far a job is worked out: lists want no scene, which is most of the work of a large job.
enum class Depth : std::uint8_t {
  Read,  ///< Not at all; all that may be wrong with it is known, but for faces of its meshes that can't be drawn.
  Findings,
  Scene
};

/// Reads the job at `path` and all it needs. `assets` as assetsFolder(). A `practice` that is named stands in for the
/// job's own: a name as a job writes it, or a path from the working folder. Errors are collected as far as the chain
/// can go: those of the job alone while it can't be read; then those of its practice and its meshes together, and what
/// the job asks of the practice that isn't there.
[[nodiscard]] base::Result<Document> load(const std::filesystem::path& path, const std::filesystem::path& assets,
                                          Depth depth = Depth::Scene, const std::string& practice = {});

/// Makes `job` the document's. Its practice is read where the document has none or the job names another, its meshes
/// where one isn't there, or are looked at only where no scene is wanted; nothing is planned. Errors: what the job asks
/// for can't be read or isn't there, and the document is as it was.
[[nodiscard]] std::vector<base::Error> adopt(Document& document, job::Job job, Depth depth = Depth::Scene);

/// Index of the wall or the opening of that name; −1: there is none.
template <class Named>
[[nodiscard]] std::int32_t indexOf(const std::vector<Named>& all, std::string_view name) {
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i].name == name) return static_cast<std::int32_t>(i);
  }
  return -1;
}

/// Plans, judges and builds again from `document.job`, what has changed of it since the last time. Meshes are kept as
/// they were read.
void rebuild(Document& document);
/// Builds the scene alone again, with deviations drawn `times` as large.
void magnify(Document& document, double times);
/// Builds what it takes of the scene alone again, with another skin on one opening, or with each opening's own. The
/// document must be worked out (rebuild).
void tryOn(Document& document, std::optional<Tried> tried);

}  // namespace sillwright::document
