// Pictures of the viewer, off-screen: frames while the house is turned, the refined one at rest, frames of a drag, and
// the first picture of a job from its file. Beside each: how long it takes to fill and read the same picture bare.
//   bench_view [WIDTHxHEIGHT]… [OPENINGS]…     1280x800, and houses of 1, 30 and 1000, where none is named; 0: the demo
// Figures are medians of what a person waits for: each frame ends with glFinish. The driver's name stands above them.

#include <epoxy/gl.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "job/rewrite.h"
#include "many.h"
#include "support/folder.h"
#include "view/session.h"

using namespace sillwright;
using tests::Session;
namespace fs = std::filesystem;

namespace {

using Clock = std::chrono::steady_clock;

double millisecondsSince(Clock::time_point start) {
  return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

struct Times {
  std::vector<double> all;
  template <class Work>
  void add(Work&& work) {
    const auto start = Clock::now();
    work();
    glFinish();
    all.push_back(millisecondsSince(start));
  }
  [[nodiscard]] double at(double share) {
    std::sort(all.begin(), all.end());
    return all[static_cast<std::size_t>(share * static_cast<double>(all.size() - 1))];
  }
};

void say(const std::string& what, Times times, double bare, const std::string& more = "") {
  const double median = times.at(0.5);
  std::printf("  %-34s %8.2f ms   99 of 100 within %8.2f   %6.1f and %.1f x bare%s\n", what.c_str(), median,
              times.at(0.99), median / bare, times.at(0.99) / bare, more.c_str());
}

/// The same buffer filled and resolved, with nothing in it.
double bareFrame(Session& session) {
  Times times;
  for (int i = 0; i < 40; ++i) {
    times.add([&] {
      session.stage.target().begin();
      glClearColor(0.9F, 0.9F, 0.9F, 1.0F);
      glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
      session.stage.target().resolve();
    });
  }
  return times.at(0.5);
}

void step(Session& session, float x, float y) {
  session.move(x, y);
  view::frame(session.app, session.stage, session.screen, 1.0F / 60.0F);
}

Times turning(Session& session, int frames) {
  Times times;
  const float y = static_cast<float>(session.screen.height) * 0.4F;
  const float x = static_cast<float>(session.screen.width) * 0.4F;
  const render::Camera before = session.app.shown.camera;
  session.move(x, y);
  session.press(view::Button::Left);
  for (int i = 0; i < 5; ++i) step(session, x + 5.0F + static_cast<float>(i), y);
  for (int i = 0; i < frames; ++i) times.add([&] { step(session, x + 10.0F + static_cast<float>(i), y); });
  session.release(view::Button::Left);
  session.settle();
  if (session.app.shown.camera == before) throw std::runtime_error("the pointer did not turn the house");
  return times;
}

/// The still picture, drawn anew.
Times refined(Session& session) {
  Times times;
  for (int i = 0; i < 10; ++i) {
    session.app.shown.camera.yaw_degrees += 1.0F;
    times.add([&] {
      view::disturb(session.app);
      view::frame(session.app, session.stage, session.screen, 1.0F / 60.0F);
    });
    session.settle();
  }
  return times;
}

/// A still picture after the other, as a screen takes them: the next is prepared while the card draws the last.
double inARow(Session& session) {
  constexpr int kPictures = 30;
  glFinish();
  const auto start = Clock::now();
  for (int i = 0; i < kPictures; ++i) {
    session.app.shown.camera.yaw_degrees += 1.0F;
    view::disturb(session.app);
    view::frame(session.app, session.stage, session.screen, 1.0F / 60.0F);
  }
  glFinish();
  const double each = millisecondsSince(start) / kPictures;
  session.settle();
  return each;
}

/// The panels and the lettering alone, over a scene that is drawn already.
Times panels(Session& session) {
  Times times;
  for (int i = 0; i < 20; ++i) {
    times.add([&] {
      view::disturb(session.app);
      view::frame(session.app, session.stage, session.screen, 1.0F / 60.0F);
    });
  }
  session.settle();
  return times;
}

/// Drops that run over a scene that stays: a picture every tenth of a second, as in the window. `share`: of the
/// picture, how much of it is drawn again.
Times dropping(Session& session, float& share) {
  Times times;
  view::grant(session.app, view::PickOpening{0, true});
  view::grant(session.app, view::LessonWish{view::LessonAct::OpenOrClose});
  view::disturb(session.app);
  for (int i = 0; i < 60; ++i) view::frame(session.app, session.stage, session.screen, 0.1F);
  const int scenes = session.stage.scenesDrawn();
  for (int i = 0; i < 40; ++i) times.add([&] { view::frame(session.app, session.stage, session.screen, 0.1F); });
  if (session.stage.scenesDrawn() != scenes) throw std::runtime_error("drops had the house drawn again");
  share = session.stage.shareRepainted();
  view::grant(session.app, view::LessonWish{view::LessonAct::OpenOrClose});
  session.settle();
  return times;
}

/// What the card itself takes for the still picture (OpenGL's own timer, core since 3.3).
double onTheCard(Session& session) {
  GLuint query = 0;
  glGenQueries(1, &query);
  std::vector<double> all;
  for (int i = 0; i < 10; ++i) {
    session.app.shown.camera.yaw_degrees += 1.0F;
    view::disturb(session.app);
    glBeginQuery(GL_TIME_ELAPSED, query);
    view::frame(session.app, session.stage, session.screen, 1.0F / 60.0F);
    glEndQuery(GL_TIME_ELAPSED);
    GLuint64 nanoseconds = 0;
    glGetQueryObjectui64v(query, GL_QUERY_RESULT, &nanoseconds);
    all.push_back(static_cast<double>(nanoseconds) / 1e6);
    session.settle();
  }
  glDeleteQueries(1, &query);
  std::sort(all.begin(), all.end());
  return all[all.size() / 2];
}

/// A jamb of the first opening dragged: job, plan, findings, scene and picture.
Times dragging(Session& session, int frames) {
  Times times;
  view::grant(session.app, view::PickOpening{0, true});
  view::disturb(session.app);
  session.settle();
  const auto handle =
      std::find_if(session.app.pointed.handles.begin(), session.app.pointed.handles.end(), [](const auto& each) {
        return !each.dimensions.empty() && each.dimensions.front().kind == view::DimensionKind::Width;
      });
  if (handle == session.app.pointed.handles.end()) return times;
  const ImVec2 at = session.project(handle->at);
  session.move(at.x, at.y);
  session.settle();
  session.press(view::Button::Left);
  step(session, at.x + 3.0F, at.y);
  for (int i = 0; i < frames; ++i) times.add([&] { step(session, at.x - static_cast<float>(i % 40), at.y); });
  session.key(view::Key::Escape);
  session.release(view::Button::Left);
  session.settle();
  return times;
}

void measure(const fs::path& job, const std::string& name, int width, int height) {
  const auto start = Clock::now();
  Session session(job, width, height);
  glFinish();
  const double first = millisecondsSince(start);
  const int frames = first > 3000 ? 12 : 200;
  const double bare = bareFrame(session);
  std::printf("%s, %d x %d\n", name.c_str(), width, height);
  std::printf("  %-34s %8.2f ms\n", "first picture, from the file", first);
  say("frame while it is turned", turning(session, frames), bare,
      "   " + std::to_string(session.stage.counts().draw_calls) + " draw calls, " +
          std::to_string(session.stage.counts().solids) + " solids");
  say("frame at rest, 4 samples", refined(session), bare);
  std::printf("  %-34s %8.2f ms\n", "  of it between its first and last call on the card", onTheCard(session));
  const double row = inARow(session);
  std::printf("  %-34s %8.2f ms %43.1f x bare\n", "  the same, one after the other", row, row / bare);
  say("frame of panels and names alone", panels(session), bare);
  say("frame while a jamb is dragged", dragging(session, frames), bare);
  float share = 0.0F;
  const Times drops = dropping(session, share);
  say("frame while drops run", drops, bare, "   " + std::to_string(share).substr(0, 4) + " of the picture");
  std::printf("  %-34s %8.2f ms\n", "bare frame", bare);
}

}  // namespace

int main(int count, char** arguments) {
  const tests::TemporaryFolder folder;
  std::vector<std::pair<int, int>> sizes;
  std::vector<std::size_t> houses;
  for (int i = 1; i < count; ++i) {
    int width = 0;
    int height = 0;
    const int read = std::sscanf(arguments[i], "%dx%d", &width, &height);
    if (read == 2 && width > 0 && height > 0) {
      sizes.emplace_back(width, height);
    } else if (read == 1 && width >= 0) {
      houses.push_back(static_cast<std::size_t>(width));
    } else {
      std::fprintf(stderr, "bench_view: \"%s\" is neither a size such as 1280x800 nor a number of openings.\n",
                   arguments[i]);
      return 2;
    }
  }
  if (houses.empty()) houses = {0, 1, 30, 1000};
  if (sizes.empty()) sizes.emplace_back(1280, 800);
  {
    const render::Offscreen context;
    std::printf("%s, OpenGL %s\n", reinterpret_cast<const char*>(glGetString(GL_RENDERER)),
                reinterpret_cast<const char*>(glGetString(GL_VERSION)));
  }
  for (const auto& [width, height] : sizes) {
    for (const std::size_t openings : houses) {
      if (openings == 0) {
        measure(tests::demoJob("boatshed"), "the boatshed (demo a)", width, height);
        continue;
      }
      const fs::path file = folder.path / ("house" + std::to_string(openings) + ".toml");
      std::ofstream(file) << job::write(bench::manyOpenings(openings));
      measure(file, std::to_string(openings) + (openings == 1 ? " opening" : " openings"), width, height);
    }
  }
  return 0;
}
