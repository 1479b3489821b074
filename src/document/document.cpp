#include "document/document.h"
#include "base/write_file.h"

#include <algorithm>
#include <cassert>
#include <utility>

#include "check/judge.h"
#include "job/read.h"
#include "practice/read.h"
#include "scene/build/magnify.h"

namespace sillwright::document {
namespace {

/// An error about a practice that has no line of its own is told at the job's line that names the practice.
void placeInJob(base::Error& error, const job::Job& job) {
  if (error.at.line != 0) return;  // it tells a line of the practice's own file
  if (!error.file.empty() && error.file != job.file && error.say.find(error.file) == std::string::npos) {
    error.say = error.file + ": " + error.say;
  }
  error.file = job.file;  // the sentence above names the practice's file
  error.at = job.practice_place;
  if (error.key.empty()) error.key = "job.practice";
}

void append(std::vector<base::Error>& all, const std::vector<base::Error>& more) {
  all.insert(all.end(), more.begin(), more.end());
}

/// Whether a unit of the job is drawn from a mesh that wasn't read.
bool lacksMesh(const scene::MeshLibrary& meshes, const job::Job& job) {
  return std::any_of(job.openings.begin(), job.openings.end(), [&](const job::Opening& opening) {
    return opening.unit.mesh && meshes.mesh.count(*opening.unit.mesh) == 0;
  });
}

/// Makes `kept` the job, which differs by `changes`, and leaves in place what is the same.
void keepUp(std::optional<job::Job>& kept, const job::Job& job, const plan::Changes& changes) {
  if (!kept || changes.all) {
    kept = job;
    return;
  }
  for (std::size_t i = 0; i < job.walls.size(); ++i) {
    if (changes.walls[i] != 0) kept->walls[i] = job.walls[i];
  }
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    if (changes.openings[i] != 0) kept->openings[i] = job.openings[i];
  }
}

/// Plans and judges what has changed since the last time, and says what that was.
plan::Changes workOut(Document& document) {
  const practice::Practice& practice = *document.practice;
  std::optional<job::Job> before = std::exchange(document.planned, std::nullopt);  // nothing, should this throw
  plan::Changes changes =
      before ? plan::changesBetween(*before, document.job, practice) : plan::everything(document.job);
  document.plan = plan::replan(document.job, practice, std::move(document.plan), changes);
  document.findings = check::rejudge(document.job, practice, document.plan, std::move(document.findings), changes);
  keepUp(before, document.job, changes);  // copies only what changed: every step of a drag comes here
  document.planned = std::move(before);
  return changes;
}

/// Builds what has changed of the scene.
void drawAgain(Document& document, const plan::Changes& changes) {
  document.drawn_deviation = std::clamp(document.deviation, 1.0, scene::mostDeviation(document.job, document.plan));
  const auto exchange = [&] {
    if (document.tried) std::swap(document.plan.openings[document.tried->opening].weather.skin, document.tried->skin);
  };
  exchange();  // a skin that is tried on is drawn, not judged
  scene::rebuild(document.scene, document.blocks,
                 {document.job, *document.practice, document.plan, document.meshes, document.drawn_deviation}, changes);
  exchange();
}

}  // namespace

std::vector<base::Error> adopt(Document& document, job::Job job, Depth depth) {
  const std::filesystem::path folder = document.path.parent_path();
  std::vector<base::Error> errors;
  std::shared_ptr<const practice::Practice> practice = document.practice;  // read once, and kept while its name stays
  if (!practice || job.practice != document.job.practice) {
    base::Result<practice::Practice> read = practice::load(job.practice, document.assets, folder);
    for (base::Error& error : read.errors) placeInJob(error, job);
    append(errors, read.errors);
    practice = read.ok() ? std::make_shared<const practice::Practice>(std::move(*read.value)) : nullptr;
  }
  if (depth != Depth::Scene) {  // nothing will be drawn, but mistakes are told
    append(errors, scene::checkMeshes(job, folder));
  } else if (!document.practice || lacksMesh(document.meshes, job)) {  // a new document, or a unit that got a mesh
    append(errors, scene::loadMeshes(document.meshes, document.assets, job, folder));
  }
  if (practice) append(errors, plan::disagreements(job, *practice));  // without one there is nothing to compare with
  if (!errors.empty()) return errors;                                 // nothing of the document has been changed yet
  if (practice != document.practice) {                                // the plan points into the one before
    document.planned.reset();
    document.plan = {};
    document.findings = {};
  }
  document.practice = std::move(practice);  // from here on nothing can fail
  document.job = std::move(job);
  return {};
}

base::Result<Document> load(const std::filesystem::path& path, const std::filesystem::path& assets, Depth depth,
                            const std::string& practice) {
  base::Result<std::string> text = base::loadText(path);
  if (!text.ok()) return {{}, std::move(text.errors)};
  base::Result<job::Job> read = job::read(*text.value, path.string());
  if (!read.ok()) return {{}, std::move(read.errors)};

  Document document;
  document.path = path;
  document.assets = assets;
  document.text = std::make_shared<const std::string>(std::move(*text.value));
  if (!practice.empty()) {  // a path is the caller's, not the job folder's
    read.value->practice = practice::isPath(practice) ? std::filesystem::absolute(practice).string() : practice;
    read.value->practice_place = {};  // the job's line names another
  }
  auto errors = adopt(document, std::move(*read.value), depth);
  if (!errors.empty()) return {{}, std::move(errors)};

  if (depth == Depth::Scene) {
    rebuild(document);
  } else if (depth == Depth::Findings) {  // `planned` stays empty: such a document is not edited
    document.plan = plan::makePlan(document.job, *document.practice);
    document.findings = check::judge(document.job, *document.practice, document.plan);
  }
  return {std::move(document), {}};
}

void rebuild(Document& document) {
  plan::Changes changes = workOut(document);
  if (document.tried) changes.all = true;  // the scene is not that of the plan
  document.tried.reset();                  // its skin was that of the plan before
  drawAgain(document, changes);
}

void magnify(Document& document, double times) {
  document.deviation = times;
  drawAgain(document, plan::everything(document.job));
}

void tryOn(Document& document, std::optional<Tried> tried) {
  plan::Changes changes = plan::changesBetween(document.job, document.job, *document.practice);  // none yet
  for (const std::optional<Tried>* each : {&document.tried, &tried}) {
    if (!*each) continue;
    assert((*each)->opening < document.job.openings.size());
    changes.openings[(*each)->opening] = 1;
    changes.frames[document.job.openings[(*each)->opening].wall] = 1;  // its wall is one block
  }
  document.tried = std::move(tried);
  drawAgain(document, changes);
}

}  // namespace sillwright::document
