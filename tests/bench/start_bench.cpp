// From the start of a program to its first picture, each a program of its own, in turns with a bare reference that asks
// the machine for the same and draws nothing. Targets: the viewer's first picture of the boat shed in 0.5 s, `picture`
// of it in 0.6 s, the viewer's first picture of 1,000 openings in 3 s, and as many draw calls as for one opening.

#include <epoxy/gl.h>  // before GLFW, which brings another gl.h where there is none yet

#include <GLFW/glfw3.h>

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "bench/display.h"
#include "bench/many.h"
#include "bench/programs.h"
#include "document/document.h"
#include "job/rewrite.h"
#include "render/offscreen.h"
#include "render/renderer.h"
#include "support/assets.h"
#include "view/window/picture.h"
#include "view/window/window.h"

using namespace sillwright;

namespace {

constexpr int kRounds = 7;

// --- what is measured, as programs of their own. They end as soon as there is a picture, without tidying up.

int viewerToFirstPicture(const std::string& job) {
  view::WindowOptions options;
  options.job = job;
  options.assets = tests::assets();
  options.remember = false;
  options.drawn = [](const view::App&, int) { std::_Exit(0); };
  return view::runWindow(options);
}

int bareWindow() {
  if (glfwInit() != GLFW_TRUE) return 1;
  glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
  glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
  GLFWwindow* window = glfwCreateWindow(1280, 800, "bare", nullptr, nullptr);
  if (window == nullptr) return 1;
  glfwMakeContextCurrent(window);
  glClear(GL_COLOR_BUFFER_BIT);
  glfwSwapBuffers(window);
  glFinish();
  std::_Exit(0);
}

int barePicture(const std::string& file) {
  const view::PictureOptions size;
  const render::Offscreen context;
  render::Target target(size.width, size.height, 4);
  target.begin();
  glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
  target.resolve();
  render::writePng(file, {size.width, size.height, target.read()});
  return 0;
}

// --- measuring

void compare(const char* what, const std::vector<std::string>& command, const std::vector<std::string>& bare) {
  std::vector<bench::Took> runs;
  std::vector<bench::Took> references;
  for (int i = 0; i < kRounds; ++i) {
    references.push_back(bench::runProgram(bare));
    runs.push_back(bench::runProgram(command));
    if (runs.back().status != 0 || references.back().status != 0)
      throw std::runtime_error(std::string(what) + " failed");
  }
  const bench::Took took = median(runs);
  const bench::Took reference = median(references);
  std::printf("%-44s %.3f s (%.3f s of processor); bare %.3f s (%.3f s): %.1f times\n", what, took.seconds,
              took.cpu_seconds, reference.seconds, reference.cpu_seconds, took.seconds / reference.seconds);
}

void countDrawCalls() {
  const render::Offscreen context;
  render::Renderer renderer;
  document::Document document = *document::load(tests::assets() + "/jobs/workshop-window.toml", tests::assets()).value;
  const job::Job pattern = document.job;
  const view::PictureOptions size;
  for (const std::size_t openings : {1U, 10U, 1000U}) {
    document.job = bench::manyOpenings(pattern, openings);
    document::rebuild(document);
    const double start = bench::secondsNow();
    renderer.upload(document.scene);
    const double uploaded = bench::secondsNow();
    render::Target target(size.width, size.height, 1);
    target.begin();
    const auto camera =
        view::standAt(document.scene, view::StandingView::House, {},
                      {.width = static_cast<float>(size.width), .height = static_cast<float>(size.height)});
    const render::DrawCounts counts = renderer.draw(camera, {}, size.width, size.height);
    glFinish();
    std::printf("%4zu openings: %zu solids, %d draw calls; given to the card in %.1f ms, drawn in %.1f ms\n", openings,
                document.scene.solids.size(), counts.draw_calls, 1e3 * (uploaded - start),
                1e3 * (bench::secondsNow() - uploaded));
  }
}

void measureAll(const std::filesystem::path& folder) {
  const std::string shed = tests::assets() + "/jobs/boatshed.toml";
  const std::string many = folder / "1000.toml";
  const std::string png = folder / "picture.png";
  std::ofstream(many) << job::write(bench::manyOpenings(1000));
  const std::vector<std::string> bare_picture{bench::kSelf, "--bare-picture", png};
  compare("picture of the boat shed", {SILLWRIGHT_PROGRAM, "picture", shed, "--out", png}, bare_picture);
  compare("picture of 1,000 openings", {SILLWRIGHT_PROGRAM, "picture", many, "--out", png}, bare_picture);
  compare("sheets of the boat shed", {SILLWRIGHT_PROGRAM, "sheets", shed, "--out", folder / "sheets.pdf"},
          bare_picture);
  compare("lists of the boat shed", {SILLWRIGHT_PROGRAM, "list", shed, "--xlsx", folder / "list.xlsx"}, bare_picture);
  const bench::Display display;
  if (!display.isThere()) {
    std::printf("no display and no Xvfb: the viewer is not measured\n");
    return;
  }
  compare("viewer to the boat shed's first picture", {bench::kSelf, "--viewer", shed}, {bench::kSelf, "--bare-window"});
  compare("viewer to 1,000 openings' first picture", {bench::kSelf, "--viewer", many}, {bench::kSelf, "--bare-window"});
}

}  // namespace

int main(int count, char** arguments) {
  try {
    const std::string mode = count > 1 ? arguments[1] : "";
    if (mode == "--viewer" && count == 3) return viewerToFirstPicture(arguments[2]);
    if (mode == "--bare-picture" && count == 3) return barePicture(arguments[2]);
    if (mode == "--bare-window") return bareWindow();
    measureAll(bench::Folder("start").path);
    countDrawCalls();
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
  return 0;
}
