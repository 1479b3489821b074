// The order of work as a film: its pictures are drawn here and packed by ffmpeg, which runs as a program of its own.

#include "view/window/picture.h"

#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "cli/files.h"
#include "cli/verbs.h"
#include "view/session/shown.h"

namespace sillwright::cli {
namespace {

constexpr std::array<std::string_view, 3> kEndings{".webm", ".mp4", ".gif"};
constexpr std::size_t kGif = 2;
constexpr int kGifPictures = 10;  // a second: more make a file that no page wants

/// How each of the endings is packed. A gif has colours of its own in each picture: one choice for all would hold every
/// picture in memory until the last.
constexpr std::array<const char*, 3> kPacked{
    "-c:v libvpx-vp9 -crf 32 -b:v 0 -deadline realtime -cpu-used 7 -row-mt 1 -pix_fmt yuv420p -f webm",
    "-c:v libx264 -crf 20 -preset veryfast -pix_fmt yuv420p -movflags +faststart -f mp4",
    "-vf 'split[a][b];[a]palettegen=max_colors=128:stats_mode=single[p];[b][p]paletteuse=new=1:dither=none' -f gif"};

/// ffmpeg, fed through a pipe. What it writes is kept in memory: whatever ends it, no half file is left.
class Packer {
 public:
  /// No word of a person's is among the shell's.
  Packer(const view::FilmOptions& film, std::size_t kind) : file_(::memfd_create("film", 0)) {
    const std::string size = std::to_string(film.width) + "x" + std::to_string(film.height);
    const std::string command = "exec ffmpeg -loglevel error -y -f rawvideo -pixel_format rgb24 -video_size " + size +
                                " -framerate " + std::to_string(film.a_second) + " -i pipe:0 " + kPacked[kind] +
                                " file:" + path();
    std::signal(SIGPIPE, SIG_IGN);  // `feed` tells that it has ended
    pipe_ = ::popen(command.c_str(), "w");
  }
  ~Packer() { static_cast<void>(finish()); }
  Packer(const Packer&) = delete;
  Packer& operator=(const Packer&) = delete;

  /// False: it takes no more.
  [[nodiscard]] bool feed(const render::Image& picture) const {
    return pipe_ != nullptr && std::fwrite(picture.rgb.data(), picture.rgb.size(), 1, pipe_) == 1;
  }
  /// The film; empty: there is none.
  [[nodiscard]] std::string finish() {
    const bool well = pipe_ != nullptr && ::pclose(pipe_) == 0;
    pipe_ = nullptr;
    std::ostringstream text;
    if (well) text << std::ifstream(path(), std::ios::binary).rdbuf();
    if (file_ >= 0) ::close(file_);
    file_ = -1;
    return text.str();
  }

 private:
  [[nodiscard]] std::string path() const { return "/proc/self/fd/" + std::to_string(file_); }

  int file_;
  std::FILE* pipe_ = nullptr;
};

/// The packed film; empty, and told why: there is none.
std::string packed(const document::Document& document, std::size_t opening, const view::FilmOptions& film,
                   std::size_t kind) {
  if (std::system("command -v ffmpeg >/dev/null 2>&1") != 0) {
    tell("a film wants the program ffmpeg, which is not there: install the package ffmpeg.");
    return {};
  }
  Packer packer(film, kind);
  const bool on_terminal = ::isatty(STDERR_FILENO) != 0;
  bool taken = true;
  int told = -1;
  const render::Offscreen context;
  view::drawFilm(document, opening, film, [&](const render::Image& picture, int step, int steps) {
    if (on_terminal && step != told) std::fprintf(stderr, "\rstep %d of %d ", step, steps);
    told = step;
    return taken = packer.feed(picture);
  });
  if (on_terminal) std::fputs("\n", stderr);
  std::string text = packer.finish();
  if (!taken || text.empty()) tell("ffmpeg could not pack the film; what it said stands above.");
  return taken ? text : std::string{};
}

/// "4-8", "4"; false, and told: it is neither.
bool readSteps(const std::string& words, view::FilmOptions& film) {
  if (words.empty()) return true;
  int read = 0;
  film.last = film.first = -1;
  const int found = std::sscanf(words.c_str(), "%d%n-%d%n", &film.first, &read, &film.last, &read);
  if (found == 1) film.last = film.first;
  if (found > 0 && static_cast<std::size_t>(read) == words.size() && film.first >= 0 && film.last >= film.first) {
    return true;
  }
  return refuse("--steps wants a step or the first and the last, 4-8 say; found '" + words + "'.") == kReady;
}

}  // namespace

int film(const FilmOptions& options) {
  const auto kind = endingOf(options.out, kEndings);
  view::FilmOptions film;
  if (!kind || !readSize(options.size, film.width, film.height) || !readSteps(options.steps, film)) return kUnreadable;
  if (film.width % 2 != 0 || film.height % 2 != 0)
    return refuse("the sides of a film are even numbers of pixels; found '" + options.size + "'.");
  if (std::min(film.width, film.height) < view::kSmallestPicture || std::max(film.width, film.height) > kWidestFilm)
    return refuse("the sides of a film are " + std::to_string(view::kSmallestPicture) + " to " +
                  std::to_string(kWidestFilm) + " pixels; found '" + options.size + "'.");
  film.a_second = options.fps.value_or(*kind == kGif ? kGifPictures : film.a_second);
  film.pace = static_cast<float>(options.pace);
  film.dark = options.dark;
  const auto document = loaded(options.job, options.how, document::Depth::Scene);
  if (!document) return kUnreadable;
  std::optional<std::size_t> opening;
  if (!choose(opening, document->job.openings, options.opening, "opening")) return kUnreadable;
  const std::string text = packed(*document, *opening, film, *kind);
  return !text.empty() && writeFile(options.out, text) ? kReady : kUnreadable;
}

}  // namespace sillwright::cli
