// A program of its own for the window's test: opens a job in a window, and after each picture writes where everything
// that can be picked or dragged lies, so that the test can aim at it, and what has come of it. Arguments: the job, the
// file to write.

#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <string>

#include "view/marks/marks.h"
#include "view/window/frame.h"
#include "view/window/window.h"

namespace {

/// Handles with their figures, as far as they are in sight.
void writeHandles(std::ostream& out, const sillwright::view::App& app) {
  const auto& canvas = app.layout.canvas;
  for (const auto& handle : app.pointed.handles) {
    const glm::vec3 seen = sillwright::render::project(app.shown.camera, handle.at, canvas.width, canvas.height);
    if (seen.z <= 0.0F) continue;
    out << "handle " << handle.name << '\t' << static_cast<int>(seen.x) << '\t' << static_cast<int>(seen.y) << '\t'
        << sillwright::view::figuresOf(*app.document, handle) << '\n';
  }
}

void writeItems(const std::filesystem::path& file, const sillwright::view::App& app, int pictures) {
  const std::filesystem::path beside = file.string() + ".new";
  {
    std::ofstream out(beside);
    out << "pictures\t" << pictures << "\t0\n";
    for (const auto& item : app.focus.items) {
      out << item.name << '\t' << static_cast<int>((item.low.x + item.high.x) / 2.0F) << '\t'
          << static_cast<int>((item.low.y + item.high.y) / 2.0F) << '\n';
    }
    out << "picked\t" << app.shown.opening << "\t" << app.shown.look.hidden_layers << '\n';
    writeHandles(out, app);
    out << "state done\t" << app.history.size() << '\t' << (app.history.canUndo() ? "undo" : "-") << '\n';
    out << "state measured\t" << app.shown.measuring.points.size() << "\t0\n";
    out << "state cut\t" << (app.shown.look.cut ? 1 : 0) << "\t0\n";
    out << "state asking\t" << static_cast<int>(app.shown.asking) << "\t0\n";
    out << "state tour\t" << app.shown.tour << "\t0\n";
    out << "state trouble\t" << app.shown.trouble << "\t0\n";
    out << "state refused\t" << (app.typing.refusal ? 1 : 0) << "\t0\n";
    out << "state page\t" << (sillwright::view::isModal(app.shown) ? 1 : 0) << "\t0\n";
    out << "state pointed\t" << app.shown.look.hovered_part << "\t0\n";
    out << "state measuring\t" << (app.shown.measuring.on ? 1 : 0) << "\t0\n";
    out << "state lens\t" << (app.shown.lens ? static_cast<int>(*app.shown.lens) : -1) << "\t0\n";
    out << "state playing\t" << (app.shown.lesson.playing ? 1 : 0) << "\t0\n";
    out << "state offered\t" << (app.menu ? app.menu->offers.size() : 0) << "\t0\n";
    out << "state free\t" << static_cast<int>(app.layout.canvas.freeWidth()) << '\t'
        << static_cast<int>(app.layout.canvas.width) << '\n';
    const bool stopped = app.pull && app.shown.wall >= 0 &&
                         !sillwright::view::stopAtWall(*app.document, static_cast<std::size_t>(app.shown.wall)).empty();
    out << "state stopped\t" << (stopped ? 1 : 0) << "\t0\n";
    out << "yaw\t" << static_cast<int>(app.shown.camera.yaw_degrees * 10.0F) << "\t0\n";
  }
  std::filesystem::rename(beside, file);
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 3) return 2;
  try {
    sillwright::view::WindowOptions options;
    options.job = arguments[1];
    options.assets = SILLWRIGHT_ASSETS_DIR;
    const std::filesystem::path items = arguments[2];
    options.drawn = [&](const sillwright::view::App& app, int pictures) { writeItems(items, app, pictures); };
    return sillwright::view::runWindow(options);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
}
