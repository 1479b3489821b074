// The order of work as a film: its pictures are drawn here and packed by ffmpeg, which runs as a program of its own.

#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "cli/drawing_verbs.h"
#include "cli/files.h"
#include "view/session/shown.h"

namespace sillwright::cli {
namespace {

constexpr std::size_t kGif = 2;
constexpr int kWidestFilm = 4096;  // pixels a side
constexpr int kGifPictures = 10;   // a second: more make a file that no page wants

/// How each of the endings is packed. A gif has colours of its own in each picture: one choice for all would hold every
/// picture in memory until the last.
constexpr std::array<const char*, 3> kPacked{
    "-c:v libvpx-vp9 -crf 32 -b:v 0 -deadline realtime -cpu-used 7 -row-mt 1 -pix_fmt yuv420p -f webm",
    "-c:v libx264 -crf 20 -preset veryfast -pix_fmt yuv420p -movflags +faststart -f mp4",
    "-vf 'split[a][b];[a]palettegen=max_colors=128:stats_mode=single[p];[b][p]paletteuse=new=1:dither=none' -f gif"};

/// ffmpeg fed through a pipe, what it packs into a file. No word of a person's is among the shell's.
std::string commandOf(const view::FilmOptions& film, std::size_t kind, const std::string& file) {
  return "exec ffmpeg -loglevel error -y -f rawvideo -pixel_format rgb24 -video_size " + std::to_string(film.width) +
         "x" + std::to_string(film.height) + " -framerate " + std::to_string(film.a_second) + " -i pipe:0 " +
         kPacked[kind] + " file:" + file;
}

std::string packed(const document::Document& document, std::size_t opening, const view::FilmOptions& film,
                   std::size_t kind) {
  if (std::system("command -v ffmpeg >/dev/null 2>&1") != 0)
    refuse("a film wants the program ffmpeg, which is not there: install the package ffmpeg.");
  const render::Offscreen context;               // before ffmpeg starts: the machine may have none
  const int memory = ::memfd_create("film", 0);  // whatever ends it, no half file is left; ffmpeg inherits it
  const std::string file = "/proc/self/fd/" + std::to_string(memory);  // ffmpeg has it under the same number
  std::signal(SIGPIPE, SIG_IGN);                                       // `fed` tells that it has ended
  std::FILE* const pipe = ::popen(commandOf(film, kind, file).c_str(), "w");
  bool fed = pipe != nullptr;
  if (fed) {
    view::drawFilm(document, opening, film, [&](const render::Image& picture, int step, int steps) {
      Progress::tell("step " + std::to_string(step) + " of " + std::to_string(steps));
      return fed = std::fwrite(picture.rgb.data(), picture.rgb.size(), 1, pipe) == 1;  // false ends the drawing
    });
    fed = ::pclose(pipe) == 0 && fed;  // it is closed whether or not all was fed
  }
  std::ostringstream text;
  if (fed) text << std::ifstream(file, std::ios::binary).rdbuf();  // opened anew, it is read from its start
  ::close(memory);
  if (text.str().empty()) refuse("ffmpeg could not pack the film; what it said stands above.");
  return text.str();
}

/// "4-8", "4".
void readSteps(const std::string& words, view::FilmOptions& film) {
  int read = 0;
  film.last = film.first = -1;  // what isn't read stays below 0
  const int found = std::sscanf(words.c_str(), "%d%n-%d%n", &film.first, &read, &film.last, &read);  // %n: read so far
  if (found == 1) film.last = film.first;
  const bool whole = found > 0 && static_cast<std::size_t>(read) == words.size();
  if (!whole || film.first < 0 || film.last < film.first)
    refuse("--steps wants a step or the first and the last, 4-8 say; found '" + words + "'.");
}

}  // namespace

int film(const FilmOptions& options) {
  const std::size_t kind = endingOf(options.out, {".webm", ".mp4", ".gif"});
  view::FilmOptions film = options.drawn;
  readSize(options.size, film.width, film.height);
  if (!options.steps.empty()) readSteps(options.steps, film);
  if (film.width % 2 != 0 || film.height % 2 != 0)  // the packed colours are of 2 × 2 pixels each
    refuse("the sides of a film are even numbers of pixels; found '" + options.size + "'.");
  if (std::min(film.width, film.height) < view::kSmallestPicture || std::max(film.width, film.height) > kWidestFilm)
    refuse("the sides of a film are " + std::to_string(view::kSmallestPicture) + " to " + std::to_string(kWidestFilm) +
           " pixels; found '" + options.size + "'.");
  film.a_second = options.fps.value_or(kind == kGif ? kGifPictures : film.a_second);
  const auto document = loaded(options.job, options.how, document::Depth::Scene);
  if (options.opening.empty()) refuse("--opening wants the name of an opening.");
  const std::size_t opening = *chosen(document.job.openings, options.opening, "opening");
  const std::size_t steps = plan::stepsAt(document.plan.openings[opening]).size();
  if (!options.steps.empty() && static_cast<std::size_t>(film.last) > steps)
    refuse("--steps goes beyond the last: " + options.opening + " has 0 (the bare frame) to " + std::to_string(steps) +
           "; found '" + options.steps + "'.");
  writeFile(options.out, packed(document, opening, film, kind));
  return kReady;
}

}  // namespace sillwright::cli
